// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/owner_service.h"

#include "core/plan/edits.h"
#include "tests/support/open_job.h"

#include <algorithm>

namespace ohmwright::test {
namespace {

constexpr int patience = 60000;

class OwnerServiceTest : public testing::Test {
protected:
    bool settle() {
        QCoreApplication::processEvents();
        return QTest::qWaitFor([this] { return !service.isBusy(); }, patience);
    }
    [[nodiscard]] double dbOf(const std::string& reference) const {
        for (const Owner& owner : service.answer()->owners) {
            if (owner.reference == reference) {
                return owner.dbPerTenPercent;
            }
        }
        return 0.0;
    }

    OpenJob open;
    OwnerService service{open.document, open.selection};
};

TEST_F(OwnerServiceTest, NobodyAsksNothingIsSolved) {
    ASSERT_TRUE(settle());
    EXPECT_EQ(service.answer(), nullptr);
}

// Figures of tests/reference/harbour-lamp-figures.csv, influence_per_ten_percent of C4: stock 0.7536, A 0.7633 dB.
TEST_F(OwnerServiceTest, SaysNowAndWhileStockIsHeldStock) {
    service.setWanted(true);
    ASSERT_TRUE(settle());
    ASSERT_NE(service.answer(), nullptr);
    EXPECT_DOUBLE_EQ(service.answer()->hertz, 110.0);
    EXPECT_FALSE(service.answer()->isStock);
    EXPECT_NEAR(dbOf("C4"), 0.7633, 0.002);
    open.selection.setHoldsStock(true);
    ASSERT_TRUE(settle());
    EXPECT_TRUE(service.answer()->isStock);
    EXPECT_NEAR(dbOf("C4"), 0.7536, 0.002);
}

TEST_F(OwnerServiceTest, FollowsCursorAndValues) {
    service.setWanted(true);
    open.selection.setCursorHz(1000.0);
    ASSERT_TRUE(settle());
    EXPECT_DOUBLE_EQ(service.answer()->hertz, 1000.0);
    const double before = dbOf("C7");
    EXPECT_LT(before, 0.0);
    open.document.edit(setPartValue(open.job(), "c7", 470e-9), "Change C7");
    ASSERT_TRUE(settle());
    EXPECT_LT(dbOf("C7"), before - 0.1) << "ten times the capacitor owns more of 1 kHz";
    service.setWanted(false);
    ASSERT_TRUE(settle());
    EXPECT_EQ(service.answer(), nullptr);
}

/// Story: figures of the last sound circuit stood on the map of one that cannot be solved.
TEST_F(OwnerServiceTest, ACircuitThatCannotBeSolvedHasNoOwnersButASentence) {
    service.setWanted(true);
    ASSERT_TRUE(settle());
    Job job = open.job();
    job.stock.ports.output = "nowhere";
    open.document.setJob(job, {});
    ASSERT_TRUE(settle());
    ASSERT_NE(service.answer(), nullptr);
    EXPECT_TRUE(service.answer()->owners.empty());
    EXPECT_FALSE(service.answer()->fault.isEmpty());
}

}  // namespace
}  // namespace ohmwright::test

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/swap_checks.h"

#include "core/plan/edits.h"
#include "tests/support/open_job.h"

namespace ohmwright::test {
namespace {

constexpr int patience = 60000;

TEST(SwapChecks, BelongToTheSelectedPartsModAndAreNeverOld) {
    OpenJob open;
    SwapChecks service(open.document, open.selection, open.solver);
    open.selection.setPart("c4");
    ASSERT_TRUE(QTest::qWaitFor([&] { return service.answer() != nullptr; }, patience));
    EXPECT_TRUE(service.answer()->fault.isEmpty());
    EXPECT_FALSE(service.answer()->checks.empty());
    open.selection.setPart("r5");
    EXPECT_EQ(service.answer(), nullptr) << "those of C4 are no checks of R5";
    ASSERT_TRUE(QTest::qWaitFor([&] { return service.answer() != nullptr; }, patience));
    open.document.edit(setPartValue(open.job(), "r5", 3300.0), "Change R5");
    EXPECT_EQ(service.answer(), nullptr);
}

TEST(SwapChecks, APartWithoutAModHasNone) {
    OpenJob open;
    SwapChecks service(open.document, open.selection, open.solver);
    open.selection.setPart("r1");
    ASSERT_TRUE(open.waitForAnswers());
    EXPECT_EQ(service.answer(), nullptr);
}

}  // namespace
}  // namespace ohmwright::test

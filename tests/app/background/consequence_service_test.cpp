// The service follows edits, words and the shop; figures as in tests/core/plan/consequences_test.cpp.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/consequence_service.h"

#include "core/files/side_effect_limits.h"
#include "core/plan/edits.h"
#include "tests/support/open_job.h"

#include <QSignalSpy>
#include <QTemporaryDir>

#include <fstream>

namespace ohmwright::test {
namespace {

using Section = ConsequenceService::Section;

class ConsequenceServiceTest : public testing::Test {
protected:
    bool waitUntilCurrent() {
        constexpr int patienceMilliseconds = 120'000;
        QCoreApplication::processEvents();
        return QTest::qWaitFor([this] { return open.solver.isCurrent() && service.isCurrent(); }, patienceMilliseconds);
    }
    bool setOn(const std::string& mod, bool on) { return open.document.edit(setModOn(open.job(), mod, on), "Switch"); }

    OpenJob open;
    ConsequenceService service{open.document, open.solver, open.shop};
};

TEST_F(ConsequenceServiceTest, AllSectionsComeWithoutBeingAskedFor) {
    ASSERT_TRUE(waitUntilCurrent());
    ASSERT_TRUE(service.together() && service.words() && service.translations() && service.effects() &&
                service.switches());
    EXPECT_NEAR(*service.together()->all->together, 4.49, 0.05);
    EXPECT_EQ(service.words()->size(), 2U);
    EXPECT_TRUE(service.switches()->empty());
    EXPECT_EQ(service.trouble(Section::effects), "");
}

TEST_F(ConsequenceServiceTest, AnEditMakesThemOldAndOnlyTheNewestIsAnswered) {
    ASSERT_TRUE(waitUntilCurrent());
    const auto before = service.together();
    setOn("mod-b", true);
    EXPECT_FALSE(service.isCurrent());
    EXPECT_FALSE(service.isCurrent(Section::together));
    EXPECT_EQ(service.together(), before) << "the last one stays to be shown as old";
    setOn("mod-c", true);
    ASSERT_TRUE(waitUntilCurrent());
    EXPECT_NEAR(*service.together()->on.together, 4.47, 0.05);
}

TEST_F(ConsequenceServiceTest, AWordIsHeldWithoutSolvingTheRestAnew) {
    ASSERT_TRUE(waitUntilCurrent());
    QSignalSpy ready(&service, &ConsequenceService::ready);
    ASSERT_TRUE(open.document.edit(addWord(open.job(), "brighter"), "Add word", JobAspect::words));
    EXPECT_FALSE(service.isCurrent(Section::words));
    EXPECT_TRUE(service.isCurrent(Section::together));
    ASSERT_TRUE(waitUntilCurrent());
    EXPECT_EQ(service.words()->back().claim.verdict, ClaimVerdict::theOtherWay);
    EXPECT_EQ(ready.count(), 1);
}

TEST_F(ConsequenceServiceTest, LimitsOfTheShopAreThoseOfTheStrip) {
    ASSERT_TRUE(waitUntilCurrent());
    const auto limitOf = [this](const char* id) {
        for (const SideEffect& effect : service.effects()->effects) {
            if (effect.id == id) {
                return effect.limit.value_or(-1.0);
            }
        }
        return -2.0;
    };
    EXPECT_EQ(limitOf("pot_dc"), 10.0);
    QTemporaryDir folder;
    Shop shop;
    shop.limits.potMillivolts.value = 5.0;
    std::ofstream(folder.filePath("limits.json").toStdString()) << writeSideEffectLimits(shop.limits);
    open.shop.open(folder.path());
    EXPECT_FALSE(service.isCurrent(Section::effects));
    EXPECT_TRUE(service.isCurrent(Section::translations));
    ASSERT_TRUE(waitUntilCurrent());
    EXPECT_EQ(limitOf("pot_dc"), 5.0);
}

TEST_F(ConsequenceServiceTest, AnotherJobTakesTheOldAnswersAway) {
    ASSERT_TRUE(waitUntilCurrent());
    open.document.setJob(jobIn(demoJobPath("night-ferry")), {});
    EXPECT_EQ(service.together(), nullptr);
    EXPECT_EQ(service.effects(), nullptr);
    ASSERT_TRUE(waitUntilCurrent());
    EXPECT_EQ(service.words()->front().claim.verdict, ClaimVerdict::yes);
}

TEST_F(ConsequenceServiceTest, WhatTakesLongIsSaidToBeOld) {
    ASSERT_TRUE(waitUntilCurrent());
    QSignalSpy said(&service, &ConsequenceService::stateChanged);
    setOn("mod-d", true);
    ASSERT_TRUE(waitUntilCurrent());
    EXPECT_GE(said.count(), 1);
}

}  // namespace
}  // namespace ohmwright::test

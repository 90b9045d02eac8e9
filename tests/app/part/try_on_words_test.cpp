// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/try_on_words.h"

#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

namespace ohmwright::test {
namespace {

std::string wordsFor(const char* reference, double target) {
    const Job job = harbourLamp();
    return tryOnWords(job, *findPartByReference(job.stock, reference), target, {}).toStdString();
}

// W6: 56n with 68n across is 124n. Without a drawer preferred numbers are assumed.
TEST(TryOnWords, ACapacitorGrowsAcross) {
    EXPECT_EQ(wordsFor("C4", 120e-9),
              "To hear it first: 68n across the old part, 124n. Switch off before anything is clipped on.");
}

TEST(TryOnWords, AResistorThatShallGrowNeedsALegLifted) {
    EXPECT_EQ(wordsFor("R5", 4700.0),
              "To hear it first: cannot be tried across: lift one leg and add 820R in series (4k72). Switch off before "
              "anything is clipped on.");
}

TEST(TryOnWords, WhereThereIsNothingToTryNothingIsSaid) {
    EXPECT_EQ(wordsFor("R5", 3900.0), "") << "its own value";
    EXPECT_EQ(wordsFor("VR1", 100e3), "") << "a pot";
    EXPECT_EQ(wordsFor("D1", 1.0), "") << "a diode has no value";
}

TEST(TryOnWords, AtHighVoltageTheCautionIsItsOwn) {
    const Job job = jobIn(demoJobPath("night-ferry"));
    const Part* cathode = nullptr;
    for (const Part& part : job.stock.parts) {
        if (part.kind == PartKind::resistor && part.value == 1500.0) cathode = &part;
    }
    ASSERT_NE(cathode, nullptr);
    EXPECT_TRUE(tryOnWords(job, *cathode, 1200.0, {}).contains("Dangerous voltage"));
}

}  // namespace
}  // namespace ohmwright::test

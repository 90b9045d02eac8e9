// Expected values of the demo: 3k9 with 9k1 across is 2730, with 10k 2806; 56n with 68n across 124n; 3k9 + 820R 4k72.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/try_on.h"

#include "core/files/drawer_file.h"
#include "core/files/part_data.h"
#include "core/measure/figures.h"
#include "core/plan/apply.h"
#include "tests/support/demo_job.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace ohmwright {
namespace {

using testing::HasSubstr;

Drawer demoDrawer() {
    return *loadDrawer(std::string(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/drawer.json");
}

TryOn tried(const std::string& part, double target, PartKind kind) {
    const Job job = test::harbourLamp();
    const auto tryOn = tryOnValue(job.stock, job.setting, part, target, valuesOnHand(demoDrawer(), kind));
    EXPECT_TRUE(tryOn) << (tryOn ? "" : tryOn.error().message);
    return tryOn ? *tryOn : TryOn();
}

double givenBy(const TryOn& tryOn, double fitted) {
    for (const TryOnOffer& offer : tryOn.offers)
        if (std::abs(offer.fitted.value / fitted - 1.0) < 1e-9) return offer.gives;
    ADD_FAILURE() << "no offer of " << fitted;
    return 0.0;
}

TEST(TryOn, AResistorGoesDownWithOneAcross) {
    const TryOn tryOn = tried("r5", 2700, PartKind::resistor);
    EXPECT_EQ(tryOn.way, TryOnWay::across);
    EXPECT_NEAR(tryOn.needed, 8775, 1);
    EXPECT_NEAR(givenBy(tryOn, 9100), 2730, 0.1);
    EXPECT_NEAR(givenBy(tryOn, 10000), 2805.8, 0.1);
    EXPECT_EQ(tryOn.sentence, "clip 9k1 across R5 (2k73)");
    EXPECT_THAT(tryOn.caution, HasSubstr("Switch off"));
}

TEST(TryOn, ACapacitorGoesUpWithOneAcross) {
    Drawer drawer = demoDrawer();
    for (DrawerLot& lot : drawer.lots) lot.measured.reset();
    const Job job = test::harbourLamp();
    Circuit stock = job.stock;
    findPart(stock, "c4")->measured.reset();
    const auto tryOn = tryOnValue(stock, job.setting, "c4", 120e-9, valuesOnHand(drawer, PartKind::capacitor));
    ASSERT_TRUE(tryOn);
    EXPECT_NEAR(tryOn->needed, 64e-9, 1e-15);
    EXPECT_NEAR(givenBy(*tryOn, 68e-9), 124e-9, 1e-15);
    EXPECT_EQ(tryOn->sentence, "clip 68n across C4 (124n)");
}

TEST(TryOn, ALotThatWasMeasuredGivesWhatTheMeterSays) {
    EXPECT_NEAR(givenBy(tried("c4", 120e-9, PartKind::capacitor), 67.3e-9), 123.3e-9, 1e-15);
}

TEST(TryOn, TheOtherWayALegMustBeLifted) {
    const TryOn up = tried("r5", 4700, PartKind::resistor);
    EXPECT_EQ(up.way, TryOnWay::inSeries);
    EXPECT_NEAR(up.needed, 800, 1e-9);
    EXPECT_EQ(up.sentence, "cannot be tried across: lift one leg and add 820R in series (4k72)");
    const TryOn down = tried("c4", 33e-9, PartKind::capacitor);
    EXPECT_EQ(down.way, TryOnWay::inSeries);
    EXPECT_NEAR(down.needed, 1.0 / (1.0 / 33e-9 - 1.0 / 56e-9), 1e-14);
}

TEST(TryOn, WhatCannotBeTriedIsRefusedInASentence) {
    const Job job = test::harbourLamp();
    const auto message = [&](const std::string& part, double target) {
        const auto tryOn = tryOnValue(job.stock, job.setting, part, target, {});
        return tryOn ? tryOn->sentence : tryOn.error().message;
    };
    EXPECT_THAT(message("d1", 1), HasSubstr("no value"));
    EXPECT_THAT(message("vr1", 100e3), HasSubstr("pot"));
    EXPECT_THAT(message("r5", 3900), HasSubstr("already"));
    EXPECT_THAT(message("r5", -1), HasSubstr("0.01 Ω"));
    EXPECT_THAT(message("nowhere", 1), HasSubstr("nowhere"));
    EXPECT_EQ(message("r5", 2700), "needs 8k78 across R5, and nothing on hand comes near it");
}

// Property: the change of an offer makes a circuit whose response is that of the value it promises.
TEST(TryOn, AnOfferDoesWhatItPromises) {
    const Job job = test::harbourLamp();
    std::mt19937 random(5);
    std::uniform_real_distribution<double> factor(0.3, 3.0);
    for (const char* id : {"r5", "c4", "r6", "c7", "r7"}) {
        const Part& part = *findPart(job.stock, id);
        const double target = part.value * factor(random);
        const auto tryOn = tryOnValue(job.stock, job.setting, id, target, valuesOnHand(demoDrawer(), part.kind));
        ASSERT_TRUE(tryOn) << id;
        ASSERT_FALSE(tryOn->offers.empty()) << id;
        const Change change = changeOf(*tryOn, tryOn->offers.front(), part.kind, "RX");
        const auto fitted = applyMod(job.stock, {"x", "X", "", change, true});
        const auto swapped = applyMod(job.stock, {"x", "X", "", SwapValue{id, tryOn->offers.front().gives}, true});
        ASSERT_TRUE(fitted && swapped);
        EXPECT_NEAR(*measureGainDb(*fitted, job.setting, 330), *measureGainDb(*swapped, job.setting, 330), 1e-6) << id;
    }
}

// A Schottky across a silicon diode carries the current, a red LED across one carries none: the levels say so.
TEST(TryOn, ALowerDiodeCanBeTriedAcrossAHigherOneOnly) {
    const Job job = test::harbourLamp();
    const PartLibrary library = *loadModels(std::string(OHMWRIGHT_SOURCE_DIR) + "/resources/part-data/models.json");
    const auto schottky = tryOnType(job.stock, job.setting, "d1", *findModel(library, "BAT41"));
    ASSERT_TRUE(schottky);
    EXPECT_TRUE(schottky->canBeTried) << schottky->sentence;
    EXPECT_THAT(schottky->sentence, HasSubstr("clip BAT41 across D1"));
    const auto led = tryOnType(job.stock, job.setting, "d1", *findModel(library, "red LED"));
    ASSERT_TRUE(led);
    EXPECT_FALSE(led->canBeTried) << led->sentence;
    EXPECT_GT(led->levelSwappedDbv, led->levelAcrossDbv + 1.0);
    EXPECT_THAT(led->sentence, HasSubstr("lift one leg of D1"));
    EXPECT_FALSE(tryOnType(job.stock, job.setting, "q1", *findModel(library, "BAT41")));
}

}  // namespace
}  // namespace ohmwright

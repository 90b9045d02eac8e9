// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/place_hint.h"

#include "tests/support/demo_job.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

// Pins 1 to 4 run down from the notch on the dot's side, 5 to 8 back up on the other (common practice, no source).
TEST(PlaceHint, AChipsPinIsCountedFromTheNotch) {
    const Circuit circuit = test::harbourLamp().stock;
    const Part* chip = findPartByReference(circuit, "U1A");
    ASSERT_NE(chip, nullptr);
    Probe probe{chip->id, 1, {}, "U1 pin 2 (inverting input)"};
    ASSERT_EQ(chip->pins[1], "2");
    EXPECT_EQ(placeHint(circuit, probe), "second from the notch, on the side of the dot");
    EXPECT_THAT(legsAtPlace(circuit, probe), testing::HasSubstr("U1 pin 2"));
    probe.leg = 3;
    ASSERT_EQ(chip->pins[3], "8");
    EXPECT_EQ(placeHint(circuit, probe), "first from the notch, on the side away from the dot");
}

TEST(PlaceHint, GroundNeedsNone) {
    const Circuit circuit = test::harbourLamp().stock;
    const Probe ground{{}, 0, NetName(groundNet), "jack sleeve (ground)"};
    EXPECT_EQ(placeHint(circuit, ground), "");
    EXPECT_EQ(legsAtPlace(circuit, ground), "");
}

}  // namespace
}  // namespace ohmwright

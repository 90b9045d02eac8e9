// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/opamp_supply.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Circuit after(const EditResult& edit) {
    if (!edit) {
        ADD_FAILURE() << edit.error().message;
        return {};
    }
    return edit->circuit;
}

/// An op-amp, a battery, a supply sign "+ 15" and one "- 15" at a pin of a resistor each.
Circuit twoSupplies() {
    Part opamp;
    opamp.kind = PartKind::opamp;
    Circuit circuit = after(placePart({}, opamp, {{2, 2}, 0, false, 3, LabelSide::automatic}));
    Part battery;
    battery.kind = PartKind::voltageSource;
    battery.value = 9.0;
    circuit = after(placePart(circuit, battery, {{12, 2}, 1, false, 3, LabelSide::automatic}));
    Part resistor;
    resistor.value = 1000.0;
    circuit = after(placePart(circuit, resistor, {{16, 2}, 1, false, 3, LabelSide::automatic}));
    circuit = after(placeFlag(circuit, {FlagKind::supply, {}, {16, 2}, "+ 15"}));
    return after(placeFlag(circuit, {FlagKind::supply, {}, {16, 5}, "- 15"}));
}

TEST(OpampSupply, GoesToTheSignsThatWereNamed) {
    // Seen in the window: Plus supply and Minus supply took a name and nothing changed.
    const Circuit circuit = twoSupplies();
    const Circuit supplied = after(supplyOpamp(circuit, "u1", "+15", "- 15"));
    EXPECT_EQ(supplied.parts[0].nets[3], circuit.drawing.flags[0].net);
    EXPECT_EQ(supplied.parts[0].nets[4], circuit.drawing.flags[1].net);
    // A later edit leaves them where they were put.
    Part more;
    more.value = 1.0;
    const Circuit later = after(placePart(supplied, more, {{20, 2}, 1, false, 3, LabelSide::automatic}));
    EXPECT_EQ(later.parts[0].nets, supplied.parts[0].nets);
}

TEST(OpampSupply, EmptyIsTheUsualAndGroundHasItsNames) {
    const Circuit circuit = twoSupplies();
    const Circuit supplied = after(supplyOpamp(circuit, "u1", "+15", "-15"));
    const Circuit usual = after(supplyOpamp(supplied, "u1", "", " "));
    EXPECT_EQ(usual.parts[0].nets[3], circuit.parts[1].nets[0]) << "the battery's plus";
    EXPECT_EQ(usual.parts[0].nets[4], "0");
    for (const char* ground : {"0", "Ground", "gnd"}) {
        EXPECT_EQ(after(supplyOpamp(supplied, "u1", "+15", ground)).parts[0].nets[4], "0") << ground;
    }
    EXPECT_EQ(after(supplyOpamp(supplied, "u1", circuit.parts[1].nets[0], "0")).parts[0].nets[3],
              circuit.parts[1].nets[0])
        << "a net by its own name";
}

TEST(OpampSupply, NeverLeadsNowhere) {
    const Circuit circuit = twoSupplies();
    EXPECT_EQ(supplyOpamp(circuit, "u1", "18V", "0").error().message,
              "There is no net or supply sign 18V: put a supply sign of that name down first.");
    EXPECT_FALSE(supplyOpamp(circuit, "u1", "0", "0")) << "both on one net";
    EXPECT_FALSE(supplyOpamp(circuit, "r1", "+15", "0")) << "no op-amp";
    EXPECT_FALSE(supplyOpamp(circuit, "u9", "+15", "0")) << "not there";
}

}  // namespace
}  // namespace ohmwright

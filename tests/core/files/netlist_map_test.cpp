// A map written as a netlist and read again is the same circuit, and so is the map that is drawn of it.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/text.h"
#include "core/circuit/setting.h"
#include "core/drawing/arrange.h"
#include "core/drawing/rejoin.h"
#include "core/files/netlist.h"
#include "tests/support/undrawn_circuits.h"

#include <gtest/gtest.h>

#include <map>
#include <set>

namespace ohmwright {
namespace {

/// Kinds that a netlist has a card for: pots, op-amps, valves, switches and links are written as other parts.
bool hasCard(PartKind kind) {
    switch (kind) {
        case PartKind::resistor:
        case PartKind::capacitor:
        case PartKind::inductor:
        case PartKind::diode:
        case PartKind::bipolar:
        case PartKind::jfet:
        case PartKind::mosfet:
        case PartKind::voltageSource:
        case PartKind::currentSource:
            return true;
        default:
            return false;
    }
}

/// The joints of the parts with a card: an isomorphism of nets that is given by the parts' names.
int expectSameJoints(const Circuit& one, const Circuit& other, const std::string& what) {
    std::map<std::string, const Part*> named;
    for (const Part& part : other.parts) {
        named[inLowerCase(part.reference)] = &part;
    }
    std::map<NetName, NetName> there;
    std::map<NetName, NetName> back;
    int compared = 0;
    for (const Part& part : one.parts) {
        const auto found = named.find(inLowerCase(part.reference));
        if (!hasCard(part.kind) || found == named.end() || found->second->kind != part.kind) {
            continue;
        }
        ++compared;
        for (std::size_t pin = 0; pin < part.nets.size(); ++pin) {
            const NetName& mine = part.nets[pin];
            const NetName& others = found->second->nets[pin];
            EXPECT_EQ(there.try_emplace(mine, others).first->second, others) << what << " " << part.reference;
            EXPECT_EQ(back.try_emplace(others, mine).first->second, mine) << what << " " << part.reference;
        }
    }
    return compared;
}

Circuit readBack(const Circuit& circuit, const std::string& what) {
    Result<Netlist> netlist = readNetlist(writeNetlist(circuit, Setting(), "A map"));
    if (!netlist) {
        ADD_FAILURE() << what << ": " << netlist.error().message;
        return {};
    }
    return netlist->circuit;
}

TEST(NetlistMap, MapToNetlistToMapKeepsTheCircuit) {
    int compared = 0;
    for (const test::UndrawnCircuit& undrawn : test::undrawnCircuits()) {
        const Circuit map = arrange(undrawn.circuit);
        const Circuit read = readBack(map, undrawn.name);
        compared += expectSameJoints(map, read, undrawn.name);
        // Drawn again, with the nets taken from the drawing alone.
        const Circuit again = rejoin(arrange(read)).circuit;
        expectSameJoints(read, again, undrawn.name + ", drawn again");
        const Circuit last = readBack(again, undrawn.name + ", written again");
        expectSameJoints(read, last, undrawn.name + ", written again");
        EXPECT_EQ(last.parts.size(), read.parts.size()) << undrawn.name;
    }
    EXPECT_GT(compared, 500);
}

}  // namespace
}  // namespace ohmwright

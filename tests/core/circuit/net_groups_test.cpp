// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/net_groups.h"

#include "tests/core/circuit/circuits.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(NetGroups, NetsAreApartUntilJoined) {
    NetGroups groups;
    EXPECT_FALSE(groups.joined("a", "b"));
    EXPECT_TRUE(groups.joined("a", "a"));
    EXPECT_TRUE(groups.join("a", "b"));
    EXPECT_TRUE(groups.join("c", "d"));
    EXPECT_FALSE(groups.joined("a", "d"));
    EXPECT_TRUE(groups.join("b", "c"));
    EXPECT_TRUE(groups.joined("a", "d"));
}

TEST(NetGroups, JoiningWhatIsJoinedIsTold) {
    NetGroups groups;
    groups.join("a", "b");
    groups.join("b", "c");
    EXPECT_FALSE(groups.join("c", "a"));
    EXPECT_FALSE(groups.join("d", "d"));
}

TEST(NetGroups, OnlyLinksJoinNetsOfACircuit) {
    Circuit circuit;
    circuit.parts = {wire("W1", "a", "b"), wire("W2", "b", "0"), resistor("R1", "b", "c", 1.0)};
    const NetGroups groups = groupsByLinks(circuit);
    EXPECT_TRUE(groups.joined("a", "0"));
    EXPECT_FALSE(groups.joined("b", "c"));
}

}  // namespace
}  // namespace ohmwright

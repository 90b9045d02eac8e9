// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/part_match.h"

#include "tests/support/demo_job_files.h"
#include "tests/support/disguise.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <utility>

namespace ohmwright {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

Circuit stockOf(const std::string& demo) {
    return test::demoJob(demo).stock;
}

/// At the same nets with the same value: there is no telling them apart, and no need to.
bool isAlike(const Part& one, const Part& other) {
    auto ours = one.nets;
    auto theirs = other.nets;
    if (one.kind != PartKind::diode) {
        std::sort(ours.begin(), ours.end());
        std::sort(theirs.begin(), theirs.end());
    }
    return one.kind == other.kind && one.value == other.value && one.model == other.model && ours == theirs;
}

// Property: whoever draws the same board under other names, in another order and with other ends first, every part of
// it is found for sure, and each of its legs.
class Disguised : public testing::TestWithParam<std::string> {};

TEST_P(Disguised, EveryPartIsFoundForSure) {
    const Circuit circuit = stockOf(GetParam());
    for (std::uint32_t seed = 1; seed <= 12; ++seed) {
        SCOPED_TRACE(seed);
        const test::Disguise other = test::disguised(circuit, seed);
        const CircuitMatch match = matchCircuits(circuit, other.circuit);
        ASSERT_EQ(match.parts.size(), circuit.parts.size());
        EXPECT_THAT(match.unmatched, IsEmpty());
        for (const PartMatch& each : match.parts) {
            EXPECT_EQ(each.certainty, MatchCertainty::sure) << each.part << ": " << each.sentence;
            const Part* found = findPart(other.circuit, each.other);
            const Part* real = findPart(other.circuit, other.parts.at(each.part));
            ASSERT_NE(found, nullptr) << each.part;
            EXPECT_TRUE(found == real || isAlike(*found, *real)) << each.part;
            if (found == real && found->kind != PartKind::coupling) {
                EXPECT_EQ(each.pins.front(), other.isTurned.at(each.part) ? 1 : 0) << each.part;
            }
        }
        for (const auto& [net, name] : other.nets) {
            EXPECT_EQ(match.nets.at(net), name);
        }
    }
}

// Property: on a revision that lacks any one part, no other part is taken for another for sure, and the one that is
// missing is found nowhere for sure.
TEST_P(Disguised, OnePartLessMisleadsNobody) {
    const Circuit circuit = stockOf(GetParam());
    int sure = 0;
    int all = 0;
    for (const Part& missing : circuit.parts) {
        const Ports& ports = circuit.ports;
        if (missing.id == ports.source || missing.id == ports.battery || missing.id == ports.load) {
            continue;
        }
        SCOPED_TRACE(missing.id);
        test::Disguise other = test::disguised(circuit, 50);
        std::erase_if(other.circuit.parts, [&](const Part& part) { return part.id == other.parts.at(missing.id); });
        for (const PartMatch& each : matchCircuits(circuit, other.circuit).parts) {
            all += 1;
            if (each.certainty != MatchCertainty::sure) {
                continue;
            }
            sure += 1;
            const Part* found = findPart(other.circuit, each.other);
            const Part* real = findPart(other.circuit, other.parts.at(each.part));
            ASSERT_NE(real, nullptr) << "found as " << found->reference;
            EXPECT_TRUE(found == real || isAlike(*found, *real)) << each.part;
        }
    }
    EXPECT_GT(sure, 4 * all / 5) << "what is far from the missing part stays sure";
}

INSTANTIATE_TEST_SUITE_P(Demos, Disguised, testing::ValuesIn(test::allDemos()), [](const auto& each) {
    std::string name = each.param;
    std::erase(name, '-');
    return name;
});

MatchCertainty certaintyOf(const CircuitMatch& match, const std::string& part) {
    return match.find(part)->certainty;
}

/// Parts that are found for sure, and as which they are known.
int surelyRight(const CircuitMatch& match, const test::Disguise& other) {
    return static_cast<int>(std::count_if(match.parts.begin(), match.parts.end(), [&](const PartMatch& each) {
        return each.certainty == MatchCertainty::sure && each.other == other.parts.at(each.part);
    }));
}

TEST(PartMatch, OtherValuesAreTheSameParts) {
    const Circuit circuit = stockOf("harbour-lamp");
    test::Disguise other = test::disguised(circuit, 3);
    for (Part& part : other.circuit.parts) {
        part.value *= part.kind == PartKind::capacitor ? 2.2 : part.kind == PartKind::resistor ? 0.68 : 1.0;
    }
    const CircuitMatch match = matchCircuits(circuit, other.circuit);
    for (const PartMatch& each : match.parts) {
        EXPECT_EQ(each.certainty, MatchCertainty::sure) << each.part << ": " << each.sentence;
        EXPECT_EQ(each.other, other.parts.at(each.part));
    }
}

TEST(PartMatch, ARevisionWithOneValueChangedKeepsEveryPart) {
    const Circuit circuit = stockOf("harbour-lamp");
    test::Disguise other = test::disguised(circuit, 5);
    findPart(other.circuit, other.parts.at("r5"))->value = 1e3;
    EXPECT_EQ(surelyRight(matchCircuits(circuit, other.circuit), other), static_cast<int>(circuit.parts.size()));
}

// The revision has a stopper resistor between the input capacitor and the follower's base: a part that this drawing
// does not have. What stands far from it stays sure; the two that it parts are not.
TEST(PartMatch, ARevisionWithOnePartMoreKeepsWhatIsNotBesideIt) {
    const Circuit circuit = stockOf("harbour-lamp");
    test::Disguise other = test::disguised(circuit, 7);
    Part* base = findPart(other.circuit, other.parts.at("q1"));
    Part stopper;
    stopper.id = "stopper";
    stopper.reference = "R99";
    stopper.value = 1e3;
    stopper.nets = {base->nets[1], "stopped"};
    base->nets[1] = "stopped";
    other.circuit.parts.push_back(stopper);
    const CircuitMatch match = matchCircuits(circuit, other.circuit);
    EXPECT_THAT(match.unmatched, testing::ElementsAre("stopper"));
    for (const char* part : {"u1a", "c4", "r5", "d1", "d2", "c7", "vr1", "r10", "c11"}) {
        EXPECT_EQ(certaintyOf(match, part), MatchCertainty::sure) << part << ": " << match.find(part)->sentence;
        EXPECT_EQ(match.find(part)->other, other.parts.at(part));
    }
    EXPECT_EQ(certaintyOf(match, "q1"), MatchCertainty::likely);
    EXPECT_EQ(match.find("q1")->other, other.parts.at("q1"));
    EXPECT_THAT(match.find("q1")->sentence, HasSubstr("2 of its 3 legs"));
}

TEST(PartMatch, ACircuitThatLacksAPartSaysSo) {
    const Circuit circuit = stockOf("harbour-lamp");
    test::Disguise other = test::disguised(circuit, 9);
    std::erase_if(other.circuit.parts, [&](const Part& part) { return part.id == other.parts.at("c7"); });
    const CircuitMatch match = matchCircuits(circuit, other.circuit);
    EXPECT_EQ(certaintyOf(match, "c7"), MatchCertainty::none);
    EXPECT_EQ(match.find("c7")->other, "");
    EXPECT_FALSE(match.find("c7")->sentence.empty());
    EXPECT_EQ(certaintyOf(match, "c4"), MatchCertainty::sure);
    EXPECT_GE(surelyRight(match, other), static_cast<int>(circuit.parts.size()) - 5);
    for (const PartMatch& each : match.parts) {
        if (!each.other.empty() && each.certainty == MatchCertainty::sure) {
            EXPECT_EQ(each.other, other.parts.at(each.part)) << each.part;
        }
    }
}

// C10 100u and C12 100n stand across the supply: only their values tell which is which.
TEST(PartMatch, TwinsAreToldByTheirValuesOrNotAtAll) {
    const Circuit circuit = stockOf("harbour-lamp");
    test::Disguise other = test::disguised(circuit, 11);
    CircuitMatch match = matchCircuits(circuit, other.circuit);
    EXPECT_EQ(match.find("c10")->other, other.parts.at("c10"));
    findPart(other.circuit, other.parts.at("c10"))->value = 4.7e-6;
    findPart(other.circuit, other.parts.at("c12"))->value = 3.3e-6;
    match = matchCircuits(circuit, other.circuit);
    EXPECT_EQ(certaintyOf(match, "c10"), MatchCertainty::likely);
    EXPECT_THAT(match.find("c10")->rivals, testing::SizeIs(1));
    EXPECT_THAT(match.find("c10")->sentence, HasSubstr("values do not tell"));
}

// The follower's parts of another topology are none of this unit's.
TEST(PartMatch, AnotherCircuitIsNotTakenForThisOne) {
    const Circuit valve = stockOf("night-ferry");
    const CircuitMatch match = matchCircuits(stockOf("harbour-lamp"), valve);
    EXPECT_EQ(certaintyOf(match, "u1a"), MatchCertainty::none);
    EXPECT_NE(certaintyOf(match, "c4"), MatchCertainty::sure);
    EXPECT_NE(certaintyOf(match, "d1"), MatchCertainty::sure);
    EXPECT_EQ(certaintyOf(match, "lpu"), MatchCertainty::sure) << "the guitar is the same";
}

TEST(RoleWords, NameAPlaceByWhatStandsAroundIt) {
    const Circuit circuit = stockOf("harbour-lamp");
    EXPECT_EQ(roleWords(circuit, *findPart(circuit, "c4")),
              "capacitor between U1A inverting input and (through R5) ground");
    EXPECT_EQ(roleWords(circuit, *findPart(circuit, "r10")), "resistor between the output and ground");
    EXPECT_EQ(roleWords(circuit, *findPart(circuit, "q1")),
              "transistor with collector at the supply, base at (through C1) the input jack, emitter at "
              "(through R3) ground");
}

}  // namespace
}  // namespace ohmwright

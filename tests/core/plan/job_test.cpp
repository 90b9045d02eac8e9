// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/job.h"

#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

#include <functional>
#include <set>

namespace ohmwright {
namespace {

Job smallJob() {
    Job job;
    Part r1;
    r1.id = "r1";
    r1.reference = "R1";
    r1.value = 4700.0;
    r1.tolerance = 0.05;
    r1.nets = {"a", "0"};
    job.stock.parts = {r1};
    job.plan = {{"mod-a", "A", "More", SwapValue{"r1", 10e3}, true}};
    job.setting.knobs["drive"] = 7.5;
    return job;
}

TEST(StateHash, IsFnv1aOfTheCanonicalBytesOnEveryMachine) {
    // Computed apart: FNV-1a, 64 bits, over little-endian counts, lengths, texts and IEEE doubles, its halves combined.
    EXPECT_EQ(stateHash(Job()), "570D B599");
    EXPECT_EQ(stateHash(smallJob()), "5138 EE62");
}

TEST(StateHash, EqualStatesHaveEqualHashes) {
    EXPECT_EQ(stateHash(test::harbourLamp()), stateHash(test::harbourLamp()));
    Job minusZero = smallJob();
    minusZero.stock.parts[0].acAmplitude = -0.0;
    ASSERT_EQ(minusZero, smallJob());
    EXPECT_EQ(stateHash(minusZero), stateHash(smallJob()));
}

TEST(StateHash, ChangesWithEverythingThatFiguresOrWorkDependOn) {
    const std::vector<std::function<void(Job&)>> changes{
        [](Job& job) { job.stock.parts[0].value = 4701.0; },
        [](Job& job) { job.stock.parts[0].id = "r2"; },
        [](Job& job) { job.stock.parts[0].reference = "R2"; },
        [](Job& job) { job.stock.parts[0].kind = PartKind::capacitor; },
        [](Job& job) { job.stock.parts[0].tolerance = 0.01; },
        [](Job& job) { job.stock.parts[0].nets[1] = "b"; },
        [](Job& job) {
            job.stock.parts[0].nets = {"a0", ""};
        },
        [](Job& job) { job.stock.parts[0].printed = "472"; },
        [](Job& job) { job.stock.parts[0].measured = 0.0; },
        [](Job& job) { job.stock.parts[0].knowledge = Knowledge::seen; },
        [](Job& job) { job.stock.parts[0].taper = Taper::logarithmic; },
        [](Job& job) {
            job.stock.models.push_back({"D", PartKind::diode, {{"IS", 1e-9}}, ""});
        },
        [](Job& job) {
            job.stock.models.push_back({"D", PartKind::diode, {{"IS", 2e-9}}, ""});
        },
        [](Job& job) {
            job.stock.knobs.push_back({"drive", "Drive", "r1"});
        },
        [](Job& job) {
            job.stock.stages.push_back({"Stage", "a", "b", {"r1"}, 0});
        },
        [](Job& job) { job.stock.ports.output = "a"; },
        [](Job& job) { job.stock.ports.load = "a"; },
        [](Job& job) { job.stock.openNets = {"a"}; },
        [](Job& job) { job.plan.clear(); },
        [](Job& job) { job.plan[0].on = false; },
        [](Job& job) { job.plan[0].letter = "B"; },
        [](Job& job) {
            job.plan[0].change = SwapValue{"r1", 12e3};
        },
        [](Job& job) {
            job.plan[0].change = Lift{"r1", 0};
        },
        [](Job& job) {
            job.plan[0].change = Lift{"r1", 1};
        },
        [](Job& job) {
            job.plan[0].change = Bridge{"r1", 0, 1};
        },
        [](Job& job) {
            job.plan[0].change = AddInSeries{"r1", 0, {}, false};
        },
        [](Job& job) {
            job.plan[0].change = AddInSeries{"r1", 0, {}, true};
        },
        [](Job& job) {
            job.plan[0].change = AddAcross{"r1", 0, 1, {}, false};
        },
        [](Job& job) {
            job.plan[0].change = SwapType{"r1", {}};
        },
        [](Job& job) { job.setting.knobs["drive"] = 7.6; },
        [](Job& job) { job.setting.knobs["level"] = 5.0; },
        [](Job& job) { job.setting.batteryVolts = 7.2; },
        [](Job& job) { job.setting.toneHz = 221.0; },
        [](Job& job) { job.setting.temperatureKelvin = 310.15; },
    };
    std::set<std::string> hashes{stateHash(smallJob())};
    for (const auto& change : changes) {
        Job job = smallJob();
        change(job);
        hashes.insert(stateHash(job));
    }
    EXPECT_EQ(hashes.size(), changes.size() + 1);
}

TEST(StateHash, DoesNotChangeWithNamesOrTheDrawing) {
    Job job = smallJob();
    job.shop = "Another shop";
    job.customer.name = "B. C.";
    job.visit.state = VisitState::proven;
    job.plan[0].name = "Louder";
    job.stock.parts[0].placement = Placement{};
    job.stock.drawing.size = {10, 10};
    job.unknown.push_back({"/new", "1"});
    EXPECT_EQ(stateHash(job), stateHash(smallJob()));
}

TEST(UnitCard, SerialsAreComparedWithoutCaseAndSpaces) {
    EXPECT_TRUE(isSameSerial("HL-0231", "hl- 0231"));
    EXPECT_FALSE(isSameSerial("HL-0231", "HL-0232"));
    EXPECT_FALSE(isSameSerial("", " ")) << "no serial names no unit";
}

}  // namespace
}  // namespace ohmwright

// What the house's pieces do when they are joined. Bands of gain are common practice of such stages, no source.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/stage_shelf.h"

#include "core/drawing/stage_piece.h"
#include "core/files/house_stages.h"
#include "core/files/job_file.h"
#include "core/measure/figures.h"
#include "core/measure/solved_circuit.h"
#include "core/plan/apply.h"
#include "core/plan/edits.h"
#include "tests/support/temporary_folder.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <set>

namespace ohmwright::test {
namespace {

std::vector<std::string> stageIds() {
    std::vector<std::string> ids;
    for (const ShelfStage& stage : stagesToChoose({})) {
        ids.push_back(stage.id);
    }
    return ids;
}

Result<Circuit> joinedUnit(const std::vector<std::string>& ids) {
    std::vector<StagePiece> pieces;
    pieces.reserve(ids.size());
    for (const std::string& id : ids) {
        pieces.push_back(houseStage(id));
    }
    return joinUnit(pieces);
}

Job unitOf(const std::vector<std::string>& ids) {
    const Result<Circuit> circuit = joinedUnit(ids);
    if (!circuit) {
        ADD_FAILURE() << circuit.error().message;
        return {};
    }
    return jobOfUnit(*circuit, "Test unit");
}

LinearState solved(const Job& job) {
    const Result<LinearState> state = measureLinear(job.stock, job.setting, {20.0, 20000.0, 10, 1000.0});
    if (!state) {
        ADD_FAILURE() << state.error().message;
        return {};
    }
    return *state;
}

// ---- Each alone ----------------------------------------------------------------------------------------------

/// Gain at 1 kHz from the stage's input to its output, its own knobs at `position`.
struct GainBand {
    const char* id;
    double position;
    double lowestDb;
    double highestDb;
};
std::ostream& operator<<(std::ostream& out, const GainBand& band) {
    return out << band.id << " at " << band.position;
}

class StageGainTest : public testing::TestWithParam<GainBand> {};

TEST_P(StageGainTest, LiesWhereSuchStagesLie) {
    const GainBand& band = GetParam();
    Job job = unitOf({band.id});
    for (const Knob& knob : job.stock.knobs) {
        if (knob.id != "guitar") {
            job.setting.knobs[knob.id] = band.position;
        }
    }
    const LinearState state = solved(job);
    double gainDb = 0.0;
    // Without the source and the output.
    for (std::size_t i = 1; i + 1 < state.stageGainDbAtCursor.size(); ++i) {
        gainDb += std::isfinite(state.stageGainDbAtCursor[i]) ? state.stageGainDbAtCursor[i] : 0.0;
    }
    EXPECT_GT(gainDb, band.lowestDb);
    EXPECT_LT(gainDb, band.highestDb);
}

INSTANTIATE_TEST_SUITE_P(Pieces, StageGainTest,
                         testing::Values(GainBand{"buffer", 5, -0.5, 0.0},           // a follower loses a little
                                         GainBand{"source-follower", 5, -1.0, 0.0},  // the same
                                         GainBand{"one-transistor", 5, 15.0, 20.0},  // Rc/Re and less
                                         GainBand{"jfet", 5, 12.0, 22.0},            // drain resistor times slope
                                         GainBand{"two-transistor", 10, 35.0, 65.0},
                                         GainBand{"valve", 5, 30.0, 38.0},  // half of mu 100 and more
                                         GainBand{"soft-clip", 0, 8.0, 20.0}, GainBand{"soft-clip", 10, 20.0, 36.0},
                                         GainBand{"hard-clip", 0, 0.0, 15.0}, GainBand{"hard-clip", 10, 25.0, 40.0},
                                         GainBand{"tone-roll", 0, -25.0, -2.0}, GainBand{"tone-roll", 10, -2.0, 0.0},
                                         GainBand{"tone-stack", 5, -22.0, -6.0}, GainBand{"tone-scoop", 5, -25.0, -6.0},
                                         GainBand{"recovery", 5, 16.0, 20.0},  // 82k over 10k is 18.3 dB
                                         GainBand{"level", 10, -1.0, 0.0},
                                         GainBand{"level", 5, -18.0, -15.0}));  // a track with 15 % at half

TEST(HouseStages, EveryStageHasABandOfGain) {
    std::set<std::string> banded{"buffer",     "source-follower", "one-transistor", "jfet",      "two-transistor",
                                 "valve",      "soft-clip",       "hard-clip",      "tone-roll", "tone-stack",
                                 "tone-scoop", "recovery",        "level"};
    const std::vector<std::string> ids = stageIds();
    EXPECT_EQ(std::set<std::string>(ids.begin(), ids.end()), banded);
}

TEST(HouseStages, EveryActivePartIsBiasedInsideItsRails) {
    for (const std::string& id : stageIds()) {
        SCOPED_TRACE(id);
        const Job job = unitOf({id});
        const auto state = solveCircuit(job.stock, job.setting);
        ASSERT_TRUE(state) << state.error().message;
        for (const Part& part : job.stock.parts) {
            const auto volts = [&](std::size_t pin) { return state->biasVolts(part.nets[pin]); };
            const std::string name = part.reference;
            switch (part.kind) {
                case PartKind::bipolar:  // forward, out of saturation: common practice, no source
                    EXPECT_GT(volts(0) - volts(2), 0.4) << name;
                    EXPECT_GT(volts(1) - volts(2), 0.5) << name;
                    EXPECT_LT(volts(1) - volts(2), 0.75) << name;
                    break;
                case PartKind::jfet:
                    EXPECT_GT(volts(0) - volts(2), 1.8) << name;  // the type's pinch-off
                    EXPECT_LT(volts(1) - volts(2), 0.0) << name;
                    EXPECT_LT(volts(0), 8.0) << name;
                    break;
                case PartKind::mosfet:
                    EXPECT_GT(volts(0) - volts(2), 3.0) << name;
                    EXPECT_GT(volts(2), 1.0) << name;
                    break;
                case PartKind::opamp:
                    EXPECT_NEAR(volts(2), 4.5, 0.4) << name;  // half of 9 V
                    break;
                case PartKind::triode:
                    EXPECT_GT(volts(0), 120.0) << name;
                    EXPECT_LT(volts(0), 220.0) << name;
                    EXPECT_GT(volts(2), 0.7) << name;
                    EXPECT_LT(volts(2), 2.5) << name;
                    break;
                default:
                    break;
            }
        }
    }
}

TEST(HouseStages, AreWrittenAsTheyAreReadAndSayWhatTheyDo) {
    for (const HouseStageText& text : houseStageTexts()) {
        const Result<StagePiece> piece = readStagePiece(text.text);
        ASSERT_TRUE(piece) << text.id << ": " << piece.error().message;
        EXPECT_EQ(writeStagePiece(*piece), text.text) << text.id;
        EXPECT_FALSE(piece->name.empty()) << text.id;
        EXPECT_GT(piece->does.size(), 15U) << text.id;
        for (const Model& model : piece->circuit.models) {
            EXPECT_FALSE(model.source.empty()) << text.id << " " << model.name;
        }
        for (const Part& part : piece->circuit.parts) {
            EXPECT_TRUE(part.printed.empty() && part.boardNote.empty() && part.knowledge == Knowledge::drawn);
        }
    }
}

// ---- Together ------------------------------------------------------------------------------------------------

TEST(JoinUnit, EveryOrderedPairIsSolved) {
    int pairs = 0;
    for (const std::string& first : stageIds()) {
        for (const std::string& second : stageIds()) {
            if (const Result<Circuit> circuit = joinedUnit({first, second})) {
                const Job job = jobOfUnit(*circuit, "");
                const auto state = measureLinear(job.stock, job.setting, {20.0, 20000.0, 10, 1000.0});
                EXPECT_TRUE(state) << first << ", " << second << ": " << state.error().message;
                ++pairs;
            } else {
                // Only a valve and a battery stage do not go together.
                EXPECT_NE(circuit.error().message.find("250 V"), std::string::npos) << first << ", " << second;
            }
        }
    }
    EXPECT_GT(pairs, 100);
}

TEST(JoinUnit, TwoHundredRandomChainsAreSolved) {
    std::mt19937 random(42);
    const std::vector<std::string> ids = stageIds();
    int made = 0;
    while (made < 200) {
        std::vector<std::string> stages;
        std::string what;
        for (std::size_t left = 1 + random() % 6; left > 0; --left) {
            stages.push_back(ids[random() % ids.size()]);
            what.append(stages.back()).append(" ");
        }
        if (const Result<Circuit> circuit = joinedUnit(stages)) {
            const Job job = jobOfUnit(*circuit, what);
            const auto state = solveCircuit(job.stock, job.setting);
            EXPECT_TRUE(state) << what << ": " << state.error().message;
            const Result<Job> back = readJob(writeJob(job));
            ASSERT_TRUE(back) << what << ": " << back.error().message;
            EXPECT_EQ(*back, job) << what;
            ++made;
        }
    }
}

TEST(JoinUnit, TakesTheSmallestSupplyThatGivesTheRails) {
    EXPECT_TRUE(unitOf({"level"}).stock.ports.battery.empty());
    EXPECT_FALSE(usesNet(unitOf({"one-transistor"}).stock, halfRail));
    EXPECT_TRUE(usesNet(unitOf({"one-transistor", "buffer"}).stock, halfRail));
    const Job valve = unitOf({"valve", "tone-stack", "level"});
    EXPECT_NEAR(valve.setting.batteryVolts, 269.4, 1e-9);  // the demo Night Ferry's supply before its resistor
    EXPECT_EQ(unitOf({"jfet"}).setting.batteryVolts, 9.0);
    EXPECT_EQ(unitOf({"jfet"}).setting.loadOhms, 1e6);
    EXPECT_EQ(unitOf({"jfet"}).setting.knobs.at("guitar"), 10.0);
}

TEST(JoinUnit, AUnitOfStagesCanBePlannedOn) {
    Job job = unitOf({"one-transistor", "tone-roll"});
    const LinearState stock = solved(job);
    const Part* emitter = findPartByReference(job.stock, "R4");
    ASSERT_NE(emitter, nullptr);
    ASSERT_EQ(emitter->function, "Re");
    const Result<Job> planned = addMod(job, SwapValue{emitter->id, 620.0});
    ASSERT_TRUE(planned) << planned.error().message;
    const Result<Circuit> now = applyPlan(planned->stock, planned->plan);
    ASSERT_TRUE(now) << now.error().message;
    const Result<LinearState> state = measureLinear(*now, planned->setting, {});
    ASSERT_TRUE(state) << state.error().message;
    EXPECT_EQ(state->response.hz.size(), state->response.gainDb.size());
    EXPECT_GT(state->response.gainDb.size(), 100U);
    // Rc/(Re + 26 mV/Ic): from 820 + 40 to 620 + 30 is 2.5 dB, less what the collector's own conductance takes.
    const double change = state->responseDbAtCursor - measureLinear(job.stock, job.setting, {})->responseDbAtCursor;
    EXPECT_GT(change, 1.5);
    EXPECT_LT(change, 2.6);
    EXPECT_EQ(stock.stageGainDbAtCursor.size(), 4U);
}

// ---- The shop's own ------------------------------------------------------------------------------------------

TEST(StagesToChoose, TheShopsOwnFollowTheHousesAndADamagedOneIsTold) {
    const TemporaryFolder shop;
    StagePiece own = houseStage("soft-clip");
    own.name = "Pier clip";
    ASSERT_TRUE(saveStagePiece(own, shop.path()));
    shop.write("stages/broken.json", "{");
    const std::vector<ShelfStage> stages = stagesToChoose(shop.path());
    ASSERT_EQ(stages.size(), stageIds().size() + 2);
    EXPECT_TRUE(stages.front().isOfHouse);
    const ShelfStage& broken = stages[stages.size() - 2];
    EXPECT_EQ(broken.id, "broken");
    EXPECT_FALSE(broken.piece);
    EXPECT_NE(broken.fault.find("broken.json"), std::string::npos) << broken.fault;
    EXPECT_EQ(stages.back().piece, own);
    EXPECT_FALSE(stages.back().isOfHouse);
    EXPECT_EQ(shop.read("stages/broken.json"), "{");
    EXPECT_EQ(stagesToChoose(shop.path() / "nowhere").size(), stageIds().size());
}

}  // namespace
}  // namespace ohmwright::test

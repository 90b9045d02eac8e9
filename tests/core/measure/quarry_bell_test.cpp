// The demo Quarry Bell as a job: its files, its netlist, and its figures in stock and plan.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/demo_job_bench.h"
#include "tests/support/demo_job_files.h"

namespace ohmwright {
namespace {

TEST(QuarryBell, ItsFilesAreSoundAndOfOneMake) {
    test::expectSoundFiles("quarry-bell", "hard-clip-distortion");
}

TEST(QuarryBell, IsItsNetlistPartForPart) {
    test::expectNetlistOf("quarry-bell");
}

TEST(QuarryBell, EveryFigureOfTheJobIsThatOfTheReference) {
    // The throws of the switch that the plan has; the other diode pairs of the tables are compared on netlists.
    const test::DemoJobNames names{.states = {{"none", "D/open"}}, .nets = {}};
    int compared = 0;
    for (const auto& [figure, rows] : test::DemoJobBench("quarry-bell", names).compareAll()) {
        compared += rows;
    }
    EXPECT_EQ(compared, 350);  // rows of demos/figures.csv, so that none falls out of the comparison unseen
}

}  // namespace
}  // namespace ohmwright

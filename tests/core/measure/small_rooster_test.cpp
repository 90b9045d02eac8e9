// The demo Small Rooster as a job: its files, its netlist, and its figures in stock and plan, with other current gains
// and a flat battery.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/demo_job_bench.h"
#include "tests/support/demo_job_files.h"

namespace ohmwright {
namespace {

TEST(SmallRooster, ItsFilesAreSoundAndOfOneMake) {
    test::expectSoundFiles("small-rooster", "one-transistor-booster");
}

TEST(SmallRooster, IsItsNetlistPartForPart) {
    test::expectNetlistOf("small-rooster");
}

TEST(SmallRooster, EveryFigureOfTheJobIsThatOfTheReference) {
    const test::DemoJobNames names{.states = {}, .nets = {{"x", "C4.2 to R6"}}};
    int compared = 0;
    for (const auto& [figure, rows] : test::DemoJobBench("small-rooster", names).compareAll()) {
        compared += rows;
    }
    EXPECT_EQ(compared, 286);  // rows of demos/figures.csv, so that none falls out of the comparison unseen
}

}  // namespace
}  // namespace ohmwright

// The demo Night Ferry as a job: its files, its netlist, and its figures in stock and its plans.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/demo_job_bench.h"
#include "tests/support/demo_job_files.h"

namespace ohmwright {
namespace {

TEST(NightFerry, ItsFilesAreSoundAndOfOneMake) {
    test::expectSoundFiles("night-ferry", "valve-preamp");
}

TEST(NightFerry, IsItsNetlistPartForPart) {
    test::expectNetlistOf("night-ferry");
}

TEST(NightFerry, EveryFigureOfTheJobIsThatOfTheReference) {
    int compared = 0;
    for (const auto& [figure, rows] : test::DemoJobBench("night-ferry").compareAll()) {
        compared += rows;
    }
    EXPECT_EQ(compared, 234);  // rows of demos/figures.csv, so that none falls out of the comparison unseen
}

}  // namespace
}  // namespace ohmwright

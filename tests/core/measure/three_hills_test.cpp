// The demo Three Hills as a job: its files, its netlist, and its figures in stock and its plans.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/demo_job_bench.h"
#include "tests/support/demo_job_files.h"

namespace ohmwright {
namespace {

TEST(ThreeHills, ItsFilesAreSoundAndOfOneMake) {
    test::expectSoundFiles("three-hills", "passive-tone-network");
}

TEST(ThreeHills, IsItsNetlistPartForPart) {
    test::expectNetlistOf("three-hills");
}

TEST(ThreeHills, EveryFigureOfTheJobIsThatOfTheReference) {
    int compared = 0;
    for (const auto& [figure, rows] : test::DemoJobBench("three-hills").compareAll()) {
        compared += rows;
    }
    EXPECT_EQ(compared, 455);  // rows of demos/figures.csv, so that none falls out of the comparison unseen
}

}  // namespace
}  // namespace ohmwright

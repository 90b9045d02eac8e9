// The demo Moss Engine as a job: its files, its netlist, and its figures in stock and plan, with other transistors, at
// other guitar volumes and with a flat battery.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/demo_job_bench.h"
#include "tests/support/demo_job_files.h"

namespace ohmwright {
namespace {

TEST(MossEngine, ItsFilesAreSoundAndOfOneMake) {
    test::expectSoundFiles("moss-engine", "two-transistor-fuzz");
}

TEST(MossEngine, IsItsNetlistPartForPart) {
    test::expectNetlistOf("moss-engine");
}

TEST(MossEngine, EveryFigureOfTheJobIsThatOfTheReference) {
    const test::DemoJobNames names{.states = {}, .nets = {{"ir", "C1.2 to R6"}}};
    int compared = 0;
    for (const auto& [figure, rows] : test::DemoJobBench("moss-engine", names).compareAll()) {
        compared += rows;
    }
    EXPECT_EQ(compared, 336);  // rows of demos/figures.csv, so that none falls out of the comparison unseen
}

}  // namespace
}  // namespace ohmwright

// The demo Paper Boat as a job: its files, its netlist, and its figures in stock and all its plans, the other
// devices of the type, other drain resistors.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/demo_job_bench.h"
#include "tests/support/demo_job_files.h"

namespace ohmwright {
namespace {

TEST(PaperBoat, ItsFilesAreSoundAndOfOneMake) {
    test::expectSoundFiles("paper-boat", "jfet-preamp");
}

TEST(PaperBoat, IsItsNetlistPartForPart) {
    test::expectNetlistOf("paper-boat");
}

TEST(PaperBoat, EveryFigureOfTheJobIsThatOfTheReference) {
    int compared = 0;
    for (const auto& [figure, rows] : test::DemoJobBench("paper-boat").compareAll()) {
        compared += rows;
    }
    EXPECT_EQ(compared, 344);  // rows of demos/figures.csv, so that none falls out of the comparison unseen
}

}  // namespace
}  // namespace ohmwright

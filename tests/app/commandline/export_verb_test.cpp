// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/commandline/called.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using test::answered;
using test::numberIn;
using test::rowsOf;
using test::rowWith;
using testing::HasSubstr;

const std::string job = test::harbourLampPath();

TEST(ExportVerb, TheNetlistOfAJobHasTheJobsFigures) {
    const test::ScratchFolder folder;
    const std::string file = folder.path("now.cir");
    EXPECT_EQ(answered({"export", job, "--variant", "now", "--out", file}), "");
    const std::vector<std::string> at = {"--at", "82.41,330,1k,5k"};
    const auto ofNetlist = rowsOf(test::call({"response", file, at[0], at[1]}).out);
    const auto ofJob = rowsOf(answered({"response", job, at[0], at[1], "--variant", "now"}));
    ASSERT_EQ(ofNetlist.size(), 4U);
    for (std::size_t k = 0; k < 4; ++k) {
        EXPECT_NEAR(numberIn(ofNetlist[k], "magnitude_db"), numberIn(ofJob[k], "magnitude_db"), 1e-4);
        EXPECT_NEAR(numberIn(ofNetlist[k], "phase_deg"), numberIn(ofJob[k], "phase_deg"), 1e-3);
    }
    const auto bias = rowsOf(test::call({"bias", file}).out);
    for (const test::CsvRow& node : rowsOf(answered({"bias", job, "--variant", "now"})))
        EXPECT_NEAR(numberIn(rowWith(bias, "node", node.at("node")), "voltage_v"), numberIn(node, "voltage_v"), 1e-5);
}

TEST(ExportVerb, TheCallsKnobsAreInTheNetlist) {
    const test::ScratchFolder folder;
    const std::string file = folder.path("low.cir");
    EXPECT_EQ(answered({"export", job, "--set", "drive=1", "--set", "battery=7.2", "--out", file}), "");
    const auto ofNetlist = rowsOf(test::call({"response", file, "--at", "1k"}).out);
    const auto ofJob = rowsOf(answered({"response", job, "--at", "1k", "--set", "drive=1", "--set", "battery=7.2"}));
    EXPECT_NEAR(numberIn(ofNetlist.at(0), "magnitude_db"), numberIn(ofJob.at(0), "magnitude_db"), 1e-4);
}

TEST(ExportVerb, UnaskedItIsStockOnStandardOutput) {
    EXPECT_EQ(answered({"export", job}), answered({"export", job, "--variant", "stock"}));
    EXPECT_NE(answered({"export", job}), answered({"export", job, "--variant", "now"}));
    EXPECT_THAT(answered({"export", job}), HasSubstr(".end"));
}

TEST(ExportVerb, ANetlistComesBackNormalised) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("called.cir", test::netlists::called);
    const std::string copy = folder.path("copy.cir");
    EXPECT_EQ(answered({"export", file, "--out", copy}), "");
    EXPECT_EQ(answered({"response", copy, "--at", "1k"}), answered({"response", file, "--at", "1k"}));
}

TEST(ExportVerb, TheFileThatIsReadIsNotWritten) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("divider.cir", test::netlists::divider);
    EXPECT_THAT(test::refused({"export", file, "--out", file}, ExitStatus::callWrong), HasSubstr("--out"));
    EXPECT_EQ(test::bytesOf(file), test::netlists::divider);
}

}  // namespace
}  // namespace ohmwright

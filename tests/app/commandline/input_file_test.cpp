// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/input_file.h"

#include "tests/app/commandline/called.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sys/stat.h>

namespace ohmwright {
namespace {

using test::refused;
using testing::HasSubstr;
using testing::StartsWith;

bool isJob(const Result<InputFile>& file) {
    EXPECT_TRUE(file) << (file ? "" : file.error().message);
    return file && std::holds_alternative<Job>(*file);
}

TEST(InputFile, TheNameSaysWhatItIsAndElseTheContent) {
    const test::ScratchFolder folder;
    const std::string jobText = test::bytesOf(test::harbourLampPath());
    for (const char* name : {"a.ohmjob", "b.OhmJob", "c.json", "d"})
        EXPECT_TRUE(isJob(readInputFile(folder.write(name, jobText)))) << name;
    for (const char* name : {"a.cir", "B.CIR", "c.net", "d.txt", "e"})
        EXPECT_FALSE(isJob(readInputFile(folder.write(name, test::netlists::divider)))) << name;
}

TEST(InputFile, WhatCannotBeReadIsNamed) {
    const test::ScratchFolder folder;
    const std::string missing = folder.path("missing.cir");
    EXPECT_THAT(refused({"bias", missing}, ExitStatus::fileWrong), HasSubstr(missing));
    EXPECT_THAT(refused({"bias", folder.path("")}, ExitStatus::fileWrong), HasSubstr(folder.path("")));
    refused({"bias", ""}, ExitStatus::fileWrong);
    const std::string pipe = folder.path("pipe.cir");  // Nobody writes into it: reading it would wait for ever.
    ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
    EXPECT_THAT(refused({"bias", pipe}, ExitStatus::fileWrong), HasSubstr(pipe));
    for (const char* name : {"empty.cir", "empty.ohmjob", "empty"}) {
        const std::string empty = folder.write(name, "");
        EXPECT_THAT(refused({"bias", empty}, ExitStatus::fileWrong), StartsWith(empty + ":")) << name;
    }
    const std::string binary = folder.write("binary.cir", std::string("\x7f"
                                                                      "ELF\0\0\1\2\xff\xfe",
                                                                      10));
    EXPECT_THAT(refused({"bias", binary}, ExitStatus::fileWrong), StartsWith(binary + ":"));
}

TEST(InputFile, AFaultOfTheFileBeginsWithFileAndLine) {
    const test::ScratchFolder folder;
    const struct {
        const char* text;
        int line;
    } faults[] = {
        {"title\nR1 a 0 4k7\n.end\n", 2},
        {"title\nV1 a 0 1\nR1 a 0 0x10\n.end\n", 3},
        {"title\nV1 a 0 1\nR1 a 0 4,7k\n.end\n", 3},
        {"title\nV1 a 0 1\nR1 a 0 -5\n.end\n", 3},
        {"title\nV1 a 0 1\nQ1 a b c NPNX\n.end\n", 3},
        {"title\nV1 a 0 1\nX1 a 0 NOSUCH\n.end\n", 3},
        {"title\n.include other.cir\n.end\n", 2},
        {"title\nV1 a 0 1\nR1 a 0 1k\nR1 a 0 2k\n.end\n", 4},
    };
    for (const auto& [text, line] : faults) {
        const std::string file = folder.write("fault.cir", text);
        EXPECT_THAT(refused({"bias", file}, ExitStatus::fileWrong),
                    StartsWith(file + ":" + std::to_string(line) + ": "))
            << text;
    }
}

TEST(InputFile, ASentenceIsPutBehindFileAndLineOnce) {
    EXPECT_EQ(inFile("a.cir", {ErrorCode::fileDamaged, "line 12: R5 has no value.", "line 12"}),
              "a.cir:12: R5 has no value.");
    EXPECT_EQ(inFile("a.ohmjob", {ErrorCode::fileDamaged, "A bracket is missing.", "line 7"}),
              "a.ohmjob:7: A bracket is missing.");
    EXPECT_EQ(inFile("a.ohmjob", {ErrorCode::fileDamaged, "No plan.", "/plan"}), "a.ohmjob: No plan.");
}

}  // namespace
}  // namespace ohmwright

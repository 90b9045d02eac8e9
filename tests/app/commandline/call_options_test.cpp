// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/call_options.h"

#include "tests/app/commandline/called.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

namespace ohmwright {
namespace {

using testing::HasSubstr;

std::vector<std::string> wordsOf(const std::string& line) {
    std::istringstream words(line);
    std::vector<std::string> args;
    for (std::string word; words >> word;) args.push_back(word == "''" ? std::string() : word);
    return args;
}

/// A call with NET or JOB for the file, and a word that its message must have.
struct WrongCall {
    const char* call;
    const char* word;
};

constexpr WrongCall wrongCalls[] = {
    {"", "response"},
    {"--frob", "verb"},
    {"frob NET", "no verb"},
    {"Response NET", "no verb"},
    {"response", "FILE"},
    {"response NET NET", "NET"},
    {"response NET --frob", "--frob"},
    {"response NET --from", "--from"},
    {"response NET --from ''", "--from"},
    {"response NET --from x", "--from"},
    {"response NET --from 0", "--from"},
    {"response NET --from -20", "--from"},
    {"response NET --from nan", "--from"},
    {"response NET --from inf", "--from"},
    {"response NET --from 1e-300", "1 µHz"},
    {"response NET --to 1e300", "1 THz"},
    {"response NET --to 1e999", "--to"},
    {"response NET --to 10", "20"},
    {"response NET --from 1k --to 100", "--from"},
    {"response NET --from 100 --from 200", "--from"},
    {"response NET --per-decade 0", "1 to"},
    {"response NET --per-decade -5", "1 to"},
    {"response NET --per-decade 2.5", "whole number"},
    {"response NET --per-decade 1e9", "whole number"},
    {"response NET --per-decade 100000", "200000"},
    {"response NET --at ''", "--at"},
    {"response NET --at 0", "--at"},
    {"response NET --at 100,", "--at"},
    {"response NET --at 100,,200", "--at"},
    {"response NET --at 100,abc", "abc"},
    {"response NET --at 100 --from 20", "--at"},
    {"response NET --tone 100", "--tone"},
    {"response NET --input V9", "V9"},
    {"response NET --input R1", "R1"},
    {"response NET --output nowhere", "nowhere"},
    {"response NET --output 0", "round"},
    {"response NET --output ''", "--output"},
    {"response NET --set drive=3", "--set"},
    {"response NET --variant now", "--variant"},
    {"response NET --temperature warm", "--temperature"},
    {"response NET --temperature -300", "−50 to 125"},
    {"response NET --temperature 1000", "−50 to 125"},
    {"response NET --temperature nan", "--temperature"},
    {"response NET --format xml", "xml"},
    {"response NET --format ''", "--format"},
    {"response NET --out ''", "--out"},
    {"bias NET --at 100", "--at"},
    {"bias NET --output nowhere", "nowhere"},
    {"noise NET --from 0", "--from"},
    {"noise NET --variant stock", "--variant"},
    {"waveform NET", "--tone"},
    {"waveform NET --tone 100", "--level"},
    {"waveform NET --level 1", "--tone"},
    {"waveform NET --tone 0 --level 1", "0.001 Hz"},
    {"waveform NET --tone -100 --level 1", "0.001 Hz"},
    {"waveform NET --tone 1e12 --level 1", "1 GHz"},
    {"waveform NET --tone 100 --level -1", "1000 V"},
    {"waveform NET --tone 100 --level 1e6", "1000 V"},
    {"waveform NET --tone 100 --level 1x", "--level"},
    {"waveform NET --tone 100 --level 1 --periods 0", "--periods"},
    {"waveform NET --tone 100 --level 1 --periods 1.5", "--periods"},
    {"waveform NET --tone 100 --level 1 --periods 1000000000", "--periods"},
    {"waveform NET --tone 100 --level 1 --rate 0", "--rate"},
    {"waveform NET --tone 100 --level 1 --rate -48000", "--rate"},
    {"waveform NET --tone 1 --level 1 --periods 1000", "1000000 samples"},
    {"waveform NET --tone 1 --level 1 --cold --rate 1 --periods 1000000", "--periods"},
    {"waveform NET --tone 100 --level 1 --cold --settled", "--cold"},
    {"waveform NET --tone 100 --level 1 --count 3", "--count"},
    {"harmonics NET --tone 100 --level 0", "--level"},
    {"harmonics NET --tone 100 --level 1 --count 0", "--count"},
    {"harmonics NET --tone 100 --level 1 --count 1000", "200"},
    {"harmonics NET --tone 100 --level 1 --count many", "--count"},
    {"harmonics NET --tone 100 --level 1 --cold", "--cold"},
    {"transfer NET --from 1 --to 1", "--from"},
    {"transfer NET --from 1 --to -1", "--from"},
    {"transfer NET --from -1e9", "1000 V"},
    {"transfer NET --points 1", "--points"},
    {"transfer NET --points 1e6", "--points"},
    {"transfer NET --per-decade 10", "--per-decade"},
    {"poles NET --at 100", "--at"},
    {"influence NET", "--at"},
    {"influence NET --at 1,2", "one frequency"},
    {"influence NET --at 0", "--at"},
    {"impedance NET --side left", "left"},
    {"impedance NET --from 0", "--from"},
    {"ladder NET", "--tone"},
    {"ladder NET --tone 100 --from 0", "--from"},
    {"ladder NET --tone 100 --from 1 --to 0.1", "--from"},
    {"ladder NET --tone 100 --points 0", "--points"},
    {"ladder NET --tone 100 --level 1", "--level"},
    {"two-tone NET --level 1", "--tones"},
    {"two-tone NET --tones 100 --level 1", "two frequencies"},
    {"two-tone NET --tones 100,200,300 --level 1", "two frequencies"},
    {"two-tone NET --tones 100,100 --level 1", "differ"},
    {"two-tone NET --tones 100,0 --level 1", "--tones"},
    {"two-tone NET --tones 100,200", "--level"},
    {"two-tone NET --tones 100,200 --level 0", "--level"},
    {"two-tone NET --tones 100,200 --level 1 --order 99", "--order"},
    {"figures NET", "jobs"},
    {"sheet NET --kind bench --out sheet.pdf", "jobs"},
    {"sheet JOB --kind bench", "--out"},
    {"sheet JOB --kind invoice --out sheet.pdf", "bench"},
    {"check NET --at 100", "--at"},
    {"export NET --variant now", "--variant"},
    {"export JOB --variant Z", "A, B, C, D"},
    {"export JOB --format csv", "--format"},
    {"response JOB --variant ''", "--variant"},
    {"response JOB --variant Q", "A, B, C, D"},
    {"response JOB --set drive", "NAME=VALUE"},
    {"response JOB --set drive=12", "0 to 10"},
    {"response JOB --set nothing=1", "drive"},
    {"response JOB --set source=tape", "pickup or jack"},
    {"response JOB --input C4", "C4"},
    {"response JOB --output nowhere", "nowhere"},
};

TEST(CallOptions, EveryWrongCallIsToldInAFewWords) {
    const test::ScratchFolder folder;
    const std::string netlist = folder.write("NET.cir", test::netlists::lowPass);
    for (const WrongCall& wrong : wrongCalls) {
        std::vector<std::string> args = wordsOf(wrong.call);
        for (std::string& arg : args) {
            if (arg == "NET") arg = netlist;
            if (arg == "JOB") arg = test::harbourLampPath();
            if (arg == "sheet.pdf") arg = folder.path(arg);
        }
        EXPECT_THAT(test::refused(args, ExitStatus::callWrong), HasSubstr(wrong.word)) << wrong.call;
    }
}

TEST(CallOptions, TwoSourcesWithAnAcValueNeedTheChoice) {
    const test::ScratchFolder folder;
    const std::string file =
        folder.write("two.cir", "two inputs\nV1 a 0 AC 1\nV2 b 0 AC 1\nR1 a out 1k\nR2 b out 1k\n.end\n");
    const std::string why = test::refused({"response", file, "--at", "1k"}, ExitStatus::callWrong);
    for (const char* word : {"--input", "V1", "V2"}) EXPECT_THAT(why, HasSubstr(word));
    test::answered({"response", file, "--at", "1k", "--input", "v2"});
}

TEST(CallOptions, TheHelpSaysTheDefaults) {
    const struct {
        const char* verb;
        std::vector<const char*> words;
    } told[] = {
        {"response", {"--from", "20", "20000", "100", "--at", "--input", "--output", "--temperature", "27"}},
        {"waveform", {"default 1", "48000", "256", "--cold", "--settled"}},
        {"harmonics", {"default 9"}},
        {"transfer", {"401", "1 V under", "1 V over"}},
        {"ladder", {"401", "1 mV", "1 V"}},
        {"two-tone", {"default 5"}},
        {"impedance", {"--side", "in"}},
        {"export", {"--variant", "stock"}},
    };
    for (const auto& [verb, words] : told) {
        const std::string help = test::answered({verb, "--help"});
        for (const char* word : words) EXPECT_THAT(help, HasSubstr(word)) << verb;
    }
}

TEST(CallOptions, ACallIsReadIntoItsRequest) {
    const auto read = readCall({"ladder", "x.cir", "--tone", "1k", "--points=7", "--format", "json"});
    ASSERT_TRUE(read);
    const auto* call = std::get_if<ReadCall>(&*read);
    ASSERT_NE(call, nullptr);
    EXPECT_EQ(call->verb, "ladder");
    EXPECT_EQ(call->request.file, "x.cir");
    EXPECT_EQ(call->request.tone, "1k");
    EXPECT_EQ(call->request.points, "7");
    EXPECT_EQ(call->request.format, "json");
}

}  // namespace
}  // namespace ohmwright

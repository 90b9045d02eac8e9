// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/command_line.h"

#include "tests/app/commandline/called.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

namespace ohmwright {
namespace {

using test::answered;
using test::call;
using test::refused;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

const std::string job = test::harbourLampPath();

TEST(CommandLine, HelpNamesEveryVerbAndStatus) {
    const std::string help = answered({"--help"});
    for (const char* word : {"response", "bias", "waveform", "harmonics", "noise", "transfer", "poles", "influence",
                             "impedance", "ladder", "two-tone", "export", "figures", "check", "sheet", "Exit status"})
        EXPECT_THAT(help, HasSubstr(word));
    const std::string verbHelp = answered({"waveform", "--help"});
    for (const char* word : {"--tone", "--level", "--cold", "--settled", "--rate", "48000", "--set", "--variant"})
        EXPECT_THAT(verbHelp, HasSubstr(word));
}

TEST(CommandLine, VersionIsOneLine) {
    EXPECT_THAT(answered({"--version"}), testing::MatchesRegex("ohmwright-cli [0-9]+\\.[0-9]+\\.[0-9]+\n"));
}

TEST(CommandLine, ACallThatIsWrongSaysWhatToDo) {
    EXPECT_THAT(refused({}, ExitStatus::callWrong), HasSubstr("response"));
    EXPECT_THAT(refused({"frob", job}, ExitStatus::callWrong), HasSubstr("no verb “frob”"));
    EXPECT_THAT(refused({"response"}, ExitStatus::callWrong), HasSubstr("FILE"));
    EXPECT_THAT(refused({"response", job, "--frob"}, ExitStatus::callWrong), HasSubstr("--frob"));
    EXPECT_THAT(refused({"response", job, "--format", "xml"}, ExitStatus::callWrong), HasSubstr("xml"));
    EXPECT_THAT(refused({"response", job, "extra"}, ExitStatus::callWrong), HasSubstr("extra"));
    EXPECT_THAT(refused({"response", job, "--variant", "X"}, ExitStatus::callWrong), HasSubstr("A, B, C, D"));
    EXPECT_THAT(refused({"response", job, "--set", "foo=1"}, ExitStatus::callWrong), HasSubstr("drive"));
}

TEST(CommandLine, AFileThatCannotBeReadIsNamed) {
    EXPECT_THAT(refused({"response", "/no/such.ohmjob"}, ExitStatus::fileWrong), HasSubstr("/no/such.ohmjob"));
    refused({"response", "/"}, ExitStatus::fileWrong);
    refused({"response", ""}, ExitStatus::fileWrong);
}

TEST(CommandLine, ANetlistThatCannotBeSolvedNamesTheNode) {
    const test::ScratchFolder folder;
    const std::string file =
        folder.write("adrift.cir", "adrift\nVIN in 0 AC 1\nR1 in 0 1k\nC1 in out 1n\nC2 out 0 1n\n.end\n");
    for (const char* verb : {"bias", "response", "noise", "poles"})
        EXPECT_THAT(refused({verb, file}, ExitStatus::unsolvable), HasSubstr("out")) << verb;
}

TEST(CommandLine, EveryVerbAnswersOnANetlistInBothFormats) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("low.cir", test::netlists::lowPass);
    const std::vector<std::vector<std::string>> calls = {
        {"response"},
        {"bias"},
        {"noise"},
        {"waveform", "--tone", "1k", "--level", "1"},
        {"harmonics", "--tone", "1k", "--level", "1"},
        {"transfer"},
        {"poles"},
        {"influence", "--at", "1k"},
        {"impedance"},
        {"ladder", "--tone", "1k", "--points", "5"},
        {"two-tone", "--tones", "1k,2k", "--level", "1"},
        {"check"},
    };
    const std::vector<std::string> columns = {"frequency_hz,magnitude_db,phase_deg",
                                              "node,voltage_v",
                                              "frequency_hz,output_v_per_rthz,input_referred_v_per_rthz",
                                              "time_s,input_v,output_v",
                                              "harmonic,amplitude_v_peak,level_db_re_fundamental,phase_deg",
                                              "input_v,output_v",
                                              "kind,real_hz,imag_hz",
                                              "part,db_per_ten_percent",
                                              "frequency_hz,magnitude_ohm,phase_deg",
                                              "input_v_peak,output_v_rms,fundamental_v_peak,peak_pos_v,peak_neg_v,"
                                              "slope_db_per_db",
                                              "frequency_hz,level_db_re_first_tone",
                                              "severity,place,message"};
    for (std::size_t k = 0; k < calls.size(); ++k) {
        std::vector<std::string> args = calls[k];
        args.insert(args.begin() + 1, file);
        const std::string csv = answered(args);
        EXPECT_THAT(csv, StartsWith(columns[k] + "\n"));
        EXPECT_THAT(csv, testing::AllOf(Not(HasSubstr("nan")), Not(HasSubstr("inf"))));
        args.insert(args.end(), {"--format", "json"});
        EXPECT_THAT(answered(args), StartsWith("{\n  \"" + columns[k].substr(0, columns[k].find(',')) + "\": ["));
    }
}

TEST(CommandLine, ANetlistsNotesStandBesideTheAnswer) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("milli.cir", "milli\nVIN in 0 AC 1\nR1 in out 1M\nR2 out 0 1k\n.end\n");
    const test::Called called = call({"response", file, "--at", "1k"});
    EXPECT_EQ(called.status, ExitStatus::answered);
    EXPECT_THAT(called.out, StartsWith("frequency_hz"));
    EXPECT_THAT(called.err, StartsWith(file + ":3: note: "));
}

TEST(CommandLine, ADamagedFileIsNamedWithItsLine) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("bad.ohmjob", "{\n  \"format\": \"ohmwright-job\",\n  oops\n}\n");
    EXPECT_THAT(refused({"figures", file}, ExitStatus::fileWrong), HasSubstr(file + ":3: "));
    const std::string text = test::bytesOf(job);
    const std::string half = folder.write("half.ohmjob", text.substr(0, text.size() / 2));
    EXPECT_THAT(refused({"bias", half}, ExitStatus::fileWrong), HasSubstr(half + ":"));
}

TEST(CommandLine, ANewerFileIsRefused) {
    const test::ScratchFolder folder;
    const std::string newer = test::changedDemo(folder, "\"version\": 1", "\"version\": 99");
    EXPECT_THAT(refused({"bias", newer}, ExitStatus::fileWrong), HasSubstr("99"));
}

TEST(CommandLine, ASettingOutOfRangeIsTheFilesFaultOrTheCalls) {
    // A drive of 12 in the file once ended with the status of a wrong call.
    const test::ScratchFolder folder;
    Job wild = test::harbourLamp();
    wild.setting.knobs["drive"] = 12.0;
    const std::string file = folder.write("wild.ohmjob", writeJob(wild));
    EXPECT_THAT(refused({"bias", file}, ExitStatus::fileWrong), HasSubstr("Drive"));
    refused({"bias", test::harbourLampPath(), "--set", "drive=12"}, ExitStatus::callWrong);
}

TEST(CommandLine, ASilentOutputHasNoHarmonics) {
    // With the output capacitor lifted, rounding once came out as harmonics and a distortion of 529 %.
    const test::ScratchFolder folder;
    Job silent = test::harbourLamp();
    silent.plan = {{"mod-x", "X", "", Lift{"c9", 1}, true}};
    const std::string file = folder.write("silent.ohmjob", writeJob(silent));
    EXPECT_THAT(
        refused({"harmonics", file, "--tone", "220", "--level", "0.1", "--variant", "now"}, ExitStatus::unsolvable),
        HasSubstr("No signal"));
}

TEST(CommandLine, ACircuitWithoutAnAnswerNamesThePlace) {
    const test::ScratchFolder folder;
    Job broken = test::harbourLamp();
    findPart(broken.stock, "r5")->nets = {"adrift", "nowhere"};
    const std::string file = folder.write("broken.ohmjob", writeJob(broken));
    for (const char* verb : {"bias", "response", "figures"})
        EXPECT_THAT(refused({verb, file}, ExitStatus::unsolvable), HasSubstr("Net leg")) << verb;
}

TEST(CommandLine, JsonHoldsWhatTheCsvHolds) {
    const std::string json = answered({"harmonics", job, "--tone", "220", "--level", "0.1", "--format", "json"});
    EXPECT_THAT(json, StartsWith("{"));
    for (const char* column : {"harmonic", "amplitude_v_peak", "level_db_re_fundamental", "phase_deg", "thd_percent"})
        EXPECT_THAT(json, HasSubstr("\"" + std::string(column) + "\": "));
}

TEST(CommandLine, AnAnswerCanGoToAFile) {
    const test::ScratchFolder folder;
    const std::string file = folder.path("answer.csv");
    EXPECT_EQ(answered({"response", job, "--at", "1000", "--out", file}), "");
    EXPECT_EQ(test::bytesOf(file), answered({"response", job, "--at", "1000"}));
    refused({"response", job, "--out", folder.path("no/folder/answer.csv")}, ExitStatus::fileWrong);
}

TEST(CommandLine, AnOutputThatTakesNothingIsReported) {
    std::ostringstream out;
    out.setstate(std::ios::badbit);
    std::ostringstream err;
    EXPECT_EQ(runCommandLine({"bias", job}, out, err), ExitStatus::fileWrong);
    EXPECT_THAT(err.str(), HasSubstr("standard output"));
}

TEST(CommandLine, SettingsOfTheCallChangeTheFigures) {
    const std::string asInFile = answered({"response", job, "--at", "330"});
    EXPECT_EQ(answered({"response", job, "--at", "330", "--set", "drive=5", "--set", "guitar=10"}), asInFile);
    EXPECT_NE(answered({"response", job, "--at", "330", "--set", "drive=8"}), asInFile);
    EXPECT_NE(answered({"response", job, "--at", "330", "--temperature", "-10"}), asInFile);
}

TEST(CommandLine, TheJobFileIsNeverWritten) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("job.ohmjob", test::bytesOf(job));
    call({"figures", file, "--set", "drive=2", "--variant", "ABCD"});
    call({"check", file});
    EXPECT_EQ(test::bytesOf(file), test::bytesOf(job));
}

/// Random cuts, changed bytes and doubled pieces of the demo: an answer or one to five lines, always.
TEST(CommandLine, ABrokenFileNeverCrashes) {
    const test::ScratchFolder folder;
    const std::string sound = test::bytesOf(job);
    std::mt19937 random(3);
    const auto upTo = [&random](std::size_t most) {
        return std::uniform_int_distribution<std::size_t>(0, most)(random);
    };
    for (int n = 0; n < 150; ++n) {
        std::string text = sound;
        switch (n % 3) {
            case 0:
                text.resize(upTo(text.size()));
                break;
            case 1:
                for (int k = 0; k < 4; ++k) text[upTo(text.size() - 1)] = static_cast<char>(upTo(255));
                break;
            default: {
                const std::size_t at = upTo(text.size() - 1);
                text.insert(at, sound.substr(upTo(sound.size() - 200), 200));
            }
        }
        const test::Called called = call({"bias", folder.write("fuzzed.ohmjob", text)});
        if (called.status == ExitStatus::answered) continue;
        EXPECT_EQ(called.out, "");
        EXPECT_FALSE(called.err.empty());
        EXPECT_LE(std::count(called.err.begin(), called.err.end(), '\n'), 5);
    }
}

/// The same of a netlist with every kind of card.
TEST(CommandLine, ABrokenNetlistNeverCrashes) {
    const test::ScratchFolder folder;
    const std::string sound =
        "all kinds\nVIN in 0 DC 0 AC 1 SIN(0 1 1k)\nVC vcc 0 9\nR1 in b {r*2}\nC1 b c 1u ; coupling\nRB vcc c 1meg\n"
        "Q1 d c e NQ\nR2 vcc d 4.7k\nR3 e 0 1k\nD1 d out DX\nR4 out 0 10k\nL1 out l 1m\nRL l 0 1k\n"
        "X1 d o2 AMP gain=2\n.subckt AMP a b params: gain=1\nE1 b 0 a 0 {gain}\nR1 b 0 1k\n.ends\n"
        "B1 o3 0 V=tanh(v(d))\nRB1 o3 0 1k\n.param r=5k\n.model NQ NPN(IS=1e-15 BF=200)\n.model DX D\n"
        "+ (IS=1e-12 N=1.5)\n.end\n";
    std::mt19937 random(7);
    const auto upTo = [&random](std::size_t most) {
        return std::uniform_int_distribution<std::size_t>(0, most)(random);
    };
    EXPECT_EQ(call({"bias", folder.write("sound.cir", sound)}).status, ExitStatus::answered);
    for (int n = 0; n < 400; ++n) {
        std::string text = sound;
        switch (n % 4) {
            case 0:
                text.resize(upTo(text.size()));
                break;
            case 1:
                for (int k = 0; k < 3; ++k) text[upTo(text.size() - 1)] = static_cast<char>(upTo(255));
                break;
            case 2:
                text.erase(upTo(text.size() - 20), upTo(15));
                break;
            default:
                text.insert(upTo(text.size() - 1), sound.substr(upTo(sound.size() - 40), upTo(40)));
        }
        const std::string file = folder.write("fuzzed.cir", text);
        const std::vector<std::string> args = n % 2 == 0 ? std::vector<std::string>{"bias", file}
                                                         : std::vector<std::string>{"response", file, "--at", "1k"};
        const test::Called called = call(args);
        EXPECT_THAT(called.out, testing::AllOf(Not(HasSubstr("nan")), Not(HasSubstr("inf")))) << text;
        if (called.status == ExitStatus::answered) continue;
        EXPECT_EQ(called.out, "") << text;
        EXPECT_FALSE(called.err.empty()) << text;
        EXPECT_LE(std::count(called.err.begin(), called.err.end(), '\n'), 5) << text;
    }
}

TEST(CommandLine, RandomArgumentsNeverCrash) {
    const std::vector<std::string> words = {
        "response", "bias", "waveform", "harmonics", "figures",      "check",     "sheet", job,        "--set",
        "drive=3",  "--at", "82,110",   "--tone",    "--level",      "-1",        "1e999", "--out",    "",
        "--",       "-x",   "--format", "json",      "--per-decade", "--variant", "A+B",   "\xff\xfe", "--help"};
    std::mt19937 random(5);
    std::uniform_int_distribution<std::size_t> word(0, words.size() - 1);
    std::uniform_int_distribution<int> count(0, 6);
    const test::ScratchFolder folder;
    for (int n = 0; n < 300; ++n) {
        std::vector<std::string> args;
        for (int k = count(random); k > 0; --k) args.push_back(words[word(random)]);
        // A call may name any word as its file to write; keep those out of the folder the tests run in.
        if (std::find(args.begin(), args.end(), "--out") != args.end()) continue;
        const test::Called called = call(args);
        EXPECT_NE(called.out.empty() && called.err.empty(), true);
    }
}

struct BadNetlist {
    const char* cards;  ///< From line 5 on, under a source and a divider.
    ExitStatus status;
    const char* words;  ///< In what is said.
};
constexpr ExitStatus file = ExitStatus::fileWrong;
constexpr ExitStatus circuit = ExitStatus::unsolvable;
constexpr BadNetlist badNetlists[] = {
    {"R9 out 0 1f", file, ":5: R9"},
    {"R9 out 0 1e", file, ":5: R9"},
    {"R9 out 0 {(-2)**0.5}", file, ":5: R9"},
    {".param a={b}\n.param b={a}\nR9 out 0 {a}", file, "circle"},
    {".subckt S a\nX2 a S\n.ends\nX1 out S", file, "contain itself"},
    {".subckt S a\nRs a 0 1k", file, ":5: "},
    {"L1 out 0 1m\nL2 x 0 1m\nL3 y 0 1m\nR8 y 0 1k\nR9 x 0 1k\nK1 L1 L2 0.9\nK2 L2 L3 0.9", file, ":11: K2"},
    {".subckt S a\nR1 a m 1k\nR2 m 0 1k\n.ends\nX1 out S\nR9 X1.m 0 1k", file, ":10: "},
    {"V5 in 0 5", circuit, "V5"},
    {"L1 out 0 1m\nL2 out 0 1m", circuit, "L2"},
    {"I1 0 x 1m", circuit, "x"},
    {"R5 a b 1k\nR6 b a 2k", circuit, "a"},
    {"E1 x 0 x 0 1", circuit, "x"},
    {"B1 x 0 V=ln(v(out)-5)\nR9 x 0 1k", circuit, "B1"},
};

// Whatever a verb is asked for, a netlist that is no circuit ends the same way: in words that name the place.
TEST(CommandLine, ABadNetlistIsRefusedByEveryVerb) {
    const test::ScratchFolder folder;
    const std::vector<std::vector<std::string>> verbs{{"response", "--at", "1k"},
                                                      {"bias"},
                                                      {"noise", "--at", "1k"},
                                                      {"waveform", "--tone", "1k", "--level", "1"},
                                                      {"transfer", "--points", "3"},
                                                      {"harmonics", "--tone", "1k", "--level", "1"},
                                                      {"poles"},
                                                      {"influence", "--at", "1k"},
                                                      {"impedance", "--at", "1k"},
                                                      {"ladder", "--tone", "1k", "--points", "2"},
                                                      {"two-tone", "--tones", "1k,2k", "--level", "1"}};
    for (const BadNetlist& bad : badNetlists) {
        const std::string path = folder.write(
            "bad.cir", std::string("bad\nVIN in 0 AC 1\nR1 in out 1k\nR2 out 0 1k\n") + bad.cards + "\n.end\n");
        for (std::vector<std::string> args : verbs) {
            args.insert(args.begin() + 1, path);
            EXPECT_THAT(refused(args, bad.status), HasSubstr(bad.words)) << args.front() << bad.cards;
        }
        EXPECT_EQ(call({"check", path}).status, ExitStatus::fileWrong) << bad.cards;
    }
}

// Newton goes on beyond the edge of a formula: the negative halves came out as 0 V without a word.
TEST(CommandLine, AWaveBeyondTheEdgeOfAFormulaIsRefused) {
    const test::ScratchFolder folder;
    const std::string path =
        folder.write("edge.cir", "edge\nVIN in 0 DC 1 AC 1\nR1 in 0 1k\nB7 out 0 V=sqrt(v(in))\nR2 out 0 1k\n.end\n");
    for (const char* level : {"0.5", "2"}) {
        for (std::vector<std::string> args : {std::vector<std::string>{"waveform", path, "--tone", "1k", "--level"},
                                              {"waveform", path, "--cold", "--tone", "1k", "--level"},
                                              {"harmonics", path, "--tone", "1k", "--level"}}) {
            args.emplace_back(level);
            if (std::string(level) == "2")
                EXPECT_THAT(refused(args, ExitStatus::unsolvable), HasSubstr("B7"));
            else
                answered(args);
        }
    }
}

}  // namespace
}  // namespace ohmwright

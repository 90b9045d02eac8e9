// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/job_file.h"

#include "core/circuit/check.h"
#include "core/files/atomic_file.h"
#include "core/plan/edits.h"
#include "core/plan/pinned.h"
#include "tests/support/demo_job.h"
#include "tests/support/random_jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <limits>
#include <random>

#include <unistd.h>

namespace ohmwright {
namespace {

namespace fs = std::filesystem;
using test::Chance;
using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

std::string demoText() {
    const Result<std::string> text = readWholeFile(test::harbourLampPath());
    EXPECT_TRUE(text);
    return text ? *text : std::string();
}

Job readBack(const std::string& text) {
    const Result<Job> job = readJob(text);
    EXPECT_TRUE(job) << (job ? "" : job.error().message);
    return job ? *job : Job();
}

Error errorOf(const std::string& text) {
    const Result<Job> job = readJob(text);
    EXPECT_FALSE(job);
    return job ? Error() : job.error();
}

/// The demo's text with one place changed.
std::string demoWith(const std::string& old, const std::string& replacement) {
    std::string text = demoText();
    const std::size_t at = text.find(old);
    EXPECT_NE(at, std::string::npos) << old;
    return at == std::string::npos ? text : text.replace(at, old.size(), replacement);
}

TEST(JobFile, TheDemoIsCanonicalText) {
    const std::string text = demoText();
    EXPECT_EQ(writeJob(readBack(text)), text);
}

TEST(JobFile, TheTemplateIsCanonicalText) {
    const Result<std::string> text =
        readWholeFile(std::string(OHMWRIGHT_SOURCE_DIR) + "/resources/stages/soft-clip-overdrive.json");
    ASSERT_TRUE(text);
    const Result<Circuit> circuit = readCircuit(*text);
    ASSERT_TRUE(circuit) << circuit.error().message;
    EXPECT_EQ(writeCircuit(*circuit), *text);
    EXPECT_THAT(checkCircuit(*circuit), IsEmpty());
}

TEST(JobFile, TheDemoHoldsTheCircuitOfItsDescription) {
    const Job job = test::harbourLamp();
    EXPECT_THAT(checkCircuit(job.stock), IsEmpty());
    EXPECT_EQ(job.unit.name, "Harbour Lamp");
    EXPECT_EQ(job.unit.serial, "HL-0231");
    EXPECT_EQ(job.visit.number, 2);
    EXPECT_EQ(job.visit.complaint, "Low strings vanish in the band, and chords fold flat.");
    EXPECT_EQ(job.visit.words, (std::vector<std::string>{"fuller", "less squashed"}));
    EXPECT_EQ(job.stock.parts.size(), 40U);
    // One line a part: reference, value, nets. Source: the demo's netlist.
    struct Line {
        const char* id;
        double value;
        std::vector<NetName> nets;
    };
    const Line lines[] = {{"c4", 56e-9, {"im", "leg"}},     {"r5", 3.9e3, {"leg", "0"}},
                          {"r6", 33e3, {"im", "rf"}},       {"vr1", 250e3, {"o1", "o1", "rf"}},
                          {"c5", 100e-12, {"im", "o1"}},    {"d1", 0.0, {"im", "o1"}},
                          {"d2", 0.0, {"o1", "im"}},        {"u1a", 0.0, {"ip", "im", "o1", "vcc", "0"}},
                          {"q1", 0.0, {"vcc", "b1", "e1"}}, {"vr2", 50e3, {"vt", "w", "0"}},
                          {"vg", 250e3, {"pu", "in", "0"}}, {"iu1b", 1.4e-3, {"vcc", "0"}},
                          {"lpu", 2.8, {"emf", "pu1"}}};
    for (const Line& line : lines) {
        const Part* part = findPart(job.stock, line.id);
        ASSERT_TRUE(part) << line.id;
        EXPECT_EQ(part->value, line.value) << line.id;
        EXPECT_EQ(part->nets, line.nets) << line.id;
    }
}

TEST(JobFile, TheDemosPotsStandWhereTheNetlistHasThem) {
    // Netlist at drive 5, level 5, guitar volume 10: RVR1 37.5k, RVR2A 42.5k, RVR2B 7.5k, RVGA 1 mΩ, RVGB 250k.
    const Job job = test::harbourLamp();
    const auto halves = [&job](const char* part) {
        return potHalves(*findPart(job.stock, part), knobPosition(job.setting, knobOf(job.stock, part)->id));
    };
    EXPECT_NEAR(halves("vr1").wiperToBottom, 37.5e3, 1.0);
    EXPECT_NEAR(halves("vr2").topToWiper, 42.5e3, 1.0);
    EXPECT_NEAR(halves("vr2").wiperToBottom, 7.5e3, 1.0);
    EXPECT_NEAR(halves("vg").topToWiper, 1e-3, 1e-9);
    EXPECT_NEAR(halves("vg").wiperToBottom, 250e3, 1e-6);
}

TEST(JobFile, WordsOfTheCustomerMayBeMissingButNotEmptyOrTwice) {
    const std::string words = "    \"words\": [\"fuller\", \"less squashed\"],\n";
    EXPECT_THAT(readBack(demoWith(words, "")).visit.words, IsEmpty());
    EXPECT_THAT(errorOf(demoWith("\"less squashed\"", "\"\"")).message, HasSubstr("the word is empty"));
    const Error twice = errorOf(demoWith("\"less squashed\"", "\"fuller\""));
    EXPECT_THAT(twice.message, HasSubstr("\"fuller\" is there twice"));
    EXPECT_THAT(twice.message, HasSubstr("visit/words"));
}

TEST(JobFile, RandomJobsComeBackEqualAndTheirTextIsStable) {
    Chance chance(2024);
    for (int i = 0; i < 400; ++i) {
        const Job job = test::randomJob(chance);
        const std::string text = writeJob(job);
        const Result<Job> back = readJob(text);
        ASSERT_TRUE(back) << back.error().message;
        ASSERT_EQ(*back, job) << text;
        ASSERT_EQ(writeJob(*back), text);
    }
}

TEST(JobFile, NumbersComeBackBitForBit) {
    Job job = test::harbourLamp();
    for (const double value : {0.1 + 0.2, 1e-300, -0.0, 5e-324, 1.7976931348623157e308, 56e-9, 1.0 / 3.0}) {
        job.stock.parts.front().value = value;
        const Job back = readBack(writeJob(job));
        EXPECT_EQ(back.stock.parts.front().value, value);
        EXPECT_EQ(std::signbit(back.stock.parts.front().value), std::signbit(value));
    }
}

TEST(JobFile, NamesOfAnyKindComeBack) {
    for (const std::string& name : {std::string(500, 'x'), std::string("\"Harbour\" \\ Lamp"), std::string("灯台 Ω 🎸"),
                                    std::string("two\nlines\tand tab"), std::string("\x01")}) {
        Job job = test::harbourLamp();
        job.unit.name = name;
        job.stock.parts.front().id = name;
        job.stock.ports.source = name;
        job.stock.stages.front().parts.front() = name;
        EXPECT_EQ(readBack(writeJob(job)), job);
    }
}

TEST(JobFile, EveryByteCutOffIsAnErrorOrTheWholeJob) {
    const std::string text = demoText();
    const Job whole = readBack(text);
#ifdef NDEBUG
    constexpr std::size_t stride = 1;
#else
    constexpr std::size_t stride = 7;  // Under sanitizers each reading takes many times as long.
#endif
    for (std::size_t length = 0; length < text.size(); length += stride) {
        const Result<Job> job = readJob(std::string_view(text).substr(0, length));
        if (job) {
            ASSERT_EQ(*job, whole) << length;
            ASSERT_GE(length, text.size() - 1);
        } else {
            ASSERT_EQ(job.error().code, ErrorCode::fileDamaged);
            ASSERT_FALSE(job.error().where.empty());
        }
    }
}

TEST(JobFile, RandomDamageNeverCrashesAndWhatIsReadIsWritable) {
    const std::string text = demoText();
    std::mt19937 engine(99);
    int read = 0;
    for (int i = 0; i < 10000; ++i) {
        std::string damaged = text;
        for (unsigned n = 1 + engine() % 4; n > 0; --n) {
            damaged[engine() % damaged.size()] = static_cast<char>(engine() % 256);
        }
        const Result<Job> job = readJob(damaged);
        if (job) {
            ++read;
            const Result<Job> back = readJob(writeJob(*job));
            ASSERT_TRUE(back) << back.error().message;
            ASSERT_EQ(*back, *job);
        } else {
            ASSERT_FALSE(job.error().message.empty());
            ASSERT_FALSE(job.error().where.empty());
        }
    }
    EXPECT_GT(read, 100);  // Damage inside a text is a text still.
    EXPECT_LT(read, 9900);
}

TEST(JobFile, DamageOfWholePiecesNeverCrashes) {
    const std::string text = demoText();
    std::mt19937 engine(5);
    for (int i = 0; i < 2000; ++i) {
        std::string damaged = text;
        const std::size_t at = engine() % damaged.size();
        if (engine() % 2 == 0) {
            damaged.erase(at, engine() % 200);
        } else {
            damaged.insert(at, damaged.substr(engine() % damaged.size(), engine() % 200));
        }
        const Result<Job> job = readJob(damaged);
        if (job) {
            EXPECT_TRUE(readJob(writeJob(*job)));
        }
    }
}

TEST(JobFile, UnknownKeysAreKeptAtEveryLevel) {
    std::string text = demoText();
    const auto insertAfter = [&text](const std::string& place, const std::string& addition) {
        const std::size_t at = text.find(place);
        ASSERT_NE(at, std::string::npos) << place;
        text.insert(at + place.size(), addition);
    };
    insertAfter("\"version\": 1,", " \"photos\": [{\"side\": \"part\", \"data\": \"AAAA\"}],");
    insertAfter("\"id\": \"c4\",", " \"lot\": \"0417\",");
    insertAfter("\"name\": \"Low-pass\",", " \"colour\": {\"hue\": 0.10, \"list\": [null, true]},");
    insertAfter("\"id\": \"mod-b\",", " \"agreedOn\": \"2026-11-25\",");
    insertAfter("\"customer\": {", "\"vip\": true, ");
    const Job job = readBack(text);
    EXPECT_THAT(job.unknown,
                ElementsAre(UnknownKey{"/customer/vip", "true"}, UnknownKey{"/circuit/parts/c4/lot", "\"0417\""},
                            UnknownKey{"/circuit/stages/3/colour", "{\"hue\": 0.10, \"list\": [null, true]}"},
                            UnknownKey{"/plan/mod-b/agreedOn", "\"2026-11-25\""},
                            UnknownKey{"/photos", "[{\"side\": \"part\", \"data\": \"AAAA\"}]"}));
    const std::string written = writeJob(job);
    EXPECT_EQ(readBack(written), job);
    EXPECT_EQ(writeJob(readBack(written)), written);
    EXPECT_THAT(written, HasSubstr("\"lot\": \"0417\""));
    EXPECT_THAT(written, HasSubstr("\"colour\": {\"hue\": 0.10, \"list\": [null, true]}"));
}

TEST(JobFile, AnUnknownKeyFollowsItsEntryWhenTheListChanges) {
    Job job = test::harbourLamp();
    job.unknown = {{"/plan/mod-b/note", "\"x\""}, {"/plan/mod-d/note", "1"}};
    std::swap(job.plan[0], job.plan[1]);
    job.plan.pop_back();
    const Job back = readBack(writeJob(job));
    EXPECT_THAT(back.unknown, ElementsAre(UnknownKey{"/plan/mod-b/note", "\"x\""}));
}

TEST(JobFile, ANewerVersionIsNamedAsNewer) {
    const Error error = errorOf(demoWith("\"version\": 1", "\"version\": 2"));
    EXPECT_EQ(error.code, ErrorCode::fileNewer);
    EXPECT_THAT(error.message, AllOf(HasSubstr("version 2"), HasSubstr("newer")));
    // Even when nothing else of it can be read.
    EXPECT_EQ(errorOf(R"({"format": "ohmwright-job", "version": 7, "all": "new"})").code, ErrorCode::fileNewer);
}

TEST(JobFile, WhatIsWrongIsNamedByLineAndKey) {
    struct Case {
        std::string old, replacement, place, sentence;
    };
    const Case cases[] = {
        {"\"value\": 3900,", "\"value\": \"3k9\",", "circuit/parts/r5/value", "a number is expected here, not text"},
        {"\"value\": 3900,", "\"valve\": 3900,", "circuit/parts/r5", "\"value\" is missing"},
        {"\"id\": \"r6\"", "\"id\": \"r5\"", "circuit/parts/r5", "used twice"},
        {"\"kind\": \"opamp\"", "\"kind\": \"tube\"", "circuit/parts/u1a/kind", "\"tube\" is not known"},
        {"\"nets\": [\"leg\", \"0\"]", "\"nets\": [\"leg\"]", "circuit/parts/r5/nets", "2 nets"},
        {"\"toneHz\": 220", "\"toneHz\": null", "setting/toneHz", "a number is expected"},
        {"\"drive\": 5", "\"drive\": \"5\"", "setting/knobs/drive", "a number is expected"},
        {"\"state\": \"draft\"", "\"state\": \"lost\"", "visit/state", "\"on bench\""},
        {"\"on\": true", "\"on\": 1", "plan/mod-a/on", "true or false"},
        {"\"do\": \"swap value\"", "\"do\": \"paint\"", "plan/mod-a/change/do", "\"paint\""},
        {"\"pin\": 1", "\"pin\": 5", "plan/mod-b/change/pin", "from 0 to 4"},
        {"\"format\": \"ohmwright-job\"", "\"format\": \"letter\"", "format", "another kind of file"},
        {"\"id\": \"mod-b\"", "\"id\": \"mod-a\"", "plan/mod-a", "used twice"},
        {"\"drive\", \"name\"", "\"level\", \"name\"", "circuit/knobs/level", "used twice"},
    };
    for (const Case& one : cases) {
        const Error error = errorOf(demoWith(one.old, one.replacement));
        EXPECT_EQ(error.code, ErrorCode::fileDamaged);
        EXPECT_EQ(error.where, one.place);
        EXPECT_THAT(error.message, AllOf(HasSubstr(one.place), HasSubstr(one.sentence), HasSubstr("line ")));
    }
}

TEST(JobFile, TheLineOfAWrongValueIsItsLineInAnEditor) {
    const std::string text = demoWith("\"value\": 3900,", "\"value\": \"3k9\",");
    const auto before = text.begin() + static_cast<std::ptrdiff_t>(text.find("\"3k9\""));
    const auto line = 1 + std::count(text.begin(), before, '\n');
    EXPECT_THAT(errorOf(text).message, HasSubstr("line " + std::to_string(line) + ","));
}

TEST(JobFile, FiguresThatAreNoNumbersAreNoJson) {
    for (const char* value : {"NaN", "Infinity", "1e999", "0x10", "01", "+1", ".5", "4k7"}) {
        const Error error = errorOf(demoWith("\"value\": 3900,", std::string("\"value\": ") + value + ","));
        EXPECT_EQ(error.code, ErrorCode::fileDamaged) << value;
        EXPECT_THAT(error.where, HasSubstr("line ")) << value;
    }
}

TEST(JobFile, HostileSizesAreRefusedAndLongUnknownListsKept) {
    const std::string link =
        R"({"id": "w", "reference": "W", "kind": "link", "nets": ["a", "b"], "knowledge": "drawn"})";
    std::string parts = link;
    std::string numbers = "1";
    for (int i = 0; i < 20000; ++i) {
        parts += ", " + link;
        numbers += ", 1";
    }
    EXPECT_THAT(errorOf(demoWith("\"parts\": [", "\"parts\": [" + parts + ", ")).message, HasSubstr("10000 entries"));
    const std::string text = demoWith("\"shop\"", "\"sweep\": [" + numbers + "], \"shop\"");
    EXPECT_EQ(readBack(writeJob(readBack(text))), readBack(text));
}

TEST(JobFile, AKeyTwiceIsNotGuessed) {
    EXPECT_THAT(errorOf(demoWith("\"value\": 3900,", "\"value\": 3900, \"value\": 4700,")).message,
                HasSubstr("\"value\" stands twice"));
}

/// Saving and loading in a folder of its own.
class JobFileOnDisk : public testing::Test {
protected:
    void SetUp() override {
        m_folder = fs::temp_directory_path() / ("ohmwright-job-" + std::to_string(::getpid()));
        fs::remove_all(m_folder);
        fs::create_directories(m_folder);
    }
    void TearDown() override { fs::remove_all(m_folder); }

    fs::path m_folder;
};

TEST_F(JobFileOnDisk, SavesAndLoadsWithTheTextThatWasRead) {
    const fs::path path = m_folder / "Hafen Ω.ohmjob";
    const Job job = test::harbourLamp();
    ASSERT_TRUE(saveJob(job, path));
    const Result<LoadedJob> loaded = loadJob(path);
    ASSERT_TRUE(loaded) << loaded.error().message;
    EXPECT_EQ(loaded->job, job);
    EXPECT_EQ(loaded->fileText, writeJob(job));
}

TEST_F(JobFileOnDisk, AJobThatCouldNotBeReadBackDoesNotReplaceOneThatCan) {
    const fs::path path = m_folder / "a.ohmjob";
    Job job = test::harbourLamp();
    ASSERT_TRUE(saveJob(job, path));
    const Part* r5 = findPart(job.stock, "r5");
    ASSERT_TRUE(r5);
    for (const double value : {std::nan(""), std::numeric_limits<double>::infinity()}) {
        findPart(job.stock, "r5")->value = value;
        const Result<void> saved = saveJob(job, path);
        ASSERT_FALSE(saved);
        EXPECT_THAT(saved.error().message, AllOf(HasSubstr("as before"), HasSubstr("r5/value")));
    }
    EXPECT_EQ(loadJob(path)->job, test::harbourLamp());
}

TEST_F(JobFileOnDisk, ErrorsNameThePath) {
    const Result<LoadedJob> missing = loadJob(m_folder / "missing.ohmjob");
    ASSERT_FALSE(missing);
    EXPECT_EQ(missing.error().code, ErrorCode::fileUnreadable);
    EXPECT_THAT(missing.error().message, AllOf(HasSubstr("missing.ohmjob"), HasSubstr("No such file")));
    ASSERT_TRUE(replaceFile(m_folder / "bad.ohmjob", "{\n\"format\": 1"));
    const Result<LoadedJob> bad = loadJob(m_folder / "bad.ohmjob");
    ASSERT_FALSE(bad);
    EXPECT_THAT(bad.error().message, AllOf(HasSubstr("bad.ohmjob"), HasSubstr("line 2")));
    const Result<void> saved = saveJob(test::harbourLamp(), m_folder / "missing" / "a.ohmjob");
    ASSERT_FALSE(saved);
    EXPECT_EQ(saved.error().code, ErrorCode::fileUnreadable);
}

TEST(CircuitFile, RandomCircuitsComeBack) {
    Chance chance(3);
    for (int i = 0; i < 100; ++i) {
        const Circuit circuit = test::randomCircuit(chance);
        const Result<Circuit> back = readCircuit(writeCircuit(circuit));
        ASSERT_TRUE(back) << back.error().message;
        EXPECT_EQ(*back, circuit);
    }
}

TEST(CircuitFile, AJobIsNoTemplate) {
    const Result<Circuit> circuit = readCircuit(demoText());
    ASSERT_FALSE(circuit);
    EXPECT_THAT(circuit.error().message, HasSubstr("ohmwright-circuit"));
    EXPECT_FALSE(readCircuit("{").hasValue());
    EXPECT_FALSE(readCircuit(R"({"format": "ohmwright-circuit", "version": 1})").hasValue());
}

TEST(JobFile, PinnedStatesAreKept) {
    Job job = *pinState(readBack(demoText()));
    job = *setPartValue(job, "c4", 150e-9);
    job = *pinState(job);
    const Job again = readBack(writeJob(job));
    EXPECT_EQ(again, job);
    ASSERT_EQ(again.pinned.size(), 2U);
    EXPECT_NE(again.pinned[0].plan, again.pinned[1].plan);
}

TEST(JobFile, APinnedStateNeedsALetterOfItsOwn) {
    Job job = *pinState(readBack(demoText()));
    job.pinned[0].letter = "A";
    EXPECT_THAT(errorOf(writeJob(job)).message, HasSubstr("W, X, Y or Z"));
    job.pinned[0].letter = "W";
    job.pinned.push_back(job.pinned[0]);
    EXPECT_THAT(errorOf(writeJob(job)).message, HasSubstr("two pinned states have this letter"));
}

}  // namespace
}  // namespace ohmwright

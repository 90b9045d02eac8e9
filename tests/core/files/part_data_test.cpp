// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/part_data.h"

#include "core/files/atomic_file.h"
#include "tests/support/demo_job.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

using testing::HasSubstr;

std::string dataPath() {
    return std::string(OHMWRIGHT_SOURCE_DIR) + "/resources/part-data/models.json";
}

PartLibrary shippedLibrary() {
    const Result<PartLibrary> library = loadModels(dataPath());
    EXPECT_TRUE(library) << (library ? "" : library.error().message);
    return library ? *library : PartLibrary();
}

std::string messageOf(const std::string& models) {
    const Result<PartLibrary> library =
        readModels(R"({"format": "ohmwright-models", "version": 1, "models": [)" + models + "]}");
    return library ? "no error" : library.error().message;
}

double parameter(const Model& model, const std::string& name, double missing) {
    const auto found = model.parameters.find(name);
    return found == model.parameters.end() ? missing : found->second;
}

/// V = N Vt ln(I/IS + 1) + I RS at 300.15 K: the diode law in closed form.
double forwardVolts(const Model& model, double amperes) {
    constexpr double boltzmann = 1.380649e-23;  // J/K, SI 2019
    constexpr double charge = 1.602176634e-19;  // C, SI 2019
    const double thermal = boltzmann * 300.15 / charge;
    return parameter(model, "N", 1.0) * thermal * std::log(amperes / parameter(model, "IS", 1e-14) + 1.0) +
           amperes * parameter(model, "RS", 0.0);
}

TEST(PartData, TheShippedFileIsCanonicalAndComesBack) {
    const PartLibrary library = shippedLibrary();
    EXPECT_GE(library.models.size(), 15U);
    const Result<std::string> text = readWholeFile(dataPath());
    ASSERT_TRUE(text);
    EXPECT_EQ(writeModels(library), *text);
    const Result<PartLibrary> back = readModels(writeModels(library));
    ASSERT_TRUE(back);
    EXPECT_EQ(*back, library);
}

TEST(PartData, DiodesDropWhatTheirSheetsSay) {
    // 1N4148: at most 1.0 V at 10 mA. BAT41: 0.40 V typical and 0.45 V at most at 1 mA, at most 1.0 V at 200 mA.
    // 1N5817: 0.42 V typical, 0.45 V at most, at 1 A. Source: makers' data sheets. The others: points of common
    // curves, from memory.
    struct Window {
        const char* type;
        double amperes, lowest, highest;
    };
    constexpr Window windows[] = {
        {"1N4148", 10e-3, 0.60, 1.00}, {"1N914", 10e-3, 0.60, 1.00},  {"1N4001", 1.0, 0.80, 1.10},
        {"BAT41", 1e-3, 0.35, 0.45},   {"BAT41", 200e-3, 0.70, 1.01}, {"1N5817", 1.0, 0.35, 0.45},
        {"1N34A", 1e-3, 0.20, 0.40},   {"red LED", 1e-3, 1.5, 1.7},   {"red LED", 20e-3, 1.7, 2.1},
    };
    const PartLibrary library = shippedLibrary();
    for (const Window& window : windows) {
        const Model* model = findModel(library, window.type);
        ASSERT_TRUE(model) << window.type;
        const double volts = forwardVolts(*model, window.amperes);
        EXPECT_GE(volts, window.lowest) << window.type;
        EXPECT_LE(volts, window.highest) << window.type;
    }
    // Independent general-purpose circuit simulator, card with IS 2.52n, N 1.752, RS 0.568, 27 °C: 0.5847 V at 1 mA.
    EXPECT_NEAR(forwardVolts(*findModel(library, "1N4148"), 1e-3), 0.5847, 0.0001);
}

TEST(PartData, OpampsHaveTheSpeedOfTheirSheets) {
    // Slew rates [V/µs] and unity-gain bandwidths [MHz]: makers' data sheets, typical.
    struct Sheet {
        const char* type;
        double slew, megahertz;
    };
    constexpr Sheet sheets[] = {
        {"TL072", 13, 3}, {"4558", 1.7, 3}, {"NE5532", 9, 10}, {"OPA2134", 20, 8}, {"LM358", 0.3, 0.7}};
    const PartLibrary library = shippedLibrary();
    for (const Sheet& sheet : sheets) {
        const Model* model = findModel(library, sheet.type);
        ASSERT_TRUE(model) << sheet.type;
        EXPECT_NEAR(parameter(*model, "ILIM", 0) / parameter(*model, "CP", 1) * 1e-6, sheet.slew, 1e-6) << sheet.type;
        EXPECT_NEAR(parameter(*model, "GBW", 0) * 1e-6, sheet.megahertz, 1e-9) << sheet.type;
        for (const char* name : {"GAIN", "ROUT", "HEADROOM_P", "HEADROOM_N", "CLAMP_IS", "CLAMP_N", "IQ", "EN"}) {
            EXPECT_GT(parameter(*model, name, 0.0), 0.0) << sheet.type << " " << name;
        }
    }
}

TEST(PartData, TypesOfTheDemoAreTheSameInTheLibrary) {
    // Otherwise swapping a part for the type it has already would be refused as another type of the same name.
    const PartLibrary library = shippedLibrary();
    const Job job = test::harbourLamp();
    ASSERT_EQ(job.stock.models.size(), 3U);
    for (const Model& model : job.stock.models) {
        const Model* shipped = findModel(library, model.name);
        ASSERT_TRUE(shipped) << model.name;
        EXPECT_EQ(*shipped, model);
    }
}

TEST(PartData, WhatIsIncompleteIsRefusedByName) {
    EXPECT_EQ(messageOf(R"({"name": "T", "kind": "diode", "parameters": {"IS": 1e-9}, "source": "sheet"})"),
              "no error");
    EXPECT_THAT(messageOf(R"({"name": "T", "kind": "diode", "parameters": {"IS": 1e-9}, "source": ""})"),
                HasSubstr("\"T\" does not say where its figures come from"));
    EXPECT_THAT(messageOf(R"({"name": "T", "kind": "diode", "parameters": {}, "source": "s"})"),
                HasSubstr("no parameters"));
    EXPECT_THAT(messageOf(R"({"name": "T", "kind": "resistor", "parameters": {"R": 1}, "source": "s"})"),
                HasSubstr("no types"));
    EXPECT_THAT(messageOf(R"({"name": "T", "kind": "diode", "parameters": {"IS": "1n"}, "source": "s"})"),
                HasSubstr("models/0/parameters/IS"));
    const std::string type = R"({"name": "T", "kind": "diode", "parameters": {"IS": 1}, "source": "s"})";
    EXPECT_THAT(messageOf(type + "," + type), HasSubstr("described twice"));
}

TEST(PartData, AnotherOrNewerOrMissingFileIsNamed) {
    const Result<PartLibrary> newer = readModels(R"({"format": "ohmwright-models", "version": 2, "models": []})");
    ASSERT_FALSE(newer);
    EXPECT_EQ(newer.error().code, ErrorCode::fileNewer);
    const Result<PartLibrary> job = loadModels(test::harbourLampPath());
    ASSERT_FALSE(job);
    EXPECT_THAT(job.error().message, HasSubstr("harbour-lamp.ohmjob"));
    const Result<PartLibrary> missing = loadModels("/missing/models.json");
    ASSERT_FALSE(missing);
    EXPECT_EQ(missing.error().code, ErrorCode::fileUnreadable);
}

}  // namespace
}  // namespace ohmwright

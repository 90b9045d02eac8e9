// The demo in stock, every subset of its mods and every fitting mistake: reference/harbour-lamp-figures.csv.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/figures.h"

#include "core/base/value_text.h"
#include "core/measure/solved_circuit.h"
#include "core/measure/wave.h"
#include "core/plan/apply.h"
#include "core/solve/response.h"
#include "core/solve/settled.h"
#include "tests/support/csv_rows.h"
#include "tests/support/demo_job.h"
#include "tests/support/spoken.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <optional>
#include <sstream>
#include <thread>
#include <vector>

namespace ohmwright {
namespace {

using Conditions = std::map<std::string, double>;

/// "hz=220;mvpk=100". Rows on two tones have a list and are another analysis.
Conditions conditionsOf(const std::string& text) {
    Conditions conditions;
    std::istringstream parts(text);
    for (std::string part; std::getline(parts, part, ';');) {
        const auto equals = part.find('=');
        conditions[part.substr(0, equals)] = std::stod(part.substr(equals + 1));
    }
    return conditions;
}

Setting settingOf(const Job& job, const Conditions& conditions) {
    Setting setting = job.setting;
    for (const auto& [name, value] : conditions) {
        if (name == "drive" || name == "level") {
            setting.knobs[name] = value;
        } else if (name == "guitar_volume") {
            setting.knobs["guitar"] = value;
        } else if (name == "battery_v") {
            setting.batteryVolts = value;
        } else if (name == "load_ohm") {
            setting.loadOhms = value;
        } else if (name == "mvpk") {
            setting.pickVoltsPeak = value / 1e3;
        } else if (name == "hz") {
            setting.toneHz = value;
        }
    }
    return setting;
}

const Part& byReference(const Circuit& circuit, const std::string& reference) {
    const Part* part = findPartByReference(circuit, reference);
    EXPECT_NE(part, nullptr) << reference;
    return *part;
}

Mod modOf(const Change& change) {
    return {"extra", "X", "", change, true};
}

/// What was fitted wrongly instead of the plan "A+B+C" (or "A+B+C+D"), as changes to the plan.
Plan mistaken(const Job& job, Plan plan, const std::string& mistake) {
    const auto id = [&](const std::string& reference) { return byReference(job.stock, reference).id; };
    const auto change = [&](const std::string& letter, const auto& edit) {
        for (Mod& mod : plan) {
            if (mod.letter == letter) {
                edit(mod.change);
            }
        }
    };
    const auto value = [&](const std::string& letter, double farads) {
        change(letter, [&](Change& what) { std::get<SwapValue>(what).value = farads; });
    };
    const NewPart diode = std::get<AddInSeries>(job.plan[1].change).fitted;
    if (mistake == "third diode reversed") {
        change("B", [](Change& what) { std::get<AddInSeries>(what).reversed = true; });
    } else if (mistake == "diode in parallel, not series") {
        change("B", [&](Change& what) { what = AddAcross{id("D2"), 0, 1, diode, false}; });
    } else if (mistake == "bridge over the new diode") {
        plan.push_back(modOf(Bridge{plan[1].id, 0, 1}));
    } else if (mistake == "first diode open") {
        plan.push_back(modOf(Lift{id("D1"), 0}));
    } else if (mistake == "Cg leg open") {
        plan.push_back(modOf(Lift{id("C4"), 1}));
    } else if (mistake == "12n for 120n") {
        value("A", 12e-9);
    } else if (mistake == "1u2 for 120n") {
        value("A", 1.2e-6);
    } else if (mistake == "27k for 2k7") {
        value("C", 27e3);
    } else if (mistake == "270R for 2k7") {
        value("C", 270.0);
    } else if (mistake == "other diode doubled") {
        change("B", [&](Change& what) { what = AddInSeries{id("D1"), 1, diode, false}; });
    } else if (mistake == "330n for 33n (D)") {
        value("D", 330e-9);
    } else if (mistake == "3n3 for 33n (D)") {
        value("D", 3.3e-9);
    } else if (mistake != "planned") {
        ADD_FAILURE() << "no such mistake: " << mistake;
    }
    return plan;
}

std::optional<Circuit> circuitOf(const Job& job, const std::string& state) {
    Plan plan = job.plan;
    const auto switchOn = [&](const std::string& letters) {
        for (Mod& mod : plan) {
            mod.on = letters.find(mod.letter) != std::string::npos;
        }
    };
    if (state == "stock") {
        switchOn("");
    } else if (state.rfind("mistake: ", 0) == 0) {
        const std::string mistake = state.substr(9);
        switchOn(mistake.find("(D)") != std::string::npos ? "ABCD" : "ABC");
        plan = mistaken(job, plan, mistake);
    } else if (state.rfind("C4 ", 0) == 0 && state.find(',') == std::string::npos) {
        switchOn("");
        const auto value = parsePartValue(state.substr(3), Unit::farad);
        EXPECT_TRUE(value) << state;
        plan.push_back(modOf(SwapValue{byReference(job.stock, "C4").id, value->si}));
    } else if (state == "C4 as stock, R5 3.6k") {
        switchOn("");
        plan.push_back(modOf(SwapValue{byReference(job.stock, "R5").id, 3.6e3}));
    } else if (state.find_first_not_of("ABCD+") == std::string::npos) {
        switchOn(state);
    } else {
        return std::nullopt;
    }
    auto circuit = applyPlan(job.stock, plan);
    EXPECT_TRUE(circuit) << state << ": " << circuit.error().message;
    return circuit ? std::optional<Circuit>(*circuit) : std::nullopt;
}

/// Solves each state and setting once.
class DemoBench {
public:
    explicit DemoBench(const Job& job) : m_job(job) {}

    struct Measured {
        SolvedCircuit solved;
        LinearState linear;
        std::optional<LargeSignalState> large;
        std::optional<SettledState> settled;
    };

    Measured* at(const std::string& state, const Setting& setting, bool largeSignal) {
        std::ostringstream key;
        key << state << '|' << setting.batteryVolts << '|' << setting.loadOhms << '|' << setting.pickVoltsPeak << '|'
            << setting.toneHz;
        for (const auto& [knob, position] : setting.knobs) {
            key << '|' << knob << position;
        }
        auto& place = m_measured[key.str()];
        if (!place) {
            const auto circuit = circuitOf(m_job, state);
            if (!circuit) {
                return nullptr;
            }
            auto solved = solveCircuit(*circuit, setting);
            EXPECT_TRUE(solved) << state << ": " << solved.error().message;
            auto linear = measureLinear(*circuit, setting, {});
            EXPECT_TRUE(linear) << state << ": " << linear.error().message;
            place.emplace(Measured{*std::move(solved), *std::move(linear), {}, {}});
        }
        if (largeSignal && !place->large) {
            const auto circuit = circuitOf(m_job, state);
            auto large = measureLargeSignal(*circuit, setting, {.clipPoints = 9});
            EXPECT_TRUE(large) << state << ": " << large.error().message;
            place->large = *std::move(large);
            auto solver = SettledSolver::make(*place->solved.equations, *place->solved.bias, setting.toneHz, 513);
            auto settled = solver->solve(setting.pickVoltsPeak);
            EXPECT_TRUE(settled) << state << ": " << settled.error().message;
            place->settled = *std::move(settled);
        }
        return &*place;
    }

private:
    const Job& m_job;
    std::map<std::string, std::optional<Measured>> m_measured;
};

double responseDb(const SolvedCircuit& solved, const NetName& over, const NetName& under, double hertz) {
    const auto gains = frequencyResponse(*solved.equations, *solved.bias, {over, under}, std::span(&hertz, 1));
    EXPECT_TRUE(gains);
    return 20.0 * std::log10(std::abs((*gains)[0][0] / (*gains)[1][0]));
}

double levelDbvAt(const DemoBench::Measured& at, const NetName& net) {
    return 20.0 * std::log10(alternatingRms(at.settled->wave(at.solved.equations->indexOfNet(net))));
}

std::optional<double> figureValue(const std::vector<Figure>& figures, const std::string& id) {
    const Figure* figure = findFigure(figures, id);
    EXPECT_NE(figure, nullptr) << id;
    return figure == nullptr ? std::nullopt : figure->value;
}

/// The program's figure for a row; absent when these analyses do not give it.
std::optional<double> measured(DemoBench& bench, const Job& job, const test::CsvRow& row) {
    const std::string& figure = row.at("figure");
    const std::string& where = row.at("where");
    const std::string& state = row.at("state");
    static const std::map<std::string, bool> known{{"bias", false},
                                                   {"corner_tag", false},
                                                   {"low_corner", false},
                                                   {"high_corner", false},
                                                   {"highest_gain", false},
                                                   {"highest_gain_at", false},
                                                   {"response", false},
                                                   {"response_change", false},
                                                   {"response_change_from_plan", false},
                                                   {"stage_gain", false},
                                                   {"supply_current", false},
                                                   {"clip_threshold_positive", true},
                                                   {"level", true},
                                                   {"level_change", true},
                                                   {"clip_threshold_negative", true},
                                                   {"level_slope", true},
                                                   {"dc_shift", true},
                                                   {"clip_threshold_positive_input", true},
                                                   {"harmonic", true},
                                                   {"thd", true},
                                                   {"clip_threshold_negative_input", true},
                                                   {"peak_positive", true},
                                                   {"peak_negative", true}};
    const auto kind = known.find(figure);
    if (kind == known.end() || row.at("condition").find(' ') != std::string::npos) {
        return std::nullopt;
    }
    const Conditions conditions = conditionsOf(row.at("condition"));
    const Setting setting = settingOf(job, conditions);
    DemoBench::Measured* at = bench.at(state, setting, kind->second);
    if (at == nullptr) {
        return std::nullopt;
    }
    const auto hertz = [&] { return conditions.at("hz"); };

    if (figure == "bias") {
        return at->solved.equations->indexOfNet(where) < 0 ? std::nullopt : std::optional(at->solved.biasVolts(where));
    }
    if (figure == "response") {
        return responseDb(at->solved, where == "VSIG to out" ? "out" : where, "emf", hertz());
    }
    if (figure == "response_change" || figure == "response_change_from_plan") {
        const bool fromPlan = figure == "response_change_from_plan";
        const std::string before = !fromPlan ? "stock" : state.find("(D)") != std::string::npos ? "A+B+C+D" : "A+B+C";
        return responseDb(at->solved, "out", "emf", hertz()) -
               responseDb(bench.at(before, setting, false)->solved, "out", "emf", hertz());
    }
    if (figure == "stage_gain") {
        return responseDb(at->solved, "o1", "ip", hertz());
    }
    if (figure == "corner_tag") {
        return figureValue(at->linear.figures, "gain_leg_corner");
    }
    if (figure == "level") {
        return levelDbvAt(*at, where);
    }
    if (figure == "level_change") {
        return levelDbvAt(*at, where) - levelDbvAt(*bench.at("stock", setting, true), where);
    }
    if (figure == "harmonic") {
        const auto wave = at->settled->wave(at->solved.equations->indexOfNet(where));
        const auto n = int(conditions.at("n"));
        const auto harmonics = harmonicsOf(wave, n, 1.0 / double(wave.size()));
        return 20.0 * std::log10(std::abs(harmonics[std::size_t(n)] / harmonics[1]));
    }
    if (kind->second) {
        const bool atOutput = where == "out" && figure.rfind("peak_", 0) == 0;
        return figureValue(at->large->figures, atOutput ? figure + "_out" : figure);
    }
    return figureValue(at->linear.figures, figure);
}

TEST(Figures, EveryFigureOfTheDemoIsThatOfTheReference) {
    const Job job = test::harbourLamp();
    DemoBench bench(job);
    std::map<std::string, int> compared;
    for (const auto& row : test::referenceTable("harbour-lamp-figures.csv")) {
        const auto value = measured(bench, job, row);
        const std::string what =
            row.at("state") + ": " + row.at("figure") + " at " + row.at("where") + ", " + row.at("condition");
        const std::string& expected = row.at("value");
        if (expected == "none") {
            EXPECT_FALSE(value) << what;
        } else if (!value) {
            continue;
        } else if (expected == "under -90") {
            EXPECT_LT(*value, -90.0) << what;
        } else {
            EXPECT_NEAR(*value, std::stod(expected), std::stod(row.at("tolerance"))) << what;
        }
        ++compared[row.at("figure")];
    }
    // Nothing may fall out of the comparison unseen.
    EXPECT_GE(compared["bias"], 340);
    EXPECT_GE(compared["response"], 145);
    EXPECT_GE(compared["stage_gain"], 144);
    EXPECT_EQ(compared["clip_threshold_positive"], 16);
    EXPECT_EQ(compared["clip_threshold_negative_input"], 16);
    EXPECT_GE(compared["harmonic"], 100);
    EXPECT_GE(compared["level"], 55);
    EXPECT_GE(compared["level_slope"], 40);
    EXPECT_GE(compared["low_corner"], 43);
    EXPECT_EQ(compared["high_corner"], 16);
    EXPECT_GE(compared["peak_positive"], 48);
    EXPECT_GE(compared["corner_tag"], 8);
    EXPECT_GE(compared["response_change_from_plan"], 36);
    EXPECT_EQ(compared["supply_current"], 16);
}

TEST(Figures, EveryKindIsMeasuredInItsOrderWithoutRepeats) {
    const Job job = test::harbourLamp();
    const auto figures = measureFigures(job.stock, job.setting);
    ASSERT_TRUE(figures) << figures.error().message;
    ASSERT_EQ(figures->size(), figureKinds().size());
    for (std::size_t k = 0; k < figures->size(); ++k) {
        EXPECT_EQ((*figures)[k].id, figureKinds()[k].id);
        EXPECT_TRUE((*figures)[k].value || !(*figures)[k].absence.empty());
    }
}

TEST(Figures, TheCornerTagTakesWhatIsAcrossAndInSeries) {
    // 68n across 56n is 124n; 820R in series with 3k9 is 4k72; by hand 1/(2 pi R C).
    const Job job = test::harbourLamp();
    const auto tagWith = [&](const Change& change) {
        const auto circuit = applyAlone(job.stock, modOf(change));
        EXPECT_TRUE(circuit) << circuit.error().message;
        const auto linear = measureLinear(*circuit, job.setting, {});
        EXPECT_TRUE(linear) << linear.error().message;
        return figureValue(linear->figures, "gain_leg_corner").value_or(0.0);
    };
    const NewPart across{"C13", PartKind::capacitor, 68e-9, {}, 0.1};
    const NewPart series{"R13", PartKind::resistor, 820.0, {}, 0.05};
    EXPECT_NEAR(tagWith(AddAcross{byReference(job.stock, "C4").id, 0, 1, across, false}),
                1.0 / (2.0 * M_PI * 3.9e3 * 124e-9), 1e-6);
    EXPECT_NEAR(tagWith(AddInSeries{byReference(job.stock, "R5").id, 0, series, false}),
                1.0 / (2.0 * M_PI * 4.72e3 * 56e-9), 1e-6);
}

TEST(Figures, BothEndsOfEveryKnobAreSolved) {
    const Job job = test::harbourLamp();
    for (const Knob& knob : job.stock.knobs) {
        for (const double position : {0.0, 10.0}) {
            Setting setting = job.setting;
            setting.knobs[knob.id] = position;
            const auto figures = measureFigures(job.stock, setting);
            EXPECT_TRUE(figures) << knob.id << " " << position << ": " << figures.error().message;
        }
    }
}

TEST(Figures, AnUnsolvableCircuitGivesASentenceAndNoFigure) {
    Job job = test::harbourLamp();
    findPart(job.stock, byReference(job.stock, "R4").id)->nets[0] = "loose";
    const auto figures = measureFigures(job.stock, job.setting);
    ASSERT_FALSE(figures);
    EXPECT_EQ(figures.error().code, ErrorCode::unsolvable);
    EXPECT_FALSE(figures.error().where.empty());
}

TEST(Figures, ADeadCircuitHasNoSignalRatherThanALevelThatIsNoNumber) {
    // An open input capacitor lets nothing through: levels and gains are 20 log10 of 0 or of 0/0.
    const Job job = test::harbourLamp();
    for (const char* reference : {"C1", "C9"}) {
        const auto dead = applyAlone(job.stock, modOf(Lift{byReference(job.stock, reference).id, 0}));
        ASSERT_TRUE(dead) << dead.error().message;
        const auto figures = measureFigures(*dead, job.setting);
        ASSERT_TRUE(figures) << figures.error().message;
        for (const Figure& figure : *figures) {
            EXPECT_TRUE(!figure.value || std::isfinite(*figure.value)) << reference << ' ' << figure.id;
        }
        for (const char* id : {"response_220", "level", "level_slope", "thd", "h3"}) {
            const Figure* figure = findFigure(*figures, id);
            EXPECT_FALSE(figure->value) << reference << ' ' << id << ' ' << figure->value.value_or(0.0);
            EXPECT_EQ(figure->absence, "no signal") << reference << ' ' << id;
        }
    }
}

TEST(Figures, AWireAcrossTheBatterysResistanceChangesNoGain) {
    // 1 mΩ beside 1.7 Ω: the supply's net is so quiet that its row once failed the balance check.
    const Job job = test::harbourLamp();
    const auto bridged = applyAlone(job.stock, modOf(Bridge{byReference(job.stock, "RBAT").id, 0, 1}));
    ASSERT_TRUE(bridged) << bridged.error().message;
    const auto stock = measureGainDb(job.stock, job.setting, 1000.0);
    const auto gain = measureGainDb(*bridged, job.setting, 1000.0);
    ASSERT_TRUE(stock && gain) << (gain ? "" : gain.error().message);
    EXPECT_NEAR(*gain, *stock, 0.01);
    EXPECT_TRUE(measureLinear(*bridged, job.setting, {}));
}

TEST(Figures, AnOpampWithAnInputLegLiftedSitsAtItsRail) {
    // The lifted leg leaks to ground; the law's clamp holds the output 1.9 V less one diode's drop from the supply.
    // Such a leg's row is small throughout, and was once taken for a net without a value.
    const Job job = test::harbourLamp();
    for (const auto& [pin, fromGround] : {std::pair{0, true}, std::pair{1, false}}) {
        const auto lifted = applyAlone(job.stock, modOf(Lift{byReference(job.stock, "U1A").id, pin}));
        ASSERT_TRUE(lifted) << lifted.error().message;
        const auto solved = solveCircuit(*lifted, job.setting);
        ASSERT_TRUE(solved) << solved.error().message;
        const double supply = solved->biasVolts("vcc");
        const double output = solved->biasVolts("o1");
        EXPECT_NEAR(fromGround ? output : supply - output, 1.2, 0.05) << pin;
        EXPECT_TRUE(measureFigures(*lifted, job.setting)) << pin;
    }
}

TEST(Figures, ACircuitWithoutItsEndsIsRefused) {
    // A file may leave them empty; the first net then took the tone as a current.
    const Job job = test::harbourLamp();
    Circuit noSource = job.stock;
    noSource.ports.source.clear();
    Circuit noOutput = job.stock;
    noOutput.ports.output.clear();
    Circuit grounded = job.stock;
    grounded.ports.output = groundNet;
    for (const auto& [circuit, word] :
         {std::pair{noSource, "no source"}, std::pair{noOutput, "no output"}, std::pair{grounded, "on ground"}}) {
        const auto figures = measureFigures(circuit, job.setting);
        ASSERT_FALSE(figures) << word;
        EXPECT_NE(figures.error().message.find(word), std::string::npos) << figures.error().message;
    }
}

TEST(Figures, AreTheSameBitsWhateverIsMeasuredBeforeAndBeside) {
    // Circuits of one topology may share pivot orders; no history of them, on whatever thread, may move a digit.
    const Job job = test::harbourLamp();
    const auto swapped = applyAlone(job.stock, modOf(SwapValue{byReference(job.stock, "C4").id, 120e-9}));
    ASSERT_TRUE(swapped);
    const auto alone = measureFigures(job.stock, job.setting);
    ASSERT_TRUE(alone);
    ASSERT_TRUE(measureFigures(*swapped, job.setting));
    std::vector<std::optional<std::vector<Figure>>> stock(2);
    {
        std::vector<std::jthread> threads;
        for (std::size_t k = 0; k < stock.size(); ++k) {
            threads.emplace_back([&, k] {
                const bool othersFirst = k == 1;
                const auto before = othersFirst ? measureFigures(*swapped, job.setting) : alone;
                if (const auto figures = measureFigures(job.stock, job.setting); before && figures) {
                    stock[k] = *figures;
                }
            });
        }
    }
    for (const auto& figures : stock) {
        ASSERT_TRUE(figures);
        EXPECT_EQ(*figures, *alone);  // of values to the last bit
    }
}

TEST(Figures, WordsStandForWhatIsAbsent) {
    EXPECT_EQ(formatFigureValue({"high_corner", {}, "none"}), "none");
    EXPECT_EQ(formatFigureValue({"clip_threshold_positive", 0.2421, ""}), "0.24");
    EXPECT_EQ(formatFigureValue({"response_82", -10.4727, ""}), "−10.5");
}

TEST(Figures, AFigureKeepsItsIdAndSaysWhyItIsAbsentInTheLanguage) {
    const test::Spoken german{{"no signal", "kein Signal"}};
    std::vector<Figure> figures{{"level", std::numeric_limits<double>::quiet_NaN(), ""}};
    withholdUndefined(figures);
    EXPECT_EQ(figures.front().absence, "no signal");
    EXPECT_EQ(formatFigureValue(figures.front()), "kein Signal");
    EXPECT_EQ(figureKinds().front().name, "gain-leg corner (tag)");
}

}  // namespace
}  // namespace ohmwright

/// The figures of a demo, measured on its job: stock, its plans, its conditions; needs ohmwright_core_files and
/// _measure.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measure/clipping.h"
#include "core/measure/figures.h"
#include "core/measure/solved_circuit.h"
#include "core/plan/apply.h"
#include "core/solve/impedance.h"
#include "core/solve/influence.h"
#include "core/solve/noise.h"
#include "core/solve/response.h"
#include "tests/support/demo_job_files.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

namespace ohmwright::test {

/// What the tables and the job call differently.
struct DemoJobNames {
    std::map<std::string, std::string> states;  ///< A state that takes other mods of the plan than its letters say.
    std::map<NetName, NetName> nets;            ///< A net that a mod makes.
};

/// Rows of reference/demos/figures.csv that a job with these mods can answer, measured on the job.
class DemoJobBench {
public:
    explicit DemoJobBench(std::string demo, DemoJobNames names = {})
        : m_demo(std::move(demo)), m_names(std::move(names)), m_job(demoJob(m_demo)) {}

    /// @return how many rows were compared, by figure.
    std::map<std::string, int> compareAll() {
        std::map<std::string, int> compared;
        for (const CsvRow& row : referenceTable("demos/figures.csv")) {
            const auto measure = measures().find(row.at("figure"));
            if (row.at("demo") != m_demo || measure == measures().end() || !circuitOf(row)) {
                continue;
            }
            ++compared[row.at("figure")];
            try {
                expectFigure(row, (this->*measure->second)(row));
            } catch (const std::exception& trouble) {
                ADD_FAILURE() << titleOf(row) << ": " << trouble.what();
            }
        }
        return compared;
    }

private:
    using Answer = std::optional<double>;
    using Measure = Answer (DemoJobBench::*)(const CsvRow&);

    struct Bench {
        Circuit circuit;
        Setting setting;
        SolvedCircuit solved;
        std::map<std::pair<double, std::string>, LargeSignalState> large;  ///< By tone and pick level.
        std::optional<ClipCurve> clip;

        [[nodiscard]] int index(const NetName& net) const {
            const int place = solved.equations->indexOfNet(net);
            if (place < 0) {
                throw std::runtime_error("no net " + net);
            }
            return place;
        }
    };

    static std::string titleOf(const CsvRow& row) {
        return row.at("state") + " | " + row.at("figure") + " at " + row.at("where") + " | " + row.at("condition");
    }
    static void expectFigure(const CsvRow& row, const Answer& ours) {
        const std::string& theirs = row.at("value");
        if (theirs == "none") {
            EXPECT_FALSE(ours) << titleOf(row) << ": ours " << ours.value_or(0.0);
        } else if (theirs.rfind("under ", 0) == 0) {
            EXPECT_TRUE(!ours || *ours < std::stod(theirs.substr(6)))
                << titleOf(row) << ": ours " << ours.value_or(0.0);
        } else if (!ours) {
            ADD_FAILURE() << titleOf(row) << ": ours none, theirs " << theirs;
        } else {
            EXPECT_NEAR(*ours, std::stod(theirs), std::stod(row.at("tolerance"))) << titleOf(row);
        }
    }

    /// Stock, the plan's mods as "A+B", a throw as "D/open", or one value as "R2 5600"; nothing where the job has no
    /// such mod.
    std::optional<Circuit> circuitOf(const CsvRow& row) {
        const auto renamed = m_names.states.find(row.at("state"));
        const std::string& state = renamed == m_names.states.end() ? row.at("state") : renamed->second;
        Plan plan = m_job.plan;
        Throws throws;
        for (Mod& mod : plan) {
            mod.on = false;
        }
        const auto space = state.find(' ');
        if (const Part* part = findPartByReference(m_job.stock, state.substr(0, space)); part && space != state.npos) {
            if (state.find_first_not_of("0123456789", space + 1) != state.npos) {
                return std::nullopt;
            }
            plan.push_back({"extra", "X", "", SwapValue{part->id, std::stod(state.substr(space))}, true});
        } else if (state != "stock") {
            std::istringstream letters(state);
            for (std::string word; std::getline(letters, word, '+');) {
                const std::size_t slash = word.find('/');
                const auto mod = std::find_if(plan.begin(), plan.end(),
                                              [&](const Mod& m) { return m.letter == word.substr(0, slash); });
                if (mod == plan.end()) {
                    return std::nullopt;
                }
                mod->on = true;
                if (slash != std::string::npos) {
                    throws[mod->id] = word.substr(slash + 1);
                }
            }
        }
        return valueOrThrow(applyPlan(m_job.stock, plan, throws));
    }

    Bench& at(const CsvRow& row) {
        const bool isJackDriven =
            row.at("where").find("jack driven") != std::string::npos || row.at("figure") == "input_impedance";
        const Conditions conditions = conditionsOf(row.at("condition"));
        std::string key = row.at("state") + (isJackDriven ? " at the jack" : "");
        Circuit circuit = *circuitOf(row);
        Setting setting = m_job.setting;
        for (const auto& [name, value] : conditions) {
            if (name == "battery_v") {
                setting.batteryVolts = std::stod(value);
            } else if (name == "load_ohm") {
                setting.loadOhms = std::stod(value);
            } else if (name == "guitar_volume") {
                setting.knobs.at("guitar") = std::stod(value);
            } else if (name == "device") {
                fitJfet(circuit, value);
            } else if (name == "beta" || name == "beta1" || name == "beta2") {
                setCurrentGain(circuit, name == "beta" ? "QN200" : name == "beta1" ? "QA" : "QB", std::stod(value));
            } else {
                continue;
            }
            key += " " + name + value;
        }
        if (isJackDriven) {
            driveAtJack(circuit, setting);
        }
        auto& place = m_benches[key];
        if (!place) {
            SolvedCircuit solved = valueOrThrow(solveCircuit(circuit, setting));
            place = std::make_unique<Bench>(Bench{std::move(circuit), setting, std::move(solved), {}, {}});
        }
        return *place;
    }

    /// JTYP as the demos' definitions have it: BETA = IDSS/VTO^2.
    static void fitJfet(Circuit& circuit, const std::string& device) {
        struct Jfet {
            double pinchOffVolts, saturationAmperes;
        };
        static const std::map<std::string, Jfet> jfets{
            {"low", {-0.5, 1e-3}}, {"typical", {-1.8, 3e-3}}, {"high", {-4.0, 5e-3}}};
        const auto& [pinchOff, saturation] = jfets.at(device);
        circuit.models.front().parameters["VTO"] = pinchOff;
        circuit.models.front().parameters["BETA"] = saturation / (pinchOff * pinchOff);
    }

    static void setCurrentGain(Circuit& circuit, const std::string& card, double beta) {
        const auto model = std::find_if(circuit.models.begin(), circuit.models.end(),
                                        [&card](const Model& each) { return each.name == card; });
        if (model == circuit.models.end()) {
            throw std::runtime_error("no transistor " + card);
        }
        model->parameters.at("BF") = beta;
    }

    /// Pickup, guitar volume and cable taken away, the source at the jack.
    static void driveAtJack(Circuit& circuit, Setting& setting) {
        const std::vector<PartId> outside = circuit.stages.front().parts;
        const auto isOutside = [&](const PartId& id) {
            return id != circuit.ports.source && std::find(outside.begin(), outside.end(), id) != outside.end();
        };
        std::erase_if(setting.knobs, [&](const auto& knob) { return isOutside(findKnob(circuit, knob.first)->part); });
        std::erase_if(circuit.knobs, [&](const Knob& knob) { return isOutside(knob.part); });
        std::erase_if(circuit.parts, [&](const Part& part) { return isOutside(part.id); });
        circuit.stages.erase(circuit.stages.begin());
        findPart(circuit, circuit.ports.source)->nets[0] = circuit.ports.jack;
    }

    static double hertzOf(const CsvRow& row) { return std::stod(conditionsOf(row.at("condition")).at("hz")); }
    static double decibels(double ratio) { return 20.0 * std::log10(ratio); }
    static Answer named(const std::vector<Figure>& figures, const std::string& id) {
        const Figure* figure = findFigure(figures, id);
        if (figure == nullptr) {
            throw std::runtime_error("no figure " + id);
        }
        return figure->value;
    }

    Answer bias(const CsvRow& row) {
        const auto made = m_names.nets.find(row.at("where"));
        const NetName& net = made == m_names.nets.end() ? row.at("where") : made->second;
        static_cast<void>(at(row).index(net));  // throws where the job has no such net
        return at(row).solved.biasVolts(net);
    }
    Answer supplyCurrent(const CsvRow& row) {
        const Bench& bench = at(row);
        const Part* supply = findPartByReference(bench.circuit, row.at("where"));
        return -1e3 * bench.solved.equations->terminalCurrents(*supply, bench.solved.bias->x)[0];
    }
    /// "in to d" as the two border nets, which the job has as a stage.
    static std::pair<NetName, NetName> bordersOf(const CsvRow& row) {
        const std::string& where = row.at("where");
        const auto middle = where.find(" to ");
        return {where.substr(0, middle), where.substr(middle + 4, where.find(',') - middle - 4)};
    }
    Answer gain(const CsvRow& row) {
        const Bench& bench = at(row);
        auto [under, over] = bordersOf(row);
        const double hertz = hertzOf(row);
        if (under == "VSIG") {
            under = "emf";
        } else {
            expectStage(bench.circuit, under, over);
        }
        const auto gains = valueOrThrow(
            frequencyResponse(*bench.solved.equations, *bench.solved.bias, {over, under}, std::span(&hertz, 1)));
        return decibels(std::abs(gains[0][0] / gains[1][0]));
    }
    static void expectStage(const Circuit& circuit, const NetName& under, const NetName& over) {
        const Stage* stage = stageWithOutput(circuit, over);
        ASSERT_NE(stage, nullptr) << over;
        EXPECT_EQ(stage->input, under);
    }
    Answer corner(const CsvRow& row) {
        const Bench& bench = at(row);
        const auto [under, over] = bordersOf(row);
        expectStage(bench.circuit, under, over);
        Circuit looked = bench.circuit;
        looked.ports.clipNode = over;  // the stage that the corners are taken of
        return named(valueOrThrow(measureLinear(looked, bench.setting, {.pointsPerDecade = 1})).figures,
                     row.at("figure"));
    }
    /// At the job's own clip node.
    const LargeSignalState& large(const CsvRow& row) {
        Bench& bench = at(row);
        const std::string level = conditionsOf(row.at("condition")).at("mvpk");
        const auto [place, isNew] = bench.large.try_emplace({hertzOf(row), level});
        if (isNew) {
            Setting setting = bench.setting;
            setting.toneHz = hertzOf(row);
            setting.pickVoltsPeak = 1e-3 * std::stod(level);
            place->second =
                valueOrThrow(measureLargeSignal(bench.circuit, setting, {.clipPoints = 2, .withThresholds = false}));
        }
        return place->second;
    }
    Answer ofClipNode(const CsvRow& row) {
        const bool atOutput = row.at("where") == "out" && row.at("figure").rfind("peak_", 0) == 0;
        EXPECT_TRUE(row.at("where") == "out" || row.at("where") == m_job.stock.ports.clipNode) << titleOf(row);
        return named(large(row).figures, row.at("figure") + (atOutput ? "_out" : ""));
    }
    Answer harmonic(const CsvRow& row) {
        return named(large(row).figures, "h" + conditionsOf(row.at("condition")).at("n"));
    }
    Answer threshold(const CsvRow& row) {
        Bench& bench = at(row);
        if (!bench.clip) {
            bench.clip = valueOrThrow(
                measureClipCurve(bench.solved, m_job.stock.ports.clipNode, hertzOf(row), {.clipPoints = 7}));
        }
        const bool isPositive = row.at("figure").find("positive") != std::string::npos;
        const auto& found = isPositive ? bench.clip->positive : bench.clip->negative;
        if (!found) {
            return std::nullopt;
        }
        return row.at("where") == "VSIG" ? 1e3 * found->pickVoltsPeak : found->volts;
    }
    Answer noiseOut(const CsvRow& row) {
        const Bench& bench = at(row);
        std::vector<double> grid;
        for (int step = 0; step <= 300; ++step) {
            grid.push_back(20.0 * std::pow(10.0, step / 100.0));
        }
        return 1e6 * noiseVoltsRms(valueOrThrow(solveNoise(*bench.solved.equations, *bench.solved.bias,
                                                           bench.index(row.at("where")), grid)),
                                   20.0, 20000.0);
    }
    Answer noiseInputReferred(const CsvRow& row) {
        const Bench& bench = at(row);
        const double hertz = hertzOf(row);
        return 1e9 * valueOrThrow(solveNoise(*bench.solved.equations, *bench.solved.bias, bench.index("out"),
                                             std::span(&hertz, 1)))
                         .inputReferred(0);
    }
    Answer inputImpedanceAt(const CsvRow& row) {
        const Bench& bench = at(row);
        const double hertz = hertzOf(row);
        return std::abs(
            valueOrThrow(inputImpedance(*bench.solved.equations, *bench.solved.bias, std::span(&hertz, 1)))[0]);
    }
    /// One row a part of the circuit at one frequency.
    static std::vector<std::vector<double>> influences(const Bench& bench, double hertz) {
        return valueOrThrow(solveInfluence(*bench.solved.equations, *bench.solved.bias, bench.index("out"),
                                           std::span(&hertz, 1)))
            .dbPerTenPercent;
    }
    Answer influence(const CsvRow& row) {
        const Bench& bench = at(row);
        std::string name = row.at("where").substr(0, row.at("where").find('/'));
        if (name.rfind("RVR", 0) == 0) {
            name = name.substr(1, 3);
        }
        const Part* part = findPartByReference(bench.circuit, name);
        return influences(bench, hertzOf(row)).at(std::size_t(part - bench.circuit.parts.data())).at(0);
    }
    /// 1.96 sqrt(sum (S t)^2 / 3) with the tolerances that the job's parts have.
    Answer quickBand(const CsvRow& row) {
        const Bench& bench = at(row);
        const auto curves = influences(bench, hertzOf(row));
        double sum = 0.0;
        for (std::size_t k = 0; k < curves.size(); ++k) {
            const double share = curves[k].empty() ? 0.0 : 10.0 * curves[k][0] * bench.circuit.parts[k].tolerance;
            sum += share * share / 3.0;
        }
        return 1.96 * std::sqrt(sum);
    }

    static const std::map<std::string, Measure>& measures() {
        static const std::map<std::string, Measure> table{{"bias", &DemoJobBench::bias},
                                                          {"supply_current", &DemoJobBench::supplyCurrent},
                                                          {"response", &DemoJobBench::gain},
                                                          {"stage_gain", &DemoJobBench::gain},
                                                          {"highest_gain", &DemoJobBench::corner},
                                                          {"highest_gain_at", &DemoJobBench::corner},
                                                          {"low_corner", &DemoJobBench::corner},
                                                          {"high_corner", &DemoJobBench::corner},
                                                          {"level", &DemoJobBench::ofClipNode},
                                                          {"peak_positive", &DemoJobBench::ofClipNode},
                                                          {"peak_negative", &DemoJobBench::ofClipNode},
                                                          {"dc_shift", &DemoJobBench::ofClipNode},
                                                          {"thd", &DemoJobBench::ofClipNode},
                                                          {"level_slope", &DemoJobBench::ofClipNode},
                                                          {"harmonic", &DemoJobBench::harmonic},
                                                          {"clip_threshold_positive", &DemoJobBench::threshold},
                                                          {"clip_threshold_negative", &DemoJobBench::threshold},
                                                          {"clip_threshold_positive_input", &DemoJobBench::threshold},
                                                          {"clip_threshold_negative_input", &DemoJobBench::threshold},
                                                          {"noise_out", &DemoJobBench::noiseOut},
                                                          {"noise_input_referred", &DemoJobBench::noiseInputReferred},
                                                          {"input_impedance", &DemoJobBench::inputImpedanceAt},
                                                          {"influence_per_ten_percent", &DemoJobBench::influence},
                                                          {"influence_1k_per_ten_percent", &DemoJobBench::influence},
                                                          {"spread_band_linear", &DemoJobBench::quickBand}};
        return table;
    }

    std::string m_demo;
    DemoJobNames m_names;
    Job m_job;
    std::map<std::string, std::unique_ptr<Bench>> m_benches;
};

}  // namespace ohmwright::test

// Every figure of the seven demos, from their netlists: stock, mods, plans, mistakes, faults and conditions, against
// reference/demos/figures.csv and reference/harbour-lamp-figures.csv.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/demo_netlists.h"
#include "core/measure/clipping.h"
#include "core/measure/figures.h"
#include "core/measure/settled_wave.h"
#include "core/measure/solved_circuit.h"
#include "core/measure/two_tone.h"
#include "core/measure/wave.h"
#include "core/solve/impedance.h"
#include "core/solve/influence.h"
#include "core/solve/noise.h"
#include "core/solve/response.h"
#include "core/solve/settled.h"

#include <gtest/gtest.h>

#include <array>
#include <functional>
#include <numbers>
#include <optional>
#include <set>

namespace ohmwright {
namespace {

using test::Conditions;
using test::DemoNetlist;

/// Figures of builds that differ (spread_test) and of knobs that are turned until a figure is equal (core/plan): no
/// analysis of one circuit.
const std::set<std::string> leftOut{"spread_band", "knob_drive_equal_gain_1k", "knob_drive_equal_highest_gain",
                                    "knob_level_equal_level"};

/// The node where clipping is looked at.
const std::map<std::string, std::string> clipNodes{{"harbour-lamp", "o1"}, {"quarry-bell", "k"}, {"small-rooster", "c"},
                                                   {"moss-engine", "t"},   {"paper-boat", "d"},  {"night-ferry", "a"},
                                                   {"three-hills", "o1"},  {"pickup", "in"}};

struct Row {
    std::string demo, state, figure, where;
    std::string conditionText;
    Conditions conditions;
    std::string expected;  ///< A number, "none" or "under -90".
    double tolerance = 0.0;

    [[nodiscard]] double number(const std::string& condition) const { return std::stod(conditions.at(condition)); }
    [[nodiscard]] std::string title() const {
        return demo + " | " + state + " | " + figure + " at " + where + " | " + conditionText;
    }
};

std::vector<Row> rowsOf(const std::string& table) {
    std::vector<Row> rows;
    for (const test::CsvRow& each : test::referenceTable(table)) {
        const auto demo = each.find("demo");
        const std::string& tolerance = each.at("tolerance");
        rows.push_back({demo == each.end() ? "harbour-lamp" : demo->second, each.at("state"), each.at("figure"),
                        each.at("where"), each.at("condition"), test::conditionsOf(each.at("condition")),
                        each.at("value"), tolerance.empty() ? 0.0 : std::stod(tolerance)});
    }
    return rows;
}

const std::vector<Row>& allRows() {
    static const std::vector<Row> rows = [] {
        std::vector<Row> both = rowsOf("harbour-lamp-figures.csv");
        const std::vector<Row> others = rowsOf("demos/figures.csv");
        both.insert(both.end(), others.begin(), others.end());
        return both;
    }();
    return rows;
}

template <class T>
T take(Result<T> result) {
    if (!result) {
        throw std::runtime_error(result.error().message);
    }
    return *std::move(result);
}

double decibels(double ratio) {
    return 20.0 * std::log10(ratio);
}

/// Where log y(x) crosses log of the goal, from two x on both sides of it; y rises or falls between them.
double crossing(const std::function<double(double)>& y, double left, double right, double goal) {
    double leftError = std::log(y(left) / goal);
    double rightError = std::log(y(right) / goal);
    int lastSide = 0;
    for (int step = 0; step < 40 && std::abs(right / left - 1.0) > 2e-5; ++step) {
        const double next = left * std::pow(right / left, leftError / (leftError - rightError));
        const double error = std::log(y(next) / goal);
        if (std::abs(error) < 1e-5) {
            return next;
        }
        if ((error > 0.0) == (leftError > 0.0)) {
            left = next;
            leftError = error;
            rightError = lastSide == 1 ? rightError / 2.0 : rightError;
            lastSide = 1;
        } else {
            right = next;
            rightError = error;
            leftError = lastSide == -1 ? leftError / 2.0 : leftError;
            lastSide = -1;
        }
    }
    return std::sqrt(left * right);
}

/// A circuit solved once, with what was measured on it.
struct Measured {
    Circuit circuit;
    SolvedCircuit solved;
    std::map<std::string, LinearState> linear;
    std::map<std::string, LargeSignalState> large;
    std::map<std::string, ClipCurve> clips;

    [[nodiscard]] int index(const NetName& net) const {
        const int place = solved.equations->indexOfNet(net);
        if (place < 0) {
            throw std::runtime_error("no net " + net);
        }
        return place;
    }
    [[nodiscard]] const Part& part(const std::string& name) const {
        const Part* found = findPart(circuit, name);
        if (found == nullptr) {
            throw std::runtime_error("no part " + name);
        }
        return *found;
    }
};

/// The figures of one demo as the program measures them.
class DemoBench {
public:
    explicit DemoBench(std::string demo) : m_demo(std::move(demo)) {}

    /// Absent where the program says that there is none.
    std::optional<double> figure(const Row& row);
    static bool knows(const std::string& figure) { return measures().count(figure) > 0; }

private:
    using Measure = std::optional<double> (DemoBench::*)(const Row&);
    static const std::map<std::string, Measure>& measures();

    Measured& at(const std::string& text) {
        auto& place = m_measured[text];
        if (!place) {
            Circuit circuit = DemoNetlist::circuitOf(text, m_demo == "pickup" ? "in" : "out");
            SolvedCircuit solved = take(solveCircuit(circuit, {}));
            place = std::make_unique<Measured>(Measured{std::move(circuit), std::move(solved), {}, {}, {}});
        }
        return *place;
    }
    DemoNetlist netlist(const Row& row) {
        if (row.state == "R2 trimmed") {
            DemoNetlist stock = DemoNetlist::stock(m_demo);
            stock.apply(row.conditions);
            stock.replace("R2", "R2 vcc d " + test::netlistNumber(*trimmedDrainResistor(row)));
            return stock;
        }
        DemoNetlist edited = DemoNetlist::inState(m_demo, row.state);
        edited.apply(row.conditions);
        return edited;
    }
    Measured& at(const Row& row) { return at(netlist(row).text()); }
    Measured& atJack(const Row& row) {
        DemoNetlist driven = netlist(row);
        driven.driveAtJack();
        return at(driven.text());
    }
    /// The same figure in another state, under the same conditions.
    double other(const Row& row, const std::string& state, const std::string& figureName) {
        Row same = row;
        same.state = state;
        same.figure = figureName;
        return figure(same).value();
    }

    static double gain(Measured& measured, const NetName& over, const NetName& under, double hertz) {
        const auto gains = take(
            frequencyResponse(*measured.solved.equations, *measured.solved.bias, {over, under}, std::span(&hertz, 1)));
        return std::abs(gains[0][0] / gains[1][0]);
    }
    /// "ip to o1", "VSIG to out", "in to a, jack driven" as two nets.
    static std::array<NetName, 2> borders(const std::string& where) {
        const auto middle = where.find(" to ");
        const NetName under = where.substr(0, middle);
        return {where.substr(middle + 4, where.find(',') - middle - 4), under == "VSIG" ? "emf" : under};
    }

    const LinearState& linear(Measured& measured, const std::string& where);
    const LargeSignalState& large(Measured& measured, const Row& row, const NetName& clipNode);
    const ClipCurve& clip(Measured& measured, const Row& row);
    static std::optional<double> named(const std::vector<Figure>& figures, const std::string& id);

    std::optional<double> bias(const Row& row) { return at(row).solved.biasVolts(row.where); }
    std::optional<double> supplyCurrent(const Row& row) {
        Measured& measured = at(row);
        return -1e3 * measured.solved.equations->terminalCurrents(measured.part(row.where), measured.solved.bias->x)[0];
    }
    std::optional<double> gainBetween(const Row& row) {
        const auto [over, under] = borders(row.where);
        return decibels(gain(at(row), over, under, row.number("hz")));
    }
    std::optional<double> jackResponse(const Row& row) {
        return decibels(gain(atJack(row), "out", "in", row.number("hz")));
    }
    std::optional<double> responseChange(const Row& row) {
        Row out = row;
        out.where = "VSIG to out";
        const bool fromPlan = row.figure == "response_change_from_plan";
        const std::string before = !fromPlan                                    ? "stock"
                                   : row.state.find("(D)") != std::string::npos ? "A+B+C+D"
                                                                                : "A+B+C";
        return *gainBetween(out) - other(out, before, "response");
    }
    std::optional<double> corner(const Row& row) {
        Measured& measured = row.where.find("jack driven") == std::string::npos ? at(row) : atJack(row);
        return named(linear(measured, row.where).figures, row.figure);
    }
    std::optional<double> peakGain(const Row& row) {
        return named(linear(at(row), row.where).figures,
                     row.figure == "peak_gain" ? "highest_gain" : "highest_gain_at");
    }
    std::optional<double> dip(const Row& row);
    std::optional<double> noiseOut(const Row& row) {
        Measured& measured = at(row);
        const std::vector<double> grid = logarithmicGrid(20.0, 20000.0, 100);
        const auto noise =
            take(solveNoise(*measured.solved.equations, *measured.solved.bias, measured.index(row.where), grid));
        return 1e6 * noiseVoltsRms(noise, 20.0, 20000.0);
    }
    std::optional<double> noiseInputReferred(const Row& row) {
        Measured& measured = at(row);
        const double hertz = row.number("hz");
        const auto noise = take(
            solveNoise(*measured.solved.equations, *measured.solved.bias, measured.index("out"), std::span(&hertz, 1)));
        return 1e9 * noise.inputReferred(0);
    }
    std::optional<double> inputImpedanceAt(const Row& row) {
        Measured& measured = atJack(row);
        const double hertz = row.number("hz");
        return std::abs(
            take(inputImpedance(*measured.solved.equations, *measured.solved.bias, std::span(&hertz, 1)))[0]);
    }
    double impedanceWithout(DemoNetlist edited, const std::string& part, const NetName& node, double hertz) {
        edited.remove(part);
        Measured& measured = at(edited.text());
        return std::abs(take(nodeImpedance(*measured.solved.equations, *measured.solved.bias, measured.index(node),
                                           std::span(&hertz, 1)))[0]);
    }
    std::optional<double> outputImpedance(const Row& row) {
        return impedanceWithout(netlist(row), "RLOAD", row.where, row.number("hz"));
    }
    /// At the base with nothing at the jack: the pulldown beyond C1 counts.
    std::optional<double> baseResistance(const Row& row) {
        DemoNetlist open = netlist(row);
        open.driveAtJack();
        open.replace("VSIG", "VSIG nowhere 0 DC 0 AC 1");
        Measured& measured = at(open.text());
        const double hertz = 1000.0;
        return std::abs(take(nodeImpedance(*measured.solved.equations, *measured.solved.bias, measured.index("b"),
                                           std::span(&hertz, 1)))[0]);
    }
    std::optional<double> inputCornerTag(const Row& row) {
        return 1.0 / (2.0 * std::numbers::pi * *baseResistance(row) * at(row).part("C1").value);
    }
    std::optional<double> cornerTag(const Row& row) {
        Measured& measured = at(row);
        return 1.0 / (2.0 * std::numbers::pi * measured.part("C4").value * measured.part("R5").value);
    }
    std::optional<double> cathodeShelf(const Row& row) {
        DemoNetlist without = netlist(row);
        without.remove("C1");
        const auto [over, under] = borders(row.where);
        const double hertz = row.number("hz");
        return decibels(gain(at(row), over, under, hertz) / gain(at(without.text()), over, under, hertz));
    }
    std::optional<double> cathodeCorner(const Row& row) {
        Measured& measured = at(row);
        const double ohms = row.figure == "cathode_corner_low" ? measured.part("R4").value
                                                               : impedanceWithout(netlist(row), "C1", "k", 1000.0);
        return 1.0 / (2.0 * std::numbers::pi * ohms * measured.part("C1").value);
    }
    InfluenceCurves influenceCurves(Measured& measured, double hertz) {
        return take(solveInfluence(*measured.solved.equations, *measured.solved.bias, measured.index("out"),
                                   std::span(&hertz, 1)));
    }
    std::optional<double> influence(const Row& row);
    std::optional<double> quickBand(const Row& row);
    std::optional<double> trimmedDrainResistor(const Row& row);

    std::optional<double> level(const Row& row) {
        const LargeSignalState& state = large(at(row), row, clipNodes.at(m_demo));
        return state.levelDbvAtBorder.at(row.where == "out" ? 0 : 1);
    }
    std::optional<double> levelChange(const Row& row) { return *level(row) - other(row, "stock", "level"); }
    std::optional<double> peak(const Row& row) {
        const bool atOutput = row.where == "out";
        const LargeSignalState& state = large(at(row), row, atOutput ? clipNodes.at(m_demo) : row.where);
        return named(state.figures, atOutput ? row.figure + "_out" : row.figure);
    }
    std::optional<double> dcShift(const Row& row) { return named(large(at(row), row, row.where).figures, "dc_shift"); }
    std::optional<double> harmonic(const Row& row) {
        return named(large(at(row), row, clipNodes.at(m_demo)).figures, "h" + row.conditions.at("n"));
    }
    std::optional<double> ofOutput(const Row& row) {
        return named(large(at(row), row, clipNodes.at(m_demo)).figures, row.figure);
    }
    std::optional<double> threshold(const Row& row) {
        const ClipCurve& curve = clip(at(row), row);
        const auto& found = row.figure.find("positive") != std::string::npos ? curve.positive : curve.negative;
        if (!found) {
            return std::nullopt;
        }
        return row.where == "VSIG" ? 1e3 * found->pickVoltsPeak : found->volts;
    }
    std::optional<double> clipOnset(const Row& row);
    std::optional<double> thdRatio(const Row& row) {
        const auto thdAt = [&](const std::string& volume) {
            Row thd = row;
            thd.conditions = {{"hz", "220"}, {"mvpk", "100"}, {"guitar_volume", volume}};
            return other(thd, row.state, "thd");
        };
        return thdAt("5") / thdAt("10");
    }
    std::optional<double> twoToneProduct(const Row& row);
    /// Power of harmonics 8..30 against the power of the whole [dB]: what is left when the levels are made equal.
    double fizzDb(const Row& row, const std::string& state);
    std::optional<double> fizzChange(const Row& row) { return fizzDb(row, row.state) - fizzDb(row, "stock"); }
    std::optional<double> levelTrim(const Row& row);
    std::optional<double> fairShare(const Row& row);
    std::optional<double> interaction(const Row& row);
    double changeOfMods(const Row& row, const std::string& letters);

    std::string m_demo;
    std::map<std::string, std::unique_ptr<Measured>> m_measured;
};

const std::map<std::string, DemoBench::Measure>& DemoBench::measures() {
    static const std::map<std::string, Measure> table{
        {"bias", &DemoBench::bias},
        {"supply_current", &DemoBench::supplyCurrent},
        {"response", &DemoBench::gainBetween},
        {"stage_gain", &DemoBench::gainBetween},
        {"jack_response", &DemoBench::jackResponse},
        {"response_change", &DemoBench::responseChange},
        {"response_change_from_plan", &DemoBench::responseChange},
        {"highest_gain", &DemoBench::corner},
        {"highest_gain_at", &DemoBench::corner},
        {"low_corner", &DemoBench::corner},
        {"high_corner", &DemoBench::corner},
        {"peak_gain", &DemoBench::peakGain},
        {"peak_gain_at", &DemoBench::peakGain},
        {"dip_depth", &DemoBench::dip},
        {"dip_at", &DemoBench::dip},
        {"noise_out", &DemoBench::noiseOut},
        {"noise_input_referred", &DemoBench::noiseInputReferred},
        {"input_impedance", &DemoBench::inputImpedanceAt},
        {"output_impedance", &DemoBench::outputImpedance},
        {"base_resistance", &DemoBench::baseResistance},
        {"input_corner_tag", &DemoBench::inputCornerTag},
        {"corner_tag", &DemoBench::cornerTag},
        {"cathode_shelf", &DemoBench::cathodeShelf},
        {"cathode_corner_low", &DemoBench::cathodeCorner},
        {"cathode_corner_high", &DemoBench::cathodeCorner},
        {"influence_per_ten_percent", &DemoBench::influence},
        {"influence_1k_per_ten_percent", &DemoBench::influence},
        {"spread_band_linear", &DemoBench::quickBand},
        {"trimmed_drain_resistor", &DemoBench::trimmedDrainResistor},
        {"level", &DemoBench::level},
        {"level_change", &DemoBench::levelChange},
        {"peak_positive", &DemoBench::peak},
        {"peak_negative", &DemoBench::peak},
        {"dc_shift", &DemoBench::dcShift},
        {"harmonic", &DemoBench::harmonic},
        {"thd", &DemoBench::ofOutput},
        {"level_slope", &DemoBench::ofOutput},
        {"clip_threshold_positive", &DemoBench::threshold},
        {"clip_threshold_positive_input", &DemoBench::threshold},
        {"clip_threshold_negative", &DemoBench::threshold},
        {"clip_threshold_negative_input", &DemoBench::threshold},
        {"clip_onset", &DemoBench::clipOnset},
        {"thd_ratio_volume_5_to_10", &DemoBench::thdRatio},
        {"two_tone_product_41", &DemoBench::twoToneProduct},
        {"harmonics_8_to_30_at_equal_level_change", &DemoBench::fizzChange},
        {"level_trim_resistor", &DemoBench::levelTrim},
        {"fair_share_A", &DemoBench::fairShare},
        {"fair_share_B", &DemoBench::fairShare},
        {"fair_share_C", &DemoBench::fairShare},
        {"fair_share_D", &DemoBench::fairShare},
        {"interaction", &DemoBench::interaction}};
    return table;
}

std::optional<double> DemoBench::figure(const Row& row) {
    return (this->*measures().at(row.figure))(row);
}

std::optional<double> DemoBench::named(const std::vector<Figure>& figures, const std::string& id) {
    const Figure* figure = findFigure(figures, id);
    if (figure == nullptr) {
        throw std::runtime_error("no figure " + id);
    }
    return figure->value;
}

const LinearState& DemoBench::linear(Measured& measured, const std::string& where) {
    const auto [over, under] = borders(where);
    const auto [place, isNew] = measured.linear.try_emplace(over + " over " + under);
    if (isNew) {
        Circuit circuit = measured.circuit;
        circuit.stages = {Stage{"", under, over, {}, 0}};
        circuit.ports.clipNode = over;
        place->second = take(measureLinear(circuit, {}, {.pointsPerDecade = 1}));
    }
    return place->second;
}

const LargeSignalState& DemoBench::large(Measured& measured, const Row& row, const NetName& clipNode) {
    const auto [place, isNew] =
        measured.large.try_emplace(clipNode + " " + row.conditions.at("hz") + " " + row.conditions.at("mvpk"));
    if (isNew) {
        Circuit circuit = measured.circuit;
        circuit.ports.clipNode = clipNode;
        circuit.stages = {Stage{"", "", "out", {}, 0}};
        if (measured.solved.equations->indexOfNet("lp") >= 0) {
            circuit.stages.push_back(Stage{"", "", "lp", {}, 0});
        }
        Setting setting;
        setting.toneHz = row.number("hz");
        setting.pickVoltsPeak = 1e-3 * row.number("mvpk");
        place->second = take(measureLargeSignal(circuit, setting, {.clipPoints = 2, .withThresholds = false}));
    }
    return place->second;
}

const ClipCurve& DemoBench::clip(Measured& measured, const Row& row) {
    const NetName& node = clipNodes.at(m_demo);
    const auto [place, isNew] = measured.clips.try_emplace(row.conditions.at("hz"));
    if (isNew) {
        place->second = take(measureClipCurve(measured.solved, node, row.number("hz"), {.clipPoints = 7}));
    }
    return place->second;
}

/// Lowest point between the two summits of a passive tone network.
std::optional<double> DemoBench::dip(const Row& row) {
    Measured& measured = at(row);
    const auto [over, under] = borders(row.where);
    double left = std::log(100.0);
    double right = std::log(5000.0);
    const auto gainAt = [&, over = over, under = under](double logHertz) {
        return gain(measured, over, under, std::exp(logHertz));
    };
    while (right - left > 1e-5) {
        const double a = left + (right - left) * 0.382;
        const double b = left + (right - left) * 0.618;
        (gainAt(a) < gainAt(b) ? right : left) = gainAt(a) < gainAt(b) ? b : a;
    }
    const double middle = (left + right) / 2.0;
    return row.figure == "dip_at" ? std::exp(middle) : decibels(gainAt(middle));
}

std::optional<double> DemoBench::influence(const Row& row) {
    Measured& measured = at(row);
    const InfluenceCurves curves = influenceCurves(measured, row.number("hz"));
    double sum = 0.0;
    std::istringstream names(row.where);
    for (std::string name; std::getline(names, name, '/');) {
        const auto place = std::size_t(&measured.part(name) - measured.circuit.parts.data());
        sum += curves.dbPerTenPercent[place].at(0);
    }
    return sum;
}

/// 1.96 sqrt(sum (S t)^2 / 3) over the parts with a tolerance: R 5 %, C 10 %, pots 20 % with both parts together.
std::optional<double> DemoBench::quickBand(const Row& row) {
    Measured& measured = at(row);
    const InfluenceCurves curves = influenceCurves(measured, row.number("hz"));
    static const std::set<std::string> untouched{"RPU", "CPU", "RVGA", "RVGB", "CCABLE", "RLOAD", "RBAT"};
    std::map<std::string, double> bands;  // S t by part; the two parts of a pot under one name
    for (std::size_t k = 0; k < measured.circuit.parts.size(); ++k) {
        const Part& part = measured.circuit.parts[k];
        const bool resistor = part.kind == PartKind::resistor;
        if (!part.call.empty() || untouched.count(part.id) > 0 || (!resistor && part.kind != PartKind::capacitor)) {
            continue;
        }
        const bool pot = part.id.rfind("RVR", 0) == 0;
        const double tolerance = pot ? 0.2 : resistor ? 0.05 : 0.1;
        bands[pot ? part.id.substr(0, 4) : part.id] += 10.0 * curves.dbPerTenPercent[k].at(0) * tolerance;
    }
    double sum = 0.0;
    for (const auto& [name, band] : bands) {
        sum += band * band / 3.0;
    }
    return 1.96 * std::sqrt(sum);
}

/// The drain resistor that puts the drain half way between the supply and the source.
std::optional<double> DemoBench::trimmedDrainResistor(const Row& row) {
    const auto dropRatio = [&](double ohms) {
        DemoNetlist trimmed = DemoNetlist::stock(m_demo);
        trimmed.apply(row.conditions);
        trimmed.replace("R2", "R2 vcc d " + test::netlistNumber(ohms));
        const SolvedCircuit& solved = at(trimmed.text()).solved;
        const double drain = solved.biasVolts("d");
        return (solved.biasVolts("vcc") - drain) / (drain - solved.biasVolts("s"));
    };
    return crossing(dropRatio, 100.0, 30e3, 1.0);
}

/// Lowest level at which THD at the clip node reaches 1 %: upwards by 4 dB from where it is far below.
std::optional<double> DemoBench::clipOnset(const Row& row) {
    constexpr double goal = 0.01;
    constexpr double largestVolts = 3.0;
    const double step = std::pow(10.0, 4.0 / 20.0);
    Measured& measured = at(row);
    const int node = measured.index(row.where);
    SettledSolver solver =
        take(SettledSolver::make(*measured.solved.equations, *measured.solved.bias, row.number("hz"), 257));
    const auto thd = [&](double volts) {
        const std::vector<double> wave = take(solver.solve(volts)).wave(node);
        return totalHarmonicDistortion(harmonicsOf(wave, 10, 1.0 / double(wave.size())));
    };
    double level = 2e-4;
    double reached = thd(level);
    while (reached < goal) {
        const double next = std::min(level * step, largestVolts);
        if (next == level) {
            return std::nullopt;
        }
        reached = thd(next);
        if (reached >= goal) {
            return 1e3 * crossing(thd, level, next, goal);
        }
        level = next;
    }
    throw std::runtime_error("the search for the onset began above it");
}

std::optional<double> DemoBench::twoToneProduct(const Row& row) {
    Measured& measured = at(row);
    std::istringstream tones(row.conditions.at("hz"));
    double first = 0.0;
    double second = 0.0;
    tones >> first >> second;
    const TwoToneSpectrum spectrum =
        take(measureTwoTone(measured.solved, measured.index("out"), first, second, 1e-3 * row.number("mvpk_each"), 5));
    for (const TwoToneProduct& product : spectrum.products) {
        if (std::abs(product.hertz - 41.2) < 0.01) {
            return decibels(product.voltsPeak / std::hypot(spectrum.firstToneVoltsPeak, spectrum.secondToneVoltsPeak));
        }
    }
    throw std::runtime_error("no product at 41.2 Hz");
}

double DemoBench::fizzDb(const Row& row, const std::string& state) {
    Row same = row;
    same.state = state;
    Measured& measured = at(same);
    const int node = measured.index("out");
    const SettledTone tone{row.number("hz"), 1e-3 * row.number("mvpk"), {}};
    const auto wave = take(settleWithin(measured.solved, tone, node, 513, 30, {}, 1e-5)).wave(node);
    const auto harmonics = harmonicsOf(wave, 30, 1.0 / double(wave.size()));
    double power = 0.0;
    for (std::size_t n = 8; n <= 30; ++n) {
        power += std::norm(harmonics[n]) / 2.0;
    }
    return 10.0 * std::log10(power) - decibels(alternatingRms(wave));
}

/// The resistor between the clip node and the level pot that gives back stock's level.
std::optional<double> DemoBench::levelTrim(const Row& row) {
    Row out = row;
    out.where = "out";
    const double goal = other(out, "stock", "level");
    const auto levelRatio = [&](double ohms) {
        DemoNetlist trimmed = netlist(row);
        trimmed.replace("RVR2A", "RVR2A top out 1m");
        trimmed.add("RTRIM k top " + test::netlistNumber(ohms));
        const LargeSignalState& state = large(at(trimmed.text()), row, clipNodes.at(m_demo));
        return std::pow(10.0, (state.levelDbvAtBorder[0] - goal) / 20.0);
    };
    return crossing(levelRatio, 10e3, 1e6, 1.0);
}

/// Change of level with some of the mods, "ABD"; 0 with none.
double DemoBench::changeOfMods(const Row& row, const std::string& letters) {
    std::string state;
    for (const char letter : letters) {
        state += (state.empty() ? "" : "+") + std::string(1, letter);
    }
    return state.empty() ? 0.0 : other(row, state, "level_change");
}

std::string lettersOf(const std::string& state) {
    std::string letters = state;
    letters.erase(std::remove(letters.begin(), letters.end(), '+'), letters.end());
    return letters;
}

/// Average of a mod's marginal change over all orders of fitting.
std::optional<double> DemoBench::fairShare(const Row& row) {
    const char mod = row.figure.back();
    std::string order = lettersOf(row.state);
    double sum = 0.0;
    int orders = 0;
    do {
        std::string before = order.substr(0, order.find(mod));
        std::sort(before.begin(), before.end());
        std::string after = before + mod;
        std::sort(after.begin(), after.end());
        sum += changeOfMods(row, after) - changeOfMods(row, before);
        ++orders;
    } while (std::next_permutation(order.begin(), order.end()));
    return sum / orders;
}

std::optional<double> DemoBench::interaction(const Row& row) {
    const std::string letters = lettersOf(row.state);
    double rest = changeOfMods(row, letters);
    for (const char letter : letters) {
        rest -= changeOfMods(row, std::string(1, letter));
    }
    return rest;
}

/// The worst of one kind of figure, in shares of its tolerance.
struct Worst {
    double share = 0.0, difference = 0.0;
    int rows = 0;
};

void compare(DemoBench& bench, const Row& row, std::map<std::string, Worst>& worst) {
    std::optional<double> ours;
    try {
        ours = bench.figure(row);
    } catch (const std::exception& trouble) {
        ADD_FAILURE() << row.title() << ": " << trouble.what();
        return;
    }
    if (row.expected == "none") {
        EXPECT_FALSE(ours) << row.title() << ": ours " << ours.value_or(0.0) << ", theirs none";
        return;
    }
    if (row.expected.rfind("under ", 0) == 0) {
        // A harmonic that the program does not show is under -90 dBc as well.
        EXPECT_LT(ours.value_or(-90.0), std::stod(row.expected.substr(6)) + (ours ? 0.0 : 1e-9)) << row.title();
        return;
    }
    const double theirs = std::stod(row.expected);
    if (!ours) {
        ADD_FAILURE() << row.title() << ": ours none, theirs " << theirs;
        return;
    }
    const double difference = std::abs(*ours - theirs);
    EXPECT_LE(difference, row.tolerance) << row.title() << ": ours " << *ours << ", theirs " << theirs << ", tolerance "
                                         << row.tolerance;
    Worst& kind = worst[row.figure];
    ++kind.rows;
    if (difference >= kind.share * row.tolerance) {
        kind.share = difference / row.tolerance;
        kind.difference = difference;
    }
}

struct Demo {
    std::string name;
    int compared;  ///< Rows, so that none falls out of the comparison unseen.
    int leftOut;
};

void PrintTo(const Demo& demo, std::ostream* out) {
    *out << demo.name;
}

class DemoNetlists : public testing::TestWithParam<Demo> {};

TEST_P(DemoNetlists, EveryFigureIsThatOfTheReference) {
    DemoBench bench(GetParam().name);
    std::map<std::string, Worst> worst;
    int compared = 0;
    int without = 0;
    for (const Row& row : allRows()) {
        if (row.demo != GetParam().name) {
            continue;
        }
        if (leftOut.count(row.figure) > 0) {
            ++without;
            continue;
        }
        compare(bench, row, worst);
        ++compared;
    }
    for (const auto& [figure, kind] : worst) {
        RecordProperty(figure, std::to_string(kind.rows) + " rows, at most " + std::to_string(kind.difference) + ", " +
                                   std::to_string(kind.share) + " of the tolerance");
    }
    EXPECT_EQ(compared, GetParam().compared);
    EXPECT_EQ(without, GetParam().leftOut);
}

INSTANTIATE_TEST_SUITE_P(Demos, DemoNetlists,
                         testing::Values(Demo{"harbour-lamp", 1497, 26}, Demo{"quarry-bell", 391, 3},
                                         Demo{"small-rooster", 342, 2}, Demo{"moss-engine", 354, 2},
                                         Demo{"paper-boat", 370, 2}, Demo{"night-ferry", 250, 2},
                                         Demo{"three-hills", 488, 2}, Demo{"pickup", 3, 0}),
                         [](const auto& instance) {
                             std::string name = instance.param.name;
                             name.erase(std::remove(name.begin(), name.end(), '-'), name.end());
                             return name;
                         });

TEST(DemoTables, EveryRowOfTheTablesIsMeasuredOrKnownToBeLeftOut) {
    std::map<std::string, int> without;
    int compared = 0;
    for (const Row& row : allRows()) {
        if (leftOut.count(row.figure) > 0) {
            ++without[row.figure];
        } else {
            EXPECT_TRUE(DemoBench::knows(row.figure)) << row.title();
            EXPECT_TRUE(clipNodes.count(row.demo) > 0) << row.title();
            ++compared;
        }
    }
    EXPECT_EQ(compared, 3734 - 39);
    EXPECT_EQ(without["spread_band"], 24);
    EXPECT_EQ(without["knob_level_equal_level"], 11);
    EXPECT_EQ(without["knob_drive_equal_gain_1k"], 3);
    EXPECT_EQ(without["knob_drive_equal_highest_gain"], 1);
}

}  // namespace
}  // namespace ohmwright

// Figures of the linearised circuit; see measureLinear in figures.h.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/decibels.h"
#include "core/base/said.h"
#include "core/circuit/gain_leg.h"
#include "core/measure/figures.h"
#include "core/measure/linear_figures.h"
#include "core/measure/named_frequencies.h"
#include "core/measure/solved_circuit.h"
#include "core/measure/stage_sweep.h"
#include "core/solve/response.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace ohmwright {

namespace {

double gainDb(std::complex<double> over, std::complex<double> under) {
    return amplitudeDb(std::abs(over / under));
}

/// The stage whose output is the clip node and that has two borders, or null.
const Stage* clipStage(const Circuit& circuit) {
    const Stage* stage = stageWithOutput(circuit, circuit.ports.clipNode);
    return stage == nullptr || stage->input.empty() ? nullptr : stage;
}

/// Gain of each stage between its borders; a stage without an input border is measured from the source.
std::vector<double> stageGains(const Circuit& circuit, const Equations& equations,
                               std::span<const std::complex<double>> solution) {
    std::vector<double> gains;
    for (const Stage& stage : circuit.stages) {
        const int output = equations.indexOfNet(stage.output);
        const int input = stage.input.empty() ? -1 : equations.indexOfNet(stage.input);
        if (output < 0 || (input < 0 && !stage.input.empty())) {
            gains.push_back(std::numeric_limits<double>::quiet_NaN());
            continue;
        }
        const std::complex<double> under = input < 0 ? std::complex<double>(1.0) : solution[std::size_t(input)];
        gains.push_back(gainDb(solution[std::size_t(output)], under));
    }
    return gains;
}

}  // namespace

std::vector<Figure> tagFigures(const Circuit& circuit, const Setting& setting) {
    const PotOhms pots = potOhmsAt(circuit, setting);
    const auto leg = findGainLeg(circuit, circuit.ports.clipNode, pots);
    Figure corner{"gain_leg_corner", {}, toSay("no gain leg")};
    Figure plateau{"plateau_gain", {}, toSay("no gain leg")};
    if (leg) {
        corner.value = leg->cornerHz();
        if (const auto feedback = findFeedbackResistance(circuit, leg->opamp, pots)) {
            plateau.value = amplitudeDb(1.0 + feedback->ohms / leg->ohms);
        } else {
            plateau.absence = toSay("no resistive feedback");
        }
    }
    return {corner, plateau};
}

Result<std::vector<Figure>> stageFigures(const Circuit& circuit, const SolvedCircuit& solved,
                                         const std::stop_token& stop) {
    const Stage* stage = clipStage(circuit);
    if (stage == nullptr) {
        std::vector<Figure> figures;
        for (const char* id : {"highest_gain", "highest_gain_at", "low_corner", "high_corner"}) {
            figures.push_back({id, {}, toSay("no clip stage")});
        }
        return figures;
    }
    const auto corners = findCorners(solved, *stage, stop);
    if (!corners) {
        return corners.error();
    }
    std::vector<Figure> figures{{"highest_gain", corners->highestDb, ""},
                                {"highest_gain_at", corners->highestHz, ""},
                                {"low_corner", corners->lowHz, toSay("none")},
                                {"high_corner", corners->highHz, toSay("none")}};
    StageSweep sweep(solved, *stage);
    for (const NamedFrequency& frequency : namedFrequencies) {
        const auto gain = sweep.at(frequency.hertz);
        if (!gain) {
            return gain.error();
        }
        figures.push_back({"stage_gain_" + std::string(frequency.word), *gain, ""});
    }
    return figures;
}

Result<std::vector<Figure>> responseFigures(const Circuit& circuit, const SolvedCircuit& solved) {
    SmallSignal signal(*solved.equations, *solved.bias);
    const auto output = std::size_t(solved.equations->indexOfNet(circuit.ports.output));
    std::vector<Figure> figures;
    for (const NamedFrequency& frequency : namedFrequencies) {
        const auto solution = signal.at(frequency.hertz);
        if (!solution) {
            return solution.error();
        }
        figures.push_back({"response_" + std::string(frequency.word), amplitudeDb(std::abs((*solution)[output])), ""});
    }
    return figures;
}

Result<Figure> stageGainAt(const Circuit& circuit, const SolvedCircuit& solved, double hertz, const std::string& id) {
    const Stage* stage = clipStage(circuit);
    if (stage == nullptr) {
        return Figure{id, {}, toSay("no clip stage")};
    }
    const auto gain = StageSweep(solved, *stage).at(hertz);
    if (!gain) {
        return gain.error();
    }
    return Figure{id, *gain, ""};
}

Figure supplyCurrent(const Circuit& circuit, const SolvedCircuit& solved) {
    Figure supply{"supply_current", {}, toSay("no battery")};
    if (const Part* battery = findPart(circuit, circuit.ports.battery)) {
        supply.value = -1e3 * solved.equations->terminalCurrents(*battery, solved.bias->x)[0];
    }
    return supply;
}

Result<LinearState> measureLinear(const Circuit& circuit, const Setting& setting, const LinearOptions& options,
                                  const std::stop_token& stop) {
    const auto solved = solveCircuit(circuit, setting, stop);
    if (!solved) {
        return solved.error();
    }
    const Equations& equations = *solved->equations;
    const NetName& output = circuit.ports.output;
    LinearState state;
    state.residualAmperes = solved->bias->report.worstResidualAmperes;
    state.cursorHz = options.cursorHz;
    for (const NetName& net : equations.nets()) {
        state.biasVolts.emplace_back(net, solved->biasVolts(net));
    }

    state.response.hz = logarithmicGrid(options.fromHz, options.toHz, options.pointsPerDecade);
    const auto gains = frequencyResponse(equations, *solved->bias, {output}, state.response.hz, stop);
    if (!gains) {
        return gains.error();
    }
    for (const std::complex<double> gain : gains->front()) {
        state.response.gainDb.push_back(amplitudeDb(std::abs(gain)));
        state.response.phaseDeg.push_back(std::arg(gain) * 180.0 / std::numbers::pi);
    }

    SmallSignal signal(equations, *solved->bias);
    const auto atCursor = signal.at(options.cursorHz);
    if (!atCursor) {
        return atCursor.error();
    }
    state.stageGainDbAtCursor = stageGains(circuit, equations, *atCursor);
    const auto outputIndex = std::size_t(equations.indexOfNet(output));
    state.responseDbAtCursor = amplitudeDb(std::abs((*atCursor)[outputIndex]));

    state.figures = tagFigures(circuit, setting);
    const auto responses = responseFigures(circuit, *solved);
    const auto stages = responses ? stageFigures(circuit, *solved, stop) : responses;
    if (!stages) {
        return stages.error();
    }
    state.figures.insert(state.figures.end(), responses->begin(), responses->end());
    state.figures.insert(state.figures.end(), stages->begin(), stages->end());
    state.figures.push_back(supplyCurrent(circuit, *solved));
    withholdUndefined(state.figures);
    return state;
}

Result<double> measureGainDb(const Circuit& circuit, const Setting& setting, double hertz,
                             const std::stop_token& stop) {
    const auto solved = solveCircuit(circuit, setting, stop);
    if (!solved) {
        return solved.error();
    }
    const auto gains =
        frequencyResponse(*solved->equations, *solved->bias, {circuit.ports.output}, std::span(&hertz, 1), stop);
    if (!gains) {
        return gains.error();
    }
    return amplitudeDb(std::abs((*gains)[0][0]));
}

}  // namespace ohmwright

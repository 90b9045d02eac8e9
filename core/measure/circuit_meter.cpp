// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/circuit_meter.h"

#include "core/base/decibels.h"
#include "core/base/said.h"
#include "core/measure/chosen_figures.h"
#include "core/measure/linear_figures.h"
#include "core/measure/named_frequencies.h"
#include "core/measure/settled_wave.h"
#include "core/measure/stage_sweep.h"
#include "core/measure/wave.h"
#include "core/solve/settled.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

constexpr std::size_t fewestLevelSteps = 65;
constexpr double mostLevelSteps = 16385.0;
const double twoDecibels = std::pow(10.0, 2.0 / 20.0);

Figure noSignal(const std::string& id) {
    return {id, {}, toSay("no signal")};
}

Figure figureOf(const std::string& id, double value) {
    return std::isfinite(value) ? Figure{id, value, ""} : noSignal(id);
}

bool isOneOf(std::string_view id, std::initializer_list<std::string_view> ids) {
    return std::find(ids.begin(), ids.end(), id) != ids.end();
}

}  // namespace

Result<CircuitMeter> CircuitMeter::make(const Circuit& circuit, const Setting& setting, std::size_t levelSteps,
                                        const CircuitMeter* like, const std::stop_token& stop) {
    CircuitMeter meter;
    meter.m_circuit = std::make_unique<const Circuit>(circuit);
    meter.m_setting = setting;
    meter.m_levelSteps = levelSteps;
    auto solved = like == nullptr ? solveCircuit(circuit, setting, stop)
                                  : solveCircuitLike(*like->m_solved, circuit, setting, stop);
    if (!solved) {
        return solved.error();
    }
    meter.m_solved = std::make_unique<const SolvedCircuit>(*std::move(solved));
    meter.m_signal = std::make_unique<SmallSignal>(*meter.m_solved->equations, *meter.m_solved->bias);
    return meter;
}

const Stage* CircuitMeter::clipStage() const {
    const Stage* stage = stageWithOutput(*m_circuit, m_circuit->ports.clipNode);
    return stage == nullptr || stage->input.empty() ? nullptr : stage;
}

Result<double> CircuitMeter::responseDb(double hertz) {
    const auto solution = m_signal->at(hertz);
    if (!solution) {
        return solution.error();
    }
    const int output = m_solved->equations->indexOfNet(m_circuit->ports.output);
    return amplitudeDb(std::abs((*solution)[std::size_t(output)]));
}

Result<std::optional<double>> CircuitMeter::stageGainDb(double hertz) {
    const Stage* stage = clipStage();
    if (stage == nullptr) {
        return std::optional<double>();
    }
    const auto solution = m_signal->at(hertz);
    if (!solution) {
        return solution.error();
    }
    const auto at = [&](const NetName& net) { return (*solution)[std::size_t(m_solved->equations->indexOfNet(net))]; };
    return std::optional(amplitudeDb(std::abs(at(stage->output) / at(stage->input))));
}

Result<Figure> CircuitMeter::figure(const std::string& id, const std::stop_token& stop) {
    if (const Figure* known = findFigure(m_known, id)) {
        return *known;
    }
    const auto name = findFigureName(id);
    if (!name) {
        return name.error();
    }
    const bool isResponse = id.rfind("response", 0) == 0;
    if (const auto hertz = name->hertz ? name->hertz : namedFrequencyAfter("response_", id); hertz && isResponse) {
        const auto gain = responseDb(*hertz);
        return gain ? Result<Figure>(figureOf(id, *gain)) : gain.error();
    }
    if (const auto hertz = name->hertz ? name->hertz : namedFrequencyAfter("stage_gain_", id)) {
        const auto gain = stageGainDb(*hertz);
        if (!gain) {
            return gain.error();
        }
        return *gain ? figureOf(id, **gain) : Figure{id, {}, toSay("no clip stage")};
    }
    if (isOneOf(id, {"gain_leg_corner", "plateau_gain"})) {
        return *findFigure(tagFigures(*m_circuit, m_setting), id);
    }
    if (isOneOf(id, {"highest_gain", "highest_gain_at", "low_corner", "high_corner"})) {
        return ofHighestGain(id, stop);
    }
    if (id == "supply_current") {
        return supplyCurrent(*m_circuit, *m_solved);
    }
    if (id == "level") {
        return level(stop);
    }
    if (id == "level_slope") {
        return slope(stop);
    }
    return ofLarge(id, id.rfind("clip_threshold", 0) == 0, stop);
}

Result<Figure> CircuitMeter::ofHighestGain(const std::string& id, const std::stop_token& stop) {
    const Stage* stage = clipStage();
    if (stage == nullptr) {
        return Figure{id, {}, toSay("no clip stage")};
    }
    const bool onlySummit = isOneOf(id, {"highest_gain", "highest_gain_at"});
    const auto corners = onlySummit ? findHighest(*m_solved, *stage, stop) : findCorners(*m_solved, *stage, stop);
    if (!corners) {
        return corners.error();
    }
    m_known.push_back(figureOf("highest_gain", corners->highestDb));
    m_known.push_back(figureOf("highest_gain_at", corners->highestHz));
    if (!onlySummit) {
        m_known.push_back({"low_corner", corners->lowHz, toSay("none")});
        m_known.push_back({"high_corner", corners->highHz, toSay("none")});
    }
    return *findFigure(m_known, id);
}

Result<double> CircuitMeter::settledDbv(double voltsPeak, std::size_t steps, const std::stop_token& stop) {
    auto solver = SettledSolver::make(*m_solved->equations, *m_solved->bias, m_setting.toneHz, steps);
    if (!solver) {
        return solver.error();
    }
    const auto settled = solver->solve(voltsPeak, stop);
    if (!settled) {
        return settled.error();
    }
    const double rms = alternatingRms(settled->wave(m_solved->equations->indexOfNet(m_circuit->ports.output)));
    return dbv(rms < silentVoltsRms ? 0.0 : rms);
}

/// Doubles the steps until the level stands still; the coarser of the two is then fine enough.
Result<void> CircuitMeter::chooseLevelSteps(const std::stop_token& stop) {
    std::optional<double> coarse;
    for (std::size_t steps = fewestLevelSteps;; steps = oddSteps(2.0 * double(steps) - 1.0)) {
        const auto fine = settledDbv(m_setting.pickVoltsPeak, steps, stop);
        if (!fine && (fine.error().code == ErrorCode::cancelled || 2.0 * double(steps) > mostLevelSteps)) {
            return fine.error();
        }
        const bool isSilent = fine && !std::isfinite(*fine);
        const bool isStill = fine && coarse && std::abs(*fine - *coarse) <= levelStillDb;
        if (isSilent || isStill) {
            m_levelSteps = isSilent ? steps : oddSteps(double(steps) / 2.0);
            m_level = figureOf("level", *fine);
            return {};
        }
        if (2.0 * double(steps) > mostLevelSteps) {
            return Error{ErrorCode::noConvergence,
                         said("The settled level still changes with finer steps: try a lower tone or pick level."), ""};
        }
        coarse = fine ? std::optional(*fine) : std::nullopt;
    }
}

Result<Figure> CircuitMeter::level(const std::stop_token& stop) {
    if (!m_level && m_levelSteps == 0) {
        if (auto chosen = chooseLevelSteps(stop); !chosen) {
            return chosen.error();
        }
    }
    if (!m_level) {
        const auto decibels = settledDbv(m_setting.pickVoltsPeak, m_levelSteps, stop);
        if (!decibels) {
            return decibels.error();
        }
        m_level = figureOf("level", *decibels);
    }
    return *m_level;
}

Result<Figure> CircuitMeter::slope(const std::stop_token& stop) {
    if (const auto known = level(stop); !known) {
        return known.error();
    }
    // A difference of two levels a few dB apart: half the steps that a level needs is not enough for 0.005 dB per dB.
    const std::size_t steps = oddSteps(2.0 * double(m_levelSteps) - 1.0);
    const auto louder = settledDbv(m_setting.pickVoltsPeak * twoDecibels, steps, stop);
    if (!louder) {
        return louder.error();
    }
    const auto softer = settledDbv(m_setting.pickVoltsPeak / twoDecibels, steps, stop);
    if (!softer) {
        return softer.error();
    }
    m_known.push_back(figureOf("level_slope", (*louder - *softer) / 4.0));
    return m_known.back();
}

/// What the settled state tells comes together.
Result<Figure> CircuitMeter::ofLarge(const std::string& id, bool withThresholds, const std::stop_token& stop) {
    const auto state = measureLargeSignal(
        *m_circuit, m_setting, {.clipPoints = withThresholds ? 9 : 2, .withThresholds = withThresholds}, stop);
    if (!state) {
        return state.error();
    }
    for (const Figure& figure : state->figures) {
        if (findFigure(m_known, figure.id) == nullptr) {
            m_known.push_back(figure);
        }
    }
    const Figure* found = findFigure(m_known, id);
    return found == nullptr ? Figure{id, {}, toSay("none")} : *found;
}

}  // namespace ohmwright

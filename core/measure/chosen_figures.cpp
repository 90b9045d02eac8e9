// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/chosen_figures.h"

#include "core/base/decibels.h"
#include "core/base/said.h"
#include "core/measure/linear_figures.h"
#include "core/solve/response.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace ohmwright {

namespace {

constexpr std::string_view responseAt = "response@";
constexpr std::string_view stageGainWord = "stage_gain@";

FigureWork workOf(std::string_view id) {
    constexpr std::string_view formulas[] = {"gain_leg_corner", "plateau_gain"};
    constexpr std::string_view linear[] = {"low_corner", "high_corner", "highest_gain", "highest_gain_at",
                                           "supply_current"};
    const auto isOneOf = [id](const auto& list) {
        return std::find(std::begin(list), std::end(list), id) != std::end(list);
    };
    if (isOneOf(formulas)) {
        return FigureWork::formula;
    }
    if (isOneOf(linear) || id.starts_with("response_") || id.starts_with("stage_gain_")) {
        return FigureWork::linear;
    }
    return id.starts_with("clip_threshold") ? FigureWork::clip : FigureWork::settled;
}

std::optional<double> hertzBehind(std::string_view name, std::string_view word) {
    if (!name.starts_with(word)) {
        return std::nullopt;
    }
    name.remove_prefix(word.size());
    double hertz = 0.0;
    const auto end = std::from_chars(name.data(), name.data() + name.size(), hertz);
    const bool isSound = end.ec == std::errc() && end.ptr == name.data() + name.size() && hertz >= 1e-3 && hertz <= 1e9;
    return isSound ? std::optional(hertz) : std::nullopt;
}

Error unknownFigure(std::string_view name) {
    std::string known;
    for (const FigureKind& kind : figureKinds()) {
        known += std::string(kind.id) + ", ";
    }
    return {ErrorCode::invalidInput,
            said("There is no figure “%1”: choose from %2.", name, known + "response@HZ, stage_gain@HZ"),
            std::string(name)};
}

bool isResponse(const FigureName& name) {
    return name.id.starts_with("response");
}

/// Whether the figure stands in the long list of the stage's corners, which takes a sweep.
bool needsSweep(const FigureName& name) {
    return name.work == FigureWork::linear && !name.hertz && !isResponse(name) && name.id != "supply_current";
}

void append(std::vector<Figure>& to, const std::vector<Figure>& figures) {
    to.insert(to.end(), figures.begin(), figures.end());
}

}  // namespace

Result<FigureName> findFigureName(std::string_view name) {
    for (const std::string_view word : {responseAt, stageGainWord}) {
        if (const auto hertz = hertzBehind(name, word)) {
            return FigureName{std::string(name), "dB", false, FigureWork::linear, hertz};
        }
    }
    for (const FigureKind& kind : figureKinds()) {
        if (kind.id == name) {
            return FigureName{std::string(name), std::string(kind.unit), kind.comparedAsRatio, workOf(name), {}};
        }
    }
    return unknownFigure(name);
}

bool FigureMeter::needs(FigureWork work) const {
    return std::any_of(m_names.begin(), m_names.end(), [work](const FigureName& name) { return name.work == work; });
}

Result<void> FigureMeter::solve(const Circuit& circuit, const Setting& setting, const std::stop_token& stop) {
    auto solved =
        m_solved.bias ? solveCircuitLike(m_solved, circuit, setting, stop) : solveCircuit(circuit, setting, stop);
    if (!solved) {
        return solved.error();
    }
    m_solved = *std::move(solved);
    return {};
}

Result<Figure> FigureMeter::figureAt(const FigureName& name, SmallSignal& signal, const Circuit& circuit) const {
    if (!isResponse(name)) {
        return stageGainAt(circuit, m_solved, *name.hertz, name.id);
    }
    const auto solution = signal.at(*name.hertz);
    if (!solution) {
        return solution.error();
    }
    const auto output = std::size_t(m_solved.equations->indexOfNet(circuit.ports.output));
    return Figure{name.id, amplitudeDb(std::abs((*solution)[output])), ""};
}

Result<void> FigureMeter::addLinear(std::vector<Figure>& measured, const Circuit& circuit,
                                    const std::stop_token& stop) const {
    measured.push_back(supplyCurrent(circuit, m_solved));
    SmallSignal signal(*m_solved.equations, *m_solved.bias);
    for (const FigureName& name : m_names) {
        if (!name.hertz) {
            continue;
        }
        auto figure = figureAt(name, signal, circuit);
        if (!figure) {
            return figure.error();
        }
        measured.push_back(*std::move(figure));
    }
    const auto isNamedResponse = [](const FigureName& name) { return isResponse(name) && !name.hertz; };
    if (std::any_of(m_names.begin(), m_names.end(), isNamedResponse)) {
        const auto responses = responseFigures(circuit, m_solved);
        if (!responses) {
            return responses.error();
        }
        append(measured, *responses);
    }
    if (std::any_of(m_names.begin(), m_names.end(), needsSweep)) {
        const auto stages = stageFigures(circuit, m_solved, stop);
        if (!stages) {
            return stages.error();
        }
        append(measured, *stages);
    }
    return {};
}

Result<void> FigureMeter::addLargeSignal(std::vector<Figure>& measured, const Circuit& circuit, const Setting& setting,
                                         const std::stop_token& stop) const {
    const bool levelAlone =
        !needs(FigureWork::clip) && std::all_of(m_names.begin(), m_names.end(), [](const FigureName& name) {
            return name.work < FigureWork::settled || name.id == "level";
        });
    if (levelAlone) {
        const auto level = measureLevelDbv(circuit, setting, stop);
        if (!level) {
            return level.error();
        }
        measured.push_back({"level", *level, ""});
        return {};
    }
    const auto state =
        measureLargeSignal(circuit, setting, {.clipPoints = 2, .withThresholds = needs(FigureWork::clip)}, stop);
    if (!state) {
        return state.error();
    }
    append(measured, state->figures);
    return {};
}

Result<std::vector<Figure>> FigureMeter::measure(const Circuit& circuit, const Setting& setting,
                                                 const std::stop_token& stop) {
    std::vector<Figure> measured;
    if (needs(FigureWork::formula)) {
        append(measured, tagFigures(circuit, setting));
    }
    if (needs(FigureWork::linear)) {
        if (const Result<void> solved = solve(circuit, setting, stop); !solved) {
            return solved.error();
        }
        if (const Result<void> added = addLinear(measured, circuit, stop); !added) {
            return added.error();
        }
    }
    if (needs(FigureWork::settled) || needs(FigureWork::clip)) {
        if (const Result<void> added = addLargeSignal(measured, circuit, setting, stop); !added) {
            return added.error();
        }
    }
    std::vector<Figure> chosen;
    chosen.reserve(m_names.size());
    for (const FigureName& name : m_names) {
        chosen.push_back(*findFigure(measured, name.id));
    }
    withholdUndefined(chosen);
    return chosen;
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/recipe_differences.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/base/value_text.h"
#include "core/measure/solved_circuit.h"
#include "core/measure/spread.h"
#include "core/plan/apply.h"
#include "core/plan/compare.h"
#include "core/plan/device_pick.h"
#include "core/plan/recipe_readings.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

/// A meter and a battery explain so much of a reading: common practice, no source (as core/bench/probe_card.h).
constexpr double readingShare = 0.02;
constexpr double leastVolts = 0.02;
/// Between two values that are the same part: what a meter tells apart.
constexpr double valueShare = 0.01;
constexpr double smallestTrim = 10.0;
constexpr double largestTrim = 10e6;

Mod* modApplied(RecipeFit& fit, const Recipe& recipe, const std::string& id) {
    for (std::size_t k = 0; k < recipe.plan.size(); ++k) {
        if (recipe.plan[k].id != id || fit.mods[k].applied.empty()) {
            continue;
        }
        for (Mod& mod : fit.job.plan) {
            if (mod.letter == fit.mods[k].applied) {
                return &mod;
            }
        }
    }
    return nullptr;
}

/// The unit as it is solved: measured parts at their values, at the recipe's setting.
Job asSolved(const Recipe& recipe, const RecipeFit& fit) {
    Job job = fit.job;
    job.stock = asMeasured(job.stock);
    job.setting = settingOfRecipe(recipe, fit);
    return job;
}

/// Three significant digits: what can be set and read.
double rounded(double value) {
    const double step = std::pow(10.0, std::floor(std::log10(value)) - 2.0);
    return std::round(value / step) * step;
}

/// The resistor's value that puts the device's output at so many volts. Errors: noConvergence when none does.
Result<double> ohmsForVolts(Circuit circuit, const Setting& setting, const PartId& device, const PartId& resistor,
                            double volts, const std::stop_token& stop) {
    auto last = solveCircuit(circuit, setting, stop);
    if (!last) {
        return last.error();
    }
    const NetName output = findPart(circuit, device)->nets.front();
    const auto missAt = [&](double value) -> Result<double> {
        findPart(circuit, resistor)->value = value;
        auto solved = solveCircuitLike(*last, circuit, setting, stop);
        if (!solved) {
            return solved.error();
        }
        *last = *std::move(solved);
        return last->biasVolts(output) - volts;
    };
    double low = smallestTrim;
    double high = largestTrim;
    const auto atLow = missAt(low);
    const auto atHigh = missAt(high);
    if (!atLow || !atHigh) {
        return atLow ? atHigh.error() : atLow.error();
    }
    if (*atLow * *atHigh > 0.0) {
        return Error{ErrorCode::noConvergence, said("no value puts it there")};
    }
    constexpr double closeEnough = 1.0 + 1e-6;
    while (high / low > closeEnough) {
        const double middle = std::sqrt(low * high);
        const auto miss = missAt(middle);
        if (!miss) {
            return miss.error();
        }
        (*miss * *atLow > 0.0 ? low : high) = middle;
    }
    return std::sqrt(low * high);
}

/// One trim's value here. Errors: of the search; cancelled.
Result<double> trimmedValue(const Recipe& recipe, const Trim& trim, const RecipeFitOptions& options,
                            const RecipeFit& fit, const PartId& part, const std::stop_token& stop) {
    const Job job = asSolved(recipe, fit);
    if (trim.device.empty()) {
        TargetRequest request;
        request.wants = trim.wants;
        request.parts = {part};
        request.drawer = options.drawer;
        request.forJob = options.forJob;
        request.withPairs = false;
        const auto list = findTargets(job, request, stop);
        if (!list) {
            return list.error();
        }
        if (list->answers.empty()) {
            return Error{ErrorCode::noConvergence, said("no part gives it")};
        }
        return list->answers.front().choices.front().combination.value;
    }
    const auto now = nowCircuit(job);
    if (!now) {
        return now.error();
    }
    const PartMatch* device = fit.match.find(trim.device);
    if (device == nullptr || device->other.empty()) {
        return Error{ErrorCode::invalidInput, said("its device is not found here")};
    }
    const Result<double> ohms = trim.outputVolts
                                    ? ohmsForVolts(*now, job.setting, device->other, part, *trim.outputVolts, stop)
                                    : trimmedLoadOhms(*now, job.setting, device->other, stop);
    return ohms ? Result<double>(rounded(*ohms)) : ohms;
}

std::string withUnit(double value, const std::string& unit) {
    if (unit == "Hz") {
        return formatFrequency(value);
    }
    const std::string text = unit == "V" ? formatFixed(value, 2) : formatFigure(value);
    return unit.empty() ? text : text + " " + said(unit);
}

std::string thereAndHere(const std::string& what, const std::string& there, const std::string& here) {
    return said("%1: %2 there, %3 here", what, there, here);
}

std::string valueWords(const Part& part, double value) {
    return hasModel(part.kind) ? part.model : formatPartValue({value, unitOf(part.kind)});
}

void compareParts(const Recipe& recipe, RecipeFit& fit) {
    for (const PartMatch& match : fit.match.parts) {
        const Part& there = *findPart(recipe.circuit, match.part);
        const Part* here = findPart(fit.job.stock, match.other);
        const std::string known = displayName(there);
        if (here == nullptr) {
            fit.differences.push_back(
                {DifferenceKind::part, known, {}, {}, {}, said("No part here does what %1 does there", known)});
            continue;
        }
        const std::string name = displayName(*here);
        const std::string who = name == known ? name : said("%1 (%2 there)", name, known);
        if (hasModel(there.kind)) {
            const Model* one = findModel(recipe.circuit, there.model);
            const Model* other = findModel(fit.job.stock, here->model);
            if (one != nullptr && other != nullptr && one->parameters != other->parameters) {
                const bool isSameType = there.model == here->model;
                fit.differences.push_back({DifferenceKind::value,
                                           name,
                                           {},
                                           {},
                                           {},
                                           isSameType ? said("%1 is a %2 with figures of its own", who, here->model)
                                                      : thereAndHere(who, there.model, here->model)});
            }
            continue;
        }
        const double value = here->measured.value_or(here->value);
        if (there.value > 0.0 && std::abs(value - there.value) > valueShare * there.value) {
            const std::string both = thereAndHere(who, valueWords(there, there.value), valueWords(*here, value));
            fit.differences.push_back({DifferenceKind::value, name, std::string(unitSymbol(unitOf(there.kind))),
                                       there.value, value, here->measured ? said("%1, measured", both) : both});
        }
    }
    for (const PartId& id : fit.match.unmatched) {
        const Part& part = *findPart(fit.job.stock, id);
        fit.differences.push_back({DifferenceKind::part,
                                   displayName(part),
                                   {},
                                   {},
                                   {},
                                   said("%1, %2, is not there", displayName(part), roleWords(fit.job.stock, part))});
    }
}

const FigureKind* kindOf(const std::string& id) {
    for (const FigureKind& kind : figureKinds()) {
        if (kind.id == id) {
            return &kind;
        }
    }
    return nullptr;
}

bool isSame(const FigureKind& kind, double there, double here) {
    Want want;
    want.figure.id = std::string(kind.id);
    want.figure.unit = std::string(kind.unit);
    want.figure.comparedAsRatio = kind.comparedAsRatio;
    want.value = there;
    const double step = nearnessStep(want);
    if (kind.comparedAsRatio) {
        return there > 0.0 && here > 0.0 && std::abs(std::log(here / there)) <= std::log(1.0 + valueShare);
    }
    return std::abs(here - there) <= step;
}

Result<void> compareFiguresWith(const Recipe& recipe, RecipeFit& fit, const std::stop_token& stop) {
    const auto figures = compareFigures(asSolved(recipe, fit), stop);
    if (!figures) {
        return figures.error();
    }
    for (const ComparedFigure& figure : *figures) {
        const auto known = std::find_if(recipe.figures.begin(), recipe.figures.end(),
                                        [&figure](const RecipeFigure& each) { return each.id == figure.id; });
        const std::optional<double> there = known != recipe.figures.end() ? known->now : std::nullopt;
        const std::optional<double>& here = figure.now.value;
        const FigureKind* kind = kindOf(figure.id);
        if (kind == nullptr || (!there && !here) || (there && here && isSame(*kind, *there, *here))) {
            continue;
        }
        const std::string unit(kind->unit);
        const auto words = [&unit](const std::optional<double>& value) {
            return value ? withUnit(*value, unit) : said("none");
        };
        fit.differences.push_back({DifferenceKind::figure, figure.id, unit, there, here,
                                   thereAndHere(said(kind->name), words(there), words(here))});
    }
    return {};
}

Result<void> compareReadings(const Recipe& recipe, RecipeFit& fit, const std::stop_token& stop) {
    const auto readings = restReadings(asSolved(recipe, fit), stop);
    if (!readings) {
        return readings.error();
    }
    for (const UnitReading& there : recipe.readings) {
        const auto net = fit.match.nets.find(there.net);
        const auto here = net == fit.match.nets.end()
                              ? readings->end()
                              : std::find_if(readings->begin(), readings->end(),
                                             [&net](const UnitReading& each) { return each.net == net->second; });
        if (here == readings->end() ||
            std::abs(here->value - there.value) <= std::abs(there.value) * readingShare + leastVolts) {
            continue;
        }
        fit.differences.push_back({DifferenceKind::reading, here->place, "V", there.value, here->value,
                                   thereAndHere(here->place, withUnit(there.value, "V"), withUnit(here->value, "V"))});
    }
    return {};
}

}  // namespace

std::string_view differenceWord(DifferenceKind kind) {
    switch (kind) {
        case DifferenceKind::value:
            return toSay("value");
        case DifferenceKind::trim:
            return toSay("trim");
        case DifferenceKind::figure:
            return toSay("figure");
        case DifferenceKind::reading:
            return toSay("reading");
        case DifferenceKind::part:
            break;
    }
    return toSay("part");
}

Result<void> solveTrims(const Recipe& recipe, const RecipeFitOptions& options, RecipeFit& fit,
                        const std::stop_token& stop) {
    for (const Trim& trim : recipe.trims) {
        Mod* mod = modApplied(fit, recipe, trim.mod);
        auto* swap = mod != nullptr ? std::get_if<SwapValue>(&mod->change) : nullptr;
        if (swap == nullptr) {
            continue;
        }
        const Part& part = *findPart(fit.job.stock, swap->part);
        const std::string rule = trimWords(recipe.circuit, trim);
        const double there = swap->value;
        const auto value = trimmedValue(recipe, trim, options, fit, swap->part, stop);
        if (!value && value.error().code == ErrorCode::cancelled) {
            return value.error();
        }
        const std::string symbol(unitSymbol(unitOf(part.kind)));
        if (!value) {
            fit.differences.push_back({DifferenceKind::trim, displayName(part), symbol, there, there,
                                       said("%1 keeps the recipe's %2, the trim (%3) has no value here: %4",
                                            displayName(part), valueWords(part, there), rule, value.error().message)});
            continue;
        }
        swap->value = *value;
        fit.differences.push_back(
            {DifferenceKind::trim, displayName(part), symbol, there, *value,
             said("%1, trimmed anew: %2",
                  thereAndHere(displayName(part), valueWords(part, there), valueWords(part, *value)), rule)});
    }
    return {};
}

Result<void> findDifferences(const Recipe& recipe, RecipeFit& fit, const std::stop_token& stop) {
    compareParts(recipe, fit);
    if (Result<void> figures = compareFiguresWith(recipe, fit, stop); !figures) {
        return figures;
    }
    return compareReadings(recipe, fit, stop);
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/throws.h"

#include "core/base/number_text.h"
#include "core/base/preferred_numbers.h"
#include "core/base/said.h"
#include "core/base/value_text.h"
#include "core/measure/solved_circuit.h"
#include "core/measure/source_side.h"
#include "core/plan/apply.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ohmwright {

namespace {

constexpr double quietVolts = 1e-3;
constexpr double smallestTrim = 1.0;
constexpr double largestTrim = 10e6;
constexpr double trimShare = 1e-6;
constexpr double sameDb = 1e-4;

Error named(const std::string& name, Error error) {
    if (error.code != ErrorCode::cancelled) {
        error.message = name + ": " + error.message;
    }
    return error;
}

double levelOf(const std::vector<Figure>& figures) {
    const Figure* level = findFigure(figures, "level");
    return level == nullptr ? std::numeric_limits<double>::quiet_NaN()
                            : level->value.value_or(std::numeric_limits<double>::quiet_NaN());
}

struct SolvedThrow {
    const ThrowCircuit* what;
    SolvedCircuit solved;
};

double acrossIn(const SolvedThrow& where, const Part& part) {
    const auto volts = [&](const NetName& net) {
        return where.solved.equations->indexOfNet(net) < 0 ? 0.0 : where.solved.biasVolts(net);
    };
    return std::abs(volts(part.nets[0]) - volts(part.nets[1]));
}

/// The largest step at the contact of a part that `to` has and `from` has not (or has elsewhere). A part without charge
/// hangs on by one end and has that end's voltage; a capacitor has lost what it held.
std::optional<ContactStep> stepBetween(const SolvedThrow& from, const SolvedThrow& to) {
    std::optional<ContactStep> largest;
    for (const Part& part : to.what->circuit.parts) {
        const Part* before = findPart(from.what->circuit, part.id);
        const bool isJoined = before == nullptr || before->nets != part.nets;
        if (!isJoined || part.nets.size() < 2) {
            continue;
        }
        const bool isCharge = part.kind == PartKind::capacitor;
        const double volts = acrossIn(isCharge ? to : from, part);
        if (volts >= quietVolts && (!largest || volts > largest->volts)) {
            const std::string name = part.reference.empty() ? part.id : part.reference;
            const char* sentence = isCharge ? toSay(
                                                  "%1 to %2: %3 V at the contact of %4 when it has lost its charge: "
                                                  "fit 1M to 2M2 across the contact.")
                                            : toSay("%1 to %2: %3 V at the contact of %4.");
            const std::string words = said(sentence, from.what->name, to.what->name, formatFigure(volts), name);
            largest = ContactStep{from.what->name, to.what->name, part.id, volts, isCharge, words};
        }
    }
    return largest;
}

/// The level pot: the last with its bottom on ground, the guitar's volume left out.
const Part* levelPot(const Circuit& circuit) {
    const Circuit driven = drivenAtJack(circuit);
    const Part* pot = nullptr;
    for (const Part& part : circuit.parts) {
        const bool isDivider = part.kind == PartKind::potentiometer && part.nets[2] == groundNet &&
                               part.nets[1] != part.nets[0] && part.nets[1] != part.nets[2];
        if (isDivider && findPart(driven, part.id) != nullptr) {
            pot = &part;
        }
    }
    return pot;
}

Result<double> levelWithTrim(const Circuit& circuit, const PartId& pot, double ohms, const Setting& setting,
                             const std::stop_token& stop) {
    NewPart trim;
    trim.reference = "RTRIM";
    trim.value = ohms;
    const auto trimmed = applyMod(circuit, Mod{"trim", "", "", AddInSeries{pot, 0, trim, false}, true});
    if (!trimmed) {
        return trimmed.error();
    }
    return measureLevelDbv(*trimmed, setting, stop);
}

}  // namespace

Result<std::vector<ThrowCircuit>> throwCircuits(const Job& job, const std::string& modId) {
    Plan plan = job.plan;
    const auto mod = std::find_if(plan.begin(), plan.end(), [&modId](const Mod& one) {
        return std::holds_alternative<FitSwitch>(one.change) && (modId.empty() || one.id == modId);
    });
    if (mod == plan.end()) {
        return Error{ErrorCode::invalidInput, said("The plan fits no switch: add one with its throws first."), modId};
    }
    mod->on = true;
    std::vector<ThrowCircuit> throws;
    for (const SwitchThrow& one : std::get<FitSwitch>(mod->change).throws) {
        Throws positions = job.setting.throws;
        positions[mod->id] = one.name;
        auto circuit = applyPlan(job.stock, plan, positions);
        if (!circuit) {
            return named(one.name, circuit.error());
        }
        throws.push_back({one.name, *std::move(circuit)});
    }
    return throws;
}

Result<std::vector<ContactStep>> contactSteps(const std::vector<ThrowCircuit>& throws, const Setting& setting,
                                              const std::stop_token& stop) {
    std::vector<SolvedThrow> solved;
    for (const ThrowCircuit& one : throws) {
        auto bias = solveCircuit(one.circuit, setting, stop);
        if (!bias) {
            return named(one.name, bias.error());
        }
        solved.push_back({&one, *std::move(bias)});
    }
    std::vector<ContactStep> steps;
    for (std::size_t k = 1; k < solved.size(); ++k) {
        for (const auto& step : {stepBetween(solved[k - 1], solved[k]), stepBetween(solved[k], solved[k - 1])}) {
            if (step) {
                steps.push_back(*step);
            }
        }
    }
    std::stable_sort(steps.begin(), steps.end(),
                     [](const ContactStep& a, const ContactStep& b) { return a.volts > b.volts; });
    return steps;
}

Result<ThrowTable> readThrows(const std::vector<ThrowCircuit>& throws, const Setting& setting,
                              const std::stop_token& stop) {
    if (throws.size() < 2) {
        return Error{ErrorCode::invalidInput, said("A switch has two throws or more: name another."), ""};
    }
    ThrowTable table;
    for (const ThrowCircuit& one : throws) {
        const auto state = measureLargeSignal(one.circuit, setting, {.clipPoints = 2, .withThresholds = false}, stop);
        if (!state) {
            return named(one.name, state.error());
        }
        table.throws.push_back({one.name, state->figures, levelOf(state->figures)});
    }
    const double first = table.throws.front().jumpDb;
    for (std::size_t k = 0; k < throws.size(); ++k) {
        const double level = levelOf(table.throws[k].figures);
        table.throws[k].jumpDb = level - first;
        if (k == 0) {
            continue;
        }
        const double jump = std::abs(level - levelOf(table.throws[k - 1].figures));
        table.largestJumpDb = std::isfinite(jump) ? std::max(table.largestJumpDb, jump) : table.largestJumpDb;
    }
    auto steps = contactSteps(throws, setting, stop);
    if (!steps) {
        return steps.error();
    }
    table.steps = *std::move(steps);
    return table;
}

Result<LevelTrim> trimLevel(const ThrowCircuit& loud, const ThrowCircuit& quiet, const Setting& setting,
                            const std::stop_token& stop) {
    const Part* pot = levelPot(loud.circuit);
    if (pot == nullptr) {
        return Error{ErrorCode::invalidInput,
                     said("The circuit has no level pot with its bottom on ground: trim the level elsewhere."), ""};
    }
    const auto goal = measureLevelDbv(quiet.circuit, setting, stop);
    if (!goal) {
        return named(quiet.name, goal.error());
    }
    const auto levelAt = [&](double ohms) { return levelWithTrim(loud.circuit, pot->id, ohms, setting, stop); };
    const auto highest = levelAt(smallestTrim);
    if (!highest) {
        return named(loud.name, highest.error());
    }
    if (*highest < *goal + sameDb) {
        return Error{ErrorCode::invalidInput,
                     said("%1 is not louder than %2: trim the other one, or none.", loud.name, quiet.name), pot->id};
    }
    const auto lowest = levelAt(largestTrim);
    if (!lowest) {
        return named(loud.name, lowest.error());
    }
    if (*lowest > *goal) {
        return Error{ErrorCode::noConvergence,
                     said("Even 10M before %1 leaves %2 louder: trim elsewhere.", displayName(*pot), loud.name),
                     pot->id};
    }
    double under = smallestTrim;
    double over = largestTrim;
    while (over / under > 1.0 + trimShare) {
        const double middle = std::sqrt(under * over);
        const auto level = levelAt(middle);
        if (!level) {
            return named(loud.name, level.error());
        }
        (*level > *goal ? under : over) = middle;
    }
    LevelTrim trim{pot->id, std::sqrt(under * over), 0.0, 0.0, ""};
    trim.preferredOhms = nearestPreferred(trim.ohms, Series::e12);
    const auto remaining = levelAt(trim.preferredOhms);
    if (!remaining) {
        return named(loud.name, remaining.error());
    }
    trim.remainingDb = *remaining - *goal;
    const double rounded = std::round(trim.ohms / 1e3) * 1e3;
    trim.sentence =
        said("%1 before %2 makes %3 as loud as %4; %5 leaves %6 dB.",
             formatPartValue(ohms(rounded > 0.0 ? rounded : trim.ohms)), displayName(*pot), loud.name, quiet.name,
             formatPartValue(ohms(trim.preferredOhms)), formatFixed(trim.remainingDb, 1, Sign::always));
    return trim;
}

}  // namespace ohmwright

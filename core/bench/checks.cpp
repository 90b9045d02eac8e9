// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/checks.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/bench/bench_state.h"
#include "core/bench/cheapest_cover.h"
#include "core/bench/net_words.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace ohmwright {

namespace {

double costOf(const Check& check, const CheckOptions& options) {
    switch (check.kind) {
        case CheckKind::volts:
            return options.voltsCost;
        case CheckKind::tone:
            return options.toneCost;
        default:
            return options.meterCost;
    }
}

/// Parts that are not the same on two boards, as they are on both.
std::vector<Part> differingParts(const Circuit& a, const Circuit& b) {
    std::vector<Part> parts;
    for (std::size_t k = 0; k < a.parts.size(); ++k) {
        const bool isSamePlace = k < b.parts.size() && b.parts[k].id == a.parts[k].id;
        const Part* other = isSamePlace ? &b.parts[k] : findPart(b, a.parts[k].id);
        if (other == nullptr || *other != a.parts[k]) {
            parts.push_back(a.parts[k]);
            if (other != nullptr) {
                parts.push_back(*other);
            }
        }
    }
    for (const Part& part : b.parts) {
        if (findPart(a, part.id) == nullptr) {
            parts.push_back(part);
        }
    }
    return parts;
}

/// The nets that a meter check's answer hangs on, on the finished board.
std::set<NetName> netsOfCheck(const Check& check, const BenchState& finished) {
    std::set<NetName> nets;
    const auto add = [&](const Probe& probe) {
        if (probe.part.empty()) {
            nets.insert(probe.net);
            return;
        }
        if (const Part* part = findPart(finished.circuit(), probe.part)) {
            nets.insert(part->nets.begin(), part->nets.end());
        }
    };
    add(check.red);
    add(check.black);
    const std::set<NetName> ends = nets;
    for (const NetName& red : ends) {
        for (const NetName& black : ends) {
            if (red != black) {
                nets.merge(finished.board().reach(red, black));
            }
        }
    }
    return nets;
}

std::string changeText(const CheckPlan& plan, std::size_t check, std::size_t mistake) {
    const CheckReading wrong = plan.readings[mistake][check];
    if (plan.checks[check].kind != CheckKind::tone) {
        return readingText(plan.checks[check].kind, wrong);
    }
    const CheckReading right = plan.checks[check].expected.nominal;
    if (!wrong || !right) {
        return said("no level");
    }
    const double change = *wrong - *right;
    return formatFixed(change, std::abs(change) < 1.0 ? 2 : 1, Sign::always) + " dB";
}

/// Resistor and capacitor of one leg both worked on: in one tone their errors can make up for each other.
bool bothLegsOfAnRc(const std::vector<BoardEdit>& edits) {
    const auto isWork = [](const BoardEdit& edit, PartKind kind) {
        return (edit.kind == EditKind::partSwapped || edit.kind == EditKind::partIn) && edit.after.kind == kind;
    };
    for (const BoardEdit& resistor : edits) {
        if (!isWork(resistor, PartKind::resistor)) {
            continue;
        }
        for (const BoardEdit& capacitor : edits) {
            if (!isWork(capacitor, PartKind::capacitor)) {
                continue;
            }
            for (const NetName& net : resistor.after.nets) {
                if (net != groundNet && std::find(capacitor.after.nets.begin(), capacitor.after.nets.end(), net) !=
                                            capacitor.after.nets.end()) {
                    return true;
                }
            }
        }
    }
    return false;
}

/// With both legs of an RC swapped a second tone joins a lone one: the farthest from it.
void addSecondTone(CheckPlan& plan) {
    std::vector<std::size_t> tones;
    for (const std::size_t k : plan.smallest) {
        if (plan.checks[k].kind == CheckKind::tone) {
            tones.push_back(k);
        }
    }
    if (tones.size() != 1) {
        return;
    }
    const double first = plan.checks[tones.front()].toneHz;
    std::optional<std::size_t> farthest;
    const auto distance = [&](std::size_t k) { return std::abs(std::log(plan.checks[k].toneHz / first)); };
    for (std::size_t k = 0; k < plan.checks.size(); ++k) {
        if (plan.checks[k].kind == CheckKind::tone && k != tones.front() &&
            (!farthest || distance(k) > distance(*farthest))) {
            farthest = k;
        }
    }
    if (farthest) {
        plan.smallest.push_back(*farthest);
        plan.notes.push_back(
            said("Resistor and capacitor of one leg are both new: one tone alone proves neither, so two are "
                 "taken."));
    }
}

void addNotes(CheckPlan& plan) {
    const bool hasChip = std::any_of(plan.checks.begin(), plan.checks.end(), [](const Check& check) {
        return check.hasChip && (check.kind == CheckKind::diode || check.kind == CheckKind::ohms);
    });
    if (hasChip) {
        plan.notes.push_back(
            said("An unpowered chip can conduct through its own junctions, which are not in these figures: "
                 "where a reading beside a chip looks wrong, lift one leg to be sure."));
    }
    for (const std::size_t mistake : plan.unseen) {
        plan.notes.push_back(said("%1: no reading tells it from the plan; look at the part before and after soldering.",
                                  plan.mistakes[mistake].sentence));
    }
}

/// What every check reads on a board with a mistake, and whether it sees the mistake.
struct WrongReadings {
    std::vector<CheckReading> readings;
    std::vector<bool> seen;
};

/// @param hangsOn  nets that a check's reading hangs on; it reads as planned where no part that differs is at one.
/// @param parts    that differ; without any, everything reads as planned.
Result<WrongReadings> readWrong(const std::vector<Check>& checks, const std::vector<std::set<NetName>>& hangsOn,
                                BenchState& wrong, const std::vector<Part>& parts, const std::stop_token& stop) {
    WrongReadings all;
    for (std::size_t k = 0; k < checks.size(); ++k) {
        const Check& check = checks[k];
        const auto isNear = [&](const Part& part) {
            return std::any_of(part.nets.begin(), part.nets.end(),
                               [&](const NetName& net) { return hangsOn[k].count(net) > 0; });
        };
        const bool isFar = parts.empty() || (isMeter(check.kind) && std::none_of(parts.begin(), parts.end(), isNear));
        const Result<CheckReading> reading =
            isFar ? Result<CheckReading>(check.expected.nominal) : wrong.read(check, stop);
        if (!reading && reading.error().code == ErrorCode::cancelled) {
            return reading.error();
        }
        all.readings.push_back(reading ? *reading : check.expected.nominal);
        all.seen.push_back(reading.hasValue() && !check.expected.holds(*reading));
    }
    return all;
}

/// The order of work: beeper, ohms, diode range, volts, tones.
void sortForWork(CheckPlan& plan) {
    std::sort(plan.smallest.begin(), plan.smallest.end(), [&](std::size_t a, std::size_t b) {
        return plan.checks[a].kind != plan.checks[b].kind ? plan.checks[a].kind < plan.checks[b].kind : a < b;
    });
}

}  // namespace

Result<CheckPlan> planChecks(const std::vector<BoardEdit>& edits, const Circuit& finished, const Setting& setting,
                             const CheckOptions& options, const std::stop_token& stop) {
    CheckPlan plan;
    Result<std::vector<Check>> checks = candidateChecks(edits, finished, setting, options, stop);
    if (!checks) {
        return checks.error();
    }
    plan.checks = *std::move(checks);
    plan.mistakes = options.alsoLikely;
    for (Mistake& mistake : likelyMistakes(edits, finished)) {
        plan.mistakes.push_back(std::move(mistake));
    }

    const BenchState planned(finished, setting, options.meter);
    std::vector<std::set<NetName>> hangsOn;
    for (const Check& check : plan.checks) {
        hangsOn.push_back(isMeter(check.kind) ? netsOfCheck(check, planned) : std::set<NetName>{});
    }
    std::vector<std::vector<bool>> seen;
    for (const Mistake& mistake : plan.mistakes) {
        if (stop.stop_requested()) {
            return Error{ErrorCode::cancelled, said("The solve was overtaken by a newer one."), ""};
        }
        BenchState wrong(mistake.circuit, setting, options.meter);
        const std::vector<Part> parts =
            mistake.isAlike ? std::vector<Part>{} : differingParts(finished, mistake.circuit);
        auto readings = readWrong(plan.checks, hangsOn, wrong, parts, stop);
        if (!readings) {
            return readings.error();
        }
        seen.push_back(std::move(readings->seen));
        plan.readings.push_back(std::move(readings->readings));
    }
    std::vector<double> costs;
    costs.reserve(plan.checks.size());
    for (const Check& check : plan.checks) {
        costs.push_back(costOf(check, options));
    }
    const Cover cover = cheapestCover(seen, costs);
    plan.smallest = cover.columns;
    plan.isSmallest = cover.isExact;
    for (std::size_t row = 0; row < seen.size(); ++row) {
        if (std::find(seen[row].begin(), seen[row].end(), true) == seen[row].end()) {
            plan.unseen.push_back(row);
        }
    }
    if (bothLegsOfAnRc(edits)) {
        addSecondTone(plan);
    }
    sortForWork(plan);
    addNotes(plan);
    return plan;
}

std::string howToSee(const CheckPlan& plan, std::size_t mistake) {
    const std::string& name = plan.mistakes[mistake].sentence;
    std::string blind, seeing;
    std::optional<std::size_t> best;
    const auto deviation = [&](std::size_t check) {
        return std::abs(plan.readings[mistake][check].value_or(0.0) -
                        plan.checks[check].expected.nominal.value_or(0.0));
    };
    for (std::size_t k = 0; k < plan.checks.size(); ++k) {
        if (plan.checks[k].kind != CheckKind::tone) {
            continue;
        }
        if (!plan.sees(k, mistake)) {
            const std::string tone = formatFrequency(plan.checks[k].toneHz);
            const std::string change = changeText(plan, k, mistake);
            blind.append(blind.empty() ? said("a tone of %1 cannot see it (%2)", tone, change)
                                       : ", " + said("%1 cannot see it (%2)", tone, change));
        } else if (!best || deviation(k) > deviation(*best)) {
            best = k;
        }
    }
    if (best) {
        seeing = formatFrequency(plan.checks[*best].toneHz) + " (" + changeText(plan, *best, mistake) + ")";
    }
    for (const CheckKind kind : {CheckKind::ohms, CheckKind::diode, CheckKind::beep, CheckKind::silence}) {
        for (std::size_t k = 0; k < plan.checks.size(); ++k) {
            if (plan.checks[k].kind == kind && plan.sees(k, mistake)) {
                const std::string way = said("%1 (%2)", said(checkWords(kind)), changeText(plan, k, mistake));
                seeing = seeing.empty() ? way : said("%1 or %2", seeing, way);
                break;
            }
        }
    }
    if (seeing.empty()) {
        return said("%1: no reading tells it from the plan; look at the part.", name);
    }
    return blind.empty() ? said("%1: use %2.", name, seeing) : said("%1: %2; use %3.", name, blind, seeing);
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/judge.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/bench/net_words.h"
#include "core/measure/solved_circuit.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ohmwright {

namespace {

/// How near a fault's own volts must come to what was read: the meter, the supply, the unit's other parts.
constexpr double nearVolts = 0.15, nearShare = 0.02;
/// A device with less than this share of its planned current carries none.
constexpr double offShare = 0.05;
/// More suspects than these help nobody.
constexpr std::size_t mostNamed = 8;

struct Ranked {
    int rank;
    double distance;
    Suspect suspect;
    bool isOff = false;
};

int faultRank(MistakeKind kind) {
    switch (kind) {
        case MistakeKind::legOpen:
            return 0;
        case MistakeKind::legsExchanged:
            return 1;
        case MistakeKind::bridged:
            return 2;
        default:
            return 3;
    }
}

std::vector<Suspect> inOrder(std::vector<Ranked>& ranked) {
    std::stable_sort(ranked.begin(), ranked.end(), [](const Ranked& a, const Ranked& b) {
        return a.rank != b.rank ? a.rank < b.rank : a.distance < b.distance;
    });
    std::vector<Suspect> suspects;
    suspects.reserve(ranked.size());
    for (Ranked& each : ranked) {
        suspects.push_back(std::move(each.suspect));
    }
    return suspects;
}

std::string namesOf(const std::vector<Suspect>& suspects) {
    std::string names;
    for (std::size_t k = 0; k < std::min(suspects.size(), mostNamed); ++k) {
        names += (k == 0 ? "" : "; ") + suspects[k].sentence;
    }
    return names;
}

/// What is said when nothing on the list gives a reading.
constexpr const char* nothingFits = toSay(
    "Out of band, and none of the listed mistakes gives this: read again, then look at the joints and the part beside "
    "it.");

double deviceCurrent(const SolvedCircuit& solved, const Part& part) {
    const std::vector<double> currents = solved.equations->terminalCurrents(part, solved.bias->x);
    return currents.empty() ? 0.0 : std::abs(currents.front());
}

/// Half of a band about another value, as wide as the check's own; of ohms in proportion.
double halfBandAround(const Check& check, double value) {
    constexpr double leastOhms = 0.5;
    constexpr double leastVolts = 0.02;
    const bool isOhms = check.kind == CheckKind::ohms;
    double half = isOhms ? 0.06 * value : nearVolts;
    if (check.expected.nominal && check.expected.low && check.expected.high) {
        half = 0.5 * (*check.expected.high - *check.expected.low);
        if (isOhms && *check.expected.nominal > 0.0) {
            half *= value / *check.expected.nominal;
        }
    }
    return std::max(half, isOhms ? leastOhms : leastVolts);
}

}  // namespace

Judgement judgeCheck(const CheckPlan& plan, std::size_t check, CheckReading reading) {
    const Check& own = plan.checks[check];
    Judgement judgement;
    if (own.expected.holds(reading)) {
        judgement.isInBand = true;
        judgement.sentence = said("In band.");
        return judgement;
    }
    std::vector<Ranked> ranked;
    for (std::size_t k = 0; k < plan.mistakes.size(); ++k) {
        const CheckReading wrong = plan.readings[k][check];
        const Mistake& mistake = plan.mistakes[k];
        if (!plan.sees(check, k) || wrong.has_value() != reading.has_value()) {
            continue;
        }
        const bool isCompared = wrong && !isBeeper(own.kind);
        const double distance = isCompared ? std::abs(*wrong - *reading) / halfBandAround(own, *wrong) : 0.0;
        if (distance > 1.0) {
            continue;
        }
        ranked.push_back(
            {static_cast<int>(mistake.kind), distance, {mistake.kind, mistake.part, mistake.sentence, wrong}});
    }
    judgement.suspects = inOrder(ranked);
    judgement.sentence = judgement.suspects.empty() ? said(nothingFits)
                                                    : said("Out of band (%1 expected). First suspicion: %2.",
                                                           own.expected.words(own.kind), namesOf(judgement.suspects));
    return judgement;
}

Result<Judgement> judgeProbe(const Circuit& circuit, const Setting& setting, const ProbeCard& card, std::size_t line,
                             double volts, const std::vector<Mistake>& mistakes, const std::stop_token& stop) {
    if (line >= card.lines.size()) {
        return Error{ErrorCode::invalidInput, said("The probe card has no line %1.", line + 1), {}};
    }
    const ProbeLine& own = card.lines[line];
    Judgement judgement;
    if (volts >= own.low && volts <= own.high) {
        judgement.isInBand = true;
        judgement.sentence = said("In band.");
        return judgement;
    }
    const Result<SolvedCircuit> good = solveCircuit(circuit, setting, stop);
    if (!good) {
        return good.error();
    }
    const Part* device = findPart(circuit, own.part);
    const bool canBeOff = device != nullptr && isAmplifying(device->kind);
    const double planned = canBeOff ? deviceCurrent(*good, *device) : 0.0;

    std::vector<Mistake> all = likelyFaults(circuit);
    all.insert(all.end(), mistakes.begin(), mistakes.end());
    std::vector<Ranked> ranked;
    const double tolerance = std::max(nearVolts, nearShare * std::abs(volts));
    for (const Mistake& fault : all) {
        if (stop.stop_requested()) {
            return Error{ErrorCode::cancelled, said("The solve was overtaken by a newer one."), ""};
        }
        const Result<SolvedCircuit> solved = solveCircuit(fault.circuit, setting, stop);
        const Part* part = findPart(fault.circuit, own.part);
        if (!solved || part == nullptr) {
            continue;  // What has no bias gives no steady reading.
        }
        const NetName& net = part->nets[static_cast<std::size_t>(own.leg)];
        // A leg that hangs free is read at its pad.
        const double read = solved->biasVolts(solved->equations->indexOfNet(own.net) >= 0 ? own.net : net);
        if (std::abs(read - volts) > tolerance) {
            continue;
        }
        const bool isOff = canBeOff && deviceCurrent(*solved, *part) < offShare * planned;
        ranked.push_back(
            {faultRank(fault.kind), std::abs(read - volts), {fault.kind, fault.part, fault.sentence, read}, isOff});
    }
    const bool allOff =
        canBeOff && !ranked.empty() &&
        std::count_if(ranked.begin(), ranked.end(), [](const Ranked& each) { return each.isOff; }) * 2 >=
            static_cast<long>(ranked.size());
    judgement.suspects = inOrder(ranked);
    if (judgement.suspects.empty()) {
        judgement.sentence = said(nothingFits);
        return judgement;
    }
    judgement.sentence = said("%1 V is out of band (%2 to %3 V).", formatFixed(volts, 2), formatFixed(own.low, 2),
                              formatFixed(own.high, 2)) +
                         " ";
    if (allOff) {
        judgement.sentence += said("%1 is off or its bias path is open.", device->reference) + " ";
    }
    judgement.sentence += said("Look at: %1.", namesOf(judgement.suspects));
    return judgement;
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/consequences.h"

#include "core/base/said.h"
#include "core/plan/alternatives.h"
#include "core/plan/apply.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ohmwright {

namespace {

/// Where a mod's response is held against the spread: open strings, and the middle and the top of the guitar's range.
/// From 82 Hz to 6 kHz, because a change that nobody hears is no work worth doing.
const std::vector<double>& markHertz() {
    static const std::vector<double> hertz{82.41, 110.0,  146.8,  196.0,  246.9, 329.6,
                                           500.0, 1000.0, 2000.0, 3000.0, 6000.0};
    return hertz;
}

bool isCancelled(const Error& error) {
    return error.code == ErrorCode::cancelled;
}

Job withAllOn(const Job& job) {
    Job all = job;
    for (Mod& mod : all.plan) {
        mod.on = true;
    }
    return all;
}

/// All on, but of alternatives one: what is on, else the earlier.
Job withoutAlternatives(const Job& everything, const Plan& plan) {
    Job job = everything;
    std::vector<const Mod*> kept;
    for (const bool isOn : {true, false}) {
        for (std::size_t at = 0; at < plan.size(); ++at) {
            if (plan[at].on != isOn) {
                continue;
            }
            const bool isFree = isOn || std::none_of(kept.begin(), kept.end(), [&](const Mod* other) {
                                    return areAlternatives(*other, plan[at]);
                                });
            job.plan[at].on = isFree;
            if (isFree) {
                kept.push_back(&plan[at]);
            }
        }
    }
    return job;
}

Result<SharesAnswer> levelShares(const Job& job, const std::stop_token& stop) {
    return shareFigures(job, {.figures = {"level"}, .withBands = false}, stop);
}

/// Greater is better kept.
int rank(ClaimVerdict verdict) {
    switch (verdict) {
        case ClaimVerdict::yes:
            return 3;
        case ClaimVerdict::partly:
            return 2;
        case ClaimVerdict::no:
            return 1;
        default:
            return 0;
    }
}

/// Where the sentence of an answer begins after its word: "yes; slope 0.52 → 0.73 dB per dB".
std::string afterWord(const ClaimAnswer& answer) {
    const std::string start = said(answer.word) + ": ";
    return answer.sentence.rfind(start, 0) == 0 ? answer.sentence.substr(start.size()) : answer.sentence;
}

/// The one mod that, alone, keeps the word best, where that is better than the plan does.
/// Errors: cancelled; a mod that cannot be fitted alone is passed over.
Result<std::string> betterAlone(const ConsequenceRequest& request, const ClaimAnswer& answer,
                                const std::stop_token& stop) {
    const Job& job = *request.job;
    std::string better;
    int best = std::max(1, rank(answer.verdict));
    for (const Mod& mod : job.plan) {
        const auto alone = applyAlone(job.stock, mod, job.setting.throws);
        auto check = alone ? ClaimCheck::make(job.stock, *alone, job.setting, request.words, stop) : alone.error();
        const auto kept = check ? check->check(answer.word, stop) : Result<ClaimAnswer>(check.error());
        if (!kept && isCancelled(kept.error())) {
            return kept.error();
        }
        if (kept && rank(kept->verdict) > best) {
            best = rank(kept->verdict);
            better = said("%1 alone: %2", mod.letter, afterWord(*kept));
        }
    }
    return better;
}

Result<SwitchAnswer> answerSwitch(const Job& job, const Mod& mod, const std::stop_token& stop) {
    const auto throws = throwCircuits(job, mod.id);
    if (!throws) {
        return throws.error();
    }
    SwitchAnswer answer;
    answer.modId = mod.id;
    const auto stands = job.setting.throws.find(mod.id);
    answer.chosen = stands == job.setting.throws.end() ? throws->front().name : stands->second;
    auto table = readThrows(*throws, job.setting, stop);
    if (!table) {
        return table.error();
    }
    answer.table = *std::move(table);
    for (const ThrowCircuit& one : *throws) {
        auto linear = measureLinear(one.circuit, job.setting, {}, stop);
        if (!linear) {
            Error error = linear.error();
            error.message = isCancelled(error) ? error.message : one.name + ": " + error.message;
            return error;
        }
        answer.responses.push_back(std::move(linear->response));
    }
    const auto [quiet, loud] =
        std::minmax_element(answer.table.throws.begin(), answer.table.throws.end(),
                            [](const ThrowReading& a, const ThrowReading& b) { return a.jumpDb < b.jumpDb; });
    const auto at = [&](auto reading) -> const ThrowCircuit& {
        return (*throws)[std::size_t(reading - answer.table.throws.begin())];
    };
    const auto trim = trimLevel(at(loud), at(quiet), job.setting, stop);
    if (!trim && isCancelled(trim.error())) {
        return trim.error();
    }
    answer.trim = trim ? trim->sentence : "";
    return answer;
}

}  // namespace

Result<TogetherAnswer> findTogether(const ConsequenceRequest& request, const std::stop_token& stop) {
    const Job& job = *request.job;
    auto on = levelShares(job, stop);
    if (!on) {
        return on.error();
    }
    TogetherAnswer answer;
    answer.on = std::move(on->figures.front());
    answer.note = on->note;
    const Job everything = withAllOn(job);
    const Job meant = withoutAlternatives(everything, job.plan);
    for (const Mod& mod : meant.plan) {
        if (!mod.on) {
            answer.leftOut.push_back(mod.letter);
        }
    }
    if (answer.on.mods.size() + answer.leftOut.size() < job.plan.size()) {
        auto all = levelShares(meant, stop);
        if (!all && isCancelled(all.error())) {
            return all.error();
        }
        if (all) {
            answer.all = std::move(all->figures.front());
            answer.note = answer.on.mods.size() < 2 ? all->note : answer.note;
        } else {
            answer.allTrouble = all.error().message;
        }
    }
    auto spreads = markMods(everything, markHertz(), stop);
    if (!spreads) {
        return spreads.error();
    }
    answer.spreads = *std::move(spreads);
    return answer;
}

Result<std::vector<WordAnswer>> findWords(const ConsequenceRequest& request, const std::stop_token& stop) {
    std::vector<WordAnswer> answers;
    const Job& job = *request.job;
    if (job.visit.words.empty()) {
        return answers;
    }
    const auto now = nowCircuit(job);
    if (!now) {
        return now.error();
    }
    auto check = ClaimCheck::make(job.stock, *now, job.setting, request.words, stop);
    if (!check) {
        return check.error();
    }
    for (const std::string& word : job.visit.words) {
        auto claim = check->check(word, stop);
        if (!claim && isCancelled(claim.error())) {
            return claim.error();
        }
        WordAnswer answer;
        if (claim) {
            answer.claim = *std::move(claim);
            auto better = betterAlone(request, answer.claim, stop);
            if (!better) {
                return better.error();
            }
            answer.better = *std::move(better);
        } else {
            answer.claim.word = word;
            answer.claim.sentence = claim.error().message;
        }
        answers.push_back(std::move(answer));
    }
    return answers;
}

Result<std::vector<KnobTranslation>> findTranslations(const ConsequenceRequest& request, const std::stop_token& stop) {
    return translateKnobs(*request.job, stop);
}

Result<EffectsAnswer> findEffects(const ConsequenceRequest& request, const std::stop_token& stop) {
    const Job& job = *request.job;
    const SideEffectOptions options{request.limits, true};
    EffectsAnswer answer{{}, request.stockReadings};
    if (!answer.stockReadings) {
        auto readings = readSides(job.stock, job.setting, options, stop);
        if (!readings) {
            return readings.error();
        }
        answer.stockReadings = std::make_shared<const SideReadings>(*std::move(readings));
    }
    auto effects = findSideEffects(job, *answer.stockReadings, options, stop);
    if (!effects) {
        return effects.error();
    }
    answer.effects = *std::move(effects);
    return answer;
}

Result<std::vector<SwitchAnswer>> findSwitches(const ConsequenceRequest& request, const std::stop_token& stop) {
    std::vector<SwitchAnswer> answers;
    for (const Mod& mod : request.job->plan) {
        if (!mod.on || !std::holds_alternative<FitSwitch>(mod.change)) {
            continue;
        }
        auto answer = answerSwitch(*request.job, mod, stop);
        if (!answer) {
            return answer.error();
        }
        answers.push_back(*std::move(answer));
    }
    return answers;
}

Result<SumsAnswer> findSums(const ConsequenceRequest& request, const std::stop_token& stop) {
    const Job& job = *request.job;
    const auto now = nowCircuit(job);
    if (!now) {
        return now.error();
    }
    auto stockSums = showSums(job.stock, job.setting, stop);
    if (!stockSums) {
        return stockSums.error();
    }
    auto nowSums = *now == job.stock ? stockSums : showSums(*now, job.setting, stop);
    if (!nowSums) {
        return nowSums.error();
    }
    return SumsAnswer{*std::move(stockSums), *std::move(nowSums)};
}

Result<Consequences> findConsequences(const ConsequenceRequest& request, const std::stop_token& stop) {
    Consequences all{request.job,
                     findTogether(request, stop),
                     findWords(request, stop),
                     findTranslations(request, stop),
                     findEffects(request, stop),
                     findSwitches(request, stop)};
    if (stop.stop_requested()) {
        return Error{ErrorCode::cancelled, said("The solve was overtaken by a newer one."), ""};
    }
    return all;
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/compare.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/circuit/gain_leg.h"
#include "core/measure/spread.h"
#include "core/plan/apply.h"
#include "core/plan/state_error.h"

#include <algorithm>
#include <cmath>
#include <future>
#include <limits>
#include <optional>

namespace ohmwright {

namespace {

/// A corner tag that rises by less is the same corner.
constexpr double cornerRises = 1.02;
/// A change at the low E string under this is no change in the low end.
constexpr double lowEndDb = 0.25;

/// The circuit with one more change on top; no part of the plan, so it needs no letter.
Result<Circuit> withGhost(const Circuit& now, const Change& ghost) {
    return applyMod(now, Mod{"ghost", "", "", ghost, true});
}

/// The mod that changes the selected part, on or off; null when there is none.
const Mod* modOnPart(const Plan& plan, const PartId& part) {
    for (const Mod& mod : plan) {
        if (!part.empty() && targetOf(mod.change) == part) {
            return &mod;
        }
    }
    return nullptr;
}

/// Level at the output [dBV]; NaN where no signal arrives.
double levelOf(const LargeSignalState& state) {
    return findFigure(state.figures, "level")->value.value_or(std::numeric_limits<double>::quiet_NaN());
}

bool sameStock(const Job& a, const Job& b) {
    return a.stock == b.stock && a.setting == b.setting;
}

bool sameNow(const Job& a, const Job& b) {
    return sameStock(a, b) && a.plan == b.plan;
}

/// Spread about a response at its own frequencies and the cursor's, which comes last; empty without a finite one.
/// Errors: cancelled.
Result<std::vector<double>> bandOf(const Circuit& circuit, const Setting& setting, const LinearState& state,
                                   const std::stop_token& stop) {
    std::vector<double> hertz = state.response.hz;
    hertz.push_back(state.cursorHz);
    const auto band = quickBand(circuit, setting, hertz, stop);
    if (!band && band.error().code == ErrorCode::cancelled) {
        return band.error();
    }
    const bool isThere =
        band && std::all_of(band->bandDb.begin(), band->bandDb.end(), [](double db) { return std::isfinite(db); });
    return isThere ? band->bandDb : std::vector<double>();
}

/// Errors: cancelled.
Result<void> addBands(LinearAnswer& answer, const Circuit& now, const LinearAnswer* stockKnown,
                      const std::stop_token& stop) {
    const Job& job = *answer.job;
    if (stockKnown != nullptr) {
        answer.stockBandDb = stockKnown->stockBandDb;
        answer.stockBandAtCursorDb = stockKnown->stockBandAtCursorDb;
    } else {
        auto band = bandOf(job.stock, job.setting, answer.stock, stop);
        if (!band) {
            return band.error();
        }
        if (!band->empty()) {
            answer.stockBandAtCursorDb = band->back();
            band->pop_back();
        }
        answer.stockBandDb = *std::move(band);
    }
    if (now == job.stock) {
        answer.nowBandDb = answer.stockBandDb;
        return {};
    }
    auto band = bandOf(now, job.setting, answer.now, stop);
    if (!band) {
        return band.error();
    }
    if (!band->empty()) {
        band->pop_back();
    }
    answer.nowBandDb = *std::move(band);
    return {};
}

Candidate solveCandidate(const Circuit& now, const CompareRequest& request, double value, double stockDb,
                         const std::stop_token& stop) {
    Candidate candidate{value, {}, {}, ""};
    const auto circuit = withGhost(now, SwapValue{request.selected, value});
    if (!circuit) {
        candidate.error = circuit.error().message;
        return candidate;
    }
    const Setting& setting = request.job->setting;
    if (const auto leg = findGainLeg(*circuit, circuit->ports.clipNode, potOhmsAt(*circuit, setting))) {
        candidate.cornerTagHz = leg->cornerHz();
    }
    const auto gain = measureGainDb(*circuit, setting, request.cursorHz, stop);
    if (gain && std::isfinite(*gain - stockDb)) {
        candidate.changeAtCursorDb = *gain - stockDb;
    } else if (gain) {
        candidate.error = said("no signal");
    } else {
        candidate.error = gain.error().message;
    }
    return candidate;
}

LinearOptions optionsOf(const CompareRequest& request) {
    return {.cursorHz = request.cursorHz};
}

/// What is tried on top of now; that it cannot be solved is said of it alone.
void addGhost(LinearAnswer& answer, const Circuit& now, const CompareRequest& request, const std::stop_token& stop) {
    if (!request.ghost) {
        return;
    }
    const auto circuit = withGhost(now, *request.ghost);
    auto ghost = circuit ? measureLinear(*circuit, request.job->setting, optionsOf(request), stop)
                         : Result<LinearState>(circuit.error());
    if (ghost) {
        answer.ghost = *std::move(ghost);
    } else {
        answer.ghostError = ghost.error().message;
    }
}

/// Stock with the mod of the chosen part and no other.
void addSelectedAlone(LinearAnswer& answer, const CompareRequest& request, const std::stop_token& stop) {
    const Job& job = *request.job;
    const Mod* mod = modOnPart(job.plan, request.selected);
    if (mod == nullptr) {
        return;
    }
    if (const auto circuit = applyAlone(job.stock, *mod, job.setting.throws)) {
        if (auto alone = measureLinear(*circuit, job.setting, optionsOf(request), stop)) {
            answer.selectedAlone = *std::move(alone);
        }
    }
}

/// Stock and now, each taken over from an earlier answer where what it depends on is the same: `last` may know now,
/// `sameBefore` knows stock.
Result<void> addStates(LargeSignalAnswer& answer, const Circuit& now, const LargeSignalAnswer* last,
                       const LargeSignalAnswer* sameBefore, const std::stop_token& stop) {
    const Job& job = *answer.job;
    // Stock and now have nothing to do with each other: on two cores they take the time of one.
    std::future<Result<LargeSignalState>> stock;
    if (sameBefore == nullptr) {
        stock = std::async(std::launch::async, [&] { return measureLargeSignal(job.stock, job.setting, {}, stop); });
    }
    std::optional<Result<LargeSignalState>> solved;
    if (last != nullptr && sameNow(*last->job, job)) {
        solved = last->now;
    } else if (!(now == job.stock)) {
        solved = measureLargeSignal(now, job.setting, {}, stop);
    }
    Result<LargeSignalState> solvedStock =
        sameBefore != nullptr ? Result<LargeSignalState>(sameBefore->stock) : stock.get();
    if (!solvedStock) {
        return named(toSay("stock: %1"), solvedStock.error());
    }
    answer.stock = *std::move(solvedStock);
    if (solved && !*solved) {
        return named(toSay("now: %1"), solved->error());
    }
    answer.now = solved ? **std::move(solved) : answer.stock;
    answer.togetherDb = levelOf(answer.now) - levelOf(answer.stock);
    return {};
}

void addGhost(LargeSignalAnswer& answer, const Circuit& now, const CompareRequest& request,
              const std::stop_token& stop) {
    if (!request.ghost) {
        return;
    }
    if (const auto circuit = withGhost(now, *request.ghost)) {
        if (auto ghost = measureLargeSignal(*circuit, request.job->setting, {.withThresholds = false}, stop)) {
            answer.ghost = *std::move(ghost);
        }
    }
}

void addSelectedAlone(LargeSignalAnswer& answer, const Circuit& now, const CompareRequest& request,
                      const std::stop_token& stop) {
    const Job& job = *request.job;
    const Mod* mod = modOnPart(job.plan, request.selected);
    if (mod == nullptr) {
        return;
    }
    if (const auto circuit = applyAlone(job.stock, *mod, job.setting.throws)) {
        if (*circuit == now) {
            answer.selectedAlone = answer.now;
        } else if (auto alone = measureLargeSignal(*circuit, job.setting, {}, stop)) {
            answer.selectedAlone = *std::move(alone);
        }
    }
}

/// What each mod alone does to the level; from `sameBefore`, if it is there, where the mod is as it was.
void addModsAlone(LargeSignalAnswer& answer, const LargeSignalAnswer* sameBefore, const std::stop_token& stop) {
    const Job& job = *answer.job;
    const double stockDbv = levelOf(answer.stock);
    answer.modAloneDb.reserve(job.plan.size());
    for (std::size_t k = 0; k < job.plan.size(); ++k) {
        const Mod& mod = job.plan[k];
        const bool isKnown =
            sameBefore != nullptr && k < sameBefore->modAloneDb.size() && sameBefore->job->plan[k].change == mod.change;
        if (isKnown) {
            answer.modAloneDb.push_back(sameBefore->modAloneDb[k]);
            continue;
        }
        answer.modAloneDb.emplace_back();
        if (const auto circuit = applyAlone(job.stock, mod, job.setting.throws)) {
            const auto level = measureLevelDbv(*circuit, job.setting, stop);
            if (level && std::isfinite(*level - stockDbv)) {
                answer.modAloneDb.back() = *level - stockDbv;
            }
        }
    }
}

}  // namespace

Result<LinearAnswer> compareLinear(const CompareRequest& request, const std::stop_token& stop) {
    const Job& job = *request.job;
    const auto now = nowCircuit(job);
    if (!now) {
        return named(toSay("now: %1"), now.error());
    }
    const LinearOptions options = optionsOf(request);
    LinearAnswer answer;
    answer.job = request.job;

    const LinearAnswer* last = request.lastLinear.get();
    const bool stockIsKnown = last != nullptr && sameStock(*last->job, job) && last->stock.cursorHz == request.cursorHz;
    if (stockIsKnown) {
        answer.stock = last->stock;
    } else {
        auto stock = measureLinear(job.stock, job.setting, options, stop);
        if (!stock) {
            return named(toSay("stock: %1"), stock.error());
        }
        answer.stock = *std::move(stock);
    }
    if (*now == job.stock) {
        answer.now = answer.stock;
    } else {
        auto solved = measureLinear(*now, job.setting, options, stop);
        if (!solved) {
            return named(toSay("now: %1"), solved.error());
        }
        answer.now = *std::move(solved);
    }
    if (auto added = addBands(answer, *now, stockIsKnown ? last : nullptr, stop); !added) {
        return added.error();
    }

    addGhost(answer, *now, request, stop);
    addSelectedAlone(answer, request, stop);
    for (const double value : request.candidateValues) {
        answer.candidates.push_back(solveCandidate(*now, request, value, answer.stock.responseDbAtCursor, stop));
    }
    if (stop.stop_requested()) {
        return Error{ErrorCode::cancelled, said("The solve was overtaken by a newer one."), ""};
    }
    return answer;
}

Result<LargeSignalAnswer> compareLargeSignal(const CompareRequest& request, const std::stop_token& stop) {
    const Job& job = *request.job;
    const auto now = nowCircuit(job);
    if (!now) {
        return named(toSay("now: %1"), now.error());
    }
    LargeSignalAnswer answer;
    answer.job = request.job;

    const LargeSignalAnswer* last = request.lastLargeSignal.get();
    const LargeSignalAnswer* sameBefore = last != nullptr && sameStock(*last->job, job) ? last : nullptr;
    if (auto added = addStates(answer, *now, last, sameBefore, stop); !added) {
        return added.error();
    }
    addGhost(answer, *now, request, stop);
    addSelectedAlone(answer, *now, request, stop);
    addModsAlone(answer, sameBefore, stop);
    if (stop.stop_requested()) {
        return Error{ErrorCode::cancelled, said("The solve was overtaken by a newer one."), ""};
    }
    return answer;
}

Result<std::vector<ComparedFigure>> compareFigures(const Job& job, const std::stop_token& stop) {
    const auto stock = measureFigures(job.stock, job.setting, stop);
    if (!stock) {
        return named(toSay("stock: %1"), stock.error());
    }
    const auto circuit = nowCircuit(job);
    if (!circuit) {
        return named(toSay("now: %1"), circuit.error());
    }
    const auto now = measureFigures(*circuit, job.setting, stop);
    if (!now) {
        return named(toSay("now: %1"), now.error());
    }
    std::vector<ComparedFigure> compared;
    for (std::size_t k = 0; k < stock->size(); ++k) {
        compared.push_back({(*stock)[k].id, (*stock)[k], (*now)[k]});
    }
    return compared;
}

std::string cornerNote(const LinearState& stock, const LinearState& now) {
    const Figure* before = findFigure(stock.figures, "gain_leg_corner");
    const Figure* after = findFigure(now.figures, "gain_leg_corner");
    const Figure* lowBefore = findFigure(stock.figures, "response_82");
    const Figure* lowAfter = findFigure(now.figures, "response_82");
    if (before == nullptr || after == nullptr || !before->value || !after->value || lowBefore == nullptr ||
        lowAfter == nullptr || !lowBefore->value || !lowAfter->value) {
        return {};
    }
    const double change = *lowAfter->value - *lowBefore->value;
    if (*after->value < cornerRises * *before->value || std::abs(change) >= lowEndDb) {
        return {};
    }
    return said("corner moved up, low end unchanged (%1 dB at 82 Hz)", formatFigure(change, Sign::always));
}

}  // namespace ohmwright

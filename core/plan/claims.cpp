// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/claims.h"

#include "core/base/decibels.h"
#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/measure/circuit_meter.h"
#include "core/measure/sound_figures.h"
#include "core/measure/spread.h"
#include "core/measure/stage_sweep.h"
#include "core/plan/apply.h"
#include "core/plan/state_error.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

namespace ohmwright {

namespace {

constexpr double lowHz = 82.41;
constexpr double middleHz = 1000.0;
constexpr double upperMiddleHz = 329.6;
constexpr double highHz = 3000.0;
/// Up to this pick level a clip threshold is looked for (core/measure/clipping.h) [V].
constexpr double highestThresholdVolts = 3.0;

/// A change that fulfils the word has this sign.
enum class Wanted { up, down };

double signOf(Wanted wanted) {
    return wanted == Wanted::up ? 1.0 : -1.0;
}

ClaimFigure figureWithLimits(std::string id, std::string name, std::string unit, Wanted wanted, double yes,
                             double partly) {
    ClaimFigure figure;
    figure.id = std::move(id);
    figure.name = std::move(name);
    figure.unit = std::move(unit);
    figure.limitYes = signOf(wanted) * yes;
    figure.limitPartly = signOf(wanted) * partly;
    return figure;
}

ClaimFigure figureBeside(std::string id, std::string name, std::string unit) {
    ClaimFigure figure;
    figure.id = std::move(id);
    figure.name = std::move(name);
    figure.unit = std::move(unit);
    return figure;
}

/// How far a change goes towards its limits.
ClaimVerdict verdictOfChange(const ClaimFigure& figure) {
    const double sign = *figure.limitYes < 0.0 ? -1.0 : 1.0;
    const double towards = sign * *figure.change();
    if (towards >= sign * *figure.limitYes) {
        return ClaimVerdict::yes;
    }
    if (towards >= sign * *figure.limitPartly) {
        return ClaimVerdict::partly;
    }
    return towards <= -sign * *figure.limitPartly ? ClaimVerdict::theOtherWay : ClaimVerdict::no;
}

/// Of all figures that have limits: the worst, and the other way where one goes that way.
ClaimVerdict verdictOfChanges(const std::vector<ClaimFigure>& figures) {
    ClaimVerdict worst = ClaimVerdict::yes;
    for (const ClaimFigure& figure : figures) {
        if (figure.limitYes) {
            worst = std::max(worst, verdictOfChange(figure));
        }
    }
    return worst;
}

std::string formatClaimValue(const ClaimFigure& figure, double value) {
    const bool isFine = figure.unit == "dB per dB" || figure.unit == "ratio";
    return isFine ? formatFixed(value, 2) : formatFigure(value);
}

std::string wordsOf(const ClaimFigure& figure) {
    const auto valueWords = [&figure](double value) {
        const std::string words = formatClaimValue(figure, value);
        return figure.unit == "ratio" ? words : words + " " + said(figure.unit);
    };
    if (!figure.now) {
        return figure.stock ? said("%1 %2, now none", figure.name, valueWords(*figure.stock)) : figure.name;
    }
    if (!figure.stock) {
        return figure.name + " " + valueWords(*figure.now);
    }
    std::string words = figure.name + " " + formatClaimValue(figure, *figure.stock) + " → " + valueWords(*figure.now);
    if (figure.unit == "dB") {
        words += " (" + formatFigure(*figure.change(), Sign::always) + ")";
    }
    return figure.bandDb ? said("%1, spread ±%2", words, formatFigure(*figure.bandDb)) : words;
}

std::string sentenceOf(const ClaimAnswer& answer) {
    std::string sentence = said(answer.word) + ": " + said(verdictWord(answer.verdict));
    std::string separator = "; ";
    for (const ClaimFigure& figure : answer.figures) {
        sentence += separator + wordsOf(figure);
        separator = ", ";
    }
    return answer.isHeldBack ? said("%1; no more than partly, because it lies within the spread", sentence) : sentence;
}

/// A word of the entry's own figures.
template <class Value>
Result<std::array<Value, 2>> both(Result<Value> stock, Result<Value> now) {
    if (!stock) {
        return named(toSay("stock: %1"), stock.error());
    }
    if (!now) {
        return named(toSay("now: %1"), now.error());
    }
    return std::array<Value, 2>{*std::move(stock), *std::move(now)};
}

}  // namespace

struct ClaimCheck::Bench {
    CircuitMeter stock;
    CircuitMeter now;
    ClaimLimits limits;
    std::map<double, double> bands;  ///< Quick band of stock by frequency.

    using Answered = Result<void>;

    /// Fills figures and verdict. Errors: invalidInput when the circuit has no such figure; of the solver; cancelled.
    Answered answer(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop);

    Result<double> band(double hertz, const std::stop_token& stop);
    Result<ClaimFigure> ofMeters(ClaimFigure figure, const std::string& id, const std::stop_token& stop);
    Result<ClaimFigure> againstEachOther(ClaimFigure figure, double overHz, double underHz);
    Result<ClaimFigure> response(ClaimFigure figure, double hertz, const std::stop_token& stop);

    Answered changesOf(ClaimAnswer& answer, std::vector<Result<ClaimFigure>> figures);
    void holdBackWithin(ClaimAnswer& answer, const ClaimFigure& figure) const;

    Answered fuller(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop);
    Answered tilt(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop);
    Answered gain(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop);
    Answered headroom(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop);
    Answered warmer(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop);
    Answered cleansUp(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop);
    Answered scooped(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop);
    Answered notGated(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop);
    Answered copiesAlike(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop);

    /// One figure of both circuits by a function of the solved circuit and its output.
    template <class Measure>
    Result<ClaimFigure> ofBoth(ClaimFigure figure, const Measure& measure) {
        const auto at = [&](const CircuitMeter& meter) -> Result<double> {
            return measure(meter.solved(), meter.solved().equations->indexOfNet(meter.circuit().ports.output));
        };
        const auto values = both<double>(at(stock), at(now));
        if (!values) {
            return values.error();
        }
        figure.stock = (*values)[0];
        figure.now = (*values)[1];
        return figure;
    }
};

using Answered = Result<void>;

Result<double> ClaimCheck::Bench::band(double hertz, const std::stop_token& stop) {
    if (const auto known = bands.find(hertz); known != bands.end()) {
        return known->second;
    }
    const auto quick = quickBand(stock.circuit(), stock.setting(), std::span(&hertz, 1), stop);
    if (!quick) {
        return named(toSay("stock: %1"), quick.error());
    }
    return bands[hertz] = quick->bandDb.front();
}

Result<ClaimFigure> ClaimCheck::Bench::ofMeters(ClaimFigure figure, const std::string& id,
                                                const std::stop_token& stop) {
    const auto values = both<Figure>(stock.figure(id, stop), now.figure(id, stop));
    if (!values) {
        return values.error();
    }
    for (const Figure& one : *values) {
        if (!one.value) {
            return Error{ErrorCode::invalidInput, said("There is nothing to compare: %1.", said(one.absence)), id};
        }
    }
    figure.stock = (*values)[0].value;
    figure.now = (*values)[1].value;
    return figure;
}

Result<ClaimFigure> ClaimCheck::Bench::againstEachOther(ClaimFigure figure, double overHz, double underHz) {
    const auto over = both<double>(stock.responseDb(overHz), now.responseDb(overHz));
    if (!over) {
        return over.error();
    }
    const auto under = both<double>(stock.responseDb(underHz), now.responseDb(underHz));
    if (!under) {
        return under.error();
    }
    figure.stock = (*over)[0] - (*under)[0];
    figure.now = (*over)[1] - (*under)[1];
    return figure;
}

Result<ClaimFigure> ClaimCheck::Bench::response(ClaimFigure figure, double hertz, const std::stop_token& stop) {
    const auto values = both<double>(stock.responseDb(hertz), now.responseDb(hertz));
    if (!values) {
        return values.error();
    }
    const auto spread = band(hertz, stop);
    if (!spread) {
        return spread.error();
    }
    figure.stock = (*values)[0];
    figure.now = (*values)[1];
    figure.bandDb = *spread;
    return figure;
}

Answered ClaimCheck::Bench::changesOf(ClaimAnswer& answer, std::vector<Result<ClaimFigure>> figures) {
    for (Result<ClaimFigure>& figure : figures) {
        if (!figure) {
            return figure.error();
        }
        if (!std::isfinite(figure->stock.value_or(0.0)) || !std::isfinite(figure->now.value_or(0.0))) {
            return Error{ErrorCode::invalidInput, said("No signal reaches the output, so there is nothing to compare."),
                         ""};
        }
        answer.figures.push_back(*std::move(figure));
    }
    answer.verdict = verdictOfChanges(answer.figures);
    return {};
}

void ClaimCheck::Bench::holdBackWithin(ClaimAnswer& answer, const ClaimFigure& figure) const {
    if (answer.verdict == ClaimVerdict::yes && SpreadMark{*figure.change(), figure.bandDb.value_or(0.0)}.isWithin()) {
        answer.verdict = ClaimVerdict::partly;
        answer.isHeldBack = true;
    }
}

Answered ClaimCheck::Bench::fuller(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop) {
    auto done = changesOf(
        answer,
        {response(figureWithLimits("response_82", "82 Hz", "dB", Wanted::up, claim.yes, claim.partly), lowHz, stop),
         againstEachOther(figureWithLimits("low_against_1k", said("82 Hz against 1 kHz"), "dB", Wanted::up,
                                           claim.yesSecond.value_or(0.0), claim.partlySecond.value_or(0.0)),
                          lowHz, middleHz)});
    if (done) {
        holdBackWithin(answer, answer.figures.front());
    }
    return done;
}

/// One end of the response against its middle, with the response at that end and its spread beside.
Answered ClaimCheck::Bench::tilt(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop) {
    const bool isLow = claim.rule == ClaimRule::tighter;
    const Wanted wanted = claim.rule == ClaimRule::brighter ? Wanted::up : Wanted::down;
    const double endHz = isLow ? lowHz : highHz;
    auto done = changesOf(
        answer,
        {againstEachOther(figureWithLimits(isLow ? "low_against_1k" : "high_against_330",
                                           isLow ? said("82 Hz against 1 kHz") : said("3 kHz against 330 Hz"), "dB",
                                           wanted, claim.yes, claim.partly),
                          endHz, isLow ? middleHz : upperMiddleHz),
         response(figureBeside(isLow ? "response_82" : "response_3k", isLow ? "82 Hz" : "3 kHz", "dB"), endHz, stop)});
    if (done) {
        holdBackWithin(answer, answer.figures.back());
    }
    return done;
}

Answered ClaimCheck::Bench::gain(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop) {
    auto figure =
        ofMeters(figureWithLimits("highest_gain", said("highest gain"), "dB", Wanted::up, claim.yes, claim.partly),
                 "highest_gain", stop);
    const Stage* stage = stock.clipStage();
    if (figure && stage != nullptr) {
        const auto at = stock.figure("highest_gain_at", stop);
        if (!at) {
            return at.error();
        }
        const double hertz = at->value.value_or(middleHz);
        const auto band =
            quickGainBand(stock.circuit(), stock.setting(), stage->input, stage->output, std::span(&hertz, 1), stop);
        if (!band) {
            return named(toSay("stock: %1"), band.error());
        }
        figure->bandDb = band->bandDb.front();
    }
    auto done = changesOf(answer, {std::move(figure)});
    if (done) {
        holdBackWithin(answer, answer.figures.front());
    }
    return done;
}

Answered ClaimCheck::Bench::headroom(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop) {
    const auto lower = [&](CircuitMeter& meter) -> Result<double> {
        double millivolts = 1e3 * highestThresholdVolts;
        for (const char* id : {"clip_threshold_positive_input", "clip_threshold_negative_input"}) {
            const auto threshold = meter.figure(id, stop);
            if (!threshold) {
                return threshold.error();
            }
            millivolts = std::min(millivolts, threshold->value.value_or(millivolts));
        }
        return amplitudeDb(millivolts);
    };
    const auto values = both<double>(lower(stock), lower(now));
    if (!values) {
        return values.error();
    }
    ClaimFigure figure = figureWithLimits("threshold_input", said("lower clip threshold, re 1 mVpk picked"), "dB",
                                          Wanted::up, claim.yes, claim.partly);
    figure.stock = (*values)[0];
    figure.now = (*values)[1];
    return changesOf(answer, {figure});
}

Answered ClaimCheck::Bench::warmer(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop) {
    const auto at = [&](const CircuitMeter& meter) {
        const int output = meter.solved().equations->indexOfNet(meter.circuit().ports.output);
        return measureWarmth(meter.solved(), output, meter.setting(), stop);
    };
    const auto values = both<Warmth>(at(stock), at(now));
    if (!values) {
        return values.error();
    }
    ClaimFigure second = figureWithLimits("h2", said("2nd harmonic"), "dB", Wanted::up, claim.yes, claim.partly);
    second.stock = (*values)[0].h2Dbc;
    second.now = (*values)[1].h2Dbc;
    ClaimFigure odd = figureWithLimits("h3_h5", said("3rd and 5th"), "dB", Wanted::down, claim.yesSecond.value_or(0.0),
                                       claim.partlySecond.value_or(0.0));
    odd.stock = (*values)[0].h3AndH5Dbc;
    odd.now = (*values)[1].h3AndH5Dbc;
    return changesOf(answer, {second, odd});
}

Answered ClaimCheck::Bench::cleansUp(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop) {
    const auto values = both<CleanUp>(measureCleanUp(stock.circuit(), stock.setting(), stop),
                                      measureCleanUp(now.circuit(), now.setting(), stop));
    if (!values) {
        return values.error();
    }
    ClaimFigure ratio = figureWithLimits("thd_ratio_volume_5_to_10", said("distortion at guitar volume 5 over 10"),
                                         "ratio", Wanted::up, claim.yes, claim.partly);
    ratio.limitsNow = true;
    ratio.stock = (*values)[0].ratio();
    ratio.now = (*values)[1].ratio();
    ClaimFigure atFive = figureBeside("thd_at_volume_5", said("distortion at 5"), "%");
    atFive.stock = 100.0 * (*values)[0].thdAt5;
    atFive.now = 100.0 * (*values)[1].thdAt5;
    answer.figures = {ratio, atFive};
    const bool isBetter = *ratio.now < *ratio.stock;
    answer.verdict = isBetter && *ratio.now <= claim.yes      ? ClaimVerdict::yes
                     : isBetter && *ratio.now <= claim.partly ? ClaimVerdict::partly
                                                              : ClaimVerdict::no;
    return {};
}

Answered ClaimCheck::Bench::scooped(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop) {
    std::optional<StageDip> dip;
    std::size_t place = 0;
    const auto& stages = stock.circuit().stages;
    const auto dipOf = [&](const CircuitMeter& meter, std::size_t stage) -> Result<std::optional<StageDip>> {
        const auto& of = meter.circuit().stages;
        if (stage >= of.size() || of[stage].input.empty() || of[stage].output.empty()) {
            return std::optional<StageDip>();
        }
        return findDip(meter.solved(), of[stage], stop);
    };
    for (std::size_t stage = 0; stage < stages.size(); ++stage) {
        const auto found = dipOf(stock, stage);
        if (!found) {
            return named(toSay("stock: %1"), found.error());
        }
        if (*found && (!dip || (*found)->underDb > dip->underDb)) {
            dip = *found;
            place = stage;
        }
    }
    if (!dip) {
        return Error{ErrorCode::invalidInput, said("No stage of stock has a dip between two summits."), ""};
    }
    const auto after = dipOf(now, place);
    if (!after) {
        return named(toSay("now: %1"), after.error());
    }
    ClaimFigure figure =
        figureWithLimits("dip_depth", said("dip of %1", stages[place].name), "dB", Wanted::up, claim.yes, claim.partly);
    figure.stock = dip->depthDb;
    if (!*after) {
        answer.figures = {figure};
        answer.verdict = ClaimVerdict::yes;  // no dip is left
        return {};
    }
    figure.now = (*after)->depthDb;
    return changesOf(answer, {figure});
}

Answered ClaimCheck::Bench::notGated(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop) {
    const BetaCorners betas{limits.betaLow, limits.betaHigh};
    const auto values = both<CollectorPlace>(measureCollectorPlace(stock.circuit(), stock.setting(), betas, stop),
                                             measureCollectorPlace(now.circuit(), now.setting(), betas, stop));
    if (!values) {
        return values.error();
    }
    constexpr double middle = 50.0;
    const auto add = [&](const char* id, const char* name, double CollectorPlace::*percent, double window) {
        ClaimFigure figure = figureWithLimits(id, said(name), "%", Wanted::up, window, window);
        figure.limitsNow = true;
        figure.stock = (*values)[0].*percent;
        figure.now = (*values)[1].*percent;
        answer.figures.push_back(figure);
        return std::abs(*figure.now - middle) <= window;
    };
    const bool low = add("collector_low", toSay("collector at low beta"), &CollectorPlace::lowPercent, claim.yes);
    const bool nominal = add("collector_nominal", toSay("nominal"), &CollectorPlace::nominalPercent, claim.partly);
    const bool high = add("collector_high", toSay("high beta"), &CollectorPlace::highPercent, claim.yes);
    answer.verdict = low && nominal && high ? ClaimVerdict::yes : nominal ? ClaimVerdict::partly : ClaimVerdict::no;
    return {};
}

Answered ClaimCheck::Bench::copiesAlike(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop) {
    const auto values = both<CopiesSpread>(measureCopiesSpread(stock.circuit(), stock.setting(), stop),
                                           measureCopiesSpread(now.circuit(), now.setting(), stop));
    if (!values) {
        return values.error();
    }
    ClaimFigure spread =
        figureWithLimits("copies_spread", said("copies differ by"), "dB", Wanted::up, claim.yes, claim.partly);
    spread.limitsNow = true;
    spread.stock = (*values)[0].spreadDb();
    spread.now = (*values)[1].spreadDb();
    answer.figures.push_back(spread);
    const auto addBeside = [&](const char* id, const char* name, double CopiesSpread::*gain) {
        ClaimFigure figure = figureBeside(id, said(name), "dB");
        figure.stock = (*values)[0].*gain;
        figure.now = (*values)[1].*gain;
        answer.figures.push_back(figure);
    };
    addBeside("response_1k_low", toSay("low"), &CopiesSpread::lowDb);
    addBeside("response_1k_typical", toSay("typical"), &CopiesSpread::typicalDb);
    addBeside("response_1k_high", toSay("high"), &CopiesSpread::highDb);
    answer.verdict = *spread.now <= claim.yes      ? ClaimVerdict::yes
                     : *spread.now <= claim.partly ? ClaimVerdict::partly
                                                   : ClaimVerdict::no;
    return {};
}

Answered ClaimCheck::Bench::answer(const Claim& claim, ClaimAnswer& answer, const std::stop_token& stop) {
    const auto limited = [&](const char* id, const char* name, const char* unit, Wanted wanted) {
        return figureWithLimits(id, said(name), unit, wanted, claim.yes, claim.partly);
    };
    switch (claim.rule) {
        case ClaimRule::fuller:
            return fuller(claim, answer, stop);
        case ClaimRule::tighter:
        case ClaimRule::brighter:
        case ClaimRule::darker:
            return tilt(claim, answer, stop);
        case ClaimRule::lessSquashed:
        case ClaimRule::moreSquashed:
            return changesOf(answer,
                             {ofMeters(limited("level_slope", toSay("slope"), toSay("dB per dB"),
                                               claim.rule == ClaimRule::lessSquashed ? Wanted::up : Wanted::down),
                                       "level_slope", stop)});
        case ClaimRule::moreGain:
            return gain(claim, answer, stop);
        case ClaimRule::moreHeadroom:
            return headroom(claim, answer, stop);
        case ClaimRule::louder:
        case ClaimRule::quieter:
            return changesOf(answer, {ofMeters(limited("level", toSay("level"), "dB",
                                                       claim.rule == ClaimRule::louder ? Wanted::up : Wanted::down),
                                               "level", stop)});
        case ClaimRule::lessFizzy:
            return changesOf(answer, {ofBoth(limited("fizz", toSay("harmonics 8 to 30"), "dB", Wanted::down),
                                             [&](const SolvedCircuit& solved, int output) {
                                                 return measureFizz(solved, output, upperMiddleHz,
                                                                    stock.setting().pickVoltsPeak, stop);
                                             })});
        case ClaimRule::warmer:
            return warmer(claim, answer, stop);
        case ClaimRule::lessNoisy:
            return changesOf(answer,
                             {ofBoth(limited("noise_at_equal_gain", toSay("noise at equal gain"), "dB", Wanted::down),
                                     [&](const SolvedCircuit& solved, int output) -> Result<double> {
                                         const auto noise = measureOutputNoise(solved, output, stop);
                                         return noise ? Result<double>(noise->atEqualGainDb) : noise.error();
                                     })});
        case ClaimRule::cleansUp:
            return cleansUp(claim, answer, stop);
        case ClaimRule::lessScooped:
            return scooped(claim, answer, stop);
        case ClaimRule::notGated:
            return notGated(claim, answer, stop);
        case ClaimRule::copiesAlike:
            return copiesAlike(claim, answer, stop);
        case ClaimRule::muddier:
            break;
    }
    const TwoStrings strings{.voltsPeak = stock.setting().pickVoltsPeak / 2.0};
    return changesOf(answer,
                     {ofBoth(limited("difference_product", toSay("41 Hz product of two low strings"), "dB", Wanted::up),
                             [&](const SolvedCircuit& solved, int output) {
                                 return measureDifferenceProduct(solved, output, strings, stop);
                             })});
}

ClaimCheck::ClaimCheck(std::unique_ptr<Bench> bench) : m_bench(std::move(bench)) {}
ClaimCheck::ClaimCheck(ClaimCheck&&) noexcept = default;
ClaimCheck& ClaimCheck::operator=(ClaimCheck&&) noexcept = default;
ClaimCheck::~ClaimCheck() = default;

Result<ClaimCheck> ClaimCheck::make(const Circuit& stock, const Circuit& now, const Setting& setting,
                                    const ClaimLimits& limits, const std::stop_token& stop) {
    if (auto sound = checkClaimLimits(limits); !sound) {
        return sound.error();
    }
    auto stockMeter = CircuitMeter::make(stock, setting, 0, nullptr, stop);
    if (!stockMeter) {
        return named(toSay("stock: %1"), stockMeter.error());
    }
    auto nowMeter = CircuitMeter::make(now, setting, 0, nullptr, stop);
    if (!nowMeter) {
        return named(toSay("now: %1"), nowMeter.error());
    }
    return ClaimCheck(std::make_unique<Bench>(Bench{*std::move(stockMeter), *std::move(nowMeter), limits, {}}));
}

Result<ClaimAnswer> ClaimCheck::check(const std::string& word, const std::stop_token& stop) {
    const Claim* claim = findClaim(m_bench->limits, word);
    if (claim == nullptr) {
        std::string known;
        for (const Claim& one : m_bench->limits.claims) {
            known += (known.empty() ? "" : ", ") + said(one.words.front());
        }
        return Error{ErrorCode::invalidInput, said("“%1” is not in the table of words: choose from %2.", word, known),
                     word};
    }
    ClaimAnswer answer;
    answer.word = word;
    answer.rule = claim->rule;
    const auto done = m_bench->answer(*claim, answer, stop);
    if (done) {
        answer.sentence = sentenceOf(answer);
        return answer;
    }
    if (done.error().code == ErrorCode::cancelled) {
        return done.error();
    }
    answer.figures.clear();
    answer.verdict = ClaimVerdict::noAnswer;
    answer.sentence = said("%1: no answer. %2", said(word), done.error().message);
    return answer;
}

Result<std::vector<ClaimAnswer>> checkClaims(const Job& job, const std::vector<std::string>& words,
                                             const ClaimLimits& limits, const std::stop_token& stop) {
    const auto now = nowCircuit(job);
    if (!now) {
        return named(toSay("now: %1"), now.error());
    }
    auto check = ClaimCheck::make(job.stock, *now, job.setting, limits, stop);
    if (!check) {
        return check.error();
    }
    std::vector<ClaimAnswer> answers;
    for (const std::string& word : words) {
        auto answer = check->check(word, stop);
        if (!answer) {
            return answer.error();
        }
        answers.push_back(*std::move(answer));
    }
    return answers;
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/knob_translation.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/measure/chosen_figures.h"
#include "core/measure/circuit_meter.h"
#include "core/measure/sound_figures.h"
#include "core/plan/apply.h"
#include "core/plan/state_error.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

constexpr double travel = 10.0;
constexpr double lowEHz = 82.41;
/// A knob that moves a figure by less between its ends does not govern it [in the figure's unit, dB].
constexpr double leastMove = 0.5;
/// Positions where a crossing is looked for, before it is closed in on.
constexpr int searchSteps = 10;
constexpr double positionExact = 0.002;
/// A figure that differs by less is equal: no knob needs turning.
constexpr double sameFigure = 0.005;

std::string_view nameOfFigure(std::string_view id) {
    for (const FigureKind& kind : figureKinds()) {
        if (kind.id == id) {
            return kind.name;
        }
    }
    return id;
}

/// One circuit with one knob at any position.
class TurnedKnob {
public:
    TurnedKnob(const Circuit& circuit, const Setting& setting, std::string knob, const std::stop_token& stop)
        : m_circuit(circuit), m_setting(setting), m_knob(std::move(knob)), m_stop(stop) {}

    Result<CircuitMeter> at(double position) {
        Setting turned = m_setting;
        turned.knobs[m_knob] = position;
        return CircuitMeter::make(m_circuit, turned, m_levelSteps, nullptr, m_stop);
    }

    /// NaN where the figure has no value.
    Result<double> figureAt(const std::string& id, double position) {
        auto meter = at(position);
        if (!meter) {
            return meter.error();
        }
        const auto figure = meter->figure(id, m_stop);
        if (!figure) {
            return figure.error();
        }
        m_levelSteps = std::max(m_levelSteps, meter->levelSteps());
        return figure->value.value_or(std::nan(""));
    }

private:
    const Circuit& m_circuit;
    const Setting& m_setting;
    std::string m_knob;
    const std::stop_token& m_stop;
    std::size_t m_levelSteps = 0;
};

struct Trial {
    double position;
    double error;  ///< Figure less goal.
};

/// Closes in between two positions on both sides of the goal: the Illinois variant of regula falsi.
Result<double> crossingBetween(TurnedKnob& knob, const std::string& figure, double goal, Trial a, Trial b) {
    int lastSide = 0;
    double position = a.position;
    for (int step = 0; step < 60 && std::abs(b.position - a.position) > positionExact; ++step) {
        position = a.position - a.error * (b.position - a.position) / (b.error - a.error);
        const auto value = knob.figureAt(figure, position);
        if (!value) {
            return value.error();
        }
        const double error = *value - goal;
        if (error == 0.0) {
            return position;
        }
        const bool isOnSideOfA = (error > 0.0) == (a.error > 0.0);
        const double moved = std::min(std::abs(position - a.position), std::abs(position - b.position));
        Trial& replaced = isOnSideOfA ? a : b;
        Trial& kept = isOnSideOfA ? b : a;
        replaced = {position, error};
        if (lastSide == (isOnSideOfA ? 1 : -1)) {
            kept.error /= 2.0;
        }
        lastSide = isOnSideOfA ? 1 : -1;
        if (moved < positionExact / 4.0) {
            break;
        }
    }
    return position;
}

std::string sentenceOf(const KnobTranslation& translation) {
    const std::string old = formatFixed(translation.oldPosition, 1);
    const bool remains = translation.remainingLowDb.has_value();
    const std::string remaining = remains ? formatFigure(*translation.remainingLowDb, Sign::always) : std::string();
    if (translation.newPosition) {
        return said(remains ? toSay("old %1 %2 is now %3: %4 equal, %5 dB remain at 82.41 Hz")
                            : toSay("old %1 %2 is now %3: %4 equal"),
                    translation.knobName, old, formatFixed(*translation.newPosition, 1), translation.keptEqualName,
                    remaining);
    }
    const std::string unit = translation.unit.empty() ? "" : " " + said(translation.unit);
    const std::string missing = formatFigure(translation.reached - translation.goal, Sign::always) + unit;
    return said(remains ? toSay("old %1 %2 is out of travel: at %3 the %4 is still off by %5, %6 dB remain at 82.41 Hz")
                        : toSay("old %1 %2 is out of travel: at %3 the %4 is still off by %5"),
                translation.knobName, old, translation.outAt == TravelEnd::belowZero ? "0" : "10",
                translation.keptEqualName, missing, remaining);
}

/// Fills in what the position gives: the figure there, and what is left at the low E string.
Result<void> finish(TurnedKnob& knob, double position, double stockLowDb, KnobTranslation& translation,
                    const std::stop_token& stop) {
    auto meter = knob.at(position);
    if (!meter) {
        return named(toSay("now: %1"), meter.error());
    }
    const auto figure = meter->figure(translation.keptEqual, stop);
    if (!figure) {
        return named(toSay("now: %1"), figure.error());
    }
    translation.reached = figure->value.value_or(std::nan(""));
    const auto low = meter->responseDb(lowEHz);
    if (!low) {
        return named(toSay("now: %1"), low.error());
    }
    if (std::isfinite(*low - stockLowDb)) {
        translation.remainingLowDb = *low - stockLowDb;
    }
    translation.sentence = sentenceOf(translation);
    return {};
}

/// What a translation starts from.
struct Ends {
    CircuitMeter stock;
    Circuit now;
};

Result<Ends> endsOf(const Job& job, const std::stop_token& stop) {
    auto now = nowCircuit(job);
    if (!now) {
        return named(toSay("now: %1"), now.error());
    }
    auto stock = CircuitMeter::make(job.stock, job.setting, 0, nullptr, stop);
    if (!stock) {
        return named(toSay("stock: %1"), stock.error());
    }
    return Ends{*std::move(stock), *std::move(now)};
}

/// The figure less its goal over the whole travel, where it has a value.
Result<std::vector<Trial>> trialsOver(TurnedKnob& turned, const std::string& figure, double goal) {
    std::vector<Trial> trials;
    for (int step = 0; step <= searchSteps; ++step) {
        const double position = travel * step / searchSteps;
        const auto value = turned.figureAt(figure, position);
        if (!value) {
            return named(toSay("now: %1"), value.error());
        }
        if (std::isfinite(*value)) {
            trials.push_back({position, *value - goal});
        }
    }
    return trials;
}

bool movesFigure(const std::vector<Trial>& trials) {
    const auto [least, most] = std::minmax_element(trials.begin(), trials.end(),
                                                   [](const Trial& a, const Trial& b) { return a.error < b.error; });
    return !trials.empty() && most->error - least->error >= leastMove;
}

/// Of the positions with the goal the one nearest to `oldPosition`; nothing where the travel has none.
Result<std::optional<double>> nearestWithGoal(TurnedKnob& turned, const std::string& figure, double goal,
                                              const std::vector<Trial>& trials, double oldPosition) {
    std::optional<double> nearest;
    for (std::size_t k = 0; k + 1 < trials.size(); ++k) {
        if ((trials[k].error > 0.0) == (trials[k + 1].error > 0.0)) {
            continue;
        }
        const auto crossing = crossingBetween(turned, figure, goal, trials[k], trials[k + 1]);
        if (!crossing) {
            return named(toSay("now: %1"), crossing.error());
        }
        if (!nearest || std::abs(*crossing - oldPosition) < std::abs(*nearest - oldPosition)) {
            nearest = *crossing;
        }
    }
    return nearest;
}

Result<KnobTranslation> translate(Ends& ends, const Knob& knob, const std::string& figure, double oldPosition,
                                  const std::stop_token& stop) {
    KnobTranslation translation;
    translation.knob = knob.id;
    translation.knobName = knob.name.empty() ? knob.id : knob.name;
    translation.oldPosition = oldPosition;
    translation.keptEqual = figure;
    translation.keptEqualName = said(nameOfFigure(figure));
    const auto figureName = findFigureName(figure);
    if (!figureName) {
        return figureName.error();
    }
    translation.unit = figureName->unit;
    const auto goal = ends.stock.figure(figure, stop);
    if (!goal) {
        return goal.error().code == ErrorCode::invalidInput ? goal.error() : named(toSay("stock: %1"), goal.error());
    }
    if (!goal->value) {
        return Error{ErrorCode::invalidInput,
                     said("Stock has no %1 to keep: %2.", translation.keptEqualName, said(goal->absence)), figure};
    }
    translation.goal = *goal->value;
    const auto stockLow = ends.stock.responseDb(lowEHz);
    if (!stockLow) {
        return named(toSay("stock: %1"), stockLow.error());
    }

    TurnedKnob turned(ends.now, ends.stock.setting(), knob.id, stop);
    const auto trials = trialsOver(turned, figure, translation.goal);
    if (!trials) {
        return trials.error();
    }
    if (!movesFigure(*trials)) {
        return Error{ErrorCode::invalidInput,
                     said("The knob “%1” does not move the %2: choose another knob or figure.", translation.knobName,
                          translation.keptEqualName),
                     knob.id};
    }
    const auto old = turned.figureAt(figure, oldPosition);
    if (old && std::abs(*old - translation.goal) <= sameFigure) {
        translation.newPosition = oldPosition;
    } else if (const auto nearest = nearestWithGoal(turned, figure, translation.goal, *trials, oldPosition)) {
        translation.newPosition = *nearest;
    } else {
        return nearest.error();
    }
    double position = translation.newPosition.value_or(0.0);
    if (!translation.newPosition) {
        const bool isLowEnd = std::abs(trials->front().error) < std::abs(trials->back().error);
        translation.outAt = isLowEnd ? TravelEnd::belowZero : TravelEnd::aboveTen;
        position = isLowEnd ? 0.0 : travel;
    }
    if (auto done = finish(turned, position, *stockLow, translation, stop); !done) {
        return done.error();
    }
    return translation;
}

}  // namespace

Result<KnobTranslation> translateKnob(const Job& job, const TranslationRequest& request, const std::stop_token& stop) {
    const Knob* knob = findKnob(job.stock, request.knob);
    if (knob == nullptr) {
        std::string known;
        for (const Knob& one : job.stock.knobs) {
            known += (known.empty() ? "" : ", ") + one.id;
        }
        return Error{ErrorCode::invalidInput,
                     said("There is no knob “%1” in this unit: choose from %2.", request.knob, known), request.knob};
    }
    auto ends = endsOf(job, stop);
    if (!ends) {
        return ends.error();
    }
    return translate(*ends, *knob, request.figure, knobPosition(job.setting, knob->id), stop);
}

Result<std::vector<KnobTranslation>> translateKnobs(const Job& job, const std::stop_token& stop) {
    std::vector<KnobTranslation> translations;
    auto ends = endsOf(job, stop);
    if (!ends) {
        return ends.error();
    }
    if (ends->now == job.stock) {
        return translations;
    }
    const Knob* guitar = guitarVolumeKnob(job.stock);
    for (const Knob& knob : job.stock.knobs) {
        if (guitar != nullptr && knob.id == guitar->id) {
            continue;
        }
        for (const char* figure : {"stage_gain_1k", "plateau_gain", "highest_gain", "level"}) {
            auto translation = translate(*ends, knob, figure, knobPosition(job.setting, knob.id), stop);
            if (translation) {
                translations.push_back(*std::move(translation));
            } else if (translation.error().code != ErrorCode::invalidInput) {
                return translation.error();
            }
        }
    }
    return translations;
}

}  // namespace ohmwright

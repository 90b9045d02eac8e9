// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/knobs/control.h"

#include "app/look/level_units.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "core/base/decibels.h"
#include "core/base/number_text.h"
#include "core/base/preferred_numbers.h"
#include "core/base/value_text.h"
#include "core/plan/edits.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace ohmwright {

namespace {

constexpr double knobEnd = 10.0;
constexpr double knobMiddle = 5.0;

/// Arc of the pick level: from a pickup's hum to a hot one hit hard (house figures).
constexpr double softestVoltsPeak = 1e-3;
constexpr double hardestVoltsPeak = 1.0;
constexpr double restVoltsPeak = 0.1;  // The definitions' player.

/// A flat battery has 0.8 of its nominal voltage: 7.2 V of 9 V (definitions of the demo figures).
constexpr double flatShare = 0.8;
constexpr double lowestBatteryShare = 0.5;
constexpr double highestBatteryShare = 1.25;
/// No battery of a unit has more: above it the supply comes from the mains, which may be a tenth low
/// (EN 50160, from memory).
constexpr double highestBatteryVolts = 60.0;
constexpr double lowMainsShare = 0.9;
/// Steps of a dial for a 9 V battery and for a valve's supply [V].
constexpr double batteryStepVolts = 0.1;
constexpr double mainsStepVolts = 1.0;
constexpr double coarseSteps = 5.0;

constexpr double lightestOhms = 10e6;
constexpr double heaviestOhms = 10e3;
constexpr double restOhms = 1e6;

/// An end of a pot is held at 1 mΩ to stay solvable; a person reads that as nothing.
constexpr double readsAsZeroOhms = 0.1;

QString ohmsText(double value) {
    return value < readsAsZeroOhms ? QString("0") : text(formatPartValue(ohms(value)));
}

QString taperWord(Taper taper) {
    switch (taper) {
        case Taper::logarithmic:
            return QObject::tr("log");
        case Taper::reverseLogarithmic:
            return QObject::tr("reverse log");
        case Taper::linear:
            break;
    }
    return QObject::tr("linear");
}

double roundTo(double value, double unit) {
    return std::round(value / unit) * unit;
}

double logTravel(double value, double from, double to) {
    return std::clamp(std::log(value / from) / std::log(to / from), 0.0, 1.0);
}

double logValue(double travel, double from, double to) {
    return from * std::pow(to / from, std::clamp(travel, 0.0, 1.0));
}

/// `steps` members of a series up or down, no further than the ends; a value beyond them stays where it is.
double steppedPreferred(double value, int steps, Series series, double lowest, double highest) {
    const int direction = steps > 0 ? 1 : -1;
    for (int taken = 0; taken != steps; taken += direction) {
        const double next = direction > 0 ? nextPreferred(value, series) : previousPreferred(value, series);
        // Decade edges come out of a product: 1e-9 is far below any step.
        if (next > highest * (1.0 + 1e-9) || next < lowest * (1.0 - 1e-9)) {
            break;
        }
        value = next;
    }
    return value;
}

/// Adds without leaving the range further than the value already is.
double steppedWithin(double value, double change, double lowest, double highest) {
    return std::clamp(value + change, std::min(lowest, value), std::max(highest, value));
}

/// A bare number as a person types it, with point or comma; unit words after it are dropped.
Result<double> readNumber(const QString& typed, const QStringList& units, const char* example) {
    QString number = typed.trimmed();
    for (const QString& unit : units) {
        if (number.endsWith(unit, Qt::CaseInsensitive)) {
            number.chop(unit.size());
            break;
        }
    }
    bool isNumber = false;
    const double value = QLocale::c().toDouble(number.trimmed().replace(',', '.'), &isNumber);
    if (!isNumber || !std::isfinite(value)) {
        return Error{ErrorCode::invalidInput,
                     QObject::tr("\"%1\" cannot be read: type a number such as %2.").arg(typed, example).toStdString(),
                     {}};
    }
    return value;
}

class KnobControl final : public Control {
public:
    explicit KnobControl(std::string knobId) : m_knobId(std::move(knobId)) {}

    [[nodiscard]] QString id() const override { return text(m_knobId); }

    [[nodiscard]] DialFace face(const Job& job) const override {
        const Knob* knob = findKnob(job.stock, m_knobId);
        if (!knob) {
            return {id(), QObject::tr("none"), {}, 0.0};
        }
        const double position = value(job);
        const Part* pot = findPart(job.stock, knob->part);
        return {text(knob->name.empty() ? m_knobId : knob->name),
                text(formatFixed(position, position < knobEnd ? 1 : 0)), pot ? trackText(*pot, position) : QString(),
                position / knobEnd};
    }

    [[nodiscard]] double value(const Job& job) const override { return knobPosition(job.setting, m_knobId); }

    /// A guitar's volume rests fully open, a knob of the unit in the middle.
    [[nodiscard]] double restValue(const Job& job) const override { return isOfUnit(job.stock) ? knobMiddle : knobEnd; }

    [[nodiscard]] double stepped(const Job& job, int steps, DialStep step) const override {
        const double size = step == DialStep::fine ? 0.1 : step == DialStep::normal ? 0.5 : 1.0;
        return std::clamp(roundTo(value(job) + steps * size, 0.1), 0.0, knobEnd);
    }

    [[nodiscard]] double atTravel(const Job&, double travel) const override {
        return std::clamp(roundTo(travel * knobEnd, 0.1), 0.0, knobEnd);
    }

    [[nodiscard]] Result<double> read(const QString& typed) const override {
        Result<double> position = readNumber(typed, {}, "5.0");
        if (position && (*position < 0.0 || *position > knobEnd)) {
            return Error{
                ErrorCode::invalidInput,
                QObject::tr("\"%1\" is no knob position: type a number from 0 to 10.").arg(typed).toStdString(),
                m_knobId};
        }
        return position;
    }

    [[nodiscard]] Result<Job> turned(const Job& job, double position) const override {
        return setKnob(job, m_knobId, position);
    }

    [[nodiscard]] bool takesWhileTyping() const override { return true; }

    [[nodiscard]] bool isOfUnit(const Circuit& circuit) const override {
        const Knob* knob = findKnob(circuit, m_knobId);
        const Stage* stage = knob ? stageOfPart(circuit, knob->part) : nullptr;
        return !stage || stage->output != circuit.ports.jack;
    }

private:
    /// "37k5 of 250k log": the part of the track between wiper and bottom, or what a rheostat leaves in the path.
    [[nodiscard]] QString trackText(const Part& pot, double position) const {
        const PotHalves halves = potHalves(pot, position);
        const bool bottomIsBridged = pot.nets.size() == 3 && pot.nets[1] == pot.nets[2];
        const double inPath = bottomIsBridged ? halves.topToWiper : halves.wiperToBottom;
        return QObject::tr("%1 of %2 %3").arg(ohmsText(inPath), ohmsText(pot.value), taperWord(pot.taper));
    }

    std::string m_knobId;
};

/// A figure of the setting that stands outside the unit.
class SettingControl : public Control {
public:
    [[nodiscard]] bool isOfUnit(const Circuit&) const override { return false; }

    [[nodiscard]] Result<Job> turned(const Job& job, double newValue) const override {
        Setting setting = job.setting;
        put(setting, newValue);
        return setSetting(job, setting);
    }

protected:
    virtual void put(Setting& setting, double newValue) const = 0;
};

class PickLevelControl final : public SettingControl {
public:
    [[nodiscard]] QString id() const override { return "pick level"; }

    [[nodiscard]] DialFace face(const Job& job) const override {
        const double voltsPeak = value(job);
        // Beside the unit that was chosen one of the other sort: volts beside decibels, decibels beside volts.
        const LevelUnit other = isDecibels(LevelUnits::current().unit()) ? LevelUnit::millivoltsPeak : LevelUnit::dbv;
        const QString figure = text(formatFigure(levelOfPeak(voltsPeak, other))) + ' ' + unitName(other);
        const QString hint = isDecibels(other) ? QObject::tr("%1 RMS").arg(figure) : figure;
        return {QObject::tr("Pick level"), pickLevelText(voltsPeak), hint,
                logTravel(voltsPeak, softestVoltsPeak, hardestVoltsPeak)};
    }

    [[nodiscard]] double value(const Job& job) const override { return job.setting.pickVoltsPeak; }
    [[nodiscard]] double restValue(const Job&) const override { return restVoltsPeak; }

    [[nodiscard]] double stepped(const Job& job, int steps, DialStep step) const override {
        const Series series = step == DialStep::fine     ? Series::e24
                              : step == DialStep::normal ? Series::e12
                                                         : Series::e3;
        return steppedPreferred(value(job), steps, series, softestVoltsPeak, hardestVoltsPeak);
    }

    [[nodiscard]] double atTravel(const Job&, double travel) const override {
        return nearestPreferred(logValue(travel, softestVoltsPeak, hardestVoltsPeak), Series::e24);
    }

    [[nodiscard]] Result<double> read(const QString& typed) const override {
        // A unit that is typed counts; a bare number is in the unit that is shown.
        const QString words = typed.trimmed();
        LevelUnit unit = LevelUnits::current().unit();
        for (const LevelUnitName& each : levelUnitNames) {
            if (words.endsWith(unitName(each.unit), Qt::CaseInsensitive)) {
                unit = each.unit;
            }
        }
        const bool isInMillivolts = words.endsWith("mV", Qt::CaseInsensitive);
        const bool isInVolts =
            words.endsWith('V', Qt::CaseInsensitive) && !isInMillivolts && !words.endsWith("dBV", Qt::CaseInsensitive);
        Result<double> level = readNumber(QString(words).replace(QChar(0x2212), '-'),
                                          {"mVpk", "mVrms", "dBV", "dBu", "mV", "V"}, "100 mVpk");
        if (level) {
            *level = isInVolts        ? *level
                     : isInMillivolts ? peakOfLevel(*level, LevelUnit::millivoltsPeak)
                                      : peakOfLevel(*level, unit);
        }
        return level;
    }

private:
    void put(Setting& setting, double newValue) const override { setting.pickVoltsPeak = newValue; }
};

class BatteryControl final : public SettingControl {
public:
    [[nodiscard]] QString id() const override { return "battery"; }

    [[nodiscard]] DialFace face(const Job& job) const override {
        const double nominal = restValue(job);
        const double lowest = lowestBatteryShare * nominal;
        const double highest = highestBatteryShare * nominal;
        const double travel = std::clamp((value(job) - lowest) / (highest - lowest), 0.0, 1.0);
        if (isFromMains(job)) {
            return {QObject::tr("Supply"), voltsText(value(job)),
                    QObject::tr("low mains %1").arg(voltsText(lowMainsShare * nominal)), travel};
        }
        return {QObject::tr("Battery"), voltsText(value(job)),
                QObject::tr("flat %1").arg(voltsText(flatShare * nominal)), travel};
    }

    [[nodiscard]] double value(const Job& job) const override { return job.setting.batteryVolts; }

    /// The battery as drawn.
    [[nodiscard]] double restValue(const Job& job) const override {
        const Part* battery = findPart(job.stock, job.stock.ports.battery);
        return battery && battery->value > 0.0 ? battery->value : Setting{}.batteryVolts;
    }

    [[nodiscard]] double stepped(const Job& job, int steps, DialStep step) const override {
        const double nominal = restValue(job);
        const double small = isFromMains(job) ? mainsStepVolts : batteryStepVolts;
        const double size = step == DialStep::coarse ? coarseSteps * small : small;
        return roundTo(
            steppedWithin(value(job), steps * size, lowestBatteryShare * nominal, highestBatteryShare * nominal), 0.01);
    }

    [[nodiscard]] double atTravel(const Job& job, double travel) const override {
        const double nominal = restValue(job);
        return roundTo(nominal * std::lerp(lowestBatteryShare, highestBatteryShare, std::clamp(travel, 0.0, 1.0)),
                       0.05);
    }

    [[nodiscard]] Result<double> read(const QString& typed) const override { return readNumber(typed, {"V"}, "7.2"); }

private:
    static QString voltsText(double volts) { return text(formatFixed(volts, 2)) + " V"; }
    [[nodiscard]] bool isFromMains(const Job& job) const { return restValue(job) > highestBatteryVolts; }

    void put(Setting& setting, double newValue) const override { setting.batteryVolts = newValue; }
};

class NextBoxControl final : public SettingControl {
public:
    [[nodiscard]] QString id() const override { return "next box"; }

    [[nodiscard]] DialFace face(const Job& job) const override {
        return {QObject::tr("Next box"), resistanceText(value(job)), QObject::tr("its input resistance"),
                logTravel(value(job), heaviestOhms, lightestOhms)};
    }

    [[nodiscard]] double value(const Job& job) const override { return job.setting.loadOhms; }
    [[nodiscard]] double restValue(const Job&) const override { return restOhms; }

    [[nodiscard]] double stepped(const Job& job, int steps, DialStep step) const override {
        const Series series = step == DialStep::fine ? Series::e12 : Series::e3;
        const int perStep = step == DialStep::coarse ? 3 : 1;  // a decade
        return steppedPreferred(value(job), steps * perStep, series, heaviestOhms, lightestOhms);
    }

    [[nodiscard]] double atTravel(const Job&, double travel) const override {
        return nearestPreferred(logValue(travel, heaviestOhms, lightestOhms), Series::e12);
    }

    [[nodiscard]] Result<double> read(const QString& typed) const override {
        const Result<Quantity> resistance = parsePartValue(typed.toStdString(), Unit::ohm);
        if (!resistance) {
            return resistance.error();
        }
        return resistance->si;
    }

private:
    /// "1 MΩ", "470 kΩ": trailing zeros would promise a measured figure.
    static QString resistanceText(double value) {
        const auto [scale, unit] = value >= 1e6   ? std::pair{1e6, " MΩ"}
                                   : value >= 1e3 ? std::pair{1e3, " kΩ"}
                                                  : std::pair{1.0, " Ω"};
        return numberText(value / scale, 'g', 3) + QString::fromUtf8(unit);
    }

    void put(Setting& setting, double newValue) const override { setting.loadOhms = newValue; }
};

}  // namespace

QString Control::editText(const Job& turnedJob) const {
    const DialFace shown = face(turnedJob);
    return QObject::tr("Turn %1 to %2").arg(shown.name, shown.value);
}

std::vector<std::unique_ptr<Control>> controlsOf(const Circuit& circuit) {
    std::vector<std::unique_ptr<Control>> controls;
    for (const Knob& knob : circuit.knobs) {
        controls.push_back(std::make_unique<KnobControl>(knob.id));
    }
    std::stable_partition(controls.begin(), controls.end(),
                          [&circuit](const std::unique_ptr<Control>& control) { return control->isOfUnit(circuit); });
    controls.push_back(std::make_unique<PickLevelControl>());
    if (findPart(circuit, circuit.ports.battery)) {
        controls.push_back(std::make_unique<BatteryControl>());
    }
    if (findPart(circuit, circuit.ports.load)) {
        controls.push_back(std::make_unique<NextBoxControl>());
    }
    return controls;
}

}  // namespace ohmwright

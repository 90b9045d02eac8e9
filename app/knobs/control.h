/// The controls of the knob row: each reads its dial from a job and gives the job with the dial turned.
///
/// No widget here. A control's value is the position 0..10 of a knob, mVpk, volts or ohms.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"

#include <QString>

#include <memory>
#include <vector>

namespace ohmwright {

/// What a dial shows.
struct DialFace {
    QString name;         ///< "Drive"
    QString value;        ///< "5.0"
    QString hint;         ///< "37k5 of 250k log"
    double travel = 0.0;  ///< 0..1 along the arc.

    friend bool operator==(const DialFace&, const DialFace&) = default;
};

enum class DialStep { fine, normal, coarse };

class Control {
public:
    Control() = default;
    Control(const Control&) = delete;
    Control& operator=(const Control&) = delete;
    virtual ~Control() = default;

    /// Stable; consecutive turns with one id are one undo step.
    [[nodiscard]] virtual QString id() const = 0;
    [[nodiscard]] virtual DialFace face(const Job& job) const = 0;
    [[nodiscard]] virtual double value(const Job& job) const = 0;
    /// Where a double click or Delete puts it.
    [[nodiscard]] virtual double restValue(const Job& job) const = 0;
    [[nodiscard]] virtual double stepped(const Job& job, int steps, DialStep step) const = 0;
    /// The value that stands at a place on the arc, rounded to one a person would set; 0 and 1 are the ends.
    [[nodiscard]] virtual double atTravel(const Job& job, double travel) const = 0;
    /// Reads what was typed. Errors: invalidInput quoting the text.
    [[nodiscard]] virtual Result<double> read(const QString& text) const = 0;
    /// Errors: invalidInput when the value is outside the setting's range.
    [[nodiscard]] virtual Result<Job> turned(const Job& job, double value) const = 0;
    /// Whether each key typed may be taken at once: true for knobs, where every figure on the way is harmless.
    [[nodiscard]] virtual bool takesWhileTyping() const { return false; }
    /// Whether it belongs to the unit; else it is what stands before or behind it.
    [[nodiscard]] virtual bool isOfUnit(const Circuit& circuit) const = 0;

    /// "Turn Drive to 5.0": the undo step.
    [[nodiscard]] QString editText(const Job& turnedJob) const;
};

/// The circuit's knobs in their order, those of the unit first, then pick level, and battery and next box where the
/// circuit has them: a netlist's own sources and loads stand.
std::vector<std::unique_ptr<Control>> controlsOf(const Circuit& circuit);

}  // namespace ohmwright

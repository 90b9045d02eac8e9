/// Polarity and rating of capacitors, heat of resistors: from the DC solution at every knob end, throw and supply end.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"

#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

struct CornerOptions {
    /// Ends of the supply; absent: a battery (up to 30 V) from 7.2/9 of what is set to 9.6/9 of it (flat and fresh,
    /// common practice, no source), a mains supply 10 % either way (from memory: the width of EN 50160).
    std::optional<double> lowSupplyVolts, highSupplyVolts;
    /// With every device off as well: valves cold, transistors without base current, a chip out of its socket. Then
    /// coupling capacitors see the whole supply.
    bool withDevicesOff = true;
};

enum class Polarity {
    plusAtFirst,  ///< Leg 1 is never below leg 2 by more than the least volts, and above it somewhere.
    plusAtSecond,
    nonPolar,  ///< The sign changes.
    noVolts,   ///< No steady voltage anywhere: any way round, or non-polar.
};

/// One capacitor [V]; leg 1 less leg 2.
struct CapacitorDuty {
    PartId part;
    double atSetting = 0.0;
    double low = 0.0, high = 0.0;
    Polarity polarity = Polarity::noVolts;
    double largestVolts = 0.0;     ///< The greatest of both signs.
    double neededRating = 0.0;     ///< The next standard rating with reserve.
    std::optional<double> rating;  ///< What its build says, "63 V"; absent where it says none.
    std::string sentence;          ///< "plus to U1 pin 1 (output); 4.5 V across it, 16 V part or more"

    /// No rating is stated, or it is high enough.
    [[nodiscard]] bool isRatedWell() const { return !rating || *rating >= neededRating; }
};

/// One resistor [W], at the corner where it is hottest.
struct ResistorDuty {
    PartId part;
    double watts = 0.0;
    std::optional<double> rating;  ///< What its build says, "0.25 W".

    /// Below half of what it is rated for. Common practice, no source.
    [[nodiscard]] bool isCool() const { return !rating || watts <= 0.5 * *rating; }
};

struct DutyTable {
    std::vector<CapacitorDuty>
        capacitors;  ///< Those of the unit (not of cable and instrument), in the circuit's order.
    std::vector<ResistorDuty> resistors;
    int corners = 0;   ///< That were solved.
    int unsolved = 0;  ///< That had no bias and are left out.
};

/// @param circuits  the same board with its switches at each throw, one at least; duties of parts that are on any.
/// Knobs at both ends, all together up to six (the others stay as set), supply at both ends, each of the circuits.
/// Errors: invalidInput without a circuit; of the solver on the first circuit as set; cancelled.
Result<DutyTable> dutiesOf(const std::vector<Circuit>& circuits, const Setting& setting,
                           const CornerOptions& options = {}, const std::stop_token& stop = {});

const CapacitorDuty* findDuty(const DutyTable& table, const PartId& capacitor);

/// The next standard voltage rating at or above 1.25 times the volts: 6.3, 10, 16, 25, 35, 50, 63, 100, 160, 200, 250,
/// 400, 450, 630, 1000 V; the volts themselves times 1.25 beyond. Reserve and list: common practice, no source.
double nextVoltageRating(double volts);

}  // namespace ohmwright

/// A unit comes in, leaves and comes back: what to read then, the frozen record of what left, and the comparison with
/// it. The same unit is its own reference, so the comparison is tighter than any tolerance.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/bench/probe_card.h"
#include "core/plan/job.h"

#include <optional>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// A reading worth taking, with what the drawing says of it. low <= nominal.value <= high, in its unit.
struct ExpectedReading {
    UnitReading nominal;
    double low = 0.0, high = 0.0;  ///< 95 % of units and copies of the types; meter and supply added.

    friend bool operator==(const ExpectedReading&, const ExpectedReading&) = default;
};

/// The supply's current, and the pins that tell most: those whose band is widest for their volts, five at most, a
/// device once before any twice. Errors: as probeCard.
Result<std::vector<ExpectedReading>> expectedReadings(const Circuit& circuit, const Setting& setting,
                                                      const std::stop_token& stop = {});

/// Every place of the probe card, the supply's current first: what a person may name. Errors: as probeCard.
Result<std::vector<ExpectedReading>> everyReading(const Circuit& circuit, const Setting& setting,
                                                  const std::stop_token& stop = {});
/// The place that somebody names, in any letter case: "q1 collector", "Supply current", or a net of the drawing. Null
/// when there is none.
const ExpectedReading* findPlace(const std::vector<ExpectedReading>& places, std::string_view words);

struct JudgedReading {
    UnitReading read;
    std::optional<ExpectedReading> expected;  ///< Absent where the drawing has no such place.
    bool isOutside = false;
    std::string sentence;  ///< "Q1 collector: 8.90 V, drawing 3.15 V to 5.40 V: a fault or another drawing; repair
                           ///< before any mod"
};
/// Readings on coming in against the drawing: a faulty unit is repaired first, or the mod is blamed.
std::vector<JudgedReading> judgeReadings(const std::vector<UnitReading>& read,
                                         const std::vector<ExpectedReading>& expected);

/// The job with the unit gone and its record frozen. What the unit left with is the plan's mods that are on.
/// @param when  ISO 8601, local time.
/// Errors: invalidInput when the unit is gone already; of applyPlan.
Result<Job> depart(const Job& job, const std::vector<UnitReading>& readings, const std::string& when);

/// The job of the unit's next visit, a draft: stock is the unit as it left, and the plan is empty. A fitted switch is
/// part of the unit then, standing as it stood.
/// Errors: invalidInput when the unit has not left; of applyPlan.
Result<Job> nextVisit(const Job& job, const std::string& date, const std::string& complaint);

/// The job as it was when that visit ended: what a way-back sheet of years later is made from.
/// Errors: invalidInput when no such visit has ended, naming those that have.
Result<Job> jobOfVisit(const Job& job, int visitNumber);

/// The job with a dated correction beside a record that is frozen. Errors: as jobOfVisit.
Result<Job> addDepartureNote(const Job& job, int visitNumber, const std::string& note);

enum class ReturnVerdict {
    nothingChanged,
    drifted,      ///< More than the meter explains, less than units of this drawing differ: wear, heat.
    changed,      ///< More than that: a fault, or somebody was inside.
    notCompared,  ///< Not read on leaving.
};
/// "8.90 V", "3.91 mA": as a meter shows it.
std::string unitReadingWords(double value, Unit unit);

/// "nothing changed", "drifted", "changed", "not compared".
std::string_view returnVerdictWord(ReturnVerdict verdict);

struct ReturnedReading {
    UnitReading back;
    std::optional<double> left;  ///< Value on leaving, same unit.
    double limit = 0.0;          ///< Of the difference, by meter and supply alone.
    ReturnVerdict verdict = ReturnVerdict::notCompared;
};

struct ReturnCheck {
    std::vector<ReturnedReading> readings;
    ReturnVerdict verdict = ReturnVerdict::notCompared;  ///< The worst of them.
    std::string sentence;                                ///< For the customer, in plain words.
};
/// @param back  readings of today, at the setting and supply of then.
/// Errors: of applyPlan and the solver on what left; cancelled.
Result<ReturnCheck> checkReturn(const Departure& departure, const std::vector<UnitReading>& back,
                                const std::stop_token& stop = {});

}  // namespace ohmwright

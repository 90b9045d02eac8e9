/// Checks that prove a piece of work, with what each must show, and the smallest set that tells the plan from every
/// likely mistake.
///
/// A mistake is seen by a check when the reading that it alone would give lies outside the band of the plan. The band
/// holds what parts inside their tolerance and the instrument do; the unit's other parts are the same ones in both.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/quantity.h"
#include "core/base/result.h"
#include "core/bench/board_edits.h"
#include "core/bench/meter.h"
#include "core/bench/mistakes.h"

#include <memory>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

enum class CheckKind {
    beep,     ///< Power off: the beeper must sound.
    silence,  ///< Power off: it must not.
    ohms,     ///< Power off, ohms range [Ω].
    diode,    ///< Power off, diode range [V].
    volts,    ///< Powered, no signal: DC against ground [V].
    tone,     ///< Small signal: response from the instrument to the output [dB].
};

/// "must beep", "must stay silent", "ohms", "diode range", "volts", "tone".
std::string_view checkWords(CheckKind kind);
/// Unit of a check's reading; Unit::none for the beeper.
Unit unitOf(CheckKind kind);

/// A place for a probe: a part's leg, found wherever that leg is soldered, or a net that is always there.
struct Probe {
    static constexpr int eitherLeg = -1;  ///< Legs that look alike in the hand: any of them that answers.

    PartId part;  ///< Empty: `net`.
    int leg = 0;
    NetName net;
    std::string words;    ///< "U1 pin 2 (inverting input)"
    std::string english;  ///< The same in English, for keys; empty: as the words.

    friend bool operator==(const Probe&, const Probe&) = default;
};

/// A reading; absent is "no reading" of a meter. A beeper gives 1 or 0.
using CheckReading = std::optional<double>;

/// What the plan must show. For ohms and diode range an absent end is "no reading"; with neither, none is expected.
struct CheckBand {
    CheckReading low, nominal, high;

    [[nodiscard]] bool holds(CheckReading reading) const;
    /// "0.53 to 0.63 V", "no reading", "beep", "−2.1 to 1.2 dB".
    [[nodiscard]] std::string words(CheckKind kind) const;

    friend bool operator==(const CheckBand&, const CheckBand&) = default;
};

struct Check {
    CheckKind kind = CheckKind::ohms;
    Probe red;  ///< Of a tone: unused.
    Probe black;
    double toneHz = 0.0;
    CheckBand expected;
    PartId part;                 ///< The part whose work it proves; empty for tones and volts.
    double settleSeconds = 0.0;  ///< How long an ohms reading climbs; 0 where that was not asked for.
    bool hasChip = false;        ///< An unpowered chip sits on the way.

    /// "diode range, red on U1 pin 1 (output), black on U1 pin 2 (inverting input)"
    [[nodiscard]] std::string words() const;

    friend bool operator==(const Check&, const Check&) = default;
};

/// A finished circuit at its setting under all instruments, measured parts at their measured values; solves what a
/// check asks for, once.
class BenchState {
public:
    BenchState(const Circuit& circuit, const Setting& setting, const MeterModel& meter = {});
    BenchState(BenchState&&) noexcept;
    BenchState& operator=(BenchState&&) noexcept;
    ~BenchState();

    /// Errors: of the solver; invalidInput where a probe's part is not there.
    Result<CheckReading> read(const Check& check, const std::stop_token& stop = {});
    [[nodiscard]] const Circuit& circuit() const;
    [[nodiscard]] const ProbedBoard& board() const;

private:
    struct Inside;
    std::unique_ptr<Inside> m_inside;
};

struct CheckOptions {
    MeterModel meter;
    std::vector<double> tonesHz = {110.0, 220.0, 1000.0, 3000.0};
    double toneDb = 0.5;       ///< Half the band that generator, cable and level meter add. Common practice, no source.
    double voltsShare = 0.02;  ///< Of a powered reading, meter and supply. Common practice, no source.
    double leastVolts = 0.05;
    /// What a check costs in the choice of the smallest set, by kind: the meter before power, power before tones.
    double meterCost = 1.0, voltsCost = 2.0, toneCost = 4.0;
    std::vector<Mistake> alsoLikely;  ///< Before likelyMistakes: what the edits alone do not tell.
    bool withSettling = false;        ///< Work out how long each ohms reading climbs (some ms each).
};

/// Every check that the edits suggest, with its band on the finished board.
/// Errors: of the solver; cancelled.
Result<std::vector<Check>> candidateChecks(const std::vector<BoardEdit>& edits, const Circuit& finished,
                                           const Setting& setting, const CheckOptions& options = {},
                                           const std::stop_token& stop = {});

/// Checks against mistakes.
struct CheckPlan {
    std::vector<Check> checks;
    std::vector<Mistake> mistakes;
    std::vector<std::vector<CheckReading>> readings;  ///< One row a mistake, one entry a check.
    std::vector<std::size_t> smallest;                ///< Of `checks`, in the order of work.
    std::vector<std::size_t> unseen;                  ///< Of `mistakes`: no check tells them from the plan.
    bool isSmallest = true;                           ///< Proven; false when the search was cut short.
    /// Caveats and what to look at with the eye, as sentences.
    std::vector<std::string> notes;

    [[nodiscard]] bool sees(std::size_t check, std::size_t mistake) const {
        return !checks[check].expected.holds(readings[mistake][check]);
    }
};

/// A mistake whose circuit cannot be solved counts as unseen by what could not be solved.
/// Errors: of the solver on the finished board; cancelled.
Result<CheckPlan> planChecks(const std::vector<BoardEdit>& edits, const Circuit& finished, const Setting& setting,
                             const CheckOptions& options = {}, const std::stop_token& stop = {});

/// The cheapest set of columns that covers every row that can be covered; exact unless `isExact` comes back false.
struct Cover {
    std::vector<std::size_t> columns;
    bool isExact = true;
};
/// @param covers  one row a thing to cover, one entry a column.
Cover cheapestCover(const std::vector<std::vector<bool>>& covers, const std::vector<double>& costs);

/// How one mistake is found out: "270R fitted for 2k7 (R5 Rg): a tone of 110 Hz cannot see it (−0.08 dB); use 3 kHz
/// (+15.1 dB) or ohms (270 Ω)".
std::string howToSee(const CheckPlan& plan, std::size_t mistake);

}  // namespace ohmwright

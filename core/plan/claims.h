/// Claim check: a customer's words held against figures. Which figure a word means, and from which change on it is
/// true, is data of the shop (`ClaimLimits`), not of the program.
///
/// Verdicts: yes, partly, no, and "the other way" when a figure passes the limit of partly with the wrong sign (of two
/// figures: either). A small-signal response that moves less than stock's spread is never better than partly.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"
#include "core/plan/job.h"

#include <memory>
#include <optional>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// What is measured for a word; the sentence after each is the figure and the sign that fulfils the word.
enum class ClaimRule {
    fuller,        ///< Response at 82.41 Hz up; and up against 1 kHz.
    tighter,       ///< Response at 82.41 Hz against 1 kHz down.
    brighter,      ///< Response at 3 kHz against 329.6 Hz up.
    darker,        ///< ... down.
    lessSquashed,  ///< Level slope at the player's level up.
    moreSquashed,  ///< ... down.
    moreGain,      ///< Highest gain of the clip stage up.
    moreHeadroom,  ///< Lower of the two clip thresholds' pick levels up [dB].
    louder,        ///< Level at the output up.
    quieter,       ///< ... down.
    lessFizzy,     ///< Harmonics 8..30 of 329.6 Hz at equal level down.
    warmer,        ///< Second harmonic up; and third and fifth down.
    lessNoisy,     ///< Noise at the output at equal gain down.
    cleansUp,      ///< THD at guitar volume 5 over that at 10: under the limit, and less than stock's.
    lessScooped,   ///< Dip of the tone network up.
    notGated,      ///< Collector of the output transistor inside a window over the devices' current gain.
    copiesAlike,   ///< Response at 1 kHz over the devices' corners: spread under the limit.
    muddier,       ///< Difference product of two low strings up.
};

/// One entry of the shop's table. Limits are magnitudes in the figure's unit; the rule knows the sign.
struct Claim {
    ClaimRule rule = ClaimRule::fuller;
    std::vector<std::string> words;   ///< What customers say: "fuller", "more low end"; lower case, the first is shown.
    double yes = 0.0;                 ///< notGated: half the window around 50 % that all corners must be in.
    double partly = 0.0;              ///< notGated: the same for the nominal device alone.
    std::optional<double> yesSecond;  ///< Of rules with two figures.
    std::optional<double> partlySecond;

    friend bool operator==(const Claim&, const Claim&) = default;
};

/// House figures: common practice, no source. 1 dB is about what is heard in a blind test, 3 dB is plain.
struct ClaimLimits {
    std::vector<Claim> claims;
    double betaLow = 70.0;  ///< Corners of a transistor whose type names none.
    double betaHigh = 500.0;

    friend bool operator==(const ClaimLimits&, const ClaimLimits&) = default;
};

/// The table of the house.
const ClaimLimits& houseClaimLimits();

/// The entry that a word belongs to, small letters or not; null for an unknown word.
const Claim* findClaim(const ClaimLimits& limits, std::string_view word);
/// What an entry is held against and from where on it is kept, as a person reads it: "Response at 82.4 Hz up by 3.00
/// dB, and by 2.00 dB against 1 kHz; partly from 1.50 and 1.00 dB."
std::string claimRuleSentence(const Claim& claim);
/// Errors: invalidInput naming the entry: a limit that is no number, partly stricter than yes, no words, a word twice.
Result<void> checkClaimLimits(const ClaimLimits& limits);

enum class ClaimVerdict {
    yes,
    partly,
    no,
    theOtherWay,
    noAnswer,  ///< The figure does not exist here: no guitar volume, no dip, no corners.
};
/// "yes", "partly", "no", "the other way", "no answer".
std::string_view verdictWord(ClaimVerdict verdict);

/// A figure that a word was held against.
struct ClaimFigure {
    std::string id;    ///< "response_82", "low_against_1k", "level_slope": stable.
    std::string name;  ///< "82 Hz", "against 1 kHz": short, for a panel.
    std::string unit;  ///< "dB", "dB per dB", "ratio", "%"
    std::optional<double> stock;
    std::optional<double> now;
    std::optional<double> limitYes;     ///< With its sign: of the change, or of now itself where `limitsNow`.
    std::optional<double> limitPartly;  ///< Both absent: shown beside the verdict, no part of it.
    bool limitsNow = false;
    std::optional<double> bandDb;  ///< Quick spread band of stock; responses only.

    [[nodiscard]] std::optional<double> change() const {
        return stock && now ? std::optional(*now - *stock) : std::nullopt;
    }

    friend bool operator==(const ClaimFigure&, const ClaimFigure&) = default;
};

struct ClaimAnswer {
    std::string word;  ///< As it was asked.
    ClaimRule rule = ClaimRule::fuller;
    ClaimVerdict verdict = ClaimVerdict::noAnswer;
    std::vector<ClaimFigure> figures;
    bool isHeldBack = false;  ///< Would be yes, but lies within the spread.
    std::string sentence;     ///< "less squashed: the other way; slope 0.52 → 0.44 dB per dB"
};

/// Holds words against one pair of circuits; what a second word shares with the first is solved once.
class ClaimCheck {
public:
    /// Errors: of the solver, "stock: " or "now: " before the sentence; cancelled.
    static Result<ClaimCheck> make(const Circuit& stock, const Circuit& now, const Setting& setting,
                                   const ClaimLimits& limits = houseClaimLimits(), const std::stop_token& stop = {});
    ClaimCheck(ClaimCheck&&) noexcept;
    ClaimCheck& operator=(ClaimCheck&&) noexcept;
    ~ClaimCheck();

    /// Errors: invalidInput for an unknown word, naming some that are known; cancelled. A figure that the circuit does
    /// not have is the verdict noAnswer with the reason as its sentence.
    Result<ClaimAnswer> check(const std::string& word, const std::stop_token& stop = {});

private:
    struct Bench;
    explicit ClaimCheck(std::unique_ptr<Bench> bench);
    std::unique_ptr<Bench> m_bench;
};

/// All words of a job against its plan. Errors: of applyPlan ("now: "); as ClaimCheck.
Result<std::vector<ClaimAnswer>> checkClaims(const Job& job, const std::vector<std::string>& words,
                                             const ClaimLimits& limits = houseClaimLimits(),
                                             const std::stop_token& stop = {});

}  // namespace ohmwright

/// Which part of another circuit does there what a part does here: found by its neighbourhood, never by its reference.
///
/// Two nets are alike as far as the parts at them are; two parts are alike as far as their nets are, a little by their
/// values. Ground, jack, output, source, battery and load are known from the start. Both likenesses feed each other for
/// some rounds, so that a part that differs is felt less the further away it is; then the parts are paired one to one.
/// Source of the idea of likenesses that feed each other: S. Melnik, H. Garcia-Molina, E. Rahm, "Similarity Flooding",
/// Proc. ICDE 2002; the rounds, weights and verdicts are our own.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

enum class MatchCertainty {
    sure,    ///< Every leg is at the place that answers to the one here, and no other part stands there likewise.
    likely,  ///< Some legs are, or two parts could be it: a reading settles it.
    none
};
/// "sure", "likely", "none".
std::string_view certaintyWord(MatchCertainty certainty);

struct PartMatch {
    PartId part;            ///< Of the known circuit.
    PartId other;           ///< Of the other one; empty for none.
    std::vector<int> pins;  ///< Pin k of `part` is pin `pins[k]` of `other`; parts without a sense may be turned.
    MatchCertainty certainty = MatchCertainty::none;
    std::vector<PartId> rivals;  ///< Of the other circuit: what could be it as well.
    std::string sentence;        ///< Why it is not sure; empty where it is.

    friend bool operator==(const PartMatch&, const PartMatch&) = default;
};

struct CircuitMatch {
    std::vector<PartMatch> parts;     ///< One a part of the known circuit, in its order.
    std::map<NetName, NetName> nets;  ///< From known nets to the others; those without an answer are missing.
    std::vector<PartId> unmatched;    ///< Parts of the other circuit that answer to none.

    /// The match of a known part, or null.
    [[nodiscard]] const PartMatch* find(std::string_view part) const;
};

/// @param known, other  well formed (circuit/check.h); some hundred parts each at most.
CircuitMatch matchCircuits(const Circuit& known, const Circuit& other);

/// A part's place in words that hold without its name: "capacitor between U1A inverting input and (through R5) ground".
std::string roleWords(const Circuit& circuit, const Part& part);

}  // namespace ohmwright

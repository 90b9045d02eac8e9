/// Frequencies that figures are named by: the open strings E A D G B E, the large-signal tone and two marks above them.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <optional>
#include <string_view>

namespace ohmwright {

/// The word that a figure's id ends in: "response_82".
struct NamedFrequency {
    std::string_view word;
    double hertz;
};

inline constexpr std::array<NamedFrequency, 9> namedFrequencies{{{"82", 82.41},
                                                                 {"110", 110.0},
                                                                 {"147", 146.8},
                                                                 {"196", 196.0},
                                                                 {"220", 220.0},
                                                                 {"247", 246.9},
                                                                 {"330", 329.6},
                                                                 {"1k", 1000.0},
                                                                 {"3k", 3000.0}}};

/// The frequency of a figure's id that is `prefix` and a word: "response_82" after "response_" is 82.41 Hz.
inline std::optional<double> namedFrequencyAfter(std::string_view prefix, std::string_view id) {
    if (id.substr(0, prefix.size()) != prefix) {
        return std::nullopt;
    }
    for (const NamedFrequency& frequency : namedFrequencies) {
        if (id.substr(prefix.size()) == frequency.word) {
            return frequency.hertz;
        }
    }
    return std::nullopt;
}

}  // namespace ohmwright

/// The likely mistakes of a piece of work, each as the circuit that the board is then.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/board_edits.h"
#include "core/circuit/circuit.h"

#include <string>
#include <vector>

namespace ohmwright {

/// In the order in which they are named to whoever finds a reading out of band: what hands do most comes first.
/// Common practice, no source.
enum class MistakeKind {
    upsideDown,       ///< A switch turned by half a turn: its throws are exchanged.
    reversed,         ///< A part with a sense the other way round.
    acrossNotInLine,  ///< Fitted across the part that it should stand in line with.
    otherArm,         ///< In line with the part that runs the other way between the same pads.
    bridged,          ///< Solder between two legs of the part.
    legOpen,          ///< A leg that is not soldered, or a joint that is dry.
    neighbourOpen,    ///< The part that runs the other way between the same pads came loose.
    decade,           ///< Ten times or a tenth of the value.
    digitsExchanged,  ///< Two places of the marking read the wrong way round.
    neighbourValue,   ///< The next value of E12 up or down.
    legsExchanged,    ///< Two legs of a transistor.
    otherTaper,       ///< A pot of another law.
    leftOut,          ///< A leg not moved, a part not taken out, a wire not set: the board as before.
};

/// "reversed", "across instead of in line".
std::string_view mistakeWords(MistakeKind kind);

struct Mistake {
    MistakeKind kind = MistakeKind::reversed;
    PartId part;           ///< On which it was made.
    std::string sentence;  ///< "D3 reversed", "270R fitted for 2k7 (R5 Rg)".
    Circuit circuit;       ///< The finished board with this one mistake on it.
    bool isAlike = false;  ///< No law differs (an electrolytic reversed): only the eye tells, until it fails.

    friend bool operator==(const Mistake&, const Mistake&) = default;
};

/// @param edits  what is worked on (board_edits.h), @param finished  the board on which it stands with all other work
/// done; edits of parts that are no longer there, or stand elsewhere by now, give nothing.
/// Circuits that are alike stand once, under the first kind.
std::vector<Mistake> likelyMistakes(const std::vector<BoardEdit>& edits, const Circuit& finished);

/// Every part in turn open at each leg and shorted, transistors' legs exchanged: what may be wrong on a board that was
/// right. Parts before the jack, the supply's source and the next box are not among them.
std::vector<Mistake> likelyFaults(const Circuit& circuit);

}  // namespace ohmwright

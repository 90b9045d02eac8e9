/// Pieces of a circuit that can be joined: what feeds the unit, a stage, an output, a supply.
///
/// A piece is a Circuit that keeps to these words:
///   source: names ports.source and ports.jack; its last stage's output is the jack.
///   stage: one Stage or more in signal order; the first one's input and the last one's output are its ends.
///   output: names ports.load and ports.output; its first stage's input is its only end.
///   supply: names ports.battery, has no stage, and is drawn from (0,0) on.
/// Rails go by fixed names, and "0" is ground. Parts keep their values; references, ids and other nets are made unique
/// where pieces are joined (join.h). On the drawing an end meets its border as a wire or a pin: the input at x = 0, the
/// output at x = drawing.size.x.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"

#include <array>
#include <optional>
#include <string>
#include <string_view>

namespace ohmwright {

inline constexpr std::string_view supplyRail = "vcc";  ///< 9 V of a battery unit.
inline constexpr std::string_view halfRail = "vb";     ///< Half of it, for op-amps.
inline constexpr std::string_view highRail = "ht";     ///< Some 250 V of a valve unit: dangerous.
inline constexpr std::array rails{supplyRail, halfRail, highRail};

/// "the 9 V supply", "the half supply Vb", "the 250 V supply".
std::string_view railWords(std::string_view rail);

enum class PieceRole { source, stage, output, supply };

PieceRole roleOf(const Circuit& piece);
/// Of its first stage or field, for sentences: "Soft clip".
std::string pieceName(const Circuit& piece);
/// Empty where the role has no such end.
NetName inputOf(const Circuit& piece);
NetName outputOf(const Circuit& piece);
/// Where the ends meet the borders; absent where they are not drawn up to them.
std::optional<GridPoint> inputPoint(const Circuit& piece);
std::optional<GridPoint> outputPoint(const Circuit& piece);
/// Whether a part of the piece stands at that net.
bool usesNet(const Circuit& piece, std::string_view net);

/// Whether it can be joined.
/// Errors: invalidInput, one sentence that begins with the piece's name: no parts, ends that no part has or that are
/// one net or a rail, a part without a number of nets, an end that is not drawn to its border, a law that names nets.
Result<void> checkPiece(const Circuit& piece);

}  // namespace ohmwright

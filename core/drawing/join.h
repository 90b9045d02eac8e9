/// Stages joined to one circuit: output to input, rails shared, drawn side by side.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/stage_piece.h"

#include <span>

namespace ohmwright {

/// One sound circuit of the pieces: the source first, stages in signal order, the output last, one supply anywhere.
///
/// - An output and the next input are one net; it goes by the output's name, the jack and the last output by theirs.
/// - Where two ends stand at different direct voltages a coupling capacitor is put between, drawn with the piece
/// behind;
///   its role says between which two stages and why (joint_coupling.h).
/// - Rails are shared by name. A piece's other nets, ids, knobs and stages that a name is taken for get a number.
/// - References are numbered in signal order: R1, R2 ...; those without a number keep theirs where they can. Halves of
///   dual op-amps of one type share a body two by two; a half that is over is there as its supply current, as a board
///   has it.
/// - Types of one name and other figures are kept apart under another name.
/// - Clipping is looked at where the last piece with diodes says, else where the last amplifying one says.
/// - The drawing: zones in a row, outputs at the height of the next input where the sheet allows it, else a wire with
///   two bends; the supply's field at the lower left, the pieces above or beside it, whichever fills a sheet of three
///   by one better. Sheets are 2.8 to 3.4 times as wide as high.
///
/// Errors: invalidInput: of checkPiece; no source, stage, output or supply, or two of one; a rail that no supply gives;
/// a valve's and a battery's rails at once (bench steps, discharge and the battery's corners go by one supply: a second
/// one would be left charged unasked). unsolvable: the first fault of the joined circuit (circuit/check.h).
Result<Circuit> joinStages(std::span<const Circuit> pieces);

}  // namespace ohmwright

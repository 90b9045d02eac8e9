/// Stages as zones of the drawing: where one begins, which parts stand in it, which nets cross its borders.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/edit.h"

namespace ohmwright {

/// Begins a stage at a column; the parts to the right of it, up to the next stage, are its own. The first stage of a
/// drawing begins at the sheet's left edge, whatever the column, and a second one at the column if parts stand before.
/// Errors: invalidInput for an empty name, for a column off the sheet or before the first stage, and for one where a
/// stage begins already.
EditResult beginStage(const Circuit& circuit, int column, const std::string& name);
/// The stage to the left takes over what a stage held. Errors: invalidInput when there is none with that index.
EditResult endStage(const Circuit& circuit, std::size_t index);
/// Errors: invalidInput for an empty name and an index that is none.
EditResult nameStage(const Circuit& circuit, std::size_t index, const std::string& name);
/// Moves the border at which a stage begins. Errors: as beginStage; a stage cannot pass its neighbours.
EditResult moveStage(const Circuit& circuit, std::size_t index, int column);

/// Frames a field that is no stage, such as the supply; parts inside belong to no stage.
/// Errors: invalidInput without a name, off the sheet and for a frame without area.
EditResult frameField(const Circuit& circuit, const Field& field);
/// Errors: invalidInput when there is no field with that index.
EditResult unframeField(const Circuit& circuit, std::size_t index);

/// The stage in which a column lies; absent without stages.
std::optional<std::size_t> stageAt(const Circuit& circuit, int column);
/// Puts parts into the stages where their bodies stand now; parts in a field belong to none.
void settleInZones(Circuit& circuit, const std::vector<PartId>& parts);
/// The net by which the signal crosses a column: of those with ends on both sides that are neither ground nor a
/// supply, the one that needs the fewest parts from the source; empty when there is none.
NetName borderNet(const Circuit& circuit, int column);

/// Shifts everything from a column on to the right (or from a row on downwards), so that there is room.
/// @param by  steps; its x from column `at.x` on, its y from row `at.y` on; neither is negative.
/// Errors: invalidInput when the drawing would be larger than largestGrid.
EditResult makeRoom(const Circuit& circuit, GridPoint at, GridPoint by);

}  // namespace ohmwright

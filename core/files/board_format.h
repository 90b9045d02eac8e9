/// The board's photos and marks as they stand in a job file; see resources/job-file-format.md.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/json_reader.h"
#include "core/plan/board.h"

namespace ohmwright {

/// Under "board"; nothing where no side has a photo.
void addBoard(JsonNode& node, const Board& board);
/// Empty where there is no such key.
Board readBoard(JsonReader& reader);

}  // namespace ohmwright

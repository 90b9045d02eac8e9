/// Keys in a table of rows that are walked and pressed.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

namespace ohmwright {

struct RowStep {
    int row = 0;             ///< Where the keyboard is now.
    bool isPressed = false;  ///< That row was pressed.
};

/// Up and down walk, Enter, Space and = press.
/// @param key   a Qt::Key.
/// @param rows  their number; without any, or of any other key, nothing.
std::optional<RowStep> rowStep(int key, int row, int rows);

}  // namespace ohmwright

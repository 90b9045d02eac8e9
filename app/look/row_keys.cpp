// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/row_keys.h"

#include <QtCore/qnamespace.h>

#include <algorithm>

namespace ohmwright {

std::optional<RowStep> rowStep(int key, int row, int rows) {
    if (rows < 1) {
        return std::nullopt;
    }
    switch (key) {
        case Qt::Key_Up:
            return RowStep{std::max(0, row - 1)};
        case Qt::Key_Down:
            return RowStep{std::min(rows - 1, row + 1)};
        case Qt::Key_Return:
        case Qt::Key_Enter:
        case Qt::Key_Space:
        case Qt::Key_Equal:
            return RowStep{row, true};
        default:
            return std::nullopt;
    }
}

}  // namespace ohmwright

/// The way of the keyboard through the window: from stop to stop as one reads, and from panel to panel.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

class QWidget;

namespace ohmwright {

/// What Tab stops at inside of a widget, itself included, as it is laid out: rows from the left, columns from above.
/// The toolkit's own order is that of making, in which what came later (rows of a list that follows the job) stands
/// last.
std::vector<QWidget*> stopsOf(QWidget& widget);

/// Gives the keyboard to the stop that follows (step 1) or precedes (-1) the one that has it; after the last comes the
/// first. @return whether there is one.
bool focusStop(QWidget& window, int step);

/// Gives the keyboard to the first stop of the panel that follows (step 1) or precedes (-1) the one that has it; hidden
/// panels and those without a stop are passed over. From outside all of them it comes to the first, or the last.
void focusPanel(const std::vector<QWidget*>& panels, int step);

}  // namespace ohmwright

/// The way of the keyboard from one panel of the window to the next.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

class QWidget;

namespace ohmwright {

/// Gives the keyboard to the first stop, in tab order, of the panel that follows (step 1) or precedes (-1) the one that
/// has it; hidden panels and those without a stop are passed over. From outside all of them it comes to the first, or
/// the last.
void focusPanel(const std::vector<QWidget*>& panels, int step);

}  // namespace ohmwright

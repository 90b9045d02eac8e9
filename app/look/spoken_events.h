/// What changes is told to who listens to the window instead of looking at it: every such event goes through here.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAccessible>

#include <functional>

namespace ohmwright {

/// Whether anybody listens: a screen reader, or a hearer. Without one no interface is made for what is drawn.
bool isListenedTo();

/// Sends the event to the desktop's screen reader, and to the hearer. GUI thread only.
void tellListeners(QAccessibleEvent& event);

/// Hears what is sent, also where no screen reader runs, which the toolkit then passes nothing to; empty ends it.
void setHearer(std::function<void(QAccessibleEvent&)> hearer);

}  // namespace ohmwright

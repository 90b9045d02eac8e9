/// Which keys begin a value: the same on the drawing and in the list of parts.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

class QKeyEvent;

namespace ohmwright {

/// What starts a value: a digit, a letter code such as R47, or a decimal point; no command with Ctrl or Alt.
bool startsValue(const QKeyEvent& event);
/// As above without the letters.
bool isDigitKey(const QKeyEvent& event);

}  // namespace ohmwright

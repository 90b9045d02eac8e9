/// The window, its curves and the bench sheet as files, for looking at the program where there is no display.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"

#include <QString>

namespace ohmwright {

/// Writes window-light.png, window-dark.png (1600x1000), window-small.png (1366x768), response.png, clip.png and
/// bench-sheet.pdf of the job into `folder`, which is made when it is missing. Runs the event loop while it waits for
/// the solver.
/// Errors: of opening the job; the solver's own sentence; fileUnreadable naming the file that cannot be written.
Result<void> writePictures(const QString& jobPath, const QString& folder);

}  // namespace ohmwright

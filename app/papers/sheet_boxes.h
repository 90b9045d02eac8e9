/// Boxes to sign and blanks to write on, empty or as the check list left them.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/papers/work_steps.h"

#include <QRectF>
#include <QString>

class QPainter;

namespace ohmwright {

/// Room at the right end of a line for its box, and for the word beside it [px at 96 dpi].
double boxRoom(BoxState state);

/// At the right end of `line`: ticked when passed; crossed, hatched or barred with its word beside it otherwise, so
/// that a skipped step is seen on every copy.
void paintBox(QPainter& painter, const QRectF& line, BoxState state);

/// A line to write on, with what was read already.
void paintBlank(QPainter& painter, const QRectF& box, const QString& read);

}  // namespace ohmwright

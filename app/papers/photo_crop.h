/// The photo around the legs of a step, as it stands beside the step: each leg ringed and named.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/step_photos.h"

#include <QRectF>
#include <QSizeF>

class QPainter;

namespace ohmwright {

/// Room that the crop takes [px at 96 dpi], with the name of the side under it; empty without one.
QSizeF sizeOf(const StepPhoto& photo);

/// Into the upper right of `box`.
void paintPhoto(QPainter& painter, const QRectF& box, const StepPhoto& photo);

}  // namespace ohmwright

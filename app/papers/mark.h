/// The program's mark on paper: the shape of the window's, in print ink alone.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QRectF>

class QPainter;

namespace ohmwright {

/// Fills a square in the middle of `box`.
void paintPrintMark(QPainter& painter, const QRectF& box);

}  // namespace ohmwright

/// The drawing as it leaves the window: vector, in print ink, for a file, the clipboard or a printer.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/map_state.h"

#include <QByteArray>
#include <QPageLayout>
#include <QString>

class QMimeData;
class QPagedPaintDevice;

namespace ohmwright {

/// What the map shows, whole, without selection, with the numbered names of its stages, in black and greys: what is
/// planned is heavier and larger, what left is grey and struck through. Lengths as on the screen at 96 dpi.
QByteArray drawingAsSvg(const MapState& state);

/// SVG, PDF or PNG (at 192 dpi) by the name's suffix.
/// @return why it could not be written; empty when it is.
QString saveDrawing(const MapState& state, const QString& path);

/// How a page has to lie so that the drawing is largest on it.
QPageLayout::Orientation orientationFor(const MapState& state);

/// On one page of a printer or PDF, at the upper left, at most as large as it is drawn. @return false: it cannot be
/// painted on.
bool printDrawing(const MapState& state, QPagedPaintDevice& device);

/// As SVG for programs that draw, as a picture for all others. The caller owns it.
QMimeData* drawingToCopy(const MapState& state);

}  // namespace ohmwright

/// Icons as paths on a 20 px grid, drawn in the text colour; and the Ohmwright mark.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QIcon>
#include <QPainterPath>
#include <QRectF>
#include <QString>

class QColor;
class QPainter;

namespace ohmwright {

/// A word stands beside every icon except undo, redo, plus and minus.
enum class IconName { undo, redo, print, plus, minus, open, save, sun, moon };

/// Stroked outline on the 20 px grid.
QPainterPath iconPath(IconName name);

/// Strokes the icon inside `box` (square, scaled from 20 px).
void paintIcon(QPainter& painter, const QRectF& box, IconName name, const QColor& colour);

/// Where an icon stands: on a panel or light button, or on an ink-filled (primary) button.
enum class IconGround { panel, ink };

/// Follows the theme by itself: ink, ink3 when disabled, panel colour when its button is checked.
QIcon icon(IconName name, IconGround ground = IconGround::panel);

/// The mark: an omega whose feet are two soldered ends, the right one planned.
void paintMark(QPainter& painter, const QRectF& box);
/// The mark as the program's window icon.
QIcon markIcon();

}  // namespace ohmwright

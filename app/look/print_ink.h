/// What plots are drawn with on paper and in files: the print set of resources/look/tokens.json, readable in grey.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QColor>
#include <QPen>

namespace ohmwright {

namespace print {
QColor ink();
QColor stockInk();
QColor hairInk();
QColor bandInk();  ///< A field under curves.
QColor paper();
/// Of curves: stock dashed grey, now solid black, four dash patterns for what is pinned.
QPen stockPen();
QPen nowPen();
QPen pinnedPen(int pattern);
}  // namespace print

}  // namespace ohmwright

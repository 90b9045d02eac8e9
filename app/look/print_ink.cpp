// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/print_ink.h"

#include "app/look/theme.h"

namespace ohmwright::print {

QColor ink() {
    return Qt::black;
}

QColor stockInk() {
    return QColor::fromRgbF(1.0F / 3.0F, 1.0F / 3.0F, 1.0F / 3.0F);
}

QColor hairInk() {
    return QColor::fromRgbF(0.72F, 0.72F, 0.72F);
}

QColor bandInk() {
    return QColor::fromRgbF(0.84F, 0.84F, 0.84F);
}

QColor paper() {
    return Qt::white;
}

QPen stockPen() {
    QPen pen = Theme::current().stockPen();
    pen.setColor(stockInk());
    return pen;
}

QPen nowPen() {
    QPen pen = Theme::current().nowPen();
    pen.setColor(ink());
    return pen;
}

QPen pinnedPen(int pattern) {
    QPen pen = Theme::current().throwPen(pattern);
    pen.setColor(ink());
    return pen;
}

}  // namespace ohmwright::print

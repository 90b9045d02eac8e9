/// A line of words that gives way: what has no room ends in "…", and all of it stands in the tool tip.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/look/themed_label.h"

#include <QPainter>

namespace ohmwright {

class ElidedLabel : public ThemedLabel {
public:
    ElidedLabel(TextRole role, bool bold, QColor ThemeColours::*colour, QWidget* parent = nullptr)
        : ThemedLabel(role, bold, colour, parent) {
        setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    }

    /// What is seen of the words.
    [[nodiscard]] QString shownText() const {
        return fontMetrics().elidedText(text(), Qt::ElideRight, contentsRect().width());
    }

protected:
    void paintEvent(QPaintEvent*) override {
        const QString shown = shownText();
        QPainter painter(this);
        painter.setFont(font());
        painter.setPen(palette().color(QPalette::WindowText));
        painter.drawText(contentsRect(), static_cast<int>(alignment()), shown);
        // Here, because neither a new text nor a new font is announced.
        const QString tip = shown == text() ? QString() : text();
        if (toolTip() != tip) {
            setToolTip(tip);
        }
    }
};

}  // namespace ohmwright

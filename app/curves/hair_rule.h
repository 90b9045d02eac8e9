/// The line between two parts of a panel.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/look/theme.h"

#include <QWidget>

namespace ohmwright {

/// 1 px between two parts of a panel, in the theme's colour.
class HairRule : public QWidget {
public:
    explicit HairRule(QWidget* parent) : QWidget(parent) {
        setFixedWidth(1);
        setAutoFillBackground(true);
        followTheme();
        connect(&Theme::current(), &Theme::changed, this, [this] { followTheme(); });
    }

private:
    void followTheme() {
        QPalette own = palette();
        own.setColor(QPalette::Window, Theme::current().colours().hair);
        setPalette(own);
    }
};

}  // namespace ohmwright

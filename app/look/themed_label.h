/// A label in a role of the type scale and a colour of the theme, both followed when the theme changes.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/look/theme.h"

#include <QLabel>

namespace ohmwright {

class ThemedLabel : public QLabel {
public:
    /// @param colour  which colour of the theme, `&ThemeColours::ink3`.
    ThemedLabel(TextRole role, bool bold, QColor ThemeColours::*colour, QWidget* parent = nullptr)
        : QLabel(parent), m_role(role), m_isBold(bold), m_colour(colour) {
        setTextFormat(Qt::PlainText);
        follow();
        connect(&Theme::current(), &Theme::changed, this, [this] { follow(); });
    }

    void setColour(QColor ThemeColours::*colour) {
        m_colour = colour;
        follow();
    }

private:
    void follow() {
        setFont(Theme::current().font(m_role, m_isBold));
        QPalette own;
        own.setColor(QPalette::WindowText, Theme::current().colours().*m_colour);
        setPalette(own);
    }

    TextRole m_role;
    bool m_isBold;
    QColor ThemeColours::*m_colour;
};

}  // namespace ohmwright

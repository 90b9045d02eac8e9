/// Words at the bench: larger than the type scale of the window, read at arm's length.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/look/theme.h"

#include <QLabel>

namespace ohmwright {

/// Type of bench mode [px at a text setting of 100 %], 20 to 52 (LOOK, section 2).
namespace bench {
inline constexpr int small = 20;
inline constexpr int place = 28;
inline constexpr int reading = 36;
inline constexpr int title = 52;
}  // namespace bench

inline QFont benchFont(int pixels, bool bold = false) {
    QFont font = Theme::current().font(TextRole::body, bold);
    font.setPixelSize(qRound(pixels * Theme::current().textScale()));
    return font;
}

/// Wraps; an empty one takes no room.
class BenchLabel : public QLabel {
public:
    BenchLabel(int pixels, bool bold, QColor ThemeColours::*colour, QWidget* parent)
        : QLabel(parent), m_pixels(pixels), m_isBold(bold), m_colour(colour) {
        setTextFormat(Qt::PlainText);
        setWordWrap(true);
        follow();
        connect(&Theme::current(), &Theme::changed, this, [this] { follow(); });
    }

    void setPixels(int pixels) {
        m_pixels = pixels;
        follow();
    }
    void say(const QString& words) {
        setText(words);
        setVisible(!words.isEmpty());
    }
    void say(const QString& words, QColor ThemeColours::*colour) {
        m_colour = colour;
        follow();
        say(words);
    }

private:
    void follow() {
        setFont(benchFont(m_pixels, m_isBold));
        QPalette own;
        own.setColor(QPalette::WindowText, Theme::current().colours().*m_colour);
        setPalette(own);
    }

    int m_pixels;
    bool m_isBold;
    QColor ThemeColours::*m_colour;
};

}  // namespace ohmwright

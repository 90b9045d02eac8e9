// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/drag_note.h"

#include "app/look/theme.h"

#include <QFontMetrics>
#include <QPainter>

#include <algorithm>

namespace ohmwright {
namespace {

constexpr int rim = 6;
constexpr int away = 18;  // of the pointer, so that it hides none of the words
constexpr int momentMilliseconds = 6000;

}  // namespace

DragNote::DragNote(QWidget* parent) : QWidget(parent) {
    setAttribute(Qt::WA_TransparentForMouseEvents);
    setFocusPolicy(Qt::NoFocus);
    m_moment.setSingleShot(true);
    m_moment.setInterval(momentMilliseconds);
    connect(&m_moment, &QTimer::timeout, this, &QWidget::hide);
    hide();
}

void DragNote::say(const QString& words, const QPoint& beside, bool forAMoment) {
    m_words = words;
    setAccessibleName(words);
    const QFontMetrics metrics(Theme::current().font(TextRole::body, true));
    resize(metrics.horizontalAdvance(words) + 2 * rim, metrics.height() + 2 * rim);
    const int right = std::max(0, parentWidget()->width() - width());
    const int bottom = std::max(0, parentWidget()->height() - height());
    move(std::clamp(beside.x() + away, 0, right), std::clamp(beside.y() + away, 0, bottom));
    setVisible(!words.isEmpty());
    raise();
    update();
    if (forAMoment) {
        m_moment.start();
    } else {
        m_moment.stop();
    }
}

void DragNote::paintEvent(QPaintEvent*) {
    const ThemeColours& colours = Theme::current().colours();
    QPainter painter(this);
    painter.fillRect(rect(), colours.canvas);
    painter.setPen(QPen(colours.edge, line::hair));
    painter.drawRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5));
    painter.setFont(Theme::current().font(TextRole::body, true));
    painter.setPen(colours.ink);
    painter.drawText(rect(), Qt::AlignCenter, m_words);
}

}  // namespace ohmwright

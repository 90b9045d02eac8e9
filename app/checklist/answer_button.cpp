// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/checklist/answer_button.h"

#include "app/checklist/bench_label.h"
#include "app/look/theme.h"

#include <QPainter>

namespace ohmwright {

namespace {

constexpr int margin = 18;
constexpr int leastPixels = 14;

}  // namespace

AnswerButton::AnswerButton(Kind kind, QWidget* parent) : QAbstractButton(parent), m_kind(kind) {
    // Keys belong to the whole place: nothing is pressed because it happened to have the focus.
    setFocusPolicy(Qt::NoFocus);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setMinimumHeight(leastHeight);
    connect(&Theme::current(), &Theme::changed, this, [this] { update(); });
}

void AnswerButton::setWords(const QString& answer, const QString& key) {
    setText(answer);
    m_key = key;
    setAccessibleName(answer);
    setAccessibleDescription(key);
    update();
}

QSize AnswerButton::sizeHint() const {
    return {240, leastHeight};
}

void AnswerButton::paintEvent(QPaintEvent*) {
    const ThemeColours& c = Theme::current().colours();
    const QColor own = m_kind == Kind::pass ? c.ok : c.stop;
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const bool isFilled = m_kind == Kind::pass && isEnabled();
    painter.setPen(QPen(isEnabled() ? own : c.edge, 2.0));
    painter.setBrush(isFilled ? own : isDown() ? c.stopSoft : c.raised);
    painter.drawRoundedRect(QRectF(rect()).adjusted(1.0, 1.0, -1.0, -1.0), radius::button, radius::button);
    painter.setPen(isFilled ? c.panel : isEnabled() ? own : c.ink3);
    const QRect room = rect().adjusted(margin, 14, -margin, -10);
    QFont font = benchFont(bench::reading, true);
    while (font.pixelSize() > bench::small && QFontMetrics(font).horizontalAdvance(text()) > room.width()) {
        font.setPixelSize(font.pixelSize() - 1);
    }
    painter.setFont(font);
    const int height = QFontMetrics(font).height();
    painter.drawText(QRect(room.left(), room.top(), room.width(), height), Qt::AlignLeft | Qt::AlignVCenter, text());
    // The same for what the key does: no line of it lies outside.
    const QRect below = room.adjusted(0, height + 4, 0, 0);
    constexpr int flags = Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap;
    QFont small = benchFont(bench::small);
    while (small.pixelSize() > leastPixels &&
           QFontMetrics(small).boundingRect(below, flags, m_key).height() > below.height()) {
        small.setPixelSize(small.pixelSize() - 1);
    }
    painter.setFont(small);
    painter.drawText(below, flags, m_key);
}

}  // namespace ohmwright

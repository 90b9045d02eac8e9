// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/checklist/step_head.h"

#include "app/checklist/bench_label.h"
#include "app/look/painters.h"

#include <QPainter>

namespace ohmwright {

namespace {

constexpr int headHeight = 40;
constexpr double triangle = 32.0;

}  // namespace

StepHead::StepHead(QWidget* parent) : QWidget(parent) {
    setFixedHeight(headHeight);
    connect(&Theme::current(), &Theme::changed, this, [this] { update(); });
}

void StepHead::say(const Words& words) {
    m_words = words;
    setAccessibleName(this->words());
    setVisible(!words.count.isEmpty());
    update();
}

QString StepHead::words() const {
    const QString change = m_words.now.isEmpty() ? QString() : QString(" %1 → %2").arg(m_words.stock, m_words.now);
    QStringList said;
    for (const QString& each : {m_words.letter, QString(m_words.name + change), m_words.state, m_words.count}) {
        if (!each.isEmpty()) {
            said << each;
        }
    }
    return said.join(", ");
}

void StepHead::paintEvent(QPaintEvent*) {
    const ThemeColours& c = Theme::current().colours();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    double x = 0.0;
    if (!m_words.letter.isEmpty()) {
        paintRevisionTriangle(painter, QRectF(0.0, (height() - triangle) / 2.0, triangle, triangle), m_words.letter,
                              TriangleState::active);
        x = triangle + 12.0;
    }
    const QFont bold = benchFont(bench::small, true);
    const double baseline = height() / 2.0 + QFontMetricsF(bold).capHeight() / 2.0;
    painter.setFont(bold);
    painter.setPen(c.ink);
    painter.drawText(QPointF(x, baseline), m_words.name);
    x += QFontMetricsF(bold).horizontalAdvance(m_words.name + "  ");
    painter.setFont(benchFont(bench::small));
    if (!m_words.now.isEmpty()) {
        x += paintStockToNow(painter, {x, baseline}, m_words.stock, m_words.now);
    }
    painter.setFont(benchFont(bench::small));
    painter.setPen(c.ink2);
    painter.drawText(rect(), Qt::AlignRight | Qt::AlignVCenter, m_words.count);
    const double room = width() - x - QFontMetricsF(painter.font()).horizontalAdvance(m_words.count + "  ");
    const QString state = m_words.state.isEmpty() ? QString() : "  " + m_words.state;
    if (QFontMetricsF(painter.font()).horizontalAdvance(state) < room) {
        painter.setPen(c.ink3);
        painter.drawText(QPointF(x, baseline), state);
    }
}

}  // namespace ohmwright

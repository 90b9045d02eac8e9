// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/visit_strip.h"

#include "app/look/said_text.h"
#include "app/look/theme.h"

#include <QFontMetrics>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>
#include <array>

namespace ohmwright {

namespace {

constexpr std::array states{VisitState::draft, VisitState::quoted, VisitState::onBench, VisitState::proven,
                            VisitState::gone};
constexpr int gap = 2;
constexpr int barHeight = 3;

int stateWidth() {
    const QFontMetrics bold(Theme::current().font(TextRole::caption, true));
    int widest = 0;
    for (const VisitState state : states) {
        widest = std::max(widest, bold.horizontalAdvance(visitStateWords(state)));
    }
    return widest + 14;
}

}  // namespace

QString visitStateWords(VisitState state) {
    return saidText(visitStateWord(state));
}

VisitStrip::VisitStrip(QWidget* parent) : QWidget(parent) {
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
    setFocusPolicy(Qt::TabFocus);
    connect(&Theme::current(), &Theme::changed, this, [this] { updateGeometry(); });
    setCursor(Qt::PointingHandCursor);
    setToolTip(tr("Press a state: the card of the visit says what it asks for."));
    setVisit({});
}

void VisitStrip::setVisit(const Visit& visit) {
    m_visit = visit;
    setAccessibleName(tr("Visit %1, %2").arg(QString::number(visit.number), visitStateWords(visit.state)));
    updateGeometry();
    update();
}

void VisitStrip::setFolded(bool folded) {
    m_isFolded = folded;
    updateGeometry();
    update();
}

QSize VisitStrip::sizeHint() const {
    const QFontMetrics metrics(Theme::current().font(TextRole::caption, true));
    const int height = metrics.height() + barHeight + 8;
    if (m_isFolded) {
        return {metrics.horizontalAdvance(accessibleName()) + 8, height};
    }
    return {static_cast<int>(states.size()) * (stateWidth() + gap), height};
}

void VisitStrip::pointAt(std::size_t state) {
    m_pointed = state;
    setAccessibleDescription(tr("Enter asks for: %1").arg(visitStateWords(states[state])));
    update();
}

void VisitStrip::keyPressEvent(QKeyEvent* event) {
    const bool isForward = event->key() == Qt::Key_Right;
    if (isForward || event->key() == Qt::Key_Left) {
        if (!m_isFolded && (isForward ? m_pointed + 1 < states.size() : m_pointed > 0)) {
            pointAt(isForward ? m_pointed + 1 : m_pointed - 1);
        }
    } else if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter || event->key() == Qt::Key_Space) {
        emit stateAsked(m_isFolded ? m_visit.state : states[m_pointed]);
    } else {
        QWidget::keyPressEvent(event);
    }
}

void VisitStrip::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    pointAt(static_cast<std::size_t>(std::find(states.begin(), states.end(), m_visit.state) - states.begin()));
}

void VisitStrip::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    update();
}

void VisitStrip::mouseReleaseEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton || !rect().contains(event->position().toPoint())) {
        return;
    }
    const auto index = static_cast<std::size_t>(event->position().x()) / std::size_t(stateWidth() + gap);
    emit stateAsked(m_isFolded ? m_visit.state : states[std::min(index, states.size() - 1)]);
}

void VisitStrip::paintEvent(QPaintEvent*) {
    const ThemeColours& colours = Theme::current().colours();
    const QFont normal = Theme::current().font(TextRole::caption);
    const QFont bold = Theme::current().font(TextRole::caption, true);
    QPainter painter(this);
    if (m_isFolded) {
        const QString visit = tr("visit %1").arg(m_visit.number) + "  ";
        const int visitWidth = QFontMetrics(normal).horizontalAdvance(visit);
        painter.setFont(normal);
        painter.setPen(colours.ink2);
        painter.drawText(rect(), Qt::AlignVCenter, visit);
        painter.setFont(bold);
        painter.setPen(colours.ink);
        painter.drawText(rect().adjusted(visitWidth, 0, 0, 0), Qt::AlignVCenter, visitStateWords(m_visit.state));
        outline(painter, rect());
        return;
    }
    const int width = stateWidth();
    int left = 0;
    for (const VisitState state : states) {
        const bool isCurrent = state == m_visit.state;
        // The bar and the weight say it together, so that neither grey nor colour alone does.
        painter.fillRect(QRect(left, 0, width, isCurrent ? barHeight : barHeight - 1),
                         isCurrent ? colours.ink : colours.gridMajor);
        painter.setFont(isCurrent ? bold : normal);
        painter.setPen(isCurrent ? colours.ink : colours.ink2);
        painter.drawText(QRect(left, barHeight, width, height() - barHeight), Qt::AlignCenter, visitStateWords(state));
        if (state == states[m_pointed]) {
            outline(painter, QRect(left, 0, width, height()));
        }
        left += width + gap;
    }
}

/// As every focus: ink, 2 px; inside, where the neighbour leaves no room.
void VisitStrip::outline(QPainter& painter, const QRect& box) const {
    if (hasFocus()) {
        constexpr double focusWidth = 2.0;
        painter.setPen(QPen(Theme::current().colours().ink, focusWidth));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(QRectF(box).adjusted(1, 1, -1, -1));
    }
}

}  // namespace ohmwright

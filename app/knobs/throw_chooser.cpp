// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/knobs/throw_chooser.h"

#include "app/look/theme.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>
#include <utility>

namespace ohmwright {

namespace {

constexpr int side = 12;          // px left and right of everything
constexpr int throwPadding = 8;   // px left and right of a throw's name
constexpr int throwEdge = 2;      // px above and below it
constexpr int foldedHeight = 56;  // look tokens, space.knobRowSmall
constexpr int rowEdges = 2;       // the row draws one above and one below

int heightOf(TextRole role, bool bold = false) {
    return QFontMetrics(Theme::current().font(role, bold)).height();
}

int throwHeight() {
    return heightOf(TextRole::body, true) + 2 * throwEdge;
}

int throwWidth(const QString& name) {
    return QFontMetrics(Theme::current().font(TextRole::body, true)).horizontalAdvance(name) + 2 * throwPadding;
}

}  // namespace

ThrowChooser::ThrowChooser(QString name, QStringList throws, QWidget* parent)
    : QWidget(parent), m_name(std::move(name)), m_throws(std::move(throws)) {
    setFocusPolicy(Qt::StrongFocus);
    setCursor(Qt::PointingHandCursor);
    setAccessibleName(m_name);
    describe();
}

void ThrowChooser::setChosen(int index) {
    m_chosen = index;
    describe();
    update();
}

void ThrowChooser::setFacts(const QString& facts) {
    m_facts = facts;
    const QFontMetrics caption(Theme::current().font(TextRole::caption));
    if (caption.horizontalAdvance(facts) > caption.horizontalAdvance(m_widestFacts)) {
        m_widestFacts = facts;
    }
    describe();
    updateGeometry();
    update();
}

void ThrowChooser::setFolded(bool folded) {
    m_isFolded = folded;
    updateGeometry();
    update();
}

void ThrowChooser::describe() {
    const QString stands = tr("stands at %1 of: %2").arg(m_throws.value(m_chosen), m_throws.join(", "));
    setAccessibleDescription(m_facts.isEmpty() ? stands : stands + "; " + m_facts);
}

QString ThrowChooser::head(const QString& facts) const {
    return m_isFolded && !facts.isEmpty() ? m_name + ": " + facts : m_name;
}

int ThrowChooser::linesHeight() const {
    return heightOf(TextRole::caption) * (m_isFolded ? 1 : 2) + throwHeight();
}

QSize ThrowChooser::minimumSizeHint() const {
    const Theme& theme = Theme::current();
    int throwsWidth = 0;
    for (const QString& name : m_throws) {
        throwsWidth += throwWidth(name);
    }
    const QFontMetrics caption(theme.font(TextRole::caption));
    const int words =
        std::max(caption.horizontalAdvance(head(m_widestFacts)), caption.horizontalAdvance(m_widestFacts));
    return {std::max(throwsWidth, words) + 2 * side,
            qRound((m_isFolded ? foldedHeight : space::knobRow) * theme.textScale()) - rowEdges};
}

QSize ThrowChooser::sizeHint() const {
    return minimumSizeHint();
}

QRect ThrowChooser::throwBox(int index) const {
    int left = side;
    for (int before = 0; before < index; ++before) {
        left += throwWidth(m_throws[before]);
    }
    const int top = (height() - linesHeight()) / 2 + heightOf(TextRole::caption);
    return {left, top, throwWidth(m_throws[index]), throwHeight()};
}

void ThrowChooser::paintEvent(QPaintEvent*) {
    const Theme& theme = Theme::current();
    const ThemeColours& colours = theme.colours();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(rect(), colours.panel);
    const int captionHeight = heightOf(TextRole::caption);
    const QRect first = throwBox(0);
    painter.setFont(theme.font(TextRole::caption));
    painter.setPen(colours.ink2);
    painter.drawText(QRect(side, first.top() - captionHeight, width() - side, captionHeight), Qt::AlignVCenter,
                     head(m_facts));
    if (!m_isFolded) {
        painter.setPen(colours.ink3);
        painter.drawText(QRect(side, first.bottom() + 1, width() - side, captionHeight), Qt::AlignVCenter, m_facts);
    }
    for (int index = 0; index < m_throws.size(); ++index) {
        const bool isChosen = index == m_chosen;
        const QRectF box = QRectF(throwBox(index)).adjusted(0.5, 0.5, -0.5, -0.5);
        painter.setPen(QPen(colours.edge, line::hair));
        painter.setBrush(isChosen ? QBrush(colours.now) : QBrush(colours.panel));
        painter.drawRect(box);
        painter.setFont(theme.font(TextRole::body, isChosen));
        painter.setPen(isChosen ? colours.onNow : colours.ink);
        painter.drawText(box, Qt::AlignCenter, m_throws[index]);
    }
    if (hasFocus()) {
        constexpr double inset = 4.0;
        painter.setPen(QPen(colours.focus, line::focus));
        painter.setBrush(Qt::NoBrush);
        painter.drawRoundedRect(QRectF(rect()).adjusted(inset, inset, -inset, -inset), radius::field, radius::field);
    }
}

void ThrowChooser::askWithin(int index) {
    const int held = std::clamp(index, 0, static_cast<int>(m_throws.size()) - 1);
    if (held != m_chosen) {
        emit asked(held);
    }
}

void ThrowChooser::mousePressEvent(QMouseEvent* event) {
    for (int index = 0; index < m_throws.size(); ++index) {
        if (event->button() == Qt::LeftButton && throwBox(index).contains(event->position().toPoint())) {
            askWithin(index);
            return;
        }
    }
}

void ThrowChooser::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
        case Qt::Key_Left:
        case Qt::Key_Up:
            askWithin(m_chosen - 1);
            return;
        case Qt::Key_Right:
        case Qt::Key_Down:
            askWithin(m_chosen + 1);
            return;
        case Qt::Key_Home:
            askWithin(0);
            return;
        case Qt::Key_End:
            askWithin(static_cast<int>(m_throws.size()) - 1);
            return;
        default:
            break;
    }
    const int number = event->key() - Qt::Key_0;
    if (number >= 1 && number <= m_throws.size()) {
        askWithin(number - 1);
    } else {
        QWidget::keyPressEvent(event);
    }
}

}  // namespace ohmwright

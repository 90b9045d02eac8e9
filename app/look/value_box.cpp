// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/value_box.h"

#include "app/look/icons.h"
#include "app/look/painters.h"
#include "app/look/theme.h"

#include <QAbstractButton>
#include <QFontMetrics>
#include <QGuiApplication>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPainter>
#include <QWheelEvent>

namespace ohmwright {
namespace {

constexpr int boxPadding = 14;
constexpr int stockGap = 8;
constexpr int halfWidth = 44;    // tokens hit.spin
constexpr int wheelNotch = 120;  // eighths of a degree, QWheelEvent
constexpr int longestText = 40;  // beyond any marking; keeps error sentences readable

/// One half of the stepper: a plus or a minus without a frame of its own.
class StepHalf : public QAbstractButton {
public:
    StepHalf(IconName name, const QString& words, QWidget* parent) : QAbstractButton(parent), m_name(name) {
        setAccessibleName(words);
        setToolTip(words);
        setAutoRepeat(true);
        // The keyboard has Page Up and Page Down; the entry keeps the focus.
        setFocusPolicy(Qt::NoFocus);
    }

protected:
    void paintEvent(QPaintEvent*) override {
        const ThemeColours& c = Theme::current().colours();
        QPainter painter(this);
        if (isDown() || underMouse()) {
            painter.fillRect(rect(), isDown() ? c.gridMajor : c.app);
        }
        const QRectF box(width() / 2.0 - 9, height() / 2.0 - 9, 18, 18);
        paintIcon(painter, box, m_name, isEnabled() ? c.ink2 : c.hair);
    }

    void enterEvent(QEnterEvent*) override { update(); }
    void leaveEvent(QEvent*) override { update(); }

private:
    IconName m_name;
};

}  // namespace

ValueBox::ValueBox(QWidget* parent) : QWidget(parent) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    m_entry = new QLineEdit(this);
    m_entry->setObjectName("valueEntry");
    m_entry->setMaxLength(longestText);
    m_entry->setProperty("focusOutline", false);  // the box itself is the outline
    m_entry->installEventFilter(this);
    setFocusProxy(m_entry);
    m_up = new StepHalf(IconName::plus, tr("Next larger value (Page Up)"), this);
    m_down = new StepHalf(IconName::minus, tr("Next smaller value (Page Down)"), this);
    connect(m_up, &QAbstractButton::clicked, this, [this] { emit stepped(1, QGuiApplication::keyboardModifiers()); });
    connect(m_down, &QAbstractButton::clicked, this,
            [this] { emit stepped(-1, QGuiApplication::keyboardModifiers()); });
    connect(m_entry, &QLineEdit::textEdited, this, &ValueBox::edited);
    connect(m_entry, &QLineEdit::returnPressed, this, &ValueBox::entered);
    connect(&Theme::current(), &Theme::changed, this, &ValueBox::followTheme);
    followTheme();
}

void ValueBox::setTexts(const QString& stock, const QString& now) {
    m_stock = stock;
    m_entry->setText(now);
    placeChildren();
    update();
}

void ValueBox::setPlanned(bool planned) {
    m_isPlanned = planned;
    const ThemeColours& c = Theme::current().colours();
    QPalette palette = m_entry->palette();
    palette.setColor(QPalette::Text, planned ? c.now : c.ink);
    palette.setColor(QPalette::Highlight, planned ? c.nowSoft : c.gridMajor);
    palette.setColor(QPalette::HighlightedText, planned ? c.now : c.ink);
    m_entry->setPalette(palette);
}

QSize ValueBox::sizeHint() const {
    return {276, QFontMetrics(Theme::current().font(TextRole::valueField, true)).height() + 20};
}

QSize ValueBox::minimumSizeHint() const {
    return {200, sizeHint().height()};
}

void ValueBox::followTheme() {
    m_entry->setFont(Theme::current().font(TextRole::valueField, true));
    setPlanned(m_isPlanned);
    updateGeometry();
    placeChildren();
    update();
}

void ValueBox::placeChildren() {
    const QFontMetrics stockMetrics(Theme::current().font(TextRole::figure));
    const int struck = m_stock.isEmpty() ? 0 : stockMetrics.horizontalAdvance(m_stock) + stockGap;
    const int left = boxPadding + struck;
    const int right = width() - halfWidth - 2;
    m_entry->setGeometry(left, 3, qMax(0, right - left - 2), height() - 6);
    const int middle = height() / 2;
    m_up->setGeometry(right + 1, 2, halfWidth - 1, middle - 2);
    m_down->setGeometry(right + 1, middle + 1, halfWidth - 1, height() - middle - 3);
}

void ValueBox::resizeEvent(QResizeEvent*) {
    placeChildren();
}

void ValueBox::paintEvent(QPaintEvent*) {
    const Theme& theme = Theme::current();
    const ThemeColours& c = theme.colours();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const double border = m_entry->hasFocus() ? line::focus : line::hair;
    painter.setPen(QPen(m_entry->hasFocus() ? c.focus : c.edge, border));
    painter.setBrush(c.raised);
    const double inset = border / 2;
    painter.drawRoundedRect(QRectF(rect()).adjusted(inset, inset, -inset, -inset), radius::field, radius::field);
    painter.setRenderHint(QPainter::Antialiasing, false);
    painter.setPen(QPen(c.hair, line::hair));
    const int divider = m_up->geometry().left() - 1;
    painter.drawLine(divider, 2, divider, height() - 3);
    painter.drawLine(divider, height() / 2, width() - 3, height() / 2);
    if (!m_stock.isEmpty()) {
        painter.setFont(theme.font(TextRole::figure));
        const QFontMetrics metrics = painter.fontMetrics();
        const double baseline = height() / 2.0 + (metrics.ascent() - metrics.descent()) / 2.0;
        paintStruck(painter, QPointF(boxPadding, baseline), m_stock);
    }
}

void ValueBox::wheelEvent(QWheelEvent* event) {
    // With Alt down the desktop turns the wheel sideways.
    const QPoint angle = event->angleDelta();
    m_wheelRest += angle.y() != 0 ? angle.y() : angle.x();
    const int notches = m_wheelRest / wheelNotch;
    m_wheelRest -= notches * wheelNotch;
    for (int notch = 0; notch < qAbs(notches); ++notch) {
        emit stepped(notches > 0 ? 1 : -1, event->modifiers());
    }
    event->accept();
}

bool ValueBox::eventFilter(QObject* watched, QEvent* event) {
    switch (event->type()) {
        case QEvent::FocusIn:
        case QEvent::FocusOut:
            update();
            break;
        case QEvent::ShortcutOverride:
            // The job's undo, unless there is typing to undo.
            if (auto* key = static_cast<QKeyEvent*>(event);
                !m_entry->isModified() && (key->matches(QKeySequence::Undo) || key->matches(QKeySequence::Redo))) {
                event->ignore();
                return true;
            } else if (key->key() == Qt::Key_Escape && m_entry->isModified()) {
                // Taking the typing back comes before any way out of the panel.
                event->accept();
                return true;
            }
            break;
        case QEvent::KeyPress:
            if (handleKey(*static_cast<QKeyEvent*>(event))) {
                return true;
            }
            break;
        default:
            break;
    }
    return QWidget::eventFilter(watched, event);
}

bool ValueBox::handleKey(QKeyEvent& event) {
    switch (event.key()) {
        case Qt::Key_PageUp:
            emit stepped(1, event.modifiers() & ~Qt::KeypadModifier);
            return true;
        case Qt::Key_PageDown:
            emit stepped(-1, event.modifiers() & ~Qt::KeypadModifier);
            return true;
        case Qt::Key_Escape:
            if (!m_entry->isModified()) {
                return false;
            }
            emit abandoned();
            return true;
        default:
            return false;
    }
}

}  // namespace ohmwright

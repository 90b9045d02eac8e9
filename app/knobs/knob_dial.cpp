// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/knobs/knob_dial.h"

#include "app/look/spoken_events.h"
#include "app/look/theme.h"

#include <QAccessible>
#include <QAccessibleWidget>
#include <QKeyEvent>
#include <QLineEdit>
#include <QMouseEvent>
#include <QPainter>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ohmwright {

namespace {

// All px at 96 dpi, from the look's pictures.
constexpr double arcRadius = 15.5;
constexpr double arcWidth = 3.6;
constexpr double pointerInner = 7.0;
constexpr double tickInner = 20.0;
constexpr double tickOuter = 22.5;
constexpr int tickCount = 11;
constexpr int arcColumn = 76;
constexpr int arcCentreX = 39;
constexpr int rightMargin = 8;
constexpr double startDegrees = 225.0;
constexpr double sweepDegrees = 270.0;

/// Drag this far for the whole arc.
constexpr double dragPixels = 200.0;
constexpr double fineDragShare = 0.1;
constexpr int wheelUnitsPerStep = 120;  // QWheelEvent: eighths of a degree of one notch

QPointF onCircle(const QPointF& centre, double radius, double travel) {
    const double radians = (startDegrees - sweepDegrees * travel) * std::numbers::pi / 180.0;
    return {centre.x() + radius * std::cos(radians), centre.y() - radius * std::sin(radians)};
}

/// A dial: its value in words, its travel as the number, steps as by the arrows.
class KnobDialAccessible : public QAccessibleWidget, public QAccessibleValueInterface {
public:
    explicit KnobDialAccessible(KnobDial* dial) : QAccessibleWidget(dial, QAccessible::Dial), m_dial(dial) {}

    [[nodiscard]] QString text(QAccessible::Text kind) const override {
        return kind == QAccessible::Value ? m_dial->face().value : QAccessibleWidget::text(kind);
    }
    [[nodiscard]] void* interface_cast(QAccessible::InterfaceType type) override {
        return type == QAccessible::ValueInterface ? static_cast<QAccessibleValueInterface*>(this)
                                                   : QAccessibleWidget::interface_cast(type);
    }
    [[nodiscard]] QStringList actionNames() const override {
        return QStringList{increaseAction(), decreaseAction()} + QAccessibleWidget::actionNames();
    }
    void doAction(const QString& action) override {
        if (action == increaseAction() || action == decreaseAction()) {
            emit m_dial->stepped(action == increaseAction() ? 1 : -1, DialStep::normal);
        } else {
            QAccessibleWidget::doAction(action);
        }
    }
    [[nodiscard]] QVariant currentValue() const override { return m_dial->face().travel; }
    void setCurrentValue(const QVariant& value) override {
        emit m_dial->sentTo(std::clamp(value.toDouble(), 0.0, 1.0));
    }
    [[nodiscard]] QVariant minimumValue() const override { return 0.0; }
    [[nodiscard]] QVariant maximumValue() const override { return 1.0; }
    [[nodiscard]] QVariant minimumStepSize() const override { return {}; }

private:
    KnobDial* m_dial;
};

QAccessibleInterface* dialAccessible(const QString& /*className*/, QObject* object) {
    auto* dial = qobject_cast<KnobDial*>(object);
    return dial ? new KnobDialAccessible(dial) : nullptr;
}

bool startsNumber(const QString& text) {
    return text.size() == 1 && (text[0].isDigit() || text[0] == '.' || text[0] == ',');
}

}  // namespace

KnobDial::KnobDial(QWidget* parent) : QWidget(parent), m_field(new QLineEdit(this)) {
    // First of all: the next setter that is announced makes and keeps the interface of whoever is asked then.
    static const bool isAnnounced = (QAccessible::installFactory(dialAccessible), true);
    Q_UNUSED(isAnnounced)
    setFocusPolicy(Qt::StrongFocus);
    setAttribute(Qt::WA_Hover);
    setCursor(Qt::SizeVerCursor);
    m_field->hide();
    m_field->setFrame(false);
    m_field->setCursor(Qt::IBeamCursor);
    // The dial's own outline shows the focus, and the words above and below stay readable.
    m_field->setProperty("focusOutline", false);
    m_field->setStyleSheet("border: 0; padding: 0;");
    m_field->installEventFilter(this);
    connect(m_field, &QLineEdit::textEdited, this, &KnobDial::typedSoFar);
}

void KnobDial::setFace(const DialFace& face) {
    if (face == m_face) {
        return;
    }
    const bool isTurned = face.travel != m_face.travel || face.value != m_face.value;
    m_face = face;
    setAccessibleName(face.name);
    setAccessibleDescription(face.hint.isEmpty() ? face.value : face.value + ", " + face.hint);
    if (isTurned) {
        QAccessibleValueChangeEvent turned(this, face.travel);
        tellListeners(turned);
    }
    update();
}

void KnobDial::setFolded(bool folded) {
    m_isFolded = folded;
    updateGeometry();
    update();
}

void KnobDial::setMarked(bool marked) {
    m_isMarked = marked;
    update();
}

QSize KnobDial::sizeHint() const {
    const double scale = Theme::current().textScale();
    constexpr int foldedHeight = 56;  // look tokens, space.knobRowSmall
    constexpr int edges = 2;          // the row draws one above and one below
    return {qRound(228 * scale), qRound((m_isFolded ? foldedHeight : space::knobRow) * scale) - edges};
}

QSize KnobDial::minimumSizeHint() const {
    return {arcColumn + 76, sizeHint().height()};
}

QRect KnobDial::textBox() const {
    return rect().adjusted(arcColumn, 0, -rightMargin, 0);
}

QRect KnobDial::valueBox() const {
    const Theme& theme = Theme::current();
    const int nameHeight = QFontMetrics(theme.font(TextRole::caption)).height();
    const int valueHeight = QFontMetrics(theme.font(TextRole::figure, true)).height();
    const int whole = nameHeight + valueHeight + (m_isFolded ? 0 : nameHeight);
    const QRect box = textBox();
    return {box.left(), box.center().y() - whole / 2 + nameHeight, box.width(), valueHeight};
}

void KnobDial::paintEvent(QPaintEvent*) {
    const ThemeColours& colours = Theme::current().colours();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(rect(), colours.panel);
    paintArc(painter, {double(arcCentreX), height() / 2.0 + 1.0});
    paintWords(painter);
    if (hasFocus() || isTyping()) {
        constexpr double inset = 4.0;
        painter.setPen(QPen(colours.focus, 2.0));
        painter.setBrush(Qt::NoBrush);
        painter.drawRoundedRect(QRectF(rect()).adjusted(inset, inset, -inset, -inset), 4.0, 4.0);
    }
}

void KnobDial::paintArc(QPainter& painter, const QPointF& centre) const {
    const ThemeColours& colours = Theme::current().colours();
    const QRectF circle(centre.x() - arcRadius, centre.y() - arcRadius, 2.0 * arcRadius, 2.0 * arcRadius);
    constexpr int qtUnitsPerDegree = 16;
    const int start = qRound(startDegrees * qtUnitsPerDegree);
    const int sweep = qRound(-sweepDegrees * qtUnitsPerDegree);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(colours.hair, arcWidth, Qt::SolidLine, Qt::RoundCap));
    painter.drawArc(circle, start, sweep);
    painter.setPen(QPen(colours.ink, arcWidth, Qt::SolidLine, Qt::RoundCap));
    painter.drawArc(circle, start, qRound(sweep * m_face.travel));
    painter.setPen(QPen(colours.ink, arcWidth, Qt::SolidLine, Qt::FlatCap));
    painter.drawLine(onCircle(centre, arcRadius + arcWidth / 2.0, m_face.travel),
                     onCircle(centre, pointerInner, m_face.travel));
    painter.setPen(QPen(colours.edge, 1.2));
    for (int tick = 0; tick < tickCount; ++tick) {
        const double travel = tick / double(tickCount - 1);
        const double outer = tick % 5 == 0 ? tickOuter + 1.0 : tickOuter;
        painter.drawLine(onCircle(centre, tickInner, travel), onCircle(centre, outer, travel));
    }
}

void KnobDial::paintWords(QPainter& painter) const {
    const Theme& theme = Theme::current();
    const ThemeColours& colours = theme.colours();
    const QRect value = valueBox();
    const auto line = [&](const QRect& box, const QFont& font, const QColor& colour, const QString& words) {
        painter.setFont(font);
        painter.setPen(colour);
        painter.drawText(box, Qt::AlignLeft | Qt::AlignVCenter,
                         QFontMetrics(font).elidedText(words, Qt::ElideRight, box.width()));
    };
    const QFont caption = theme.font(TextRole::caption);
    const int captionHeight = QFontMetrics(caption).height();
    line({value.left(), value.top() - captionHeight, value.width(), captionHeight},
         theme.font(TextRole::caption, m_isMarked), m_isMarked ? colours.ink : colours.ink2, m_face.name);
    line(value, theme.font(TextRole::figure, true), colours.ink, m_face.value);
    if (!m_isFolded) {
        line(hintBox(), caption, colours.ink3, m_face.hint);
    }
}

QRect KnobDial::hintBox() const {
    const QRect value = valueBox();
    return {value.left(), value.bottom() + 1, value.width(),
            QFontMetrics(Theme::current().font(TextRole::caption)).height()};
}

void KnobDial::mousePressEvent(QMouseEvent* event) {
    m_pressedAt = event->position();
    m_travelAtPress = m_face.travel;
}

void KnobDial::mouseMoveEvent(QMouseEvent* event) {
    if (event->buttons() & Qt::LeftButton) {
        const double share = event->modifiers() & Qt::ControlModifier ? fineDragShare : 1.0;
        const double travel = m_travelAtPress + share * (m_pressedAt.y() - event->position().y()) / dragPixels;
        emit sentTo(std::clamp(travel, 0.0, 1.0));
    }
}

/// A press that turned nothing.
void KnobDial::mouseReleaseEvent(QMouseEvent* event) {
    const bool hasStayed = (event->position() - m_pressedAt).manhattanLength() < 2.0;
    if (event->button() == Qt::LeftButton && hasStayed && !m_isFolded && hintBox().contains(m_pressedAt.toPoint())) {
        emit sumAsked();
    }
}

void KnobDial::mouseDoubleClickEvent(QMouseEvent* event) {
    if (event->button() == Qt::LeftButton) {
        emit restAsked();
    }
}

void KnobDial::wheelEvent(QWheelEvent* event) {
    m_wheelRest += event->angleDelta().y();
    const int steps = m_wheelRest / wheelUnitsPerStep;
    m_wheelRest -= steps * wheelUnitsPerStep;
    if (steps != 0) {
        emit stepped(steps, event->modifiers() & Qt::ControlModifier ? DialStep::fine : DialStep::normal);
    }
    event->accept();
}

void KnobDial::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
        case Qt::Key_Up:
        case Qt::Key_Right:
            emit stepped(1, DialStep::fine);
            return;
        case Qt::Key_Down:
        case Qt::Key_Left:
            emit stepped(-1, DialStep::fine);
            return;
        case Qt::Key_PageUp:
            emit stepped(1, DialStep::coarse);
            return;
        case Qt::Key_PageDown:
            emit stepped(-1, DialStep::coarse);
            return;
        case Qt::Key_Home:
            emit sentTo(0.0);
            return;
        case Qt::Key_End:
            emit sentTo(1.0);
            return;
        case Qt::Key_Delete:
        case Qt::Key_Backspace:
            emit restAsked();
            return;
        case Qt::Key_Return:
        case Qt::Key_Enter:
        case Qt::Key_F2:
            beginTyping({});
            return;
        case Qt::Key_Equal:
            emit sumAsked();
            return;
        default:
            break;
    }
    if (startsNumber(event->text())) {
        beginTyping(event->text());
        return;
    }
    QWidget::keyPressEvent(event);
}

bool KnobDial::isTyping() const {
    return !m_field->isHidden();
}

void KnobDial::beginTyping(const QString& text) {
    emit typingBegun();
    m_field->setFont(Theme::current().font(TextRole::figure, true));
    m_field->setAccessibleName(m_face.name);
    m_field->setText(text.isEmpty() ? m_face.value : text);
    m_field->setGeometry(valueBox());
    m_field->show();
    m_field->setFocus(Qt::OtherFocusReason);
    if (text.isEmpty()) {
        m_field->selectAll();
    } else {
        emit typedSoFar(text);
    }
    update();
}

void KnobDial::endTyping(bool take) {
    if (!isTyping()) {
        return;
    }
    const QString text = m_field->text();
    const bool hadFocus = m_field->hasFocus();
    m_field->hide();
    if (hadFocus) {
        setFocus(Qt::OtherFocusReason);
    }
    update();
    if (take && text != m_face.value) {
        emit typed(text);
    } else if (!take) {
        emit typingDropped();
    }
}

bool KnobDial::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_field && event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        if (key == Qt::Key_Return || key == Qt::Key_Enter || key == Qt::Key_Escape) {
            endTyping(key != Qt::Key_Escape);
            return true;
        }
    }
    if (watched == m_field && event->type() == QEvent::FocusOut) {
        endTyping(true);
    }
    return QWidget::eventFilter(watched, event);
}

void KnobDial::resizeEvent(QResizeEvent* event) {
    m_field->setGeometry(valueBox());
    QWidget::resizeEvent(event);
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/sign_text.h"

#include "app/look/painters.h"
#include "app/look/theme.h"

#include <QFontMetrics>
#include <QPainter>

namespace ohmwright {
namespace {

constexpr int wrapFlags = Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap;

QColor textColour(SignKind sign) {
    const ThemeColours& c = Theme::current().colours();
    switch (sign) {
        case SignKind::none:
            return c.ink3;
        case SignKind::note:
        case SignKind::tick:
        case SignKind::care:
            return c.ink2;
        case SignKind::stop:
            return c.stop;
    }
    return c.ink3;
}

}  // namespace

void paintSign(QPainter& painter, const QRectF& box, SignKind sign) {
    switch (sign) {
        case SignKind::none:
            break;
        case SignKind::tick:
            paintTick(painter, box.adjusted(1, 1, -1, -1));
            break;
        case SignKind::note:
            paintNoteSign(painter, box.adjusted(1, 1, -1, -1));
            break;
        case SignKind::care:
            paintCareSign(painter, box);
            break;
        case SignKind::stop:
            paintStopSign(painter, box.adjusted(1, 1, -1, -1));
            break;
    }
}

SignText::SignText(QWidget* parent) : QWidget(parent) {
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
    connect(&Theme::current(), &Theme::changed, this, [this] {
        updateGeometry();
        update();
    });
}

void SignText::setSentence(const QString& text, SignKind sign) {
    if (text == m_text && sign == m_sign) {
        return;
    }
    m_text = text;
    m_sign = sign;
    setAccessibleName(text);
    updateGeometry();
    update();
}

int SignText::indent() const {
    return m_sign == SignKind::none ? 0 : QFontMetrics(Theme::current().font(TextRole::caption)).height() + 6;
}

int SignText::heightForWidth(int width) const {
    const QFontMetrics metrics(Theme::current().font(TextRole::caption));
    const QRect room(0, 0, qMax(40, width - indent()), 10000);
    return qMax(metrics.height(), metrics.boundingRect(room, wrapFlags, m_text).height());
}

QSize SignText::sizeHint() const {
    return {200, heightForWidth(width() > 0 ? width() : 200)};
}

QSize SignText::minimumSizeHint() const {
    return {80, QFontMetrics(Theme::current().font(TextRole::caption)).height()};
}

void SignText::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setFont(Theme::current().font(TextRole::caption));
    const int side = painter.fontMetrics().height();
    const QRectF signBox(0, 0, side, side);
    paintSign(painter, signBox, m_sign);
    painter.setPen(textColour(m_sign));
    painter.drawText(rect().adjusted(indent(), 0, 0, 0), wrapFlags, m_text);
}

}  // namespace ohmwright

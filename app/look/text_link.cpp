// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/text_link.h"

#include "app/look/theme.h"

#include <QPainter>

namespace ohmwright {

namespace {

QFont linkFont() {
    QFont font = Theme::current().font(TextRole::caption);
    font.setUnderline(true);
    return font;
}

}  // namespace

TextLink::TextLink(const QString& words, QWidget* parent) : QAbstractButton(parent) {
    setText(words);
    setAccessibleName(words);
    setFocusPolicy(Qt::StrongFocus);
    setCursor(Qt::PointingHandCursor);
    setProperty("focusOutline", true);
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
    connect(&Theme::current(), &Theme::changed, this, [this] { updateGeometry(); });
}

QSize TextLink::sizeHint() const {
    const QFontMetrics metrics(linkFont());
    return {metrics.horizontalAdvance(text()) + 2, metrics.height() + 2};
}

void TextLink::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setFont(linkFont());
    painter.setPen(isEnabled() ? Theme::current().colours().ink2 : Theme::current().colours().ink3);
    painter.drawText(rect(), Qt::AlignLeft | Qt::AlignVCenter, text());
}

}  // namespace ohmwright

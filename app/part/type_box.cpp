// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/type_box.h"

#include "app/look/painters.h"
#include "app/look/theme.h"

#include <QPainter>

namespace ohmwright {

TypeBox::TypeBox(QWidget* parent) : QWidget(parent) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    connect(&Theme::current(), &Theme::changed, this, [this] { updateGeometry(); });
}

void TypeBox::setTexts(const QString& stock, const QString& now) {
    m_stock = stock;
    m_now = now;
    setAccessibleName(stock.isEmpty() ? tr("type %1").arg(now) : tr("type, stock %1, now %2").arg(stock, now));
    update();
}

QSize TypeBox::sizeHint() const {
    return {240, QFontMetrics(Theme::current().font(TextRole::lead, true)).height() + 8};
}

void TypeBox::paintEvent(QPaintEvent*) {
    const Theme& theme = Theme::current();
    QPainter painter(this);
    const QFont font = theme.font(TextRole::lead, true);
    const QFontMetrics metrics(font);
    const QPointF baseline(0, height() / 2.0 + (metrics.ascent() - metrics.descent()) / 2.0);
    if (m_stock.isEmpty()) {
        painter.setFont(font);
        painter.setPen(theme.colours().ink);
        painter.drawText(baseline, m_now);
        return;
    }
    painter.setFont(theme.font(TextRole::figure));
    const double struck = paintStruck(painter, baseline, m_stock);
    painter.setFont(font);
    painter.setPen(theme.colours().now);
    painter.drawText(baseline + QPointF(struck + 10.0, 0.0), m_now);
}

}  // namespace ohmwright

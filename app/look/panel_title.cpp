// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/panel_title.h"

#include "app/look/theme.h"

#include <QFontMetrics>
#include <QPainter>

#include <utility>

namespace ohmwright {

PanelTitle::PanelTitle(const QString& title, QWidget* parent) : QWidget(parent) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setTitle(title);
    connect(&Theme::current(), &Theme::changed, this, [this] {
        updateGeometry();
        update();
    });
}

void PanelTitle::setTitle(const QString& title) {
    m_title = title;
    setAccessibleName(title);
    updateGeometry();
    update();
}

void PanelTitle::setColumns(std::vector<Column> columns) {
    m_columns = std::move(columns);
    update();
}

QSize PanelTitle::sizeHint() const {
    const QFontMetrics metrics(Theme::current().font(TextRole::body, true));
    return {metrics.horizontalAdvance(m_title) + 80, metrics.height() + 8};
}

QSize PanelTitle::minimumSizeHint() const {
    const QFontMetrics metrics(Theme::current().font(TextRole::body, true));
    return {metrics.horizontalAdvance(m_title), metrics.height() + 8};
}

void PanelTitle::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const Theme& theme = Theme::current();
    painter.setFont(theme.font(TextRole::body, true));
    painter.setPen(theme.colours().ink);
    painter.drawText(rect(), Qt::AlignLeft | Qt::AlignVCenter, m_title);
    painter.setFont(theme.font(TextRole::caption));
    painter.setPen(theme.colours().ink2);
    for (const Column& column : m_columns) {
        painter.drawText(rect().adjusted(0, 0, -column.right, 0), Qt::AlignRight | Qt::AlignVCenter, column.text);
    }
}

}  // namespace ohmwright

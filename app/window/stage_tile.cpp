// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/stage_tile.h"

#include "app/look/theme.h"
#include "app/stages/small_drawing.h"

#include <QFontMetrics>
#include <QPainter>

namespace ohmwright {

StageTile::StageTile(const ShelfStage& stage, QWidget* parent) : QAbstractButton(parent), m_stage(stage) {
    setText(QString::fromStdString(stage.piece->name));
    setAccessibleName(text());
    setAccessibleDescription(QString::fromStdString(stage.piece->does));
    setToolTip(QString::fromStdString(stage.piece->does));
    setFocusPolicy(Qt::StrongFocus);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    connect(&Theme::current(), &Theme::changed, this, [this] { updateGeometry(); });
}

QSize StageTile::sizeHint() const {
    constexpr int drawing = 84;
    return {120, drawing + QFontMetrics(Theme::current().font(TextRole::caption, true)).height() + 12};
}

void StageTile::paintEvent(QPaintEvent*) {
    const Theme& theme = Theme::current();
    const ThemeColours& c = theme.colours();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(underMouse() ? c.ink : c.hair, line::hair));
    painter.setBrush(isDown() ? c.app : c.canvas);
    painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), radius::card, radius::card);
    painter.setFont(theme.font(TextRole::caption, true));
    const QFontMetrics metrics(painter.font());
    const QRect words(4, height() - metrics.height() - 6, width() - 8, metrics.height());
    paintSmallDrawing(painter, m_stage.piece->circuit, QRectF(8, 6, width() - 16, words.top() - 12));
    painter.setFont(theme.font(TextRole::caption, true));
    painter.setPen(c.ink);
    painter.drawText(words, Qt::AlignCenter, metrics.elidedText(text(), Qt::ElideRight, words.width()));
}

}  // namespace ohmwright

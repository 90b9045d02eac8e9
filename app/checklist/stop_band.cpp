// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/checklist/stop_band.h"

#include "app/checklist/bench_label.h"
#include "app/look/painters.h"

#include <QPainter>

namespace ohmwright {

namespace {

constexpr int bandHeight = 60;

}  // namespace

StopBand::StopBand(QWidget* parent) : QWidget(parent) {
    setFixedHeight(bandHeight);
    connect(&Theme::current(), &Theme::changed, this, [this] { update(); });
}

void StopBand::say(const QString& opens) {
    m_opens = opens;
    setAccessibleName(words());
    setVisible(!opens.isEmpty());
    update();
}

QString StopBand::words() const {
    return m_opens.isEmpty() ? QString() : tr("Do not power yet: %1").arg(m_opens);
}

void StopBand::paintEvent(QPaintEvent*) {
    const ThemeColours& c = Theme::current().colours();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(c.stop, line::wire));
    painter.setBrush(c.stopSoft);
    painter.drawRoundedRect(QRectF(rect()).adjusted(1.0, 1.0, -1.0, -1.0), radius::plate, radius::plate);
    constexpr double sign = 24.0;
    paintStopSign(painter, QRectF(18.0, (height() - sign) / 2.0, sign, sign));
    painter.setPen(c.stop);
    painter.setFont(benchFont(bench::small, true));
    painter.drawText(rect().adjusted(56, 0, -18, 0), Qt::AlignLeft | Qt::AlignVCenter, tr("Do not power yet"));
    painter.setPen(c.ink);
    painter.setFont(benchFont(bench::small - 3));
    painter.drawText(rect().adjusted(56, 0, -18, 0), Qt::AlignRight | Qt::AlignVCenter, m_opens);
}

}  // namespace ohmwright

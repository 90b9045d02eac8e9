// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/checklist/probe_row.h"

#include "app/checklist/bench_label.h"

#include <QHBoxLayout>
#include <QPainter>

namespace ohmwright {

namespace {

constexpr int ringRoom = 44;

}  // namespace

ProbeRow::ProbeRow(Colour colour, QWidget* parent)
    : QWidget(parent), m_colour(colour), m_label(new BenchLabel(bench::place, false, &ThemeColours::ink, this)) {
    m_label->setObjectName(colour == Colour::red ? "red" : "black");
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(ringRoom, 4, 0, 4);
    layout->addWidget(m_label);
}

void ProbeRow::pointAt(const QString& place) {
    m_label->say(place.isEmpty() ? QString()
                                 : (m_colour == Colour::red ? tr("red on %1") : tr("black on %1")).arg(place));
    setVisible(!place.isEmpty());
}

void ProbeRow::setPixels(int pixels) {
    m_label->setPixels(pixels);
}

QString ProbeRow::words() const {
    return m_label->text();
}

void ProbeRow::paintEvent(QPaintEvent*) {
    const ThemeColours& c = Theme::current().colours();
    const QColor own = m_colour == Colour::red ? c.stop : c.ink;
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const QPointF centre(16.0, height() / 2.0);
    painter.setPen(QPen(own, 4.5));
    painter.setBrush(c.raised);
    painter.drawEllipse(centre, 12.0, 12.0);
    if (m_colour == Colour::black) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(own);
        painter.drawEllipse(centre, 4.0, 4.0);
    }
}

}  // namespace ohmwright

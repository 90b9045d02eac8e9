// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/checklist/meter_dial.h"

#include "app/look/said_text.h"
#include "app/look/theme.h"

#include <QPainter>
#include <QPainterPath>

#include <array>
#include <cmath>
#include <numbers>

namespace ohmwright {

namespace {

constexpr int side = 104;

struct Place {
    MeterDial::Range range;
    double degrees;  ///< From the right, against the clock.
    const char* sign;
    const char* words;
};

/// Laid out as most meters have them: volts left, ohms and junctions right. Common practice, no source.
constexpr std::array<Place, 5> places{{{MeterDial::Range::volts, 180.0, "V", toSay("Meter on DC volts")},
                                       {MeterDial::Range::milliamperes, 125.0, "mA", toSay("Meter on DC milliamperes")},
                                       {MeterDial::Range::beep, 55.0, "", toSay("Meter on beep")},
                                       {MeterDial::Range::diode, 0.0, "D", toSay("Meter on diode range")},
                                       {MeterDial::Range::ohms, -55.0, "Ω", toSay("Meter on ohms")}}};

QPointF at(double degrees, double radius) {
    const double radians = degrees * std::numbers::pi / 180.0;
    return {side / 2.0 + radius * std::cos(radians), side / 2.0 - radius * std::sin(radians)};
}

/// Two arcs going out: sound.
void paintSound(QPainter& painter, const QPointF& centre, const QPen& pen) {
    painter.setPen(pen);
    painter.setBrush(Qt::NoBrush);
    for (const double radius : {3.5, 7.5}) {
        QPainterPath arc;
        const QRectF box(centre.x() - 4.0 - radius, centre.y() - radius, 2.0 * radius, 2.0 * radius);
        arc.arcMoveTo(box, -50.0);
        arc.arcTo(box, -50.0, 100.0);
        painter.drawPath(arc);
    }
}

}  // namespace

MeterDial::MeterDial(QWidget* parent) : QWidget(parent) {
    setFixedSize(side, side);
    connect(&Theme::current(), &Theme::changed, this, [this] { update(); });
}

void MeterDial::turnTo(Range range) {
    m_range = range;
    setVisible(range != Range::none);
    for (const Place& place : places) {
        if (place.range == range) {
            setAccessibleName(saidText(place.words));
        }
    }
    update();
}

void MeterDial::paintEvent(QPaintEvent*) {
    const ThemeColours& c = Theme::current().colours();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(c.ink, line::wire));
    painter.setBrush(c.raised);
    constexpr double rim = side / 2.0 - 2.0;
    painter.drawEllipse(QPointF(side / 2.0, side / 2.0), rim, rim);
    for (const Place& place : places) {
        const bool isHere = place.range == m_range;
        const QPointF centre = at(place.degrees, rim - 13.0);
        if (place.range == Range::beep) {
            paintSound(painter, centre, QPen(isHere ? c.ink : c.ink3, isHere ? line::body : line::hair));
            continue;
        }
        painter.setPen(isHere ? c.ink : c.ink3);
        painter.setFont(Theme::current().font(TextRole::body, isHere));
        painter.drawText(QRectF(centre.x() - 16.0, centre.y() - 12.0, 32.0, 24.0), Qt::AlignCenter, place.sign);
    }
    for (const Place& place : places) {
        if (place.range == m_range) {
            painter.setPen(QPen(c.ink, 5.0, Qt::SolidLine, Qt::RoundCap));
            painter.drawLine(QPointF(side / 2.0, side / 2.0), at(place.degrees, rim - 26.0));
        }
    }
    painter.setPen(Qt::NoPen);
    painter.setBrush(c.ink);
    painter.drawEllipse(QPointF(side / 2.0, side / 2.0), 7.0, 7.0);
}

}  // namespace ohmwright

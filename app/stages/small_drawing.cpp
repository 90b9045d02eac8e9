// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/stages/small_drawing.h"

#include "app/look/flags.h"
#include "app/look/symbols.h"
#include "app/look/theme.h"
#include "core/drawing/outline.h"

#include <QPainter>
#include <QPolygonF>

#include <algorithm>
#include <map>
#include <tuple>
#include <vector>

namespace ohmwright {

namespace {

constexpr double pitch = space::mapPitch;
constexpr double signHalf = 8.0;
constexpr double junctionRadius = 3.4;  // tokens map.junctionRadius

QPointF onSheet(GridPoint point) {
    return {pitch * point.x, pitch * point.y};
}

void paintZones(QPainter& painter, const Circuit& circuit, const QRectF& sheet) {
    painter.setPen(QPen(Theme::current().colours().hair, 0));
    for (std::size_t i = 1; i < circuit.stages.size(); ++i) {
        const double x = pitch * circuit.stages[i].firstColumn;
        painter.drawLine(QPointF(x, sheet.top()), QPointF(x, sheet.bottom()));
    }
    painter.setBrush(Theme::current().colours().canvas);
    for (const Field& field : circuit.drawing.fields) {
        painter.drawRect(QRectF(onSheet(field.topLeft), onSheet(field.bottomRight)));
    }
}

/// Points where three ends or more of one net meet.
std::vector<QPointF> junctionsOf(const Circuit& circuit) {
    std::map<std::tuple<NetName, int, int>, int> ends;
    const auto count = [&ends](const NetName& net, GridPoint at, int more) { ends[{net, at.x, at.y}] += more; };
    for (const Wire& wire : circuit.drawing.wires) {
        for (std::size_t i = 0; i < wire.corners.size(); ++i) {
            count(wire.net, wire.corners[i], i == 0 || i + 1 == wire.corners.size() ? 1 : 2);
        }
    }
    for (const Part& part : circuit.parts) {
        for (int pin = 0; part.placement && pin < drawnPinCount(part.kind); ++pin) {
            count(part.nets[static_cast<std::size_t>(pin)], pinPoint(part, pin), 1);
        }
    }
    for (const Flag& flag : circuit.drawing.flags) {
        count(flag.net, flag.at, flag.kind == FlagKind::ground || flag.kind == FlagKind::supply ? 1 : 0);
    }
    std::vector<QPointF> junctions;
    for (const auto& [place, number] : ends) {
        if (number > 2) {
            junctions.push_back(onSheet({std::get<1>(place), std::get<2>(place)}));
        }
    }
    return junctions;
}

/// What is drawn, with room for its signs [px].
QRectF drawnBox(const Circuit& circuit) {
    QRectF box;
    const auto take = [&box](const QRectF& more) { box = box.isNull() ? more : box.united(more); };
    const auto takePoint = [&take](GridPoint point) {
        take(QRectF(onSheet(point) - QPointF(signHalf, signHalf), QSizeF(2 * signHalf, 2 * signHalf)));
    };
    for (const Part& part : circuit.parts) {
        if (part.placement) {
            take(placementTransform(*part.placement).mapRect(symbolOf(part).bodyBox));
        }
    }
    for (const Wire& wire : circuit.drawing.wires) {
        std::for_each(wire.corners.begin(), wire.corners.end(), takePoint);
    }
    for (const Flag& flag : circuit.drawing.flags) {
        takePoint(flag.at);
    }
    for (const Field& field : circuit.drawing.fields) {
        takePoint(field.topLeft);
        takePoint(field.bottomRight);
    }
    return box;
}

bool isPnp(const Circuit& circuit, const Part& part) {
    const Model* model = findModel(circuit, part.model);
    const auto polarity = model != nullptr ? model->parameters.find("POLARITY") : decltype(model->parameters.end()){};
    return model != nullptr && polarity != model->parameters.end() && polarity->second < 0.0;
}

}  // namespace

void paintSmallDrawing(QPainter& painter, const Circuit& circuit, const QRectF& box) {
    const QRectF sheet = drawnBox(circuit);
    if (sheet.isEmpty() || box.isEmpty()) {
        return;
    }
    const ThemeColours& colours = Theme::current().colours();
    const double scale = std::min({1.0, box.width() / sheet.width(), box.height() / sheet.height()});
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(box.center());
    painter.scale(scale, scale);
    painter.translate(-sheet.center());
    paintZones(painter, circuit, sheet);
    // Of a small drawing the lines keep a width that is seen.
    const QPen wirePen(colours.wire, std::max(line::wire, 0.8 / scale));
    painter.setBrush(Qt::NoBrush);
    painter.setPen(wirePen);
    for (const Wire& wire : circuit.drawing.wires) {
        QPolygonF corners;
        for (const GridPoint& corner : wire.corners) {
            corners << onSheet(corner);
        }
        painter.drawPolyline(corners);
    }
    for (const Part& part : circuit.parts) {
        if (part.placement) {
            painter.save();
            painter.setTransform(placementTransform(*part.placement), true);
            paintSymbol(painter, symbolOf(part, symbolStandard(), isPnp(circuit, part)),
                        {colours.ink, colours.wire, colours.canvas, scale < 0.5});
            painter.restore();
        }
    }
    painter.setPen(Qt::NoPen);
    painter.setBrush(colours.wire);
    for (const QPointF& junction : junctionsOf(circuit)) {
        painter.drawEllipse(junction, junctionRadius, junctionRadius);
    }
    painter.setPen(wirePen);
    painter.setBrush(Qt::NoBrush);
    for (const Flag& flag : circuit.drawing.flags) {
        paintFlag(painter, flag.kind, onSheet(flag.at));
    }
    painter.restore();
}

SmallDrawing::SmallDrawing(QWidget* parent) : QWidget(parent) {
    setMinimumHeight(120);
    connect(&Theme::current(), &Theme::changed, this, qOverload<>(&QWidget::update));
}

void SmallDrawing::setCircuit(const Circuit& circuit, const QString& words) {
    m_circuit = circuit;
    setAccessibleDescription(words);
    update();
}

void SmallDrawing::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), Theme::current().colours().canvas);
    constexpr double margin = 12.0;
    paintSmallDrawing(painter, m_circuit, QRectF(rect()).adjusted(margin, margin, -margin, -margin));
}

}  // namespace ohmwright

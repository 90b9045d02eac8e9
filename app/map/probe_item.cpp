// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/probe_item.h"

#include "app/look/said_text.h"
#include "app/look/theme.h"
#include "app/map/free_place.h"
#include "app/map/part_item.h"

#include <QCoreApplication>
#include <QLineF>
#include <QPainter>
#include <QStringList>

#include <algorithm>
#include <array>
#include <utility>

namespace ohmwright {
namespace {

constexpr double haloRoom = 4.0;
constexpr double nodeReach = 3.4;  // of a joint's dot
/// Farther off, a line leads from the node to its words.
constexpr double leaderFrom = 9.0;
constexpr QChar arrow(0x2192);
constexpr double shortLeader = 15.0;
/// Between the volts and the brackets of the selected part.
constexpr double bracketRoom = 3.0;
constexpr std::array<double, 6> gaps{2.0, 7.0, 15.0, 26.0, 40.0, 56.0};

bool isSolved(const MapState& state) {
    return state.linear != nullptr && state.fault.isEmpty();
}

std::vector<NetVolts> probesIn(const MapState& state) {
    if (!isSolved(state)) {
        return {};
    }
    const auto& stock = state.linear->stock.biasVolts;
    return probesOf(state.job->stock, stock, state.holdsStock ? stock : state.linear->now.biasVolts);
}

/// "base", "leg 1": as it is said.
QString legName(const Part& part, int pin) {
    const QString leg = saidText(pinName(part.kind, pin));
    return pinCount(part.kind) == 2 && leg.size() == 1 ? QObject::tr("leg %1").arg(leg) : leg;
}

LabelBlock blockOf(const NetVolts& probe) {
    const QString text = QString::fromStdString(probeText(probe));
    if (!probe.differs()) {
        return {{{{text, LabelInk::sign}}, {}}};
    }
    const qsizetype at = text.indexOf(arrow);
    return {{{{text.left(at + 1), LabelInk::note}, {text.mid(at + 2), LabelInk::fitted}}, {}}};
}

QString textOf(const LabelBlock& block) {
    QStringList runs;
    for (const LabelRun& run : block.front().runs) {
        runs << run.text;
    }
    return runs.join(' ');
}

/// Pins of devices first, then joints, then the middles and ends of wires and signs.
std::vector<QPointF> nodesOf(const MapState& state, const MapLayout& layout, const NetName& name) {
    std::vector<QPointF> pins;
    std::vector<QPointF> others;
    for (const DrawnPart& drawn : layout.parts) {
        const Part* part = findPart(state.job->stock, drawn.id);
        for (std::size_t pin = 0; part && pin < std::min(drawn.pins.size(), part->nets.size()); ++pin) {
            if (part->nets[pin] == name) {
                (pinCount(part->kind) > 2 ? pins : others).push_back(drawn.pins[pin]);
            }
        }
    }
    for (const DrawnNet& net : layout.nets) {
        if (net.net != name) {
            continue;
        }
        pins.insert(pins.end(), net.junctions.begin(), net.junctions.end());
        for (const QLineF& sign : net.signs) {
            others.push_back(sign.p1());
        }
        for (const QPolygonF& wire : net.wires) {
            for (qsizetype i = 1; i < wire.size(); ++i) {
                others.push_back(QLineF(wire.at(i - 1), wire.at(i)).center());
            }
        }
    }
    pins.insert(pins.end(), others.begin(), others.end());
    return pins;
}

/// Whether the drawing says the same words there already, as at an op-amp's output.
bool isSaidAlready(const MapLayout& layout, const QString& text, const std::vector<QPointF>& nodes) {
    constexpr double near = 60.0;
    return std::any_of(layout.texts.begin(), layout.texts.end(), [&](const MapText& said) {
        const bool isSame = said.block.size() == 1 && said.block.front().runs.size() == 1 &&
                            said.block.front().runs.front().text == text;
        return isSame && std::any_of(nodes.begin(), nodes.end(), [&](const QPointF& node) {
                   return QLineF(boundsOf(said.boxes).center(), node).length() < near;
               });
    });
}

struct Spot {
    QRectF box;
    QPointF node;
};

/// The straight way from a box to its node.
QLineF leaderOf(const QRectF& box, const QPointF& node) {
    return {QPointF(std::clamp(node.x(), box.left(), box.right()), std::clamp(node.y(), box.top(), box.bottom())),
            node};
}

/// What stands at the node itself, its dot or its part, is no hindrance.
bool crossesWords(const QLineF& leader, const Obstacles& drawn) {
    return std::any_of(drawn.boxes.begin(), drawn.boxes.end(), [&leader](const QRectF& box) {
        return !box.adjusted(-1, -1, 1, 1).contains(leader.p2()) && lengthInside(leader, box) > nodeReach;
    });
}

/// @param farthest  from the node; what a line has to lead to far off is worth it at the pins of devices only.
std::optional<Spot> freeSpot(const std::vector<QPointF>& nodes, const QSizeF& size, const Obstacles& drawn,
                             double farthest, bool mayCross) {
    const double reach = nodeReach;
    for (const double gap : gaps) {
        if (gap > farthest) {
            break;
        }
        for (const QPointF& node : nodes) {
            const QRectF dot(node - QPointF(reach, reach), QSizeF(2 * reach, 2 * reach));
            for (const QRectF& box : boxesRound(dot, size, gap)) {
                if (drawn.covered(box.adjusted(-1, 0, 1, 0), 1.0) == 0.0 &&
                    (mayCross || gap <= shortLeader || !crossesWords(leaderOf(box, node), drawn))) {
                    return Spot{box, node};
                }
            }
        }
    }
    return std::nullopt;
}

QString reference() {
    return QObject::tr("Volts against ground, no signal");
}

/// Along the lower edge of what a view shows, then along the upper one.
std::vector<QPointF> edgesOf(const QRectF& shown) {
    std::vector<QPointF> points;
    for (const double y : {shown.bottom() - 2 * space::mapPitch, shown.top() + 2 * space::mapPitch}) {
        for (double x = shown.left() + space::mapPitch; x < shown.right(); x += space::mapPitch) {
            points.emplace_back(x, y);
        }
    }
    return points;
}

}  // namespace

std::vector<ProbeMark> markProbes(const MapState& state, const MapLayout& layout, double textScale) {
    std::vector<ProbeMark> marks;
    if (!state.probesVolts || !isSolved(state)) {
        return marks;
    }
    const LabelWriter writer(textScale);
    Obstacles drawn = layout.obstacles;
    if (const DrawnPart* selected = layout.part(state.selected)) {
        drawn.boxes.push_back(bracketBox(*selected).adjusted(-bracketRoom, -bracketRoom, bracketRoom, bracketRoom));
    }
    const auto mark = [&](const NetName& net, const LabelBlock& block, const std::vector<QPointF>& nodes,
                          double farthest) {
        const QSizeF size = writer.lineBoxes(block, {{0, 0}, LabelAlign::left}).front().size();
        std::optional<Spot> spot = freeSpot(nodes, size, drawn, farthest, false);
        if (!spot && farthest > shortLeader) {
            spot = freeSpot(nodes, size, drawn, farthest, true);
        }
        if (spot) {
            drawn.boxes.push_back(spot->box);
            marks.push_back({net, textOf(block), block, spot->box, spot->node});
        }
        return spot.has_value();
    };
    for (const NetVolts& probe : probesIn(state)) {
        const std::vector<QPointF> nodes = nodesOf(state, layout, probe.net);
        const QString text = QString::fromStdString(probeText(probe));
        const double farthest = probe.isDevicePin ? gaps.back() : shortLeader;
        if (!isSaidAlready(layout, text, nodes) && !mark(probe.net, blockOf(probe), nodes, farthest) &&
            probe.differs()) {
            // Where both have no room, what the meter will read.
            mark(probe.net, {{{{text.mid(text.indexOf(arrow) + 2), LabelInk::fitted}}, {}}}, nodes, farthest);
        }
    }
    mark({}, {{{{reference(), LabelInk::note}}, {}}}, edgesOf(layout.extent), shortLeader);
    return marks;
}

QString spokenProbes(const MapState& state, const Part& part) {
    QStringList words;
    const std::vector<NetVolts> probes = state.probesVolts ? probesIn(state) : std::vector<NetVolts>();
    for (std::size_t pin = 0; pin < part.nets.size(); ++pin) {
        const auto found = std::find_if(probes.begin(), probes.end(),
                                        [&](const NetVolts& probe) { return probe.net == part.nets[pin]; });
        if (found != probes.end()) {
            words << QString("%1 %2").arg(legName(part, static_cast<int>(pin)),
                                          QString::fromStdString(probeText(*found)));
        }
    }
    return words.join(", ");
}

QString legWords(const MapState& state, const Part& part, int pin) {
    const auto index = static_cast<std::size_t>(pin);
    const NetName& net = part.nets[index];
    const bool isNumbered = index < part.pins.size() && !part.pins[index].empty();
    const QString leg =
        isNumbered ? QObject::tr("pin %1").arg(QString::fromStdString(part.pins[index])) : legName(part, pin);
    if (net == groundNet) {
        return QObject::tr("%1 at ground").arg(leg);
    }
    const QString place = QObject::tr("%1 at %2").arg(leg, QString::fromStdString(net));
    if (!isSolved(state)) {
        return place;
    }
    const auto& stock = state.linear->stock.biasVolts;
    const NetVolts probe =
        probeAt(state.job->stock, stock, state.holdsStock ? stock : state.linear->now.biasVolts, net);
    const bool isRead = probe.stockVolts || probe.nowVolts;
    return isRead ? place + ": " + QString::fromStdString(probeText(probe)) : place;
}

QString probeWords(const MapState& state) {
    if (!state.probesVolts) {
        return {};
    }
    QStringList words;
    for (const NetVolts& probe : probesIn(state)) {
        words << QString("%1 %2").arg(QString::fromStdString(probe.net), QString::fromStdString(probeText(probe)));
    }
    return words.isEmpty() ? QObject::tr("No volts: the circuit is not solved.")
                           : reference() + ": " + words.join(", ");
}

ProbeLayer::ProbeLayer() {
    setZValue(layer::label);
}

void ProbeLayer::setMarks(std::vector<ProbeMark> marks, double textScale) {
    prepareGeometryChange();
    m_marks = std::move(marks);
    m_textScale = textScale;
    m_bounds = {};
    for (const ProbeMark& mark : m_marks) {
        m_bounds = m_bounds.united(mark.box.adjusted(-haloRoom, -haloRoom, haloRoom, haloRoom));
        m_bounds = m_bounds.united(QRectF(mark.node, QSizeF(1, 1)));
    }
    update();
}

void ProbeLayer::paint(QPainter* painter, const QStyleOptionGraphicsItem* /*option*/, QWidget* /*widget*/) {
    painter->setRenderHint(QPainter::Antialiasing);
    const LabelWriter writer(m_textScale);
    for (const ProbeMark& mark : m_marks) {
        const QLineF leader = leaderOf(mark.box, mark.node);
        if (!mark.net.empty() && leader.length() > leaderFrom) {
            painter->setPen(QPen(Theme::current().colours().edge, line::hair));
            painter->drawLine(leader);
        }
        // The box that a place gives begins 1 px above it (LabelWriter::lineBoxes).
        writer.paint(*painter, mark.block, {mark.box.topLeft() + QPointF(0, 1), LabelAlign::left});
    }
}

}  // namespace ohmwright

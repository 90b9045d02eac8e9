// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/map_layout.h"

#include "app/look/theme.h"
#include "app/map/map_words.h"
#include "app/map/part_layout.h"
#include "core/base/number_text.h"
#include "core/base/value_text.h"

#include <QPolygonF>

#include <algorithm>
#include <array>
#include <cmath>

namespace ohmwright {
namespace {

constexpr double pitch = space::mapPitch;
constexpr double groundStub = 6.0;
constexpr double groundHeight = 15.0;
constexpr double groundWidth = 18.0;
constexpr double signStub = 6.0;
constexpr double signBar = 16.0;
constexpr double signGap = 3.0;
constexpr double terminalRadius = 4.5;  // tokens map.terminalRadius
constexpr double junctionRadius = 3.4;  // tokens map.junctionRadius
constexpr double textAboveWire = 4.0;
constexpr double overJunction = 5.0;
/// Words may stand a little over the sheet's edges: a view shows them with the rest.
constexpr double rimBeside = 10.0;
constexpr double rimAbove = 20.0;
constexpr double rimBelow = 30.0;
constexpr double viewRim = 10.0;
/// Between an op-amp's pin number and the volts beside it: nearer, 1 and 4.48 V read as 14.48 V.
constexpr double numberGap = 12.0;

LabelBlock oneLine(const QString& text, LabelInk ink) {
    return {{{{text, ink}}, {}}};
}

/// Everything inked of a symbol but its leads.
std::vector<QRectF> inkOf(const DrawnSymbol& drawn) {
    std::vector<QRectF> boxes{drawn.place.mapRect(drawn.symbol.bodyBox).adjusted(-1, -1, 1, 1)};
    for (const QPainterPath* path :
         {&drawn.symbol.outline, &drawn.symbol.body, &drawn.symbol.plates, &drawn.symbol.solid}) {
        if (!path->isEmpty()) {
            boxes.push_back(drawn.place.mapRect(path->boundingRect()).adjusted(-1, -1, 1, 1));
        }
    }
    return boxes;
}

QRectF extentOf(const MapLayout& layout) {
    QRectF extent;
    const auto hold = [&extent](const std::vector<QRectF>& boxes) { extent = extent.united(boundsOf(boxes)); };
    const auto holdPoint = [&extent](const QPointF& at, double about) {
        extent = extent.united(QRectF(at - QPointF(about, about), QSizeF(2 * about, 2 * about)));
    };
    for (const DrawnPart& part : layout.parts) {
        extent = extent.united(part.body);
        for (const QPointF& pin : part.pins) {
            holdPoint(pin, 1.0);
        }
    }
    for (const DrawnNet& net : layout.nets) {
        for (const QPolygonF& wire : net.wires) {
            extent = extent.united(wire.boundingRect().adjusted(-1, -1, 1, 1));
        }
        for (const QPointF& at : net.grounds) {
            holdPoint(at, groundHeight);
        }
        for (const QPointF& at : net.terminals) {
            holdPoint(at, terminalRadius);
        }
        for (const QLineF& line : net.signs) {
            holdPoint(line.p1(), 1.0);
            holdPoint(line.p2(), 1.0);
        }
    }
    hold(layout.fields);
    for (const MapText& text : layout.texts) {
        hold(text.boxes);
    }
    for (const MapLabel& label : layout.labels) {
        hold(label.label.boxes);
        hold(label.label.marks);
    }
    return extent.isEmpty() ? layout.sheet : extent.adjusted(-viewRim, -viewRim, viewRim, viewRim);
}

class LayoutBuilder {
public:
    LayoutBuilder(const MapState& state, double textScale)
        : m_state(state), m_circuit(state.job->stock), m_writer(textScale) {
        m_layout.job = state.job;
        m_layout.sheet = sheetOf(m_circuit);
        m_layout.obstacles.sheet = m_layout.sheet.adjusted(-rimBeside, -rimAbove, rimBeside, rimBelow);
    }

    MapLayout build() {
        addZones();
        addFields();
        for (const Part& part : m_circuit.parts) {
            if (part.placement) {
                m_layout.parts.push_back(layOutPart(m_state, part, m_layout.sheet));
                addPartObstacles(part, m_layout.parts.back());
            }
        }
        addNets();
        addSigns();
        for (const Part& part : m_circuit.parts) {
            if (part.placement && part.kind == PartKind::opamp) {
                addOpampTexts(part);
            }
        }
        addFieldBias();
        placeWordsOfParts(m_layout, m_writer);
        m_layout.extent = extentOf(m_layout);
        return std::move(m_layout);
    }

private:
    void addZones();
    void addFields();
    void addPartObstacles(const Part& part, const DrawnPart& drawn);
    void addNets();
    void addSigns();
    void addSupplySign(const Flag& flag);
    void nameSupplySign(const Flag& flag);
    void addOpampTexts(const Part& part);
    void addFieldBias();
    void addText(const LabelBlock& block, const LabelPlace& place);
    void addFreeText(const LabelBlock& block, const std::vector<LabelPlace>& places);
    void enter(const std::vector<QRectF>& boxes);
    DrawnNet& net(const NetName& name);
    [[nodiscard]] double capHeight(const LabelBlock& block) const { return m_writer.sizeOf(block).height(); }

    const MapState& m_state;
    const Circuit& m_circuit;
    LabelWriter m_writer;
    MapLayout m_layout;
};

void LayoutBuilder::addZones() {
    for (const Stage& stage : m_circuit.stages) {
        const double x = stage.firstColumn * pitch;
        m_layout.zoneLefts.push_back(x);
        if (x <= m_layout.sheet.left()) {
            continue;
        }
        double bottom = m_layout.sheet.bottom();
        for (const Field& field : m_circuit.drawing.fields) {
            const QRectF box(scenePoint(field.topLeft), scenePoint(field.bottomRight));
            if (x > box.left() && x <= box.right()) {
                bottom = std::min(bottom, x < box.right() ? box.top() : bottom);
            }
        }
        m_layout.zoneLines.emplace_back(x, m_layout.sheet.top(), x, bottom);
    }
    m_layout.obstacles.lines = m_layout.zoneLines;
    m_layout.obstacles.fences = m_layout.zoneLines;
}

void LayoutBuilder::addFields() {
    for (const Field& field : m_circuit.drawing.fields) {
        const QRectF box(scenePoint(field.topLeft), scenePoint(field.bottomRight));
        m_layout.fields.push_back(box);
        for (const QLineF& edge : {QLineF(box.topLeft(), box.topRight()), QLineF(box.topRight(), box.bottomRight()),
                                   QLineF(box.topLeft(), box.bottomLeft())}) {
            m_layout.obstacles.lines.push_back(edge);
            m_layout.obstacles.fences.push_back(edge);
        }
        const LabelBlock name = oneLine(QString::fromStdString(field.name), LabelInk::title);
        addText(name, {box.topLeft() + QPointF(8, 7), LabelAlign::left});
        if (!field.note.empty()) {
            const LabelBlock note = oneLine(QString::fromStdString(field.note), LabelInk::note);
            addText(note, {box.topRight() + QPointF(-8, 7), LabelAlign::right});
        }
    }
}

void LayoutBuilder::addPartObstacles(const Part& part, const DrawnPart& drawn) {
    Obstacles& obstacles = m_layout.obstacles;
    for (const DrawnSymbol& symbol : drawn.symbols) {
        if (part.kind == PartKind::opamp && &symbol == &drawn.symbols.front()) {
            // The corners beside the tip of the triangle are free.
            for (const QLineF& edge : piecesOf(symbol.place.map(symbol.symbol.outline))) {
                obstacles.lines.push_back(edge);
            }
            const QRectF body = symbol.symbol.bodyBox;
            const QRectF core(body.left(), body.top() + 18, body.width() * 0.6, body.height() - 36);
            obstacles.boxes.push_back(symbol.place.mapRect(core));
        } else {
            const std::vector<QRectF> ink = inkOf(symbol);
            obstacles.boxes.insert(obstacles.boxes.end(), ink.begin(), ink.end());
        }
        for (const QLineF& lead : piecesOf(symbol.place.map(symbol.symbol.leads))) {
            obstacles.lines.push_back(lead);
        }
    }
    for (const QLineF& bar : drawn.bridges) {
        obstacles.boxes.push_back(QRectF(bar.p1(), bar.p2()).normalized().adjusted(-4, -4, 4, 4));
    }
    obstacles.lines.insert(obstacles.lines.end(), drawn.fittedLeads.begin(), drawn.fittedLeads.end());
    obstacles.lines.insert(obstacles.lines.end(), drawn.bridgeLeads.begin(), drawn.bridgeLeads.end());
    if (drawn.plus) {
        obstacles.boxes.push_back(QRectF(*drawn.plus - QPointF(5, 5), QSizeF(10, 10)));
    }
}

DrawnNet& LayoutBuilder::net(const NetName& name) {
    for (DrawnNet& known : m_layout.nets) {
        if (known.net == name) {
            return known;
        }
    }
    m_layout.nets.push_back({});
    m_layout.nets.back().net = name;
    return m_layout.nets.back();
}

void LayoutBuilder::addNets() {
    for (const Wire& wire : m_circuit.drawing.wires) {
        QPolygonF line;
        for (const GridPoint& corner : wire.corners) {
            line << scenePoint(corner);
        }
        for (qsizetype i = 1; i < line.size(); ++i) {
            m_layout.obstacles.lines.emplace_back(line.at(i - 1), line.at(i));
        }
        net(wire.net).wires.push_back(line);
    }
    for (const Flag& flag : m_circuit.drawing.flags) {
        net(flag.net);
    }
    for (const Part& part : m_circuit.parts) {
        for (const NetName& name : part.nets) {
            net(name);
        }
    }
    for (DrawnNet& drawn : m_layout.nets) {
        drawn.junctions = junctionsOf(m_circuit, drawn.net);
        for (const QPointF& at : drawn.junctions) {
            const QPointF corner(junctionRadius, junctionRadius);
            m_layout.obstacles.boxes.emplace_back(at - corner, at + corner);
        }
    }
}

void LayoutBuilder::addSigns() {
    for (const Flag& flag : m_circuit.drawing.flags) {
        const QPointF at = scenePoint(flag.at);
        switch (flag.kind) {
            case FlagKind::ground:
                net(flag.net).grounds.push_back(at);
                m_layout.obstacles.boxes.emplace_back(at.x() - groundWidth / 2, at.y() + groundStub - 1, groundWidth,
                                                      groundHeight - groundStub + 1);
                m_layout.obstacles.lines.emplace_back(at, at + QPointF(0, groundStub));
                break;
            case FlagKind::supply:
                addSupplySign(flag);
                break;
            case FlagKind::terminal: {
                net(flag.net).terminals.push_back(at);
                const QPointF corner(terminalRadius + 1, terminalRadius + 1);
                m_layout.obstacles.boxes.emplace_back(at - corner, at + corner);
                break;
            }
            case FlagKind::note:
                addText(oneLine(QString::fromStdString(flag.text), LabelInk::note), {at, LabelAlign::left});
                break;
        }
    }
    // Names come last: they know what else is there.
    for (const Flag& flag : m_circuit.drawing.flags) {
        if (flag.kind == FlagKind::supply) {
            nameSupplySign(flag);
        }
    }
}

void LayoutBuilder::addSupplySign(const Flag& flag) {
    const QPointF at = scenePoint(flag.at);
    const double down = hangsDown(m_circuit, flag) ? 1.0 : -1.0;
    const QPointF end = at + QPointF(0, down * signStub);
    const QLineF bar(end - QPointF(signBar / 2, 0), end + QPointF(signBar / 2, 0));
    for (const QLineF& line : {QLineF(at, end), bar}) {
        net(flag.net).signs.push_back(line);
        m_layout.obstacles.lines.push_back(line);
    }
}

/// Beyond the bar, else beside it.
void LayoutBuilder::nameSupplySign(const Flag& flag) {
    const QPointF at = scenePoint(flag.at);
    const double down = hangsDown(m_circuit, flag) ? 1.0 : -1.0;
    const double bar = at.y() + down * signStub;
    const LabelBlock block = oneLine(QString::fromStdString(flag.text.empty() ? flag.net : flag.text), LabelInk::sign);
    const double height = capHeight(block);
    const double beside = signBar / 2 + signGap;
    const LabelPlace usual{{at.x(), down > 0 ? bar + signGap + 1 : bar - signGap - height}, LabelAlign::centre};
    const std::vector<LabelPlace> places{usual,
                                         {{at.x() + beside, bar - height / 2}, LabelAlign::left},
                                         {{at.x() - beside, bar - height / 2}, LabelAlign::right},
                                         {{at.x() + 2.0, usual.at.y()}, LabelAlign::left},
                                         {{at.x() - 2.0, usual.at.y()}, LabelAlign::right}};
    const auto free = std::find_if(places.begin(), places.end(), [&](const LabelPlace& place) {
        return m_layout.obstacles.covered(m_writer.lineBoxes(block, place).front()) <= 0.0;
    });
    addText(block, free == places.end() ? usual : *free);
}

void LayoutBuilder::addOpampTexts(const Part& part) {
    const DrawnPart& drawn = *m_layout.part(part.id);
    const double middle = drawn.body.center().x();
    for (std::size_t pin = 0; pin < drawn.pins.size(); ++pin) {
        const QPointF at = drawn.pins[pin];
        const double outwards = at.x() < middle ? -1.0 : 1.0;
        if (pin < part.pins.size() && !part.pins[pin].empty()) {
            const LabelBlock number = oneLine(QString::fromStdString(part.pins[pin]), LabelInk::note);
            const double y = at.y() - textAboveWire - capHeight(number);
            // Over the lead, which is 15 px long.
            addText(number, {{at.x() - outwards * 9.0, y}, LabelAlign::centre});
        }
        const std::optional<double> bias = biasOf(m_state, part.nets[pin]);
        if (pin == 2 && bias) {
            const LabelBlock said = oneLine(QString::fromStdString(formatFixed(*bias, 2)) + " V", LabelInk::note);
            const double above = at.y() - textAboveWire - capHeight(said);
            const double below = at.y() + textAboveWire;
            const LabelAlign align = outwards > 0 ? LabelAlign::left : LabelAlign::right;
            // The number ends about where the pin is.
            const double beside = at.x() + outwards * (numberGap * m_writer.scale() - 6.0);
            addFreeText(said, {{{beside, above}, align},
                               {{beside, above - overJunction}, align},
                               {{at.x() - outwards * 2.0, above - overJunction - capHeight(said)}, align},
                               {{at.x() + outwards * 4.0, below}, align},
                               {{beside + outwards * pitch, above}, align},
                               {{beside + outwards * pitch, below}, align}});
        }
    }
}

/// In a field, a supply that is made there (its sign names no volts) says what it is.
void LayoutBuilder::addFieldBias() {
    for (const Flag& flag : m_circuit.drawing.flags) {
        const QPointF at = scenePoint(flag.at);
        const bool isInField = std::any_of(m_layout.fields.begin(), m_layout.fields.end(),
                                           [&at](const QRectF& field) { return field.contains(at); });
        const std::optional<double> bias = biasOf(m_state, flag.net);
        if (flag.kind != FlagKind::supply || !isInField || !bias || flag.text.find('V') != 0) {
            continue;
        }
        const LabelBlock said = oneLine(QString::fromStdString(formatFixed(*bias, 2)) + " V", LabelInk::note);
        std::vector<LabelPlace> places;
        for (const QPolygonF& wire : net(flag.net).wires) {
            for (qsizetype i = 1; i < wire.size(); ++i) {
                const QLineF line(wire.at(i - 1), wire.at(i));
                const double left = std::min(line.x1(), line.x2());
                if (line.dy() == 0.0 && QLineF(line.p2(), at).length() < 10 * pitch) {
                    places.push_back({{left + 10, line.y1() - textAboveWire - capHeight(said)}, LabelAlign::left});
                    places.push_back({{left + 10, line.y1() + textAboveWire}, LabelAlign::left});
                }
            }
        }
        addFreeText(said, places);
    }
}

void LayoutBuilder::addText(const LabelBlock& block, const LabelPlace& place) {
    MapText text{block, place, m_writer.lineBoxes(block, place)};
    enter(text.boxes);
    m_layout.texts.push_back(std::move(text));
}

void LayoutBuilder::addFreeText(const LabelBlock& block, const std::vector<LabelPlace>& places) {
    for (const LabelPlace& place : places) {
        const std::vector<QRectF> boxes = m_writer.lineBoxes(block, place);
        if (m_layout.obstacles.covered(boxes.front()) <= 0.0) {
            addText(block, place);
            return;
        }
    }
}

void LayoutBuilder::enter(const std::vector<QRectF>& boxes) {
    m_layout.obstacles.boxes.insert(m_layout.obstacles.boxes.end(), boxes.begin(), boxes.end());
}

}  // namespace

const DrawnPart* MapLayout::part(const PartId& id) const {
    const auto found = std::find_if(parts.begin(), parts.end(), [&id](const DrawnPart& part) { return part.id == id; });
    return found == parts.end() ? nullptr : &*found;
}

const MapLabel* MapLayout::labelOf(const PartId& id) const {
    const auto found =
        std::find_if(labels.begin(), labels.end(), [&id](const MapLabel& label) { return label.part == id; });
    return found == labels.end() ? nullptr : &*found;
}

std::optional<double> biasOf(const MapState& state, const NetName& net) {
    if (!state.linear) {
        return std::nullopt;
    }
    const LinearState& shown = state.holdsStock ? state.linear->stock : state.linear->now;
    for (const auto& [name, volts] : shown.biasVolts) {
        if (name == net) {
            return volts;
        }
    }
    return std::nullopt;
}

MapLayout layoutMap(const MapState& state, double textScale) {
    return LayoutBuilder(state, textScale).build();
}

}  // namespace ohmwright

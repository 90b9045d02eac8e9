// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/map_scene.h"

#include "app/look/level_units.h"
#include "app/look/theme.h"
#include "app/map/label_item.h"
#include "app/map/net_item.h"
#include "app/map/part_item.h"

#include <QGraphicsView>
#include <QPainter>

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>
#include <limits>

namespace ohmwright {
namespace {

constexpr double pitch = space::mapPitch;
constexpr double hitSide = 44.0;
constexpr double hitMargin = 3.0;
constexpr double pointerReach = 6.0;
constexpr double gridDot = 1.6;
/// Bias is said in hundredths of a volt.
constexpr double unseenVolts = 1.0e-3;

QRectF hitBox(const QRectF& body) {
    const double width = std::max(body.width(), hitSide);
    const double height = std::max(body.height(), hitSide);
    return {body.center().x() - width / 2, body.center().y() - height / 2, width, height};
}

/// Whether the volts that the map says, and the plus signs, are the same.
bool isSameBias(const MapState& a, const MapState& b) {
    if (!a.linear || !b.linear) {
        return a.linear == b.linear;
    }
    const auto& first = (a.holdsStock ? a.linear->stock : a.linear->now).biasVolts;
    const auto& second = (b.holdsStock ? b.linear->stock : b.linear->now).biasVolts;
    return std::equal(first.begin(), first.end(), second.begin(), second.end(), [](const auto& x, const auto& y) {
        return x.first == y.first && std::abs(x.second - y.second) < unseenVolts;
    });
}

/// Whether two states of a job are drawn alike: words, readings and knobs change nothing on the map, and laying its
/// words out anew takes longer than a frame.
bool isDrawnAlike(const std::shared_ptr<const Job>& a, const std::shared_ptr<const Job>& b) {
    if (a == b || !a || !b) {
        return a == b;
    }
    return a->setting.throws == b->setting.throws && a->setting.pickVoltsPeak == b->setting.pickVoltsPeak &&
           a->setting.batteryVolts == b->setting.batteryVolts && a->stock == b->stock && a->plan == b->plan;
}

/// Views keep the ground as a picture; an invalid rectangle of no size leaves all of it as it is.
void drawGroundAnew(QGraphicsScene& scene) {
    for (QGraphicsView* view : scene.views()) {
        view->resetCachedContent();
    }
    scene.update();
}

}  // namespace

MapScene::MapScene(QObject* parent) : QGraphicsScene(parent) {
    setItemIndexMethod(QGraphicsScene::NoIndex);  // a few dozen items, all of them in view
    const auto drawAnew = [this] {
        if (m_state.job) {
            startAnew();
            rebuild();
            drawGroundAnew(*this);
        }
    };
    connect(&Theme::current(), &Theme::changed, this, drawAnew);
    // The source says its level.
    connect(&LevelUnits::current(), &LevelUnits::changed, this, drawAnew);
}

void MapScene::setState(const MapState& state) {
    const bool isSameDrawing =
        isDrawnAlike(m_state.job, state.job) && m_state.holdsStock == state.holdsStock && isSameBias(m_state, state);
    m_state = state;
    if (!isSameDrawing) {
        rebuild();
        return;
    }
    m_layout.job = state.job;
    placeBrackets();
    markFault();
    placeOwners();
    placeProbes();
    placeLeg();
}

void MapScene::setLabelScale(double scale) {
    // Steps under 2 % are not seen, and a window drag would lay out anew at each pixel.
    if (std::abs(scale - m_labelScale) < 0.02) {
        return;
    }
    m_labelScale = scale;
    if (m_state.job) {
        startAnew();
        rebuild();
    }
}

void MapScene::startAnew() {
    clear();
    m_parts.forget();
    m_nets.forget();
    m_joints.forget();
    m_texts.forget();
    m_labels.forget();
    m_pointedNet.clear();
    m_brackets = new BracketItem;
    m_netName = new NetNameItem;
    m_faultItem = new FaultItem;
    m_plates = new OwnerLayer(OwnerLayer::Shows::plates);
    m_ownerFigures = new OwnerLayer(OwnerLayer::Shows::figures);
    m_probes = new ProbeLayer;
    for (QGraphicsItem* item : std::initializer_list<QGraphicsItem*>{m_plates, m_ownerFigures, m_probes, m_brackets,
                                                                     m_netName, m_faultItem}) {
        addItem(item);
    }
}

void MapScene::rebuild() {
    const QRectF sheet = m_layout.sheet;
    const std::vector<QLineF> zoneLines = m_layout.zoneLines;
    const std::vector<QRectF> fields = m_layout.fields;
    m_layout = layoutMap(m_state, m_labelScale);
    setSceneRect(m_layout.sheet.united(m_layout.extent));
    if (m_brackets == nullptr) {
        startAnew();
    }
    showItems();
    placeBrackets();
    markFault();
    placeOwners();
    placeProbes();
    placeLeg();
    if (sheet != m_layout.sheet || zoneLines != m_layout.zoneLines || fields != m_layout.fields ||
        m_layout.parts.empty()) {
        drawGroundAnew(*this);
    }
}

void MapScene::showItems() {
    m_nets.show(*this, m_layout.nets, [](const DrawnNet& net) { return new NetItem(net); });
    m_joints.show(*this, m_layout.nets, [](const DrawnNet& net) { return new JointItem(net); });
    m_parts.show(*this, m_layout.parts, [this](const DrawnPart& part) { return new PartItem(part, m_labelScale); });
    const LabelWriter writer(m_labelScale);
    m_texts.show(*this, m_layout.texts,
                 [&writer](const MapText& text) { return new LabelItem(writer, text.block, text.place, text.boxes); });
    m_labels.show(*this, m_layout.labels, [&writer](const MapLabel& label) {
        auto* item = new LabelItem(writer, label.label.block, label.label.place, label.label.boxes);
        item->setMarks(label.marks, label.label.marks);
        return item;
    });
    // An item made anew knows nothing of the pointer.
    bool isPointedAt = false;
    for (NetItem* item : m_nets.items()) {
        item->setPointedAt(item->net() == m_pointedNet);
        isPointedAt = isPointedAt || item->net() == m_pointedNet;
    }
    if (!isPointedAt) {
        pointAway();
    }
}

void MapScene::placeOwners() {
    m_ownerMarks =
        m_state.owners ? markOwners(m_layout, m_state.owners->owners, m_labelScale) : std::vector<OwnerMark>();
    m_plates->setMarks(m_ownerMarks, m_labelScale);
    m_ownerFigures->setMarks(m_ownerMarks, m_labelScale);
}

void MapScene::placeBrackets() {
    const DrawnPart* selected = m_layout.part(m_state.selected);
    m_brackets->setVisible(selected != nullptr);
    if (selected) {
        m_brackets->setPart(*selected);
    }
}

void MapScene::markFault() {
    const std::string place = m_state.faultPlace.toStdString();
    const bool isFaulty = !m_state.fault.isEmpty();
    std::optional<QPointF> anchor;
    for (PartItem* item : m_parts.items()) {
        const bool isHere = isFaulty && !place.empty() &&
                            (item->part().view.reference == m_state.faultPlace || item->part().id == place);
        item->setFaulty(isHere);
        if (isHere) {
            anchor = item->part().body.bottomRight();
        }
    }
    for (NetItem* item : m_nets.items()) {
        const bool isHere = isFaulty && !anchor && item->net() == place;
        item->setFaulty(isHere);
        if (isHere) {
            anchor = item->anchor();
        }
    }
    m_faultItem->setVisible(isFaulty);
    if (isFaulty) {
        m_faultItem->show(m_state.fault, anchor, m_layout.obstacles);
    }
}

void MapScene::placeProbes() {
    m_probeMarks = markProbes(m_state, m_layout, m_labelScale);
    m_probes->setMarks(m_probeMarks, m_labelScale);
}

std::optional<PartId> MapScene::partAt(const QPointF& point) const {
    for (const DrawnPart& part : m_layout.parts) {
        if (part.body.adjusted(-hitMargin, -hitMargin, hitMargin, hitMargin).contains(point)) {
            return part.id;
        }
    }
    for (const MapLabel& label : m_layout.labels) {
        for (const std::vector<QRectF>* boxes : {&label.label.boxes, &label.label.marks}) {
            if (std::any_of(boxes->begin(), boxes->end(), [&](const QRectF& box) { return box.contains(point); })) {
                return label.part;
            }
        }
    }
    std::optional<PartId> nearest;
    double distance = std::numeric_limits<double>::infinity();
    for (const DrawnPart& part : m_layout.parts) {
        const double away = QLineF(part.body.center(), point).length();
        if (away < distance && hitBox(part.body).contains(point)) {
            nearest = part.id;
            distance = away;
        }
    }
    return nearest;
}

PartId MapScene::neighbourOf(const PartId& part, const QPointF& direction) const {
    const DrawnPart* from = m_layout.part(part);
    if (!from) {
        return part;
    }
    constexpr double sidewaysWeight = 2.5;  // a part straight ahead wins over a nearer one aside
    PartId best = part;
    double bestCost = std::numeric_limits<double>::infinity();
    for (const DrawnPart& other : m_layout.parts) {
        const QPointF way = other.body.center() - from->body.center();
        const double ahead = QPointF::dotProduct(way, direction);
        const double aside = std::abs(way.x() * direction.y() - way.y() * direction.x());
        const double cost = ahead + sidewaysWeight * aside;
        if (ahead > 1.0 && cost < bestCost) {
            best = other.id;
            bestCost = cost;
        }
    }
    return best;
}

void MapScene::pointAt(const QPointF& point) {
    NetItem* nearest = nullptr;
    double distance = pointerReach;
    for (NetItem* item : m_nets.items()) {
        const double away = item->distanceTo(point);
        if (away < distance) {
            nearest = item;
            distance = away;
        }
    }
    if (!nearest) {
        pointAway();
        return;
    }
    const NetName& net = nearest->net();
    light(nearest, net == groundNet ? tr("ground") : QString::fromStdString(net), point);
}

void MapScene::light(const NetItem* net, const QString& words, const QPointF& at) {
    for (NetItem* item : m_nets.items()) {
        item->setPointedAt(item == net);
    }
    m_pointedNet = net ? net->net() : NetName();
    m_netName->show(words, at, m_layout.sheet, m_labelScale);
}

void MapScene::pointAway() {
    for (NetItem* item : m_nets.items()) {
        item->setPointedAt(false);
    }
    if (m_netName) {
        m_netName->setVisible(false);
    }
    m_pointedNet.clear();
    placeLeg();
}

void MapScene::lightLeg(std::optional<int> pin) {
    m_leg = pin;
    pointAway();
}

/// A net without a wire of its own has its words at the leg all the same.
void MapScene::placeLeg() {
    const DrawnPart* drawn = m_leg ? m_layout.part(m_state.selected) : nullptr;
    const Part* part = drawn ? findPart(m_state.job->stock, drawn->id) : nullptr;
    const auto leg = static_cast<std::size_t>(m_leg.value_or(0));
    if (!part || leg >= part->nets.size() || leg >= drawn->pins.size()) {
        return;
    }
    const std::vector<NetItem*>& nets = m_nets.items();
    const auto net =
        std::find_if(nets.begin(), nets.end(), [&](const NetItem* item) { return item->net() == part->nets[leg]; });
    light(net == nets.end() ? nullptr : *net, legWords(m_state, *part, *m_leg), drawn->pins[leg]);
}

QString MapScene::pointedWords() const {
    return m_netName && m_netName->isVisible() ? m_netName->words() : QString();
}

void MapScene::drawBackground(QPainter* painter, const QRectF& rect) {
    const ThemeColours& colours = Theme::current().colours();
    painter->fillRect(rect, colours.canvas);
    paintGrid(*painter, rect);
    painter->setRenderHint(QPainter::Antialiasing, false);
    painter->setPen(QPen(colours.hair, line::hair));
    for (QLineF zone : m_layout.zoneLines) {
        // The lines reach the strips even when the sheet is smaller than the view.
        if (zone.y2() >= m_layout.sheet.bottom()) {
            zone.setP2({zone.x2(), rect.bottom()});
        }
        zone.setP1({zone.x1(), std::min(rect.top(), zone.y1())});
        painter->drawLine(zone);
    }
    for (const QRectF& field : m_layout.fields) {
        const bool isAtLeft = field.left() <= m_layout.sheet.left();
        const bool isAtRight = field.right() >= m_layout.sheet.right();
        const bool isAtBottom = field.bottom() >= m_layout.sheet.bottom();
        const double bottom = isAtBottom ? rect.bottom() : field.bottom();
        painter->drawLine(QPointF(isAtLeft ? rect.left() : field.left(), field.top()),
                          QPointF(isAtRight ? rect.right() : field.right(), field.top()));
        if (!isAtRight) {
            painter->drawLine(field.topRight(), QPointF(field.right(), bottom));
        }
        if (!isAtLeft) {
            painter->drawLine(field.topLeft(), QPointF(field.left(), bottom));
        }
    }
    if (m_state.job && m_layout.parts.empty()) {
        paintEmpty(*painter);
    }
}

void MapScene::paintGrid(QPainter& painter, const QRectF& rect) const {
    const auto lineAfter = [](double edge) { return static_cast<int>(std::ceil(edge / pitch)); };
    const auto lineBefore = [](double edge) { return static_cast<int>(std::floor(edge / pitch)); };
    QPolygonF dots;
    for (int column = lineAfter(rect.left()); column <= lineBefore(rect.right()); ++column) {
        for (int row = lineAfter(rect.top()); row <= lineBefore(rect.bottom()); ++row) {
            dots << QPointF(column * pitch, row * pitch);
        }
    }
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(Theme::current().colours().gridMajor, gridDot, Qt::SolidLine, Qt::RoundCap));
    painter.drawPoints(dots);
}

void MapScene::paintEmpty(QPainter& painter) const {
    const ThemeColours& colours = Theme::current().colours();
    const SymbolInk ink{colours.edge, colours.edge, colours.canvas, false};
    const std::array<std::pair<PartKind, QPointF>, 3> stages{
        {{PartKind::bipolar, {100, 120}}, {PartKind::opamp, {200, 100}}, {PartKind::capacitor, {340, 120}}}};
    for (const auto& [kind, at] : stages) {
        painter.save();
        painter.translate(at);
        paintSymbol(painter, symbolOf(kind, 3), ink);
        painter.restore();
    }
    painter.setFont(Theme::current().font(TextRole::body));
    painter.setPen(colours.ink2);
    const QString words =
        !m_state.job->stock.parts.empty()
            ? (m_state.isDrawnOn
                   ? tr("The parts of this circuit have no places yet: Tidy lays them out.")
                   : tr("This circuit has no drawing: its parts have no places. Tidy in Draw lays them out."))
        : m_state.isDrawnOn ? tr("Take a part at the left, or press its letter: R, 390k, Enter.")
                            : tr("No circuit yet: open a job, or paste a netlist.");
    painter.drawText(QPointF(100, 210), words);
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/map_words.h"

#include "core/base/value_text.h"
#include "core/drawing/outline.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

namespace ohmwright {
namespace {

/// The selection's brackets stand between a changed part and its large value; a level part has less room.
constexpr double changedLabelGap = 14.0;
constexpr double changedLabelGapLevel = 8.0;
/// Words of a part are looked for within this of its body [px at text scale 1]: the longest line, and a line away.
constexpr double reach = 160.0;
/// Neighbours whose words may stand in the way [px at text scale 1].
constexpr double neighbourReach = 40.0;
constexpr int repairRounds = 3;

/// A level diode says its type beside its name, as on the line that it stands in; all else is stacked if it can be.
std::array<LabelShape, 7> shapesOf(const Part& part, bool isSwapped) {
    using enum LabelShape;
    if (part.kind == PartKind::diode && !isSwapped && !isUpright(*part.placement)) {
        return {inLine, inLineBare, stacked, stackedBare, stackedShort, shortest, referenceOnly};
    }
    return {stacked, stackedBare, inLine, inLineBare, stackedShort, shortest, referenceOnly};
}

/// The body, of an op-amp without the empty corners beside its tip.
QRectF coreOf(const DrawnPart& part, const DrawnSymbol& symbol) {
    const QRectF box = symbol.symbol.bodyBox;
    const bool isTriangle = !part.innerText.isEmpty() && !symbol.fitted;
    return symbol.place.mapRect(isTriangle ? box.adjusted(0, box.height() / 4, -box.width() / 3, -box.height() / 4)
                                           : box);
}

/// One label that is asked for; `placed` is what stands now.
struct WantedLabel {
    PartId part;
    LabelRequest request;
    std::vector<ModMark> marks;
    PlacedLabel placed;
};

class WordPlacer {
public:
    WordPlacer(MapLayout& layout, const LabelWriter& writer)
        : m_layout(layout), m_circuit(layout.job->stock), m_writer(writer) {}

    void place() {
        collect();
        for (std::size_t i = 0; i < m_labels.size(); ++i) {
            m_labels[i].placed = placeAmong(i, i, i);
        }
        for (int round = 0; round < repairRounds && repair(); ++round) {
        }
        for (WantedLabel& label : m_labels) {
            for (const auto& boxes : {label.placed.boxes, label.placed.marks}) {
                m_layout.obstacles.boxes.insert(m_layout.obstacles.boxes.end(), boxes.begin(), boxes.end());
            }
            m_layout.labels.push_back({label.part, std::move(label.placed), std::move(label.marks)});
        }
    }

private:
    void collect();
    void want(const Part& part, const DrawnPart& drawn);
    void wantFitted(const DrawnPart& drawn);
    void addOtherBodies(LabelRequest& request, const DrawnPart& own) const;
    PlacedLabel placeAmong(std::size_t index, std::size_t count, std::size_t except) const;
    bool repair();
    bool makeWayFor(std::size_t index);

    [[nodiscard]] QRectF areaOf(const LabelRequest& request, double within) const {
        const double margin = within * std::max(1.0, m_writer.scale());
        return request.body.adjusted(-margin, -margin, margin, margin);
    }

    MapLayout& m_layout;
    const Circuit& m_circuit;
    const LabelWriter& m_writer;
    std::vector<WantedLabel> m_labels;
};

void WordPlacer::collect() {
    // What the plan changes is placed first: it has most to say and must not be pushed aside.
    std::vector<const DrawnPart*> order;
    for (const DrawnPart& drawn : m_layout.parts) {
        order.push_back(&drawn);
    }
    const auto rank = [](const DrawnPart* drawn) {
        return drawn->view.swapped ? 0 : drawn->view.marks.empty() ? 2 : 1;
    };
    std::stable_sort(order.begin(), order.end(),
                     [&rank](const DrawnPart* a, const DrawnPart* b) { return rank(a) < rank(b); });
    for (const DrawnPart* drawn : order) {
        if (const Part* part = findPart(m_circuit, drawn->id)) {
            want(*part, *drawn);
            wantFitted(*drawn);
        }
    }
}

void WordPlacer::addOtherBodies(LabelRequest& request, const DrawnPart& own) const {
    const QRectF area = areaOf(request, reach);
    for (const DrawnPart& other : m_layout.parts) {
        for (const DrawnSymbol& symbol : other.symbols) {
            const QRectF body = coreOf(other, symbol);
            if (&other != &own && area.intersects(body)) {
                request.others.push_back(body);
            }
        }
    }
}

void WordPlacer::want(const Part& part, const DrawnPart& drawn) {
    LabelRequest request;
    for (const LabelShape shape : shapesOf(part, drawn.view.swapped)) {
        // What the plan makes of a part is always said.
        if (!drawn.view.swapped || shape != LabelShape::referenceOnly) {
            request.shapes.push_back(blockOf(drawn.view, part.kind, shape));
        }
    }
    if (request.shapes.front().empty()) {
        return;
    }
    const DrawnSymbol& own = drawn.symbols.front();
    request.body = drawn.symbols.size() > 1 ? drawn.body : own.place.mapRect(own.symbol.bodyBox);
    request.isUpright = isUpright(*part.placement);
    request.isOnWire = !request.isUpright && pinCount(part.kind) == 2;
    if (drawn.view.swapped) {
        request.gap = request.isUpright ? changedLabelGap : changedLabelGapLevel;
    }
    request.side = part.placement->label;
    request.markCount = drawn.view.marks.size();
    if (part.kind == PartKind::bipolar && request.side == LabelSide::automatic) {
        request.side = LabelSide::right;
        request.firstShift = drawn.pins[0].y() < drawn.pins[1].y() ? -20.0 : 20.0;
    }
    if (part.kind == PartKind::opamp) {
        request.isUpright = false;
    }
    request.sheet = m_layout.sheet;
    addOtherBodies(request, drawn);
    m_labels.push_back({part.id, std::move(request), drawn.view.marks, {}});
}

void WordPlacer::wantFitted(const DrawnPart& drawn) {
    for (const DrawnSymbol& symbol : drawn.symbols) {
        if (!symbol.fitted) {
            continue;
        }
        const LabelBlock named{{{{QString::fromStdString(symbol.fitted->reference), LabelInk::fitted}}, {}}};
        LabelBlock full = named;
        if (symbol.fitted->model.name.empty()) {
            const Quantity value{symbol.fitted->value, unitOf(symbol.fitted->kind)};
            full.front().runs.push_back({QString::fromStdString(formatPartValue(value)), LabelInk::fitted});
        }
        LabelRequest request;
        request.shapes = {full, full, named};
        request.body = symbol.place.mapRect(symbol.symbol.bodyBox);
        const QPointF along = drawn.pins.back() - drawn.pins.front();
        request.isUpright = std::abs(along.y()) > std::abs(along.x());
        request.side = request.isUpright ? LabelSide::right : LabelSide::below;
        m_labels.push_back({drawn.id, std::move(request), {}, {}});
    }
}

/// A label's place among what is drawn and the words of the first `count` labels, but for its own and one more.
PlacedLabel WordPlacer::placeAmong(std::size_t index, std::size_t count, std::size_t except) const {
    const LabelRequest& request = m_labels[index].request;
    const QRectF area = areaOf(request, reach);
    const Obstacles& all = m_layout.obstacles;
    Obstacles near{{}, {}, all.sheet, all.fences};
    const auto enter = [&near, &area](const std::vector<QRectF>& boxes) {
        std::copy_if(boxes.begin(), boxes.end(), std::back_inserter(near.boxes),
                     [&area](const QRectF& box) { return box.intersects(area); });
    };
    enter(all.boxes);
    for (std::size_t i = 0; i < count; ++i) {
        if (i != index && i != except) {
            enter(m_labels[i].placed.boxes);
            enter(m_labels[i].placed.marks);
        }
    }
    std::copy_if(all.lines.begin(), all.lines.end(), std::back_inserter(near.lines), [&area](const QLineF& line) {
        return QRectF(line.p1(), line.p2()).normalized().adjusted(-1, -1, 1, 1).intersects(area);
    });
    return placeLabel(request, m_writer, near);
}

/// One round: whoever stands badly is helped. False when nothing got better.
bool WordPlacer::repair() {
    bool isBetter = false;
    for (std::size_t i = 0; i < m_labels.size(); ++i) {
        if (m_labels[i].placed.penalty > 0.0) {
            isBetter = makeWayFor(i) || isBetter;
        }
    }
    return isBetter;
}

bool WordPlacer::makeWayFor(std::size_t index) {
    constexpr double felt = 1e-6;
    const QRectF area = areaOf(m_labels[index].request, neighbourReach);
    PlacedLabel bestOwn = placeAmong(index, m_labels.size(), index);
    std::size_t bestOther = index;
    PlacedLabel bestOthers;
    double gain = m_labels[index].placed.penalty - bestOwn.penalty;
    for (std::size_t other = 0; other < m_labels.size(); ++other) {
        const std::vector<QRectF>& boxes = m_labels[other].placed.boxes;
        const bool isNear =
            std::any_of(boxes.begin(), boxes.end(), [&area](const QRectF& box) { return box.intersects(area); });
        if (other == index || !isNear) {
            continue;
        }
        const double before = m_labels[index].placed.penalty + m_labels[other].placed.penalty;
        const PlacedLabel standing = m_labels[index].placed;
        PlacedLabel own = placeAmong(index, m_labels.size(), other);
        m_labels[index].placed = own;
        PlacedLabel others = placeAmong(other, m_labels.size(), other);
        m_labels[index].placed = standing;
        if (before - own.penalty - others.penalty > gain + felt) {
            gain = before - own.penalty - others.penalty;
            bestOwn = std::move(own);
            bestOthers = std::move(others);
            bestOther = other;
        }
    }
    if (gain <= felt) {
        return false;
    }
    m_labels[index].placed = std::move(bestOwn);
    if (bestOther != index) {
        m_labels[bestOther].placed = std::move(bestOthers);
    }
    return true;
}

}  // namespace

void placeWordsOfParts(MapLayout& layout, const LabelWriter& writer) {
    WordPlacer(layout, writer).place();
}

}  // namespace ohmwright

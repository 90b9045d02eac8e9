// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/label_layout.h"

#include "app/look/theme.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace ohmwright {
namespace {

constexpr double markWidth = 25.0;
constexpr double markHeight = 22.0;
constexpr double markGap = 4.0;
constexpr double step = 3.0;
constexpr double wireGap = 5.0;
/// Worse than to be written over a neighbour [px²]: there the words would belong to another stage's part.
constexpr double beyondFence = 5000.0;
/// As bad as to be written over by this much [px²]: words beside a neighbour are read as the neighbour's.
constexpr double nearerToAnother = 400.0;
/// Small: they decide between places that cover nothing. Over the sheet's edge the map gets smaller for all.
constexpr double overTheEdge = 5e-4;
constexpr double withoutValue = 1e-3;
/// Words under a ground sign stand clear of its last bar.
constexpr double topMarginBelow = 2.0;
/// Words of one line may be moved further along: they are meant to stand beside the symbol.
constexpr int stackedSteps = space::mapPitch / 3;
constexpr int inLineSteps = 2 * stackedSteps;
/// Words below an upright part leave its ground or supply sign free; a level part's line of words may leave one
/// wire between, such as that of a wiper.
constexpr int awayStepsBelowUpright = 20;
constexpr int awayStepsElse = 5;

bool isLevel(LabelSide side) {
    return side == LabelSide::left || side == LabelSide::right;
}

/// Words of a level part never stand beside its pins, where they would lie on a wire and belong to nobody.
std::vector<LabelSide> sidesFrom(LabelSide wished, bool isUpright) {
    using enum LabelSide;
    if (wished == automatic) {
        wished = isUpright ? left : above;
    }
    if (isLevel(wished)) {
        return {wished, wished == left ? right : left, below, above};
    }
    std::vector<LabelSide> sides{wished, wished == below ? above : below};
    if (isUpright) {
        sides.insert(sides.end(), {right, left});
    }
    return sides;
}

LabelPlace placeAt(LabelSide side, const LabelRequest& request, const QSizeF& size, double along, double away) {
    const QRectF& body = request.body;
    const double off = request.gap + away;
    switch (side) {
        case LabelSide::left:
            return {{body.left() - off, body.center().y() - size.height() / 2 + along}, LabelAlign::right};
        case LabelSide::right:
            return {{body.right() + off, body.center().y() - size.height() / 2 + along}, LabelAlign::left};
        case LabelSide::below:
            return {{body.center().x() + along, body.bottom() + off}, LabelAlign::centre};
        default:
            return {{body.center().x() + along, body.top() - off - size.height()}, LabelAlign::centre};
    }
}

QRectF rowOf(const QPointF& topLeft, std::size_t count, double scale) {
    const auto n = static_cast<double>(count);
    return {topLeft, QSizeF((n * markWidth + (n - 1) * 2) * scale, markHeight * scale)};
}

/// Places for a row of triangles, the best first: left of an upright part's value, at the end of a level part's line
/// of words, then round about words and body.
std::vector<QRectF> markSpots(const std::vector<QRectF>& words, const LabelRequest& request, double scale) {
    const QRectF& body = request.body;
    const std::size_t count = request.markCount;
    const QRectF all = boundsOf(words);
    const QRectF value = words.back();
    const QRectF unit = rowOf({0, 0}, count, scale);
    const double width = unit.width();
    const double height = unit.height();
    const double leftOfValue = value.left() - markGap - width;
    const double axis = body.center().y();
    const QPointF endOfLine(all.right() + markGap, all.center().y() - height / 2);
    const std::vector<QPointF> corners{
        request.isUpright ? QPointF(leftOfValue, value.center().y() - height / 2) : endOfLine,
        {leftOfValue, value.center().y() - height / 2},
        {leftOfValue, words.size() > 1 ? words[words.size() - 2].bottom() - 1 : value.bottom() - height},
        {all.left() - markGap - width, all.center().y() - height / 2},
        {body.left() - markGap - width, axis - 3 - height},
        {all.right() - width, all.bottom() + 2},
        {all.left(), all.bottom() + 2},
        {all.center().x() - width / 2, all.bottom() + 2},
        endOfLine,
        {all.center().x() - width / 2, all.top() - 2 - height},
        {body.right() + markGap, axis - 3 - height},
        {body.left() - markGap - width, axis + 3},
        {body.right() + markGap, axis + 3},
        {body.right() + markGap, axis - height / 2},
    };
    std::vector<QRectF> spots;
    spots.reserve(std::size(corners));
    for (const QPointF& corner : corners) {
        spots.push_back(rowOf(corner, count, scale));
    }
    return spots;
}

struct MarkChoice {
    QRectF row;
    double covered = std::numeric_limits<double>::max();
};

MarkChoice placeMarks(const std::vector<QRectF>& words, const LabelRequest& request, double scale,
                      const Obstacles& obstacles) {
    MarkChoice best;
    for (const QRectF& spot : markSpots(words, request, scale)) {
        // The triangle's upper corners are empty: what reaches into them is not covered.
        const QRectF inner = spot.adjusted(spot.height() * 0.12, 1, -spot.height() * 0.12, 0);
        double covered = obstacles.covered(inner);
        for (const QRectF& word : words) {
            const QRectF common = inner.intersected(word);
            covered += common.isEmpty() ? 0.0 : common.width() * common.height();
        }
        if (covered < best.covered) {
            best = {spot, covered};
        }
        if (covered == 0.0) {
            break;
        }
    }
    return best;
}

/// A shape of the words, measured once, with its boxes about the origin for each alignment.
struct MeasuredShape {
    LabelBlock block;
    QSizeF size;
    std::array<std::vector<QRectF>, 3> boxes;

    MeasuredShape(const LabelBlock& words, const LabelWriter& writer) : block(words), size(writer.sizeOf(words)) {
        for (const LabelAlign align : {LabelAlign::left, LabelAlign::centre, LabelAlign::right}) {
            boxes[static_cast<std::size_t>(align)] = writer.lineBoxes(words, {{0, 0}, align});
        }
    }

    [[nodiscard]] std::vector<QRectF> boxesAt(const LabelPlace& place) const {
        std::vector<QRectF> moved = boxes[static_cast<std::size_t>(place.align)];
        for (QRectF& box : moved) {
            box.translate(place.at);
        }
        return moved;
    }
};

/// The strip between two lines of words: a wire that runs through it divides them.
QRectF between(const QRectF& upper, const QRectF& lower) {
    const double left = std::max(upper.left(), lower.left());
    return {left, upper.bottom(), std::min(upper.right(), lower.right()) - left, lower.top() - upper.bottom()};
}

/// Collects candidates until one covers nothing.
class Search {
public:
    Search(const LabelRequest& request, const LabelWriter& writer, const Obstacles& obstacles)
        : m_request(request), m_scale(writer.scale()), m_obstacles(obstacles) {
        for (const LabelBlock& block : request.shapes) {
            m_shapes.emplace_back(block, writer);
        }
        m_best.penalty = std::numeric_limits<double>::max();
    }

    [[nodiscard]] bool isDone() const { return m_best.penalty == 0.0; }
    [[nodiscard]] const PlacedLabel& best() const { return m_best; }

    void trySide(LabelSide side, std::size_t shape) {
        const MeasuredShape& measured = m_shapes[shape];
        const bool isLineAlong = !m_request.isUpright && measured.block.size() == 1 && shape + 1 < m_shapes.size();
        // Below or above an upright part there is no wire of its own to either side.
        const bool isAtEnd = m_request.isUpright && !isLevel(side);
        const int reach = isLineAlong || isAtEnd ? inLineSteps : stackedSteps;
        for (int away = 0; away <= awayStepsOf(side, measured) && !isDone(); ++away) {
            for (int along = 0; along <= reach && !isDone(); ++along) {
                const double shift = m_request.firstShift * (isLevel(side) ? 1.0 : 0.0);
                const double topMargin = side == LabelSide::below ? topMarginBelow : 0.0;
                tryPlace(measured, placeAt(side, m_request, measured.size, shift + along * step, away * step),
                         topMargin);
                if (!isDone() && along > 0) {
                    tryPlace(measured, placeAt(side, m_request, measured.size, shift - along * step, away * step),
                             topMargin);
                }
            }
        }
    }

    /// Beside the body of a level part, above or below its own wire: there is room where the body itself is too high.
    void tryShoulders(std::size_t shape) {
        const MeasuredShape& measured = m_shapes[shape];
        const QRectF& body = m_request.body;
        const double axis = body.center().y();
        for (const double top : {axis - wireGap - measured.size.height(), axis + wireGap}) {
            for (int along = 0; along <= stackedSteps && !isDone(); ++along) {
                const double off = m_request.gap + along * step;
                tryPlace(measured, {{body.right() + off, top}, LabelAlign::left});
                if (!isDone()) {
                    tryPlace(measured, {{body.left() - off, top}, LabelAlign::right});
                }
            }
        }
    }

private:
    [[nodiscard]] int awayStepsOf(LabelSide side, const MeasuredShape& shape) const {
        if (isLevel(side)) {
            return 0;
        }
        if (m_request.isUpright) {
            return side == LabelSide::below ? awayStepsBelowUpright : awayStepsElse;
        }
        return shape.block.size() > 1 ? 0 : awayStepsElse;
    }

    void tryPlace(const MeasuredShape& shape, const LabelPlace& place, double topMargin = 0.0) {
        const std::vector<QRectF> boxes = shape.boxesAt(place);
        const double misread = (isBeyondFence(boxes.back().center()) ? beyondFence : 0.0) +
                               (isNearerToAnother(boxes) ? nearerToAnother : 0.0) +
                               (isOverTheEdge(boxes) ? overTheEdge : 0.0) +
                               (&shape == &m_shapes.back() && m_shapes.size() > 1 ? withoutValue : 0.0);
        double covered = 0.0;
        for (std::size_t i = 0; i < boxes.size() && misread + covered < m_best.penalty; ++i) {
            const double top = i == 0 ? -topMargin : 0.0;
            covered += m_obstacles.covered(boxes[i].adjusted(-2, top, 2, 0), m_best.penalty);
            if (i > 0) {
                covered += m_obstacles.covered(between(boxes[i - 1], boxes[i]), m_best.penalty);
            }
        }
        if (misread + covered >= m_best.penalty) {
            return;
        }
        PlacedLabel candidate{shape.block, place, boxes, {}, covered, 0.0};
        if (m_request.markCount > 0) {
            addMarks(candidate);
        }
        candidate.penalty = misread + candidate.covered;
        if (candidate.penalty < m_best.penalty) {
            m_best = std::move(candidate);
        }
    }

    [[nodiscard]] bool isOverTheEdge(const std::vector<QRectF>& boxes) const {
        return !m_request.sheet.isNull() && !m_request.sheet.contains(boundsOf(boxes));
    }

    [[nodiscard]] bool isNearerToAnother(const std::vector<QRectF>& boxes) const {
        const QRectF words = boundsOf(boxes);
        const double own = gapBetween(words, m_request.body);
        return std::any_of(m_request.others.begin(), m_request.others.end(),
                           [&words, own](const QRectF& other) { return gapBetween(words, other) < own; });
    }

    [[nodiscard]] bool isBeyondFence(const QPointF& words) const {
        const QLineF way(m_request.body.center(), words);
        return std::any_of(m_obstacles.fences.begin(), m_obstacles.fences.end(), [&way](const QLineF& fence) {
            return way.intersects(fence, nullptr) == QLineF::BoundedIntersection;
        });
    }

    void addMarks(PlacedLabel& candidate) const {
        const MarkChoice choice = placeMarks(candidate.boxes, m_request, m_scale, m_obstacles);
        candidate.covered += choice.covered;
        for (std::size_t i = 0; i < m_request.markCount; ++i) {
            const double left = choice.row.left() + static_cast<double>(i) * (markWidth + 2) * m_scale;
            candidate.marks.emplace_back(left, choice.row.top(), markWidth * m_scale, markHeight * m_scale);
        }
    }

    const LabelRequest& m_request;
    double m_scale;
    const Obstacles& m_obstacles;
    std::vector<MeasuredShape> m_shapes;
    PlacedLabel m_best;
};

}  // namespace

double gapBetween(const QRectF& a, const QRectF& b) {
    const double across = std::max({a.left() - b.right(), b.left() - a.right(), 0.0});
    const double down = std::max({a.top() - b.bottom(), b.top() - a.bottom(), 0.0});
    return std::hypot(across, down);
}

QRectF boundsOf(const std::vector<QRectF>& boxes) {
    QRectF bounds;
    for (const QRectF& box : boxes) {
        bounds = bounds.united(box);
    }
    return bounds;
}

PlacedLabel placeLabel(const LabelRequest& request, const LabelWriter& writer, const Obstacles& obstacles) {
    Search search(request, writer, obstacles);
    const std::vector<LabelSide> sides = sidesFrom(request.side, request.isUpright);
    const std::size_t last = request.shapes.size() - 1;
    for (const LabelSide side : sides) {
        for (std::size_t shape = 0; shape < std::max<std::size_t>(last, 1) && !search.isDone(); ++shape) {
            search.trySide(side, shape);
        }
    }
    for (std::size_t shape = 0; request.isOnWire && shape < last && !search.isDone(); ++shape) {
        search.tryShoulders(shape);
    }
    for (const LabelSide side : sides) {
        if (last > 0 && !search.isDone()) {
            search.trySide(side, last);
        }
    }
    return search.best();
}

}  // namespace ohmwright

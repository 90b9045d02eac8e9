// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/corner_marks.h"

#include "app/curves/curve_reading.h"
#include "app/look/theme.h"
#include "core/base/number_text.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

/// Half of the diamond's 14 px (look tokens, plot.markers).
constexpr double diamondReach = 7.0;
/// The pointer takes the filled corner from this far, along and across together [px].
constexpr double cornerReach = 14.0;

std::optional<CornerMark> markOf(const LinearState& state, bool isNow) {
    const Figure* tag = findFigure(state.figures, "gain_leg_corner");
    if (!tag || !tag->value) {
        return std::nullopt;
    }
    const std::optional<double> gain = gainAt(state.response, *tag->value);
    if (!gain) {
        return std::nullopt;
    }
    return CornerMark{isNow, *tag->value, *gain,
                      QObject::tr("corner %1").arg(QString::fromStdString(formatFrequency(*tag->value))), std::nullopt};
}

}  // namespace

void CornerMarks::show(const LinearAnswer* answer) {
    m_marks.clear();
    if (!answer) {
        return;
    }
    for (const bool isNow : {true, false}) {
        if (auto mark = markOf(isNow ? answer->now : answer->stock, isNow)) {
            m_marks.push_back(*std::move(mark));
        }
    }
}

const CornerMark* CornerMarks::draggableAt(const QPointF& point) const {
    const auto found = std::find_if(m_marks.begin(), m_marks.end(), [&](const CornerMark& mark) {
        const QPointF off = point - m_pointOf(mark.hz, mark.gainDb);
        return mark.isNow && isShown(mark) && std::abs(off.x()) + std::abs(off.y()) <= cornerReach;
    });
    return found == m_marks.end() ? nullptr : &*found;
}

const CornerMark* CornerMarks::wordsAt(const QPointF& point) const {
    const auto found = std::find_if(m_marks.begin(), m_marks.end(), [&](const CornerMark& mark) {
        return mark.label && mark.label->box.contains(point);
    });
    return found == m_marks.end() ? nullptr : &*found;
}

QRectF CornerMarks::boxOf(const CornerMark& mark) const {
    const QRectF diamond(m_pointOf(mark.hz, mark.gainDb) - QPointF(cornerReach, cornerReach),
                         QSizeF(2.0 * cornerReach, 2.0 * cornerReach));
    return mark.label ? diamond.united(mark.label->box) : diamond;
}

void CornerMarks::place(const QRectF& frame, const std::vector<QPolygonF>& curves) {
    std::vector<CornerLabelRequest> requests;
    std::vector<CornerMark*> asked;
    for (CornerMark& mark : m_marks) {
        mark.label.reset();
        const bool isTwin =
            !mark.isNow && !m_holdsStock && m_marks.front().isNow && m_marks.front().words == mark.words;
        const double x = m_pointOf(mark.hz, mark.gainDb).x();
        if (isTwin || !isShown(mark) || x < frame.left() || x > frame.right()) {
            continue;
        }
        const QFontMetricsF metrics(Theme::current().font(TextRole::body, mark.isNow));
        requests.push_back(
            {m_pointOf(mark.hz, mark.gainDb), {metrics.horizontalAdvance(mark.words) + 1.0, metrics.height()}});
        asked.push_back(&mark);
    }
    const auto placed = placeLabels(frame, requests, curves);
    for (std::size_t i = 0; i < placed.size(); ++i) {
        asked[i]->label = placed[i];
    }
}

void CornerMarks::paint(QPainter& painter, const QRectF& frame, const std::vector<QPolygonF>& curves) {
    place(frame, curves);
    const ThemeColours& colours = Theme::current().colours();
    painter.setClipRect(frame.adjusted(-diamondReach, -diamondReach, diamondReach, diamondReach));
    for (const CornerMark& mark : m_marks) {
        if (!mark.label) {
            continue;
        }
        painter.setPen(QPen(mark.isNow ? colours.now : colours.stock, 1.3));
        painter.setBrush(Qt::NoBrush);
        const QPointF from = m_pointOf(mark.hz, mark.gainDb);
        painter.drawPolyline(QPolygonF{{from, mark.label->elbow, mark.label->leaderEnd}});
        painter.setFont(Theme::current().font(TextRole::body, mark.isNow));
        painter.drawText(mark.label->box, Qt::AlignLeft | Qt::AlignVCenter, mark.words);
    }
    // The filled diamond above the hollow one, where both stand at one place.
    for (auto mark = m_marks.rbegin(); mark != m_marks.rend(); ++mark) {
        if (!isShown(*mark)) {
            continue;
        }
        // A dragged corner leaves its curve: what it will be is not known before the answer.
        const QPointF at = m_pointOf(mark->isNow && m_heldHz ? *m_heldHz : mark->hz, mark->gainDb);
        const double reach = mark->isNow ? diamondReach + 1.0 : diamondReach;
        painter.setPen(mark->isNow ? QPen(colours.canvas, 1.5) : QPen(colours.stock, 1.6));
        painter.setBrush(mark->isNow ? colours.now : colours.canvas);
        painter.drawPolygon(QPolygonF{
            {at.x(), at.y() - reach}, {at.x() + reach, at.y()}, {at.x(), at.y() + reach}, {at.x() - reach, at.y()}});
    }
    painter.setClipping(false);
}

}  // namespace ohmwright

/// Corner tags on the response: hollow diamond for stock, filled for now, with their words where there is room.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/curves/corner_labels.h"
#include "core/plan/compare.h"

#include <QPointF>
#include <QRectF>
#include <QString>

#include <functional>
#include <optional>
#include <vector>

class QPainter;

namespace ohmwright {

struct CornerMark {
    bool isNow = false;
    double hz = 0.0;
    double gainDb = 0.0;
    QString words;  ///< "corner 340 Hz"
    std::optional<PlacedCornerLabel> label;
};

class CornerMarks {
public:
    /// From frequency and gain to a place on the plot [px].
    using PointOf = std::function<QPointF(double hz, double gainDb)>;

    explicit CornerMarks(PointOf pointOf) : m_pointOf(std::move(pointOf)) {}

    void show(const LinearAnswer* answer);
    void setHoldsStock(bool holds) { m_holdsStock = holds; }
    /// Where the filled diamond is held while it is dragged; nothing lets it go.
    void hold(std::optional<double> hz) { m_heldHz = hz; }

    /// Now first.
    [[nodiscard]] const std::vector<CornerMark>& marks() const { return m_marks; }
    /// The filled one, if it lies under the pointer.
    [[nodiscard]] const CornerMark* draggableAt(const QPointF& point) const;
    /// The one whose words lie under the pointer.
    [[nodiscard]] const CornerMark* wordsAt(const QPointF& point) const;
    /// Diamond and words together.
    [[nodiscard]] QRectF boxOf(const CornerMark& mark) const;

    /// Places the words clear of `curves`, then paints.
    void paint(QPainter& painter, const QRectF& frame, const std::vector<QPolygonF>& curves);

private:
    [[nodiscard]] bool isShown(const CornerMark& mark) const { return !(m_holdsStock && mark.isNow); }
    void place(const QRectF& frame, const std::vector<QPolygonF>& curves);

    PointOf m_pointOf;
    std::vector<CornerMark> m_marks;
    std::optional<double> m_heldHz;
    bool m_holdsStock = false;
};

}  // namespace ohmwright

/// The words beside a part: lines of runs in their inks, measured and painted with a halo.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/part_view.h"

#include <QColor>
#include <QFont>
#include <QRectF>

#include <optional>
#include <vector>

class QPainter;

namespace ohmwright {

enum class LabelInk {
    reference,  ///< 12 in ink3
    function,   ///< 12 bold in ink2
    value,      ///< 13 bold
    struck,     ///< 13, left the unit
    now,        ///< 17 bold iris, took its place
    fitted,     ///< 12 bold iris
    note,       ///< 12 in ink3
    sign,       ///< 12 in ink2: names of supply signs
    title,      ///< 13 bold: names of fields
};

struct LabelRun {
    QString text;
    LabelInk ink = LabelInk::value;

    friend bool operator==(const LabelRun&, const LabelRun&) = default;
};

struct LabelLine {
    std::vector<LabelRun> runs;
    std::optional<Knowledge> dot;  ///< Drawn before the first run.

    friend bool operator==(const LabelLine&, const LabelLine&) = default;
};

using LabelBlock = std::vector<LabelLine>;

/// From the fullest to what must never be left out.
enum class LabelShape {
    stacked,       ///< Reference and function, the value below.
    stackedBare,   ///< The same without the ring of a part that is known from the drawing only.
    stackedShort,  ///< Without the function too.
    inLine,        ///< All in one line.
    inLineBare,    ///< The same without that ring.
    shortest,      ///< In one line, without that ring and without the function.
    referenceOnly,
};

/// The words of a part in one of their shapes. A value is looked up in the part's panel; a part without a reference is
/// not found at all.
LabelBlock blockOf(const PartView& view, PartKind kind, LabelShape shape);

enum class LabelAlign { left, centre, right };

/// Where a block stands: `at` is the block's top left, top centre or top right, by `align`.
struct LabelPlace {
    QPointF at;
    LabelAlign align = LabelAlign::left;

    friend bool operator==(const LabelPlace&, const LabelPlace&) = default;
};

/// Measures and paints at one text size. The scale is the text setting, more when the whole map is drawn smaller.
class LabelWriter {
public:
    explicit LabelWriter(double scale) : m_scale(scale) {}

    [[nodiscard]] double scale() const { return m_scale; }
    [[nodiscard]] QSizeF sizeOf(const LabelBlock& block) const;
    /// Tight boxes, one a line: digits and capitals, with what hangs below the line.
    [[nodiscard]] std::vector<QRectF> lineBoxes(const LabelBlock& block, const LabelPlace& place) const;
    void paint(QPainter& painter, const LabelBlock& block, const LabelPlace& place) const;

private:
    [[nodiscard]] int pixelSizeOf(LabelInk ink) const;
    [[nodiscard]] QFont fontOf(LabelInk ink) const;
    [[nodiscard]] double capHeightOf(const LabelLine& line) const;
    [[nodiscard]] double widthOf(const LabelLine& line) const;
    void paintLine(QPainter& painter, const LabelLine& line, QPointF baseline) const;

    double m_scale;
};

}  // namespace ohmwright

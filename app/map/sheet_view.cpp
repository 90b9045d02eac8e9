// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/sheet_view.h"

#include "app/map/map_scene.h"

#include <algorithm>

namespace ohmwright {

SheetView::SheetView(MapScene& scene, QWidget* parent) : PanView(scene, parent), m_scene(scene) {
    // Thousands of round dots: the scene says when the sheet under the drawing changes.
    setCacheMode(QGraphicsView::CacheBackground);
}

void SheetView::wasScaled(double scale) {
    m_scene.setLabelScale(labelScaleAt(scale));
}

/// Words and signs stand beyond the sheet's edges, and a zone that is half seen keeps its head in sight: the outer ones
/// reach to the view's edges, the others are cut off there.
std::vector<double> SheetView::zoneEdges() const {
    std::vector<double> edges;
    const double width = viewport()->width();
    for (const double left : m_scene.layout().zoneLefts) {
        edges.push_back(std::clamp(viewportTransform().map(QPointF(left, 0.0)).x(), 0.0, width));
    }
    if (!edges.empty()) {
        edges.front() = 0.0;
        edges.push_back(width);
    }
    return edges;
}

}  // namespace ohmwright

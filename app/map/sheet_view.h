/// The sheet of a drawing under glass: its words follow the scale, its zones are known. The base of the map and of the
/// place where a unit is drawn.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/look/pan_view.h"

#include <vector>

namespace ohmwright {

class MapScene;

class SheetView : public PanView {
    Q_OBJECT
public:
    SheetView(MapScene& scene, QWidget* parent);

    /// Left edge of each zone and the right edge of the last, in the view's own px.
    [[nodiscard]] std::vector<double> zoneEdges() const;

protected:
    /// Scale of the words at a scale of the sheet.
    [[nodiscard]] virtual double labelScaleAt(double scale) const = 0;
    void wasScaled(double scale) override;

private:
    MapScene& m_scene;
};

}  // namespace ohmwright

/// Level at each stage's border and the clip node's peaks, under the zones they belong to.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/map_state.h"

#include <QWidget>

#include <vector>

namespace ohmwright {

/// One remark on the rail, at the right end of its zone.
struct RailFigure {
    QString place;  ///< "jack", "U1 pin 3", "pin 1"; may be empty.
    QString stock;  ///< Empty when unchanged.
    QString now;
    QString unit;
    QString shortUnit;  ///< Where room is short the unit is left to the last zone.
};

/// One a stage; a figure without `now` is not known. Before the clip stage the wave is still the pick's sine and
/// levels are its peak in mVpk, from there on dBV RMS; the clip stage says the peaks at the clip node.
std::vector<RailFigure> railFigures(const MapState& state);

/// Hands the first zone's figure to the second: "jack 95, U1 pin 3 93 mVpk", "jack 95 mVpk, clip node ±0.19 V"; a zone
/// without a figure takes it whole.
void joinFigures(RailFigure& first, RailFigure& second);

/// "220 Hz, 100 mVpk picked"
QString pickText(const Job& job);

class LevelRail : public QWidget {
    Q_OBJECT
public:
    explicit LevelRail(QWidget* parent = nullptr);

    void setState(const MapState& state);
    void setEdges(std::vector<double> edges);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    /// Writes right-aligned at `right` and returns where it starts; only measures when `painter` is null.
    double writeFigure(QPainter* painter, const RailFigure& figure, double left, double right) const;
    /// A first zone too narrow for its figure hands it to the next.
    void joinNarrowZones(std::vector<RailFigure>& figures, double pickRight) const;

    std::vector<RailFigure> m_figures;
    std::vector<double> m_edges;
    QString m_pick;
    bool m_isCurrent = true;
    bool m_hasAnswer = false;
};

}  // namespace ohmwright

/// The numbered heads of the stages: name, gain at the cursor, knobs; an iris bar where a mod is active.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/map_state.h"

#include <QWidget>

#include <vector>

namespace ohmwright {

/// Words of one zone's head.
struct ZoneHead {
    QString number;
    QString name;
    QString stockGain;    ///< "9.54"; empty when unchanged or unknown.
    QString gain;         ///< "15.4 dB"; empty when unknown.
    QString remark;       ///< "at 110 Hz, drive 5.0"
    QString shortRemark;  ///< What stays of it where room is short; may be empty.
    bool hasActiveMod = false;
};
std::vector<ZoneHead> zoneHeads(const MapState& state);

class ZoneStrip : public QWidget {
    Q_OBJECT
public:
    explicit ZoneStrip(QWidget* parent = nullptr);

    void setState(const MapState& state);
    /// Left edge of each zone and the right edge of the last [px].
    void setEdges(std::vector<double> edges);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void paintZone(QPainter& painter, const ZoneHead& head, double left, double right) const;
    void paintGain(QPainter& painter, const ZoneHead& head, double left, double right) const;

    std::vector<ZoneHead> m_heads;
    std::vector<double> m_edges;
    bool m_isCurrent = true;
};

}  // namespace ohmwright

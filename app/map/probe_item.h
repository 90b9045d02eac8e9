/// Volts at the nodes, written on the map while the probe is on.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/map_layout.h"
#include "core/plan/probes.h"

#include <QGraphicsItem>

#include <vector>

namespace ohmwright {

/// One reading at its node. In scene px.
struct ProbeMark {
    NetName net;
    QString text;  ///< "4.46 → 4.51 V"
    LabelBlock block;
    QRectF box;
    QPointF node;  ///< The point of the net that the words stand at.
};

/// The readings that have room, most wanted first; the last one says what they are measured against. Nothing is written
/// over: a net without free ground has no mark, and its volts stand in the curve of the bias. None before the first
/// answer, and none of a circuit that is not solved.
std::vector<ProbeMark> markProbes(const MapState& state, const MapLayout& layout, double textScale);

/// "collector 4.43 volts, base 1.12 volts, emitter 0.46 volts": at the part's pins; empty when none is known.
QString spokenProbes(const MapState& state, const Part& part);

/// "leg 2 at n4: 4.46 → 4.51 V", "pin 3 at vb: 4.50 V", "leg 1 at ground": of one pin, whether the probe is on or not;
/// without volts while none are known.
/// REQUIRES: the part has the pin.
QString legWords(const MapState& state, const Part& part, int pin);

/// What is said of all of them: the reference, then each net.
QString probeWords(const MapState& state);

class ProbeLayer : public QGraphicsItem {
public:
    ProbeLayer();

    void setMarks(std::vector<ProbeMark> marks, double textScale);
    [[nodiscard]] QRectF boundingRect() const override { return m_bounds; }
    void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

private:
    std::vector<ProbeMark> m_marks;
    double m_textScale = 1.0;
    QRectF m_bounds;
};

}  // namespace ohmwright

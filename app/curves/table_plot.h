/// Level, harmonics, time and noise: stock dashed, now solid, out of the tables that core makes of them.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/curves/curve_plot.h"
#include "core/plan/compare_curves.h"

#include <optional>
#include <vector>

namespace ohmwright {

/// What stands around a kind's plot and between which ends its axes run.
struct TableAxes {
    QString vertical;    ///< "dBV"
    QString horizontal;  ///< "pick level, mVpk, 220 Hz"
    PlotRange x;
    PlotRange y;
    bool isLogX = false;
    bool isLogY = false;
    double xFactor = 1.0;  ///< From the table's unit to the axis'.
};
/// Axes that hold both states. REQUIRES: a kind that TablePlot draws.
TableAxes tableAxes(const ComparedCurve& curve, const Setting& setting);

class TablePlot : public CurvePlot {
    Q_OBJECT
public:
    explicit TablePlot(QWidget* parent = nullptr);

    /// Null empties the plot.
    void setCurve(const ComparedCurve* curve, const Setting& setting);
    [[nodiscard]] QStringList curvesShown() const override;
    [[nodiscard]] const TableAxes& axes() const { return m_axes; }
    [[nodiscard]] QString cursorSentence() const override { return {}; }

private:
    void applyPens() override;
    void layOut() override;
    void dressFrames() override;
    [[nodiscard]] std::optional<PlotRange> cursorWay() const override { return {}; }
    [[nodiscard]] double stepped(int steps, bool isFine) const override;

    void fill();
    void applyAxes();
    void paintWordsAround(QPainter& painter) const;
    void paintBars(QPainter& painter) const;
    void paintBarsOf(QPainter& painter, const CurveTable& table, double shift, const QColor& ink, bool isFilled) const;

    QCPGraph* m_stock;
    QCPGraph* m_now;
    std::optional<ComparedCurve> m_curve;
    TableAxes m_axes;
};

}  // namespace ohmwright

/// Level, harmonics, time and noise: stock dashed, now solid, out of the tables that core makes of them.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/curves/plot_frame.h"
#include "app/curves/plot_range.h"
#include "core/plan/compare_curves.h"

#include <QStringList>
#include <QWidget>

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

class TablePlot : public QWidget {
    Q_OBJECT
public:
    explicit TablePlot(QWidget* parent = nullptr);

    /// Null empties the plot.
    void setCurve(const ComparedCurve* curve, const Setting& setting);
    void setHoldsStock(bool holds);
    void setState(const PlotState& state);
    [[nodiscard]] const PlotState& state() const { return m_state; }
    [[nodiscard]] QStringList curvesShown() const;
    [[nodiscard]] const TableAxes& axes() const { return m_axes; }
    void replotNow();

protected:
    void resizeEvent(QResizeEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    void fill();
    void applyTheme();
    void applyPens();
    void applyAxes();
    void requestReplot();
    void paintWordsAround(QPainter& painter) const;
    void paintBars(QPainter& painter) const;
    void paintBarsOf(QPainter& painter, const CurveTable& table, double shift, const QColor& ink, bool isFilled) const;

    QCustomPlot* m_plot;
    QCPAxisRect* m_frame;
    QCPGraph* m_stock;
    QCPGraph* m_now;
    std::optional<ComparedCurve> m_curve;
    TableAxes m_axes;
    PlotState m_state;
    bool m_holdsStock = false;
};

}  // namespace ohmwright

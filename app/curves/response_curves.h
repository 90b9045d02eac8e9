/// The response's curves and bands: what is drawn of an answer, and with which pens.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/curves/plot_frame.h"
#include "app/curves/plot_range.h"
#include "app/curves/throw_curves.h"
#include "core/plan/compare.h"

#include <QPolygonF>
#include <QStringList>

#include <optional>
#include <vector>

class QCPAxisRect;
class QCPGraph;
class QCustomPlot;

namespace ohmwright {

/// How the curves are to look.
struct CurveLook {
    PlotState state;
    bool holdsStock = false;
    bool showsDifference = true;
};

class ResponseCurves {
public:
    /// @param frame  of the gains; @param strip  of the differences from stock.
    ResponseCurves(QCustomPlot& plot, QCPAxisRect& frame, QCPAxisRect& strip);

    /// Null empties the plot. Copies what it shows.
    /// @return false when the same was shown already.
    bool show(const LinearAnswer* answer);
    /// The other throws of switches, thin beside now; a switch's own dashes each.
    void showThrows(std::vector<ThrowCurve> throws);
    void applyPens(const CurveLook& look);

    [[nodiscard]] const std::optional<ResponseCurve>& stock() const { return m_stockCurve; }
    [[nodiscard]] const std::optional<ResponseCurve>& now() const { return m_nowCurve; }
    [[nodiscard]] const std::optional<ResponseCurve>& ghost() const { return m_ghostCurve; }
    /// The ranges that hold what is shown, grown from these.
    [[nodiscard]] PlotRange grownGain(PlotRange shown) const;
    [[nodiscard]] PlotRange grownDifference(PlotRange shown) const;
    /// Names of the curves drawn, back to front.
    [[nodiscard]] QStringList namesShown() const;
    /// Stock, ghost and now as they are drawn [px].
    [[nodiscard]] std::vector<QPolygonF> polylines() const;
    /// The throws that are drawn, in their order.
    [[nodiscard]] std::vector<QPolygonF> throwLines() const;
    [[nodiscard]] const std::vector<ThrowCurve>& throws() const { return m_throwCurves; }

private:
    void fill();
    void fillBands();

    QCustomPlot& m_plot;
    QCPAxisRect& m_frame;
    std::vector<QCPGraph*> m_throws;
    std::vector<ThrowCurve> m_throwCurves;
    QCPGraph* m_bandLow;  ///< Edges of what 95 of 100 builds of now lie between; only the fill is seen.
    QCPGraph* m_bandHigh;
    QCPGraph* m_spreadLow;  ///< Of two stock units, about no difference.
    QCPGraph* m_spreadHigh;
    QCPGraph* m_stock;
    QCPGraph* m_ghost;
    QCPGraph* m_now;
    QCPGraph* m_ghostLess;
    QCPGraph* m_nowLess;

    std::optional<ResponseCurve> m_stockCurve;
    std::optional<ResponseCurve> m_nowCurve;
    std::optional<ResponseCurve> m_ghostCurve;
    std::vector<double> m_nowBand;  ///< ± dB at each frequency of its curve; empty where there is none.
    std::vector<double> m_stockBand;
    std::vector<double> m_nowDifference;
    std::vector<double> m_ghostDifference;
};

}  // namespace ohmwright

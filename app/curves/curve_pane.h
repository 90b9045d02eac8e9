/// The second pane of the curves: the kind that was chosen, drawn, or any kind as a table.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/curve_service.h"
#include "app/curves/cursor_readout.h"
#include "app/curves/plot_frame.h"

#include <QStackedWidget>

class QTableView;

namespace ohmwright {

class CurveTableModel;
class JobDocument;
class TablePlot;

/// Follows its own service; a plot for level, harmonics, time and noise, a table for bias and for what is asked as one.
class CurvePane : public QStackedWidget {
    Q_OBJECT
public:
    explicit CurvePane(JobDocument& document, QWidget* parent = nullptr);

    /// @param asTable  the values instead of the drawing.
    void show(CurveKind kind, bool asTable);
    /// Off the screen: nothing is solved for it.
    void rest();
    void setHoldsStock(bool holds);
    void setPins(std::vector<PinnedCurve> pins);
    /// Of what is read against frequency.
    void setCursorHz(double hz);
    /// The cursor's, with what it holds for.
    [[nodiscard]] CursorReadout readout() const;
    /// As PlotState::lack.
    void setLack(const QString& sentence);
    [[nodiscard]] TablePlot& plot() const { return *m_plot; }
    [[nodiscard]] QTableView& table() { return *m_table; }
    [[nodiscard]] CurveService& service() { return m_service; }
    [[nodiscard]] const CurveService& service() const { return m_service; }

private:
    void followTheme();
    void follow();

    JobDocument& m_document;
    CurveService m_service;
    TablePlot* m_plot;
    QTableView* m_table;
    CurveTableModel* m_model;
    QString m_lack;
    double m_cursorHz = 110.0;
    bool m_isTable = false;
};

}  // namespace ohmwright

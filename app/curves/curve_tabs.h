/// Head of the curves: the kinds of curve with their keys at the left, the legend at the right.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measure/curve_table.h"

#include <QString>
#include <QWidget>

#include <vector>

namespace ohmwright {

enum class LegendLine { stock, now, band, spread, ghost, otherThrow };

struct LegendEntry {
    LegendLine line = LegendLine::stock;
    QString words;
    int pattern = 0;  ///< Of other throws: which dashes.

    friend bool operator==(const LegendEntry&, const LegendEntry&) = default;
};

class CurveTabs : public QWidget {
    Q_OBJECT
public:
    explicit CurveTabs(QWidget* parent = nullptr);

    /// Which kinds there are to choose from; all of them unless told.
    /// REQUIRES: not empty.
    void setKinds(std::vector<CurveKind> kinds);
    /// Bold with a mark below: what is on the screen now, one or both.
    void setShown(std::vector<CurveKind> kinds);
    void setLegend(std::vector<LegendEntry> entries);
    [[nodiscard]] const std::vector<CurveKind>& shown() const { return m_shown; }
    [[nodiscard]] const std::vector<LegendEntry>& legend() const { return m_legend; }
    /// Where a kind is pressed.
    [[nodiscard]] QRect tabBox(CurveKind kind) const;

    /// Whether every word of the legend has room.
    [[nodiscard]] bool isLegendWhole() const;

    [[nodiscard]] QSize sizeHint() const override;

signals:
    void chosen(ohmwright::CurveKind kind);
    /// By the other button: where it shall stand is wanted. @param at  on the screen.
    void sideAsked(ohmwright::CurveKind kind, const QPoint& at);

private:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void followTheme();
    void paintTab(QPainter& painter, CurveKind kind) const;
    void paintLegend(QPainter& painter) const;
    [[nodiscard]] bool isShown(CurveKind kind) const;

    void shareRoom();
    [[nodiscard]] double legendWidth(double sample, double gap) const;
    [[nodiscard]] double legendRoom() const;

    std::vector<CurveKind> m_kinds;
    std::vector<CurveKind> m_shown;
    std::vector<LegendEntry> m_legend;
    bool m_showsKeys = true;       ///< The digit beside each name.
    bool m_isLegendShort = false;  ///< Shorter samples, less air.
};

}  // namespace ohmwright

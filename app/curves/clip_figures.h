/// Clip threshold and peak at the player's level, stock → now, below the clip plot: two figures, never one for
/// the other.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/compare.h"

#include <QString>
#include <QWidget>

#include <vector>

namespace ohmwright {

/// Sign at the head of a row, as on the plot.
enum class ClipSign { none, positiveThreshold, negativeThreshold, player };

struct ClipRow {
    ClipSign sign = ClipSign::none;
    QString name;
    QString stock;
    QString now;   ///< Empty when stock and now read the same.
    QString unit;  ///< Empty after a word for absence.
    QString tail;  ///< Said where there is room: ", both half-waves", " at 100 mVpk".

    /// "clip threshold ±0.24 → ±0.23 V"
    [[nodiscard]] QString text() const;
    friend bool operator==(const ClipRow&, const ClipRow&) = default;
};

/// One row a figure where both half-waves read alike in stock and now, else one a half-wave. With `onlyStock`
/// now is left out.
std::vector<ClipRow> clipRows(const LargeSignalAnswer& answer, bool onlyStock);

class ClipFigures : public QWidget {
    Q_OBJECT
public:
    explicit ClipFigures(QWidget* parent = nullptr);

    void setRows(std::vector<ClipRow> rows);
    /// Old figures stand as faint as the curves they belong to.
    void setCurrent(bool isCurrent);
    /// Beside the plot instead of below it.
    void setBeside(bool beside);
    [[nodiscard]] const std::vector<ClipRow>& rows() const { return m_rows; }

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

signals:
    /// By mouse, or arrows and Enter: the sum behind it is wanted.
    /// @param box  of the row, on the screen.
    void rowPressed(int row, const QRect& box);

private:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void pressRow();
    [[nodiscard]] QRect rowBox(int row) const;
    void followTheme();
    void paintRow(QPainter& painter, const ClipRow& row, double top, double nameWidth) const;
    [[nodiscard]] double nameWidth() const;

    std::vector<ClipRow> m_rows;
    int m_row = 0;  ///< Under the keyboard.
    bool m_isCurrent = true;
    bool m_isBeside = false;
};

}  // namespace ohmwright

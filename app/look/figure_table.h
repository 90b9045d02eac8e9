/// Figures in columns: label, stock → now, unit, change; decimals stand under each other.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QRectF>
#include <QString>
#include <QStringList>
#include <QWidget>

#include <vector>

class QPainter;

namespace ohmwright {

/// One row. Texts come from core/base/number_text; an empty one leaves its column blank.
struct FigureRow {
    QString label;
    QString stock;
    QString now;  ///< Empty: the figure is not affected, stock stands alone.
    QString unit;
    QString change;    ///< With its sign.
    QStringList sums;  ///< Names of the sums behind it (look/sum_notes.h); empty for a row that is only solved.
};

/// Where the columns of a block of rows stand [px from the left of the row].
struct FigureColumns {
    double stockPoint = 0.0;  ///< Decimal place of the stock column.
    double arrow = 0.0;       ///< Left edge of the arrow.
    double nowPoint = 0.0;
    double unit = 0.0;  ///< Left edge.
    double changePoint = 0.0;
};

/// Columns wide enough for all `rows`, spread over `width`.
FigureColumns figureColumns(const std::vector<FigureRow>& rows, double width);

/// Paints one row inside `box` with columns from figureColumns (relative to box.left()).
void paintFigureRow(QPainter& painter, const QRectF& box, const FigureRow& row, const FigureColumns& columns);

/// A block of figure rows. A row can be pressed (mouse, or arrows and Enter) to show its sum.
class FigureTable : public QWidget {
    Q_OBJECT
public:
    explicit FigureTable(QWidget* parent = nullptr);

    void setRows(std::vector<FigureRow> rows);
    [[nodiscard]] const std::vector<FigureRow>& rows() const { return m_rows; }
    /// Rows answer to the mouse and the keyboard; off at first.
    void setPressable(bool pressable);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

signals:
    /// @param box  of the row, on the screen.
    void rowPressed(int row, const QRect& box);

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    [[nodiscard]] int rowHeight() const;
    void pressRow();

    std::vector<FigureRow> m_rows;
    int m_row = 0;  ///< Under the keyboard.
    bool m_pressable = false;
};

}  // namespace ohmwright

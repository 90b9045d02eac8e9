/// The left half of bench mode: the places in words over the order of work, or over the probe card while powered.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/look/theme.h"
#include "core/bench/order_of_work.h"
#include "core/bench/work_log.h"

#include <QWidget>

#include <memory>

class QTableWidget;

namespace ohmwright {

class BenchLabel;

/// Shows; nothing in it can be pressed.
class WorkList : public QWidget {
    Q_OBJECT
public:
    explicit WorkList(QWidget* parent = nullptr);

    void showWork(const WorkPlan& work, const WorkLog& log, std::size_t step);
    /// Under the board: some rows of the list alone; the board says the places.
    void setShort(bool isShort);
    /// Rows as they are read, cells apart by " | ".
    [[nodiscard]] QStringList rows() const;

private:
    void showOrder(const WorkPlan& work, const WorkLog& log, std::size_t step);
    void showCard(const WorkPlan& work, const WorkLog& log, std::size_t step);
    void followRows();
    void showPlaces(const WorkPlan& work, std::size_t step);
    void addRow(const QStringList& cells, QColor ThemeColours::*colour, bool isHere);

    bool m_isShort = false;
    int m_here = 0;  ///< Row of the step at hand.
    BenchLabel* m_title;
    BenchLabel* m_note;
    QTableWidget* m_table;
    BenchLabel* m_red;
    BenchLabel* m_black;
    BenchLabel* m_legs;
};

}  // namespace ohmwright

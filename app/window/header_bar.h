/// The header: mark and name, the places, menus, the visit's state, undo, redo, hold for stock, bench
/// sheet.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/job.h"

#include <QWidget>

#include <vector>

class QHBoxLayout;
class QMenuBar;
class QPushButton;

namespace ohmwright {

class ActionTable;
class PlaceTabs;
class StockHold;
class ThemedLabel;
class VisitStrip;

class HeaderBar : public QWidget {
    Q_OBJECT
public:
    HeaderBar(const ActionTable& actions, StockHold& hold, QWidget* parent = nullptr);

    [[nodiscard]] PlaceTabs& places() const { return *m_place; }
    [[nodiscard]] QMenuBar& menuBar() const { return *m_menus; }
    void setVisit(const Visit& visit);
    /// Why no sheet can be printed now, shown beside the button; empty when one can.
    void setSheetObstacle(const QString& words);
    void setFolded(bool folded);
    /// At the bench only the places and the way out can be pressed.
    void setBenchMode(bool on);
    [[nodiscard]] bool isBenchMode() const { return m_isBenchMode; }
    /// Without a job there is no place, no visit and nothing to hold.
    void setJobOpen(bool open);

signals:
    void leaveBenchAsked();
    /// A state of the visit was pressed.
    void visitStateAsked(ohmwright::VisitState state);

protected:
    bool event(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    void shareRoom();
    void addButtons(const ActionTable& actions, StockHold& hold, QHBoxLayout& layout);

    QWidget* m_name = nullptr;
    QMenuBar* m_menus;
    PlaceTabs* m_place;
    VisitStrip* m_visit;
    ThemedLabel* m_obstacle;
    QPushButton* m_hold = nullptr;
    QPushButton* m_sheet = nullptr;
    QPushButton* m_leave = nullptr;
    std::vector<QWidget*> m_hiddenAtBench;
    bool m_isBenchMode = false;
};

}  // namespace ohmwright

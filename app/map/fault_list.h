/// What is still to do on the drawing, a sentence a row; a row leads to its place.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/draw_faults.h"

#include <QWidget>

#include <vector>

class QLabel;
class QListWidget;

namespace ohmwright {

class FaultList : public QWidget {
    Q_OBJECT
public:
    explicit FaultList(QWidget* parent = nullptr);

    /// @param hasAnswer  the solver has one for the circuit as it is.
    void setFaults(const std::vector<DrawFault>& faults, const Circuit& circuit, bool hasAnswer);

signals:
    void placeChosen(ohmwright::GridPoint point);
    void partChosen(const ohmwright::PartId& part);
    /// By Enter: the keyboard goes there too.
    void done();

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void show(int row);
    void fitLines();

    std::vector<DrawFaultLine> m_lines;
    QLabel* m_state = nullptr;
    QListWidget* m_list = nullptr;
};

}  // namespace ohmwright

/// The knob row: the circuit's knobs, then what stands before and behind the unit.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/knobs/control.h"

#include <QWidget>

#include <memory>
#include <vector>

namespace ohmwright {

class JobDocument;
class KnobDial;
class Selection;
class SolverService;

/// Every turn is an undoable edit of the document; turns of one dial in a row are one step. The dial of the
/// selected pot has its name in bold.
class KnobRow : public QWidget {
    Q_OBJECT
public:
    KnobRow(JobDocument& document, Selection& selection, SolverService& solver, QWidget* parent = nullptr);
    ~KnobRow() override;

    /// Without the dials' second line (56 px high), for small windows.
    void setFolded(bool folded);
    /// In the order shown.
    [[nodiscard]] const std::vector<KnobDial*>& dials() const { return m_dials; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void rebuild();
    void showFaces();
    void markSelected();
    KnobDial* makeDial(const Control& control);
    void turn(const Control& control, double value);
    void takeTyped(const Control& control, const QString& text);

    JobDocument& m_document;
    Selection& m_selection;
    std::vector<Knob> m_builtFor;
    Ports m_builtForPorts;
    std::vector<std::unique_ptr<Control>> m_controls;
    std::vector<KnobDial*> m_dials;
    double m_valueBeforeTyping = 0.0;
    bool m_isFolded = false;
};

}  // namespace ohmwright

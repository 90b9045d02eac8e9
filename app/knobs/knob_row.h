/// The knob row: the circuit's knobs, the switches that the plan fits, then what stands before and behind the unit.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/knobs/control.h"

#include <QWidget>

#include <memory>
#include <vector>

namespace ohmwright {

class ConsequenceService;
class JobDocument;
class KnobDial;
class Selection;
class ThrowChooser;

/// Every turn is an undoable edit of the document; turns of one dial in a row are one step. The dial of the
/// selected pot has its name in bold.
class KnobRow : public QWidget {
    Q_OBJECT
public:
    KnobRow(JobDocument& document, Selection& selection, QWidget* parent = nullptr);
    ~KnobRow() override;

    /// Says under each switch what its throws do to level and contact, from then on.
    void followSwitches(ConsequenceService& consequences);
    /// Without the dials' second line (56 px high), for small windows.
    void setFolded(bool folded);
    /// In the order shown.
    [[nodiscard]] const std::vector<KnobDial*>& dials() const { return m_dials; }
    /// Of the switches that the plan fits and that are on, in its order.
    [[nodiscard]] const std::vector<ThrowChooser*>& choosers() const { return m_choosers; }

signals:
    /// The sum of a pot's law is wanted; its name as look/sum_notes.h has them, and the dial, on the screen.
    void sumsAsked(const QStringList& figures, const QRect& beside);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void rebuild();
    void rebuildChoosers();
    void showFaces();
    void showSwitchFacts();
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
    std::vector<Mod> m_switches;  ///< One a chooser.
    std::vector<ThrowChooser*> m_choosers;
    ConsequenceService* m_consequences = nullptr;
    double m_valueBeforeTyping = 0.0;
    bool m_isFolded = false;
};

}  // namespace ohmwright

/// The left rail: unit and mods, claim check, knob translation; it scrolls where they do not fit.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QScrollArea>

namespace ohmwright {

class ClaimCheckPanel;
class ConsequenceService;
class JobDocument;
class JobRail;
class Selection;
class SolverService;

class LeftRail : public QScrollArea {
    Q_OBJECT
public:
    LeftRail(JobDocument& document, Selection& selection, SolverService& solver, ConsequenceService& consequences,
             QWidget* parent = nullptr);

    [[nodiscard]] JobRail& jobRail() { return *m_jobRail; }
    [[nodiscard]] ClaimCheckPanel& claimCheck() { return *m_claims; }

private:
    void followTheme();

    QWidget* m_sheet;
    JobRail* m_jobRail;
    ClaimCheckPanel* m_claims;
};

}  // namespace ohmwright

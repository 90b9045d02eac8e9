/// Solves stock, now and ghost off the GUI thread; the latest request wins and only its answer is shown.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/compare.h"

#include <QObject>
#include <QString>

#include <memory>

namespace ohmwright {

class JobDocument;
class Selection;

/// Follows the document and the selection by itself. Linear answers come first (milliseconds), large-signal ones
/// after; either may be missing while the other is there. All signals on the GUI thread.
class SolverService : public QObject {
    Q_OBJECT
public:
    SolverService(JobDocument& document, Selection& selection, QObject* parent = nullptr);
    ~SolverService() override;

    /// Last good answers; null before the first of this job (another one was opened). May be older than the document:
    /// see isCurrent.
    [[nodiscard]] std::shared_ptr<const LinearAnswer> linear() const { return m_linear; }
    [[nodiscard]] std::shared_ptr<const LargeSignalAnswer> largeSignal() const { return m_largeSignal; }
    /// Whether both answers belong to the job as it is now. Papers are printed only then.
    [[nodiscard]] bool isCurrent() const;
    /// Whether anything asked for is still to come: figures of the job, of the selection, the cursor or the ghost.
    [[nodiscard]] bool isBusy() const;
    /// Why the job as it is now cannot be solved; else empty. The last good answers stay, stamped "not current".
    [[nodiscard]] QString fault() const { return m_fault; }
    /// Net or part reference of the fault, to be marked on the map.
    [[nodiscard]] QString faultPlace() const { return m_faultPlace; }
    [[nodiscard]] double lastSolveMilliseconds() const { return m_milliseconds; }

signals:
    void linearReady();
    void largeSignalReady();
    /// isCurrent() or fault() changed. An edit makes the answers old at once; this is said only when the new ones take
    /// over 0.3 s, so that nothing flickers, and again when they are there.
    void stateChanged();

private:
    void requestSolve();
    void takeLinear(Result<LinearAnswer> answer);
    void takeLargeSignal(Result<LargeSignalAnswer> answer);
    void settle();
    void forget();

    struct Lanes;
    std::unique_ptr<Lanes> m_lanes;
    JobDocument& m_document;
    Selection& m_selection;
    std::shared_ptr<const LinearAnswer> m_linear;
    std::shared_ptr<const LargeSignalAnswer> m_largeSignal;
    QString m_fault;
    QString m_faultPlace;
    double m_milliseconds = 0.0;
};

}  // namespace ohmwright

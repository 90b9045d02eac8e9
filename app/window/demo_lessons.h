/// What each demo job shows before it is opened: one curve of stock and now, and its change in a line.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/own_lane.h"
#include "core/plan/compare_curves.h"
#include "core/plan/job.h"

#include <QObject>
#include <QString>

#include <vector>

namespace ohmwright {

/// A device's output at rest [V].
struct RestingOutput {
    QString name;  ///< "Q2 collector"
    double stockVolts = 0.0;
    double nowVolts = 0.0;
};

struct DemoLesson {
    QString id;    ///< Of demo_jobs.h.
    QString kind;  ///< "soft-clip op-amp overdrive"
    CurveKind shown = CurveKind::response;
    ComparedCurve curve;
    std::vector<RestingOutput> resting;  ///< Of bias: every device's output, in the circuit's order.
    QString change;                      ///< "+5.77 dB at 82 Hz"
};

/// Solved from the job as it is stored, mods that are on against stock.
/// Errors: of compareCurve.
Result<DemoLesson> lessonOf(const QString& id, const Job& job, CurveKind shown, const std::stop_token& stop = {});

/// All demo jobs' lessons, off the GUI thread.
class DemoLessons : public QObject {
    Q_OBJECT
public:
    explicit DemoLessons(QObject* parent = nullptr);

    void start();

signals:
    /// One that cannot be solved is left out.
    void ready(const std::vector<ohmwright::DemoLesson>& lessons);

private:
    OwnLane<std::vector<DemoLesson>> m_lane;
};

}  // namespace ohmwright

/// The demo jobs that come with the program.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"

#include <QString>

#include <vector>

namespace ohmwright {

struct DemoJob {
    QString id;                ///< "harbour-lamp"
    QString name;              ///< Of the unit.
    QString kind;              ///< "hard-clip distortion"
    double supplyVolts = 0.0;  ///< The highest there is in it.
    QString complaint;         ///< The customer's own sentence.
};

/// The one with the most to show first; an unreadable one is left out.
std::vector<DemoJob> demoJobs();
/// Errors: as readJob.
Result<Job> readDemoJob(const QString& id);

}  // namespace ohmwright

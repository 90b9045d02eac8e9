// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/demo_jobs.h"

#include "core/circuit/supply_volts.h"
#include "core/files/job_file.h"

#include <QFile>

#include <array>

// Static libraries drop resources nobody asks for; the macro has to stand outside any namespace.
static void initialiseDemoResources() {
    Q_INIT_RESOURCE(window);
}

namespace ohmwright {

namespace {

constexpr std::array ids{"harbour-lamp", "quarry-bell", "small-rooster", "moss-engine",
                         "paper-boat",   "night-ferry", "three-hills"};

}  // namespace

Result<Job> readDemoJob(const QString& id) {
    initialiseDemoResources();
    QFile file(":/window/" + id + ".ohmjob");
    const QByteArray text = file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
    return readJob({text.constData(), static_cast<std::size_t>(text.size())});
}

std::vector<DemoJob> demoJobs() {
    std::vector<DemoJob> jobs;
    for (const char* id : ids) {
        if (const Result<Job> job = readDemoJob(id)) {
            jobs.push_back({id, QString::fromStdString(job->unit.name), QString::fromStdString(job->unit.kind),
                            highestSupplyVolts(job->stock, job->setting),
                            QString::fromStdString(job->visit.complaint)});
        }
    }
    return jobs;
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/pace.h"

#include <QThread>

#ifdef Q_OS_LINUX
#include <sys/resource.h>
#endif

namespace ohmwright {

void takePace(Pace pace) {
    if (pace == Pace::soon) {
        return;
    }
#ifdef Q_OS_LINUX
    // The kernel keeps a nice value for each thread, and Qt's priorities mean nothing to its usual scheduler
    // (sched(7)). Ten steps are about a tenth of the window's share; all of a processor that nobody else wants.
    constexpr int stepsBack = 10;
    ::setpriority(PRIO_PROCESS, 0, stepsBack);
#else
    QThread::currentThread()->setPriority(QThread::LowPriority);
#endif
}

}  // namespace ohmwright

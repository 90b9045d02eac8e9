/// What the map shows at one moment: the job, the last good answers about it, and what is looked at.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/owner_service.h"
#include "core/plan/compare.h"

#include <QString>

#include <memory>

namespace ohmwright {

struct MapState {
    std::shared_ptr<const Job> job;                        ///< Never null.
    std::shared_ptr<const LinearAnswer> linear;            ///< Null before the first answer: no numbers then.
    std::shared_ptr<const LargeSignalAnswer> largeSignal;  ///< Null before the first answer.
    bool isCurrent = false;                                ///< Whether the answers belong to the job.
    bool holdsStock = false;                               ///< Only the unit as found is drawn.
    PartId selected;                                       ///< May be empty.
    double cursorHz = 110.0;
    std::shared_ptr<const OwnersAnswer> owners;  ///< Null while nobody asks who owns the cursor's frequency.
    bool probesVolts = false;                    ///< The voltages at the nodes are said.
    bool isDrawnOn = false;                      ///< Shown where it is drawn, not where it is planned on.
    QString fault;                               ///< Sentence; empty when the circuit is sound.
    QString faultPlace;                          ///< Net or part reference of the fault.
};

}  // namespace ohmwright

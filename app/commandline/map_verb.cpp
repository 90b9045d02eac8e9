// The verb that writes the drawing of a job as a picture, as the window exports it.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/offscreen.h"
#include "app/commandline/verbs.h"
#include "app/map/map_export.h"
#include "app/map/part_view.h"
#include "core/plan/compare.h"

namespace ohmwright {

Result<void> writeMap(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    if (!hasDrawing(prepared.job->stock))
        return Error{ErrorCode::fileDamaged,
                     "this job's circuit has no drawing: its parts have no places. The verb arrange lays them out.",
                     {}};
    MapState state;
    state.job = std::make_shared<const Job>(*prepared.job);
    // The bias tells which end of a capacitor is plus; a circuit that is not solved is drawn without.
    CompareRequest wanted;
    wanted.job = state.job;
    if (Result<LinearAnswer> answer = compareLinear(wanted, stop))
        state.linear = std::make_shared<const LinearAnswer>(*std::move(answer));
    state.isCurrent = state.linear != nullptr;
    const Offscreen offscreen;
    const QString refusal = saveDrawing(state, QString::fromStdString(request.out));
    if (refusal.isEmpty()) return {};
    return refuseOption("--out", refusal.toStdString());
}

}  // namespace ohmwright

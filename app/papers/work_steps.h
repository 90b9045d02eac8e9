/// The order of work: numbered steps for the mods that are on, from what the job itself knows.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"

#include <QString>

#include <utility>
#include <vector>

namespace ohmwright {

/// A part body as it is drawn beside its step; nothing where there is none to draw.
struct BodyPicture {
    enum class Kind { none, code, diode } kind = Kind::none;
    QString marking;   ///< On the body: "124".
    QString plainEnd;  ///< Diode: what the anode joins.
    QString bandEnd;   ///< Diode: what the cathode joins.
};

struct StepLine {
    QString word;  ///< "Must beep", "Look", "Measure"
    QString text;
    bool hasBlank = false;  ///< A reading is written beside it.
    bool hasBox = true;     ///< To be signed; a note has none.
};

struct WorkStep {
    QString title;
    QString letter;  ///< Of the mod's triangle; empty for steps of the whole job.
    std::vector<StepLine> lines;
    BodyPicture picture;
    bool isStop = false;  ///< "Stop. Do not power yet.": a bar instead of a numbered step.
};

/// @param biasVolts  DC of the finished unit by net, for polarity and the probe readings at the end.
/// Errors: of applyMod, naming the mod.
Result<std::vector<WorkStep>> workSteps(const Job& job, const std::vector<std::pair<NetName, double>>& biasVolts);

/// How to undo the work, last mod first: "D3 out, lifted leg of D2 down again; C4 back to 56n (printed 563)".
QString wayBackWords(const Job& job);

}  // namespace ohmwright

/// Steps of the bench as they stand on paper: readings beside the work that they prove, probes beside the power-up.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/order_of_work.h"

#include <QString>

#include <vector>

namespace ohmwright {

/// A part body as it is drawn beside its step; nothing where there is none to draw.
struct PrintedPicture {
    enum class Kind { none, code, diode } kind = Kind::none;
    QString marking;   ///< On the body: "124".
    QString plainEnd;  ///< Diode: what the anode joins.
    QString bandEnd;   ///< Diode: what the cathode joins.
};

struct PrintedLine {
    QString word;  ///< "Must beep", "Look", "Measure"
    QString text;
    bool hasBlank = false;  ///< A reading is written beside it.
    bool hasBox = true;     ///< To be signed; a note has none.
};

struct PrintedStep {
    QString title;
    QString letter;  ///< Of the mod's triangle; empty for steps of the whole job.
    std::vector<PrintedLine> lines;
    PrintedPicture picture;
    bool isStop = false;  ///< "Stop. Do not power yet.": a bar instead of a numbered step.
};

/// Beeps stand in the lines of the work already; ohms and diode readings follow them, tones make one step at the end.
std::vector<PrintedStep> printedSteps(const WorkPlan& plan);

}  // namespace ohmwright

/// Steps of the bench as they stand on paper: readings beside the work that they prove, probes as a card under the
/// power-up, and what the check list has signed of them.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/step_photos.h"
#include "app/papers/part_pictures.h"
#include "core/bench/order_of_work.h"

#include <QString>

#include <vector>

namespace ohmwright {

/// A box as the check list left it; an open one is signed by hand.
enum class BoxState { open, passed, failed, skipped, refused };

struct PrintedLine {
    QString word;  ///< "Must beep", "Look", "Measure"
    QString text;
    bool hasBlank = false;  ///< A reading is written beside it.
    bool hasBox = true;     ///< To be signed; a note has none.
    BoxState box = BoxState::open;
    QString read;  ///< What stands on the blank already: "118 nF".
};

/// A line of the probe card: DC against ground [V], low <= nominal <= high.
struct PrintedProbe {
    QString place;
    QString allowed;
    double low = 0.0, nominal = 0.0, high = 0.0;
    BoxState box = BoxState::open;
    QString read;
};

struct PrintedStep {
    QString title;
    QString letter;  ///< Of the mod's triangle; empty for steps of the whole job.
    std::vector<PrintedLine> lines;
    PrintedPicture picture;
    StepPhoto photo;
    bool isStop = false;  ///< "Stop. Do not power yet.": a bar instead of a numbered step.
    std::vector<PrintedProbe> probes;
    QString signedBy;  ///< "T. O., 24 Nov 2026 21:58"; empty while it is open.
    BoxState box = BoxState::open;
};

/// Beeps stand in the lines of the work already; ohms and diode readings follow them, tones make one step at the end.
/// @param visit  whose marks are printed where they belong to these steps.
/// @param photos  one a step of the plan, or none at all.
std::vector<PrintedStep> printedSteps(const WorkPlan& plan, const Visit& visit,
                                      const std::vector<StepPhoto>& photos = {});

/// What a failed check means: the reading that is wanted, and the likely mistakes.
struct PrintedFailure {
    QString letter;
    QString check;
    QString suspicions;
};
/// Of the smallest set of checks that tells the plan from every likely mistake.
std::vector<PrintedFailure> printedFailures(const WorkPlan& plan);

}  // namespace ohmwright

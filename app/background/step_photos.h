/// The photo crops beside the steps of a sheet, cut out of the board's photos.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/paper_answers.h"

#include <QImage>
#include <QPointF>
#include <QString>
#include <QStringList>

#include <vector>

namespace ohmwright {

/// The photo around the legs of one step.
struct StepPhoto {
    struct Ring {
        QString words;  ///< "leg 1"
        QPointF at;     ///< [px of `picture`]
    };
    QImage picture;  ///< Null where the step has none.
    QString side;    ///< "part side"
    std::vector<Ring> rings;
};

struct StepPhotos {
    std::vector<StepPhoto> steps;  ///< One a step; empty where no step has one.
    QStringList faults;            ///< Photos that are not there or not as they were, a sentence each.

    /// Longer side of a crop [px]: 300 dots an inch at the size that it is printed in, and some more.
    static constexpr int largestCrop = 800;
};

/// On any thread: some hundred milliseconds a photo. Nothing of a paper without steps.
/// @param folder  of the job file, where its photos lie.
StepPhotos readStepPhotos(const PaperAnswers& answers, const QString& folder);

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/step_photos.h"

#include "app/background/photo_service.h"
#include "core/board/step_crop.h"

#include <algorithm>
#include <map>

namespace ohmwright {

namespace {

/// Photos are of many megabytes: each is read once, when a step wants it.
class Photos {
public:
    Photos(const Job& job, const QString& folder, QStringList& faults)
        : m_job(job), m_folder(folder), m_faults(faults) {}

    const PhotoPicture& of(BoardSide side) {
        const auto [found, isNew] = m_read.try_emplace(side);
        if (isNew) {
            found->second = readPhotoPicture(m_folder, *m_job.board.face(side).photo, side);
            if (!found->second.fault.isEmpty()) {
                m_faults << found->second.fault;
            }
        }
        return found->second;
    }

private:
    const Job& m_job;
    const QString& m_folder;
    QStringList& m_faults;
    std::map<BoardSide, PhotoPicture> m_read;
};

/// A photo that is not shown gives a crop without a picture.
StepPhoto cutOut(const StepCrop& crop, const PhotoPicture& photo) {
    StepPhoto made;
    if (photo.levels.empty()) {
        return made;
    }
    const double wanted = StepPhotos::largestCrop / std::max({crop.box.width, crop.box.height, 1.0});
    const QImage& level = photo.levelFor(std::min(wanted, 1.0));
    const double scale = static_cast<double>(level.width()) / photo.size.width();
    const QRect cut =
        QRectF(scale * crop.box.left, scale * crop.box.top, scale * crop.box.width, scale * crop.box.height)
            .toAlignedRect()
            .intersected(level.rect());
    const QImage part = level.copy(cut);
    const QSize bound(StepPhotos::largestCrop, StepPhotos::largestCrop);
    const bool isLarge = std::max(part.width(), part.height()) > StepPhotos::largestCrop;
    made.picture = isLarge ? part.scaled(bound, Qt::KeepAspectRatio, Qt::SmoothTransformation) : part;
    made.side = QString::fromStdString(sideWords(crop.side));
    const double shrunk = static_cast<double>(made.picture.width()) / std::max(1, cut.width());
    for (const CropLeg& leg : crop.legs) {
        const QPointF at(scale * leg.at.x - cut.left(), scale * leg.at.y - cut.top());
        made.rings.push_back({QString::fromStdString(leg.words), shrunk * at});
    }
    return made;
}

}  // namespace

StepPhotos readStepPhotos(const PaperAnswers& answers, const QString& folder) {
    StepPhotos made;
    const Job& job = *answers.job;
    const WorkPlan& work = answers.kind == PaperKind::wayBack ? answers.back.work : answers.work;
    const auto crops = stepCrops(job, work.steps);
    const auto isThere = [](const std::optional<StepCrop>& crop) { return crop.has_value(); };
    if (!crops || std::none_of(crops->begin(), crops->end(), isThere)) {
        return made;  // A plan that has no groups has no sheet either.
    }
    Photos photos(job, folder, made.faults);
    for (const auto& crop : *crops) {
        made.steps.push_back(crop ? cutOut(*crop, photos.of(crop->side)) : StepPhoto{});
    }
    return made;
}

}  // namespace ohmwright

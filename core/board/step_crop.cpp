// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/board/step_crop.h"

#include "core/base/said.h"
#include "core/bench/order_of_work.h"
#include "core/board/board_legs.h"

#include <algorithm>

namespace ohmwright {

namespace {

/// The photos with the legs of one state of the board.
struct PhotoSheets {
    Circuit circuit;
    std::vector<BoardSheet> sheets;  ///< Of the sides that have a photo of their own.
};

PhotoSheets photoSheets(const Board& board, const Circuit& circuit) {
    PhotoSheets made{circuit, {}};
    for (const BoardSide side : boardSides) {
        if (board.face(side).photo) {
            made.sheets.push_back(boardSheet(board, circuit, side));
        }
    }
    return made;
}

bool worksOnOnePart(const std::vector<Leg>& legs) {
    return std::all_of(legs.begin(), legs.end(), [&](const Leg& leg) { return leg.part == legs.front().part; });
}

/// The legs of a step that have a place there; how many of them by hand.
std::size_t placedLegs(const Circuit& circuit, const BoardSheet& sheet, const std::vector<Leg>& legs,
                       std::vector<CropLeg>& found) {
    const bool isOnePart = worksOnOnePart(legs);
    std::size_t marked = 0;
    for (const Leg& leg : legs) {
        const Leg standing = standingLeg(circuit, leg);
        const PlacedLeg* placed = sheet.find(standing);
        const Part* part = findPart(circuit, standing.part);
        if (part == nullptr || placed == nullptr || placed->place == LegPlace::unknown) {
            continue;
        }
        marked += placed->place == LegPlace::marked ? 1 : 0;
        const std::string word = legWord(*part, standing.pin);
        found.push_back({standing, isOnePart ? word : said("%1 %2", {part->reference, word}), placed->at});
    }
    return marked;
}

std::optional<StepCrop> cropOf(const PhotoSheets& state, const std::vector<Leg>& legs) {
    std::optional<StepCrop> best;
    std::size_t mostMarked = 0;
    for (const BoardSheet& sheet : state.sheets) {
        std::vector<CropLeg> found;
        const std::size_t marked = placedLegs(state.circuit, sheet, legs, found);
        if (found.empty() || (best && marked <= mostMarked)) {
            continue;
        }
        std::vector<Leg> shown;
        std::transform(found.begin(), found.end(), std::back_inserter(shown),
                       [](const CropLeg& leg) { return leg.leg; });
        if (const auto box = cropAround(sheet, shown)) {
            best = StepCrop{sheet.side, *box, std::move(found)};
            mostMarked = marked;
        }
    }
    return best;
}

}  // namespace

Result<std::vector<std::optional<StepCrop>>> stepCrops(const Job& job, const std::vector<BenchStep>& steps) {
    std::vector<std::optional<StepCrop>> crops(steps.size());
    if (!job.board.partSide.photo && !job.board.solderSide.photo) {
        return crops;
    }
    const auto groups = workGroups(job);
    if (!groups) {
        return groups.error();
    }
    // What leaves is named by stock, what comes by the finished board.
    std::vector<PhotoSheets> states{photoSheets(job.board, job.stock)};
    if (!groups->empty() && !groups->back().empty()) {
        states.push_back(photoSheets(job.board, groups->back().back().after));
    }
    for (std::size_t k = 0; k < steps.size(); ++k) {
        for (const PhotoSheets& state : states) {
            std::optional<StepCrop> crop = steps[k].legs.empty() ? std::nullopt : cropOf(state, steps[k].legs);
            if (crop && (!crops[k] || crop->legs.size() > crops[k]->legs.size())) {
                crops[k] = std::move(crop);
            }
        }
    }
    return crops;
}

}  // namespace ohmwright

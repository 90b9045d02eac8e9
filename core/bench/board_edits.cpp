// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/board_edits.h"

#include <algorithm>

namespace ohmwright {

namespace {

std::vector<int> movedLegs(const Part& before, const Part& after) {
    std::vector<int> legs;
    for (std::size_t leg = 0; leg < std::min(before.nets.size(), after.nets.size()); ++leg) {
        if (before.nets[leg] != after.nets[leg]) {
            legs.push_back(static_cast<int>(leg));
        }
    }
    return legs;
}

bool isAnotherModel(const Circuit& before, const Circuit& after, const Part& old, const Part& now) {
    if (old.model != now.model) {
        return true;
    }
    const Model* first = findModel(before, old.model);
    const Model* second = findModel(after, now.model);
    return (first == nullptr) != (second == nullptr) ||
           (first != nullptr && (first->kind != second->kind || first->parameters != second->parameters));
}

bool isAnotherPart(const Circuit& before, const Circuit& after, const Part& old, const Part& now) {
    if (old.kind == PartKind::switchContact && now.kind == old.kind) {
        return false;
    }
    return old.kind != now.kind || old.value != now.value || old.taper != now.taper ||
           old.shareAtHalf != now.shareAtHalf || isAnotherModel(before, after, old, now);
}

bool touches(const Part& part, const NetName& net) {
    return std::find(part.nets.begin(), part.nets.end(), net) != part.nets.end();
}

long legsAt(const Circuit& circuit, const NetName& net) {
    long legs = 0;
    for (const Part& part : circuit.parts) {
        legs += std::count(part.nets.begin(), part.nets.end(), net);
    }
    return legs;
}

}  // namespace

std::vector<BoardEdit> boardEdits(const Circuit& before, const Circuit& after) {
    std::vector<BoardEdit> out, moved, swapped, in;
    for (const Part& old : before.parts) {
        const Part* now = findPart(after, old.id);
        if (now == nullptr) {
            out.push_back({EditKind::partOut, old, {}, {}});
            continue;
        }
        if (std::vector<int> legs = movedLegs(old, *now); !legs.empty()) {
            moved.push_back({EditKind::legMoved, old, *now, std::move(legs)});
        }
        if (isAnotherPart(before, after, old, *now)) {
            swapped.push_back({EditKind::partSwapped, old, *now, {}});
        }
    }
    for (const Part& now : after.parts) {
        if (findPart(before, now.id) == nullptr) {
            in.push_back({EditKind::partIn, {}, now, {}});
        }
    }
    std::vector<BoardEdit> all = std::move(out);
    for (std::vector<BoardEdit>* next : {&moved, &swapped, &in}) {
        all.insert(all.end(), next->begin(), next->end());
    }
    return all;
}

std::vector<NetName> touchedNets(const Circuit& after, const std::vector<BoardEdit>& edits) {
    std::vector<NetName> nets;
    const auto add = [&](const NetName& net) {
        const bool isOpen = std::find(after.openNets.begin(), after.openNets.end(), net) != after.openNets.end();
        if (!isOpen && std::find(nets.begin(), nets.end(), net) == nets.end()) {
            nets.push_back(net);
        }
    };
    for (const BoardEdit& edit : edits) {
        if (edit.kind == EditKind::legMoved) {
            for (const int leg : edit.legs) {
                add(edit.before.nets[static_cast<std::size_t>(leg)]);
                add(edit.after.nets[static_cast<std::size_t>(leg)]);
            }
        } else {
            for (const NetName& net : edit.part().nets) {
                add(net);
            }
        }
    }
    return nets;
}

PartId inLineWith(const Circuit& after, const std::vector<BoardEdit>& edits, const PartId& fitted) {
    const Part* part = findPart(after, fitted);
    if (part == nullptr || part->nets.size() != 2) {
        return {};
    }
    for (const BoardEdit& edit : edits) {
        if (edit.kind != EditKind::legMoved) {
            continue;
        }
        for (const int leg : edit.legs) {
            const NetName& pad = edit.before.nets[static_cast<std::size_t>(leg)];
            const NetName& joint = edit.after.nets[static_cast<std::size_t>(leg)];
            if (touches(*part, pad) && touches(*part, joint) && pad != joint && legsAt(after, joint) == 2) {
                return edit.after.id;
            }
        }
    }
    return {};
}

std::vector<PartId> partsAcross(const Circuit& circuit, const PartId& part) {
    std::vector<PartId> across;
    const Part* own = findPart(circuit, part);
    if (own == nullptr || own->nets.size() != 2 || own->nets[0] == own->nets[1]) {
        return across;
    }
    for (const Part& other : circuit.parts) {
        if (other.id != part && other.nets.size() == 2 && touches(other, own->nets[0]) &&
            touches(other, own->nets[1])) {
            across.push_back(other.id);
        }
    }
    return across;
}

}  // namespace ohmwright

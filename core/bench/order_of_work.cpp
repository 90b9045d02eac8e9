// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/order_of_work.h"

#include "core/bench/group_steps.h"
#include "core/bench/job_steps.h"
#include "core/bench/probe_card.h"
#include "core/bench/switch_steps.h"
#include "core/plan/apply.h"

#include <algorithm>
#include <set>

namespace ohmwright {

namespace {

using Index = std::size_t;

// ---- Groups -------------------------------------------------------------------------------------------------------

bool isBig(const Circuit& circuit, const NetName& net) {
    // Ground and supply lines are pads all over the board: sharing them is no neighbourhood.
    const Part* supply = findPart(circuit, circuit.ports.battery);
    const bool isSupply =
        supply != nullptr && std::find(supply->nets.begin(), supply->nets.end(), net) != supply->nets.end();
    long legs = 0;
    for (const Part& part : circuit.parts) {
        legs += std::count(part.nets.begin(), part.nets.end(), net);
    }
    constexpr long manyLegs = 8;
    return net == groundNet || isSupply || legs >= manyLegs;
}

std::set<NetName> padsOf(const FittedMod& fitted) {
    std::set<NetName> pads;
    const auto addOf = [&](const Circuit& board) {
        for (NetName& net : touchedNets(board, boardEdits(fitted.before, board))) {
            if (!isBig(fitted.before, net)) {
                pads.insert(std::move(net));
            }
        }
    };
    addOf(fitted.after);
    for (const ThrowCircuit& position : fitted.throws) {
        addOf(position.circuit);
    }
    return pads;
}

bool shareOne(const std::set<NetName>& a, const std::set<NetName>& b) {
    return std::any_of(a.begin(), a.end(), [&](const NetName& net) { return b.count(net) > 0; });
}

/// A hole in the box has no way back.
bool needsHole(const Change& change) {
    return std::holds_alternative<FitSwitch>(change);
}

/// Indices of mods, grouped by pads they share, in the order of the plan; groups with a hole last.
std::vector<std::vector<std::size_t>> groupedMods(const std::vector<const Mod*>& mods,
                                                  const std::vector<std::set<NetName>>& pads) {
    std::vector<std::vector<std::size_t>> groups;
    std::vector<std::set<NetName>> padsOfGroup;
    for (std::size_t k = 0; k < mods.size(); ++k) {
        std::vector<std::size_t> group;
        std::set<NetName> own = pads[k];
        for (std::size_t g = 0; g < groups.size();) {
            if (shareOne(padsOfGroup[g], own)) {
                group.insert(group.end(), groups[g].begin(), groups[g].end());
                own.insert(padsOfGroup[g].begin(), padsOfGroup[g].end());
                groups.erase(groups.begin() + static_cast<std::ptrdiff_t>(g));
                padsOfGroup.erase(padsOfGroup.begin() + static_cast<std::ptrdiff_t>(g));
            } else {
                ++g;
            }
        }
        group.push_back(k);
        std::sort(group.begin(), group.end());
        groups.push_back(std::move(group));
        padsOfGroup.push_back(std::move(own));
    }
    std::sort(groups.begin(), groups.end(), [](const auto& a, const auto& b) { return a.front() < b.front(); });
    std::stable_partition(groups.begin(), groups.end(), [&](const std::vector<std::size_t>& group) {
        return std::none_of(group.begin(), group.end(), [&](std::size_t k) { return needsHole(mods[k]->change); });
    });
    return groups;
}

Result<FittedMod> fittedMod(const Circuit& before, const Mod& mod, const Setting& setting) {
    const auto boardAt = [&](const std::string& throwName) {
        Result<Circuit> after = applyMod(before, mod, throwName);
        if (!after) {
            Error error = after.error();
            error.message = mod.letter + " " + mod.name + ": " + error.message;
            return Result<Circuit>(std::move(error));
        }
        return after;
    };
    Result<Circuit> after = boardAt(throwOf(setting.throws, mod.id));
    if (!after) {
        return after.error();
    }
    FittedMod fitted{mod.letter, mod.name, before, *std::move(after), {}, false};
    if (const auto* switched = std::get_if<FitSwitch>(&mod.change)) {
        for (const SwitchThrow& position : switched->throws) {
            Result<Circuit> board = boardAt(position.name);
            if (!board) {
                return board.error();
            }
            fitted.throws.push_back({position.name, *std::move(board)});
        }
    }
    return fitted;
}

/// The board at every throw of every switch, for what a part must stand.
std::vector<Circuit> boardsOf(const Circuit& finished, const std::vector<WorkGroup>& groups) {
    std::vector<Circuit> boards{finished};
    for (const WorkGroup& group : groups) {
        for (const FittedMod& fitted : group) {
            for (const ThrowCircuit& position : fitted.throws) {
                if (!fitted.takesSwitchOut) {
                    boards.push_back(position.circuit);
                }
            }
        }
    }
    return boards;
}

}  // namespace

Result<std::vector<WorkGroup>> workGroups(const Job& job) {
    std::vector<const Mod*> mods;
    std::vector<std::set<NetName>> pads;
    Circuit board = job.stock;
    for (const Mod& mod : job.plan) {
        if (!mod.on) {
            continue;
        }
        Result<FittedMod> fitted = fittedMod(board, mod, job.setting);
        if (!fitted) {
            return fitted.error();
        }
        mods.push_back(&mod);
        pads.push_back(padsOf(*fitted));
        board = std::move(fitted->after);
    }
    std::vector<WorkGroup> groups;
    board = job.stock;
    for (const std::vector<std::size_t>& indices : groupedMods(mods, pads)) {
        WorkGroup group;
        for (const std::size_t k : indices) {
            Result<FittedMod> fitted = fittedMod(board, *mods[k], job.setting);
            if (!fitted) {
                return fitted.error();
            }
            board = fitted->after;
            group.push_back(*std::move(fitted));
        }
        groups.push_back(std::move(group));
    }
    return groups;
}

Result<WorkPlan> stepsOfGroups(const std::vector<WorkGroup>& groups, const Setting& setting,
                               const std::stop_token& stop) {
    WorkPlan work;
    if (groups.empty() || groups.front().empty()) {
        return work;
    }
    const Circuit& first = groups.front().front().before;
    const Circuit& finished = groups.back().back().after;
    work.cautions = cautionsOf(first, setting);
    Result<Discharge> discharge = dischargeOf(first, setting, stop);
    if (!discharge) {
        return discharge.error();
    }
    work.discharge = *std::move(discharge);
    Result<DutyTable> duties = dutiesOf(boardsOf(finished, groups), setting, {}, stop);
    if (!duties) {
        return duties.error();
    }
    work.duties = *std::move(duties);

    GroupSteps ofMods(work, setting, stop);
    const bool comesCharged = work.discharge.isHighVoltage;
    for (const WorkGroup& group : groups) {
        if (&group == &groups.front() && !comesCharged) {
            work.steps.push_back(photographStep());
        }
        work.steps.push_back(dischargeStep(work.discharge));
        if (&group == &groups.front() && comesCharged) {
            work.steps.push_back(photographStep());
        }
        for (const FittedMod& fitted : group) {
            if (const Result<void> added = ofMods.add(fitted); !added) {
                return added.error();
            }
        }
        work.steps.push_back(stopStep());
        Result<ProbeCard> card = probeCard(group.back().after, setting, {}, stop);
        if (!card) {
            return card.error();
        }
        work.steps.push_back(powerStep(*card, work.discharge.supplyVolts));
        work.powered.push_back({group.front().before, group.back().after, *std::move(card)});
        for (BenchStep& step : probeSteps(work.powered.back(), work.powered.size() - 1)) {
            work.steps.push_back(std::move(step));
        }
    }
    CheckOptions withTones;
    std::vector<BoardEdit> edits = boardEdits(first, finished);
    const FittedMod& last = groups.back().back();
    if (const std::optional<Index> standing = standingThrow(last)) {
        withTones.alsoLikely = upsideDown(last, *standing);
        edits = editsOfThrow(first, last.throws, *standing);
    }
    Result<CheckPlan> whole = planChecks(edits, finished, setting, withTones, stop);
    if (!whole) {
        return whole.error();
    }
    for (const std::size_t k : whole->smallest) {
        if (whole->checks[k].kind == CheckKind::tone) {
            work.steps.push_back(readingStep(*whole, k, {}, StepKind::tone));
            work.steps.back().sheet = static_cast<int>(work.checkPlans.size());
        }
    }
    work.notes = whole->notes;
    work.checkPlans.push_back(*std::move(whole));
    return work;
}

Result<WorkPlan> orderOfWork(const Job& job, const std::stop_token& stop) {
    const Result<std::vector<WorkGroup>> groups = workGroups(job);
    if (!groups) {
        return groups.error();
    }
    return stepsOfGroups(*groups, job.setting, stop);
}

}  // namespace ohmwright

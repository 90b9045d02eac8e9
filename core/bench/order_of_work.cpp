// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/order_of_work.h"

#include "core/base/number_text.h"
#include "core/base/value_text.h"
#include "core/bench/edit_steps.h"
#include "core/bench/net_words.h"
#include "core/bench/probe_card.h"
#include "core/bench/switch_steps.h"
#include "core/plan/apply.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <set>

namespace ohmwright {

namespace {

using Index = std::size_t;

/// More probe places than this make no check quicker; the probe card has them all.
constexpr std::size_t mostProbes = 12;
/// More suspicions than these do not fit beside a step.
constexpr std::size_t mostSuspicions = 3;
/// A reading that climbs for longer is given its time. Common practice, no source.
constexpr double noticedSeconds = 0.5;

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

// ---- Steps of the whole job ---------------------------------------------------------------------------------------

BenchStep photographStep() {
    BenchStep step;
    step.kind = StepKind::photograph;
    step.title = "Photograph both sides of the board, before anything is moved";
    step.lines.push_back({"Photograph", "both sides of the board, before anything is moved", false, true});
    return step;
}

BenchStep dischargeStep(const Discharge& discharge) {
    BenchStep step;
    step.kind = StepKind::discharge;
    step.title = "Power off and discharge, then measure";
    step.lines.push_back(
        {"Power",
         discharge.supplyVolts > highVolts ? "plug out of the wall, leads out" : "leads, battery and supply out", false,
         true});
    step.lines.push_back({"Discharge",
                          "supply line through " + toolWords(discharge.toolOhms, discharge.supplyVolts) +
                              " to ground, then measure: under " + formatFigure(discharge.toVolts) + " V, read",
                          true, true});
    step.lines.push_back({"Time", discharge.sentence, false, false});
    if (discharge.isHighVoltage) {
        step.lines.push_back({"One hand", "the other in the pocket; nobody works here alone", false, true});
        step.lines.push_back({"Law", "local codes and licensed practice go before this sheet", false, false});
        step.needsSecondPerson = true;
    }
    step.low = 0.0;
    step.nominal = 0.0;
    step.high = discharge.toVolts;
    step.unit = Unit::volt;
    step.waitSeconds = discharge.waitSeconds;
    step.blocks = true;
    step.ifItFails =
        "Do not touch: leave the tool on, wait again, measure again. If it does not fall, the tool or its "
        "clip is open.";
    return step;
}

BenchStep stopStep() {
    BenchStep step;
    step.kind = StepKind::stop;
    step.title = "Stop. Do not power yet.";
    step.blocks = true;
    return step;
}

BenchStep powerStep(const ProbeCard& card, double supplyVolts) {
    BenchStep step;
    step.kind = StepKind::powerUp;
    step.title = supplyVolts > 0.0 ? "Power on without signal, " + formatFixed(supplyVolts, 2) + " V, current limited"
                                   : "Power on without signal, current limited";
    if (card.supply) {
        constexpr double milli = 1e3;
        step.low = card.supply->low;
        step.nominal = card.supply->nominal;
        step.high = card.supply->high;
        step.unit = Unit::ampere;
        step.lines.push_back({"Current",
                              formatFixed(milli * card.supply->low, 2) + " to " +
                                  formatFixed(milli * card.supply->high, 2) + " mA: read",
                              true, true});
        step.ifItFails = "Power off at once: a bridge, a part the wrong way round, or a chip turned.";
    }
    step.blocks = true;
    return step;
}

std::vector<BenchStep> probeSteps(const PoweredGroup& group, std::size_t sheet) {
    std::vector<BenchStep> steps;
    const Circuit& circuit = group.finished;
    for (std::size_t k = 0; k < group.card.lines.size(); ++k) {
        const ProbeLine& line = group.card.lines[k];
        const Part* part = findPart(circuit, line.part);
        if (steps.size() >= mostProbes || part == nullptr) {
            break;
        }
        BenchStep step;
        step.kind = StepKind::probe;
        step.title = "Volts at " + line.place;
        Check check;
        check.kind = CheckKind::volts;
        check.red = {line.part, line.leg, {}, line.place};
        check.black = {{}, 0, NetName(groundNet), "jack sleeve (ground)"};
        check.expected = {line.low, line.nominal, line.high};
        step.check = check;
        step.low = line.low;
        step.nominal = line.nominal;
        step.high = line.high;
        step.unit = Unit::volt;
        step.lines.push_back({"Read", check.expected.words(check.kind) + ": read", true, true});
        step.ifItFails = "Power off; the reading typed in names the parts to look at.";
        step.sheet = static_cast<int>(sheet);
        step.line = k;
        steps.push_back(std::move(step));
    }
    return steps;
}

// ---- Readings -----------------------------------------------------------------------------------------------------

std::string suspicions(const CheckPlan& plan, std::size_t check) {
    std::string words;
    std::size_t named = 0;
    for (std::size_t k = 0; k < plan.mistakes.size() && named < mostSuspicions; ++k) {
        if (plan.sees(check, k)) {
            words += (named++ == 0 ? "" : "; ") + plan.mistakes[k].sentence;
        }
    }
    return words;
}

std::string titleOf(const Check& check) {
    const std::string words = check.words();
    std::string title = words;
    if (!title.empty() && title[0] >= 'a' && title[0] <= 'z') {
        title[0] = static_cast<char>(title[0] - 'a' + 'A');
    }
    return title;
}

BenchStep readingStep(const CheckPlan& plan, std::size_t index, const std::string& letter, StepKind kind) {
    const Check& check = plan.checks[index];
    BenchStep step;
    step.kind = kind;
    step.letter = letter;
    step.title = titleOf(check);
    step.check = check;
    step.low = check.expected.low;
    step.nominal = check.expected.nominal;
    step.high = check.expected.high;
    step.unit = unitOf(check.kind);
    step.waitSeconds = check.settleSeconds > noticedSeconds ? check.settleSeconds : 0.0;
    step.ifItFails = suspicions(plan, index);
    step.line = index;
    step.isEnough = std::find(plan.smallest.begin(), plan.smallest.end(), index) != plan.smallest.end();
    const bool isOpen = !check.expected.low && !check.expected.high;
    std::string words = (isOpen && step.waitSeconds > 0.0 ? "rises to " : "") + check.expected.words(check.kind);
    if (step.waitSeconds > 0.0) {
        words += ", after " + formatFixed(std::ceil(step.waitSeconds), 0) + " s";
    }
    words += ": read";
    const bool isBeeper = check.kind == CheckKind::beep || check.kind == CheckKind::silence;
    step.lines.push_back({isBeeper ? (check.kind == CheckKind::beep ? "Must beep" : "Silent") : "Read",
                          isBeeper ? check.red.words + " to " + check.black.words : words, !isBeeper, true});
    return step;
}

bool isMeter(CheckKind kind) {
    return kind == CheckKind::beep || kind == CheckKind::silence || kind == CheckKind::ohms || kind == CheckKind::diode;
}

/// Ohms that say nothing ("no reading" both in plan and mistakes) are left out.
bool isWorthReading(const CheckPlan& plan, std::size_t index) {
    if (plan.checks[index].kind != CheckKind::ohms) {
        return true;
    }
    for (std::size_t k = 0; k < plan.mistakes.size(); ++k) {
        if (plan.sees(index, k)) {
            return true;
        }
    }
    return false;
}

std::vector<Mistake> upsideDown(const FittedMod& fitted, Index throwIndex) {
    const std::optional<Mistake> mistake = switchUpsideDown(fitted.throws, throwIndex);
    return mistake ? std::vector<Mistake>{*mistake} : std::vector<Mistake>{};
}

/// At which throw a fitted switch stands.
std::optional<Index> standingThrow(const FittedMod& fitted) {
    for (Index k = 0; k < fitted.throws.size() && !fitted.takesSwitchOut; ++k) {
        if (fitted.throws[k].circuit.parts == fitted.after.parts) {
            return k;
        }
    }
    return std::nullopt;
}

/// The work on one mod after the other, with the readings that prove each.
class GroupSteps {
public:
    GroupSteps(WorkPlan& work, const Setting& setting, const std::stop_token& stop)
        : m_work(work), m_setting(setting), m_stop(stop) {}

    Result<void> add(const FittedMod& fitted) {
        if (!fitted.throws.empty()) {
            return addSwitch(fitted);
        }
        const std::vector<BoardEdit> edits = boardEdits(fitted.before, fitted.after);
        push(stepsOfEdits({fitted.letter, fitted.before, fitted.after, m_work.duties, fitted.isUndone}, edits));
        return addReadings(fitted, edits, fitted.after);
    }

private:
    Result<void> addSwitch(const FittedMod& fitted) {
        const Circuit& without = fitted.takesSwitchOut ? fitted.after : fitted.before;
        const SwitchWork own{fitted.letter, without, fitted.throws, m_work.duties};
        if (fitted.takesSwitchOut) {
            push(stepsOfSwitchOut(own));
            return addReadings(fitted, editsBack(without, fitted.throws), without);
        }
        push(stepsOfSwitch(own));
        for (Index k = 0; k < fitted.throws.size(); ++k) {
            const Result<void> added =
                addReadings(fitted, editsOfThrow(without, fitted.throws, k), fitted.throws[k].circuit, k);
            if (!added) {
                return added.error();
            }
        }
        return {};
    }

    /// @param throwIndex  at which the mod's switch stands for them.
    Result<void> addReadings(const FittedMod& fitted, const std::vector<BoardEdit>& edits, const Circuit& board,
                             std::optional<Index> throwIndex = {}) {
        const std::string throwName = throwIndex ? fitted.throws[*throwIndex].name : std::string();
        CheckOptions meterOnly;
        meterOnly.tonesHz.clear();
        meterOnly.withSettling = true;
        if (throwIndex) {
            meterOnly.alsoLikely = upsideDown(fitted, *throwIndex);
        }
        Result<CheckPlan> checks = planChecks(edits, board, m_setting, meterOnly, m_stop);
        if (!checks) {
            Error error = checks.error();
            error.message = (throwName.empty() ? "" : "Switch at " + throwName + ": ") + error.message;
            return error;
        }
        for (Index k = 0; k < checks->checks.size(); ++k) {
            if (!isMeter(checks->checks[k].kind) || !isWorthReading(*checks, k)) {
                continue;
            }
            BenchStep step = readingStep(*checks, k, fitted.letter, StepKind::reading);
            step.sheet = static_cast<int>(m_work.checkPlans.size());
            if (!throwName.empty()) {
                step.title = "Switch at " + throwName + ": " + step.check->words();
                step.lines.insert(step.lines.begin(), {"Switch", "at " + throwName, false, true});
            }
            m_work.steps.push_back(std::move(step));
        }
        m_work.checkPlans.push_back(*std::move(checks));
        return {};
    }

    void push(std::vector<BenchStep> steps) { std::move(steps.begin(), steps.end(), std::back_inserter(m_work.steps)); }

    WorkPlan& m_work;
    const Setting& m_setting;
    const std::stop_token& m_stop;
};

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

std::string_view stepWords(StepKind kind) {
    switch (kind) {
        case StepKind::photograph:
            return "photograph";
        case StepKind::discharge:
            return "discharge";
        case StepKind::takeOut:
            return "take out";
        case StepKind::moveLeg:
            return "move leg";
        case StepKind::fit:
            return "fit";
        case StepKind::reading:
            return "reading";
        case StepKind::stop:
            return "stop";
        case StepKind::powerUp:
            return "power up";
        case StepKind::probe:
            return "probe";
        case StepKind::tone:
            return "tone";
    }
    return {};
}

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

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/pick_list.h"

#include "core/base/said.h"
#include "core/base/value_text.h"
#include "core/plan/apply.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

namespace ohmwright {

namespace {

/// A lot whose value as ordered is within this share is of the value.
constexpr double sameShare = 1e-3;

/// What is soldered in: neither wires nor what stands for the world outside.
bool isBought(PartKind kind) {
    return hasValue(kind) || kind == PartKind::diode || kind == PartKind::bipolar || kind == PartKind::opamp ||
           kind == PartKind::jfet || kind == PartKind::mosfet || kind == PartKind::triode || kind == PartKind::pentode;
}

/// Parts of `after` that `before` has not, or has otherwise.
std::vector<const Part*> partsIn(const Circuit& before, const Circuit& after) {
    std::vector<const Part*> parts;
    for (const Part& part : after.parts) {
        const Part* old = findPart(before, part.id);
        const bool isNew = old == nullptr || old->kind != part.kind || old->value != part.value ||
                           old->model != part.model || old->taper != part.taper;
        if (isBought(part.kind) && isNew) {
            parts.push_back(&part);
        }
    }
    return parts;
}

bool isOf(const DrawerLot& lot, PartKind kind, double value, const std::string& type) {
    if (lot.kind != kind) {
        return false;
    }
    return hasValue(kind) ? std::abs(lot.value / value - 1.0) < sameShare : lot.type == type;
}

std::string nameOf(PartKind kind, double value, const std::string& type) {
    return hasValue(kind) ? formatPartValue({value, unitOf(kind)}) : type;
}

/// Hands out lots, none twice.
class Counter {
public:
    Counter(const Drawer& drawer, std::string job) : m_drawer(drawer), m_job(std::move(job)) {}

    const DrawerLot* take(PartKind kind, double value, const std::string& type) {
        for (const DrawerLot& lot : m_drawer.lots) {
            if (isOf(lot, kind, value, type) && m_taken[lot.id] < availableFor(lot, m_job)) {
                ++m_taken[lot.id];
                return &lot;
            }
        }
        return nullptr;
    }

private:
    const Drawer& m_drawer;
    std::string m_job;
    std::map<std::string, int> m_taken;
};

std::string sentenceFor(const PickLine& line, const DrawerLot* lot) {
    if (lot == nullptr) {
        return said("%1: %2 is not in the drawer, or promised to another job: order 1", line.reference,
                    nameOf(line.kind, line.value, line.type));
    }
    return lot->printed.empty() ? line.reference + ": " + displayName(*lot)
                                : said("%1: %2 (marked %3)", line.reference, displayName(*lot), lot->printed);
}

/// Names of a switch's throws; one without a name for any other mod.
std::vector<std::string> throwNames(const Mod& mod) {
    std::vector<std::string> names;
    if (const auto* fit = std::get_if<FitSwitch>(&mod.change)) {
        for (const SwitchThrow& one : fit->throws) {
            names.push_back(one.name);
        }
    }
    return names.empty() ? std::vector<std::string>{""} : names;
}

/// What one mod needs beside what `before` has: of a switch the parts of all its throws, each once.
Result<std::vector<PickLine>> neededByMod(const Job& job, const Mod& mod, const Plan& fitted, const Circuit& before) {
    std::vector<PickLine> lines;
    std::set<std::tuple<std::string, double, std::string>> seen;
    for (const std::string& name : throwNames(mod)) {
        Throws throws = job.setting.throws;
        if (!name.empty()) {
            throws[mod.id] = name;
        }
        const auto after = applyPlan(job.stock, fitted, throws);
        if (!after) {
            return after.error();
        }
        for (const Part* part : partsIn(before, *after)) {
            const double value = hasValue(part->kind) ? part->value : 0.0;
            const std::string type = hasValue(part->kind) ? "" : part->model;
            if (seen.insert({part->id, value, type}).second) {
                lines.push_back({mod.letter, part->reference, part->kind, value, type, "", "", ""});
            }
        }
    }
    return lines;
}

/// The parts that each mod needs, in the order of fitting, without lots.
Result<std::vector<PickLine>> neededBy(const Job& job) {
    std::vector<PickLine> lines;
    Plan fitted;
    Circuit before = job.stock;
    for (const Mod& mod : job.plan) {
        fitted.push_back(mod);
        const auto needed = neededByMod(job, mod, fitted, before);
        if (!needed) {
            return needed.error();
        }
        lines.insert(lines.end(), needed->begin(), needed->end());
        auto after = applyPlan(job.stock, fitted, job.setting.throws);
        if (!after) {
            return after.error();
        }
        before = *std::move(after);
    }
    return lines;
}

using PartKey = std::tuple<PartKind, double, std::string>;

/// How many of each part the jobs need, and which of them; jobs that cannot be fitted go to `unfit`, if it is there.
std::map<PartKey, Shortage> needsOf(const std::vector<Job>& jobs, std::vector<std::string>* unfit) {
    std::map<PartKey, Shortage> needs;
    for (const Job& job : jobs) {
        const auto lines = neededBy(job);
        if (!lines) {
            if (unfit != nullptr) {
                unfit->push_back(reservationName(job) + ": " + lines.error().message);
            }
            continue;
        }
        for (const PickLine& line : *lines) {
            Shortage& need = needs[{line.kind, line.value, line.type}];
            need.kind = line.kind;
            need.value = line.value;
            need.type = line.type;
            ++need.needed;
            if (std::find(need.jobs.begin(), need.jobs.end(), reservationName(job)) == need.jobs.end()) {
                need.jobs.push_back(reservationName(job));
            }
        }
    }
    return needs;
}

/// What a lot has left when the jobs that are not `given` have what was promised to them.
int leftFor(const std::set<std::string>& given, const DrawerLot& lot) {
    int promised = 0;
    for (const auto& [job, quantity] : lot.reserved) {
        promised += given.contains(job) ? 0 : quantity;
    }
    return std::max(0, lot.quantity - promised);
}

std::string sentenceFor(const Shortage& need) {
    std::string names;
    for (const std::string& job : need.jobs) {
        names += (names.empty() ? "" : ", ") + job;
    }
    return said("%1 of %2 missing (%3): %4 needed, %5 there", need.missing, nameOf(need.kind, need.value, need.type),
                names, need.needed, need.there);
}

}  // namespace

std::string reservationName(const Job& job) {
    return job.unit.serial + "/" + std::to_string(job.visit.number);
}

Result<std::vector<PickLine>> pickList(const Job& job, const Drawer& drawer) {
    auto lines = neededBy(job);
    if (!lines) {
        return lines.error();
    }
    Counter counter(drawer, reservationName(job));
    for (PickLine& line : *lines) {
        const DrawerLot* lot = counter.take(line.kind, line.value, line.type);
        if (lot != nullptr) {
            line.lot = lot->id;
            line.printed = lot->printed;
        }
        line.sentence = sentenceFor(line, lot);
    }
    return lines;
}

std::vector<LotCount> takenBy(const std::vector<PickLine>& lines) {
    std::map<std::string, int> counts;
    for (const PickLine& line : lines) {
        if (!line.lot.empty()) {
            ++counts[line.lot];
        }
    }
    std::vector<LotCount> taken;
    taken.reserve(counts.size());
    for (const auto& [lot, quantity] : counts) {
        taken.push_back({lot, quantity});
    }
    return taken;
}

std::vector<Shortage> shortageList(const std::vector<Job>& jobs, const Drawer& drawer,
                                   std::vector<std::string>* unfit) {
    std::set<std::string> given;
    for (const Job& job : jobs) {
        given.insert(reservationName(job));
    }
    std::vector<Shortage> missing;
    for (auto& [key, need] : needsOf(jobs, unfit)) {
        for (const DrawerLot& lot : drawer.lots) {
            need.there += isOf(lot, need.kind, need.value, need.type) ? leftFor(given, lot) : 0;
        }
        need.missing = need.needed - need.there;
        if (need.missing > 0) {
            need.sentence = sentenceFor(need);
            missing.push_back(std::move(need));
        }
    }
    return missing;
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/drawing_edits.h"

#include "core/base/text.h"
#include "core/drawing/rejoin.h"
#include "core/plan/apply.h"
#include "core/plan/edits.h"

#include <algorithm>
#include <type_traits>
#include <utility>
#include <variant>

namespace ohmwright {
namespace {

using GoneInto = std::map<NetName, NetName>;

void follow(NetName& net, const GoneInto& goneInto) {
    const auto gone = goneInto.find(net);
    net = gone != goneInto.end() ? gone->second : net;
}

template <class SomeChange>
void followNets(SomeChange& change, const GoneInto& goneInto) {
    std::visit(
        [&goneInto](auto& one) {
            using One = std::remove_cvref_t<decltype(one)>;
            if constexpr (std::is_same_v<One, MoveLeg>) {
                follow(one.net, goneInto);
            } else if constexpr (std::is_same_v<One, AddPart>) {
                for (NetName& net : one.nets) {
                    follow(net, goneInto);
                }
            } else if constexpr (std::is_same_v<One, Combined>) {
                for (SingleChange& single : one.changes) {
                    followNets(single, goneInto);
                }
            } else if constexpr (std::is_same_v<One, FitSwitch>) {
                for (SwitchThrow& position : one.throws) {
                    for (auto& single : position.changes) {
                        followNets(single, goneInto);
                    }
                }
            }
        },
        change);
}

/// The first mod that worked on the circuit before and does not work on the one after.
Result<void> requireMods(const Circuit& before, const Circuit& after, const Plan& plan) {
    Circuit was = before;
    Circuit is = after;
    for (const Mod& mod : plan) {
        const Result<Circuit> worked = applyMod(was, mod);
        if (!worked) {
            continue;
        }
        const Result<Circuit> works = applyMod(is, mod);
        if (!works) {
            return Error{ErrorCode::invalidInput,
                         works.error().message + " The plan works on it: take mod " + mod.letter +
                             " off the list first, or leave the drawing as it is.",
                         works.error().where};
        }
        was = *worked;
        is = *works;
    }
    return {};
}

/// A part whose nets are others than its lines show (a leg was corrected) and that the edit would put back on its
/// lines.
const Part* putBack(const Circuit& before, const Circuit& after) {
    const Circuit shown = rejoin(before).circuit;
    for (std::size_t i = 0; i < before.parts.size(); ++i) {
        const Part& part = before.parts[i];
        if (shown.parts[i].nets != part.nets) {
            const Part* edited = findPart(after, part.id);
            if (edited && edited->nets != part.nets) {
                return &part;
            }
        }
    }
    return nullptr;
}

void renamePart(Circuit& circuit, const PartId& id, const PartId& name) {
    const auto follow = [&](PartId& other) { other = other == id ? name : other; };
    for (Part& part : circuit.parts) {
        follow(part.id);
        std::for_each(part.controls.begin(), part.controls.end(), follow);
    }
    for (Knob& knob : circuit.knobs) {
        follow(knob.part);
    }
    for (Stage& stage : circuit.stages) {
        std::for_each(stage.parts.begin(), stage.parts.end(), follow);
    }
    for (PartId* port : {&circuit.ports.source, &circuit.ports.battery, &circuit.ports.load}) {
        follow(*port);
    }
}

/// Parts that were put down under a name that the plan has for a part it fits get the next one that is free.
void keepOffThePlansNames(Job& edited, const Circuit& before) {
    for (std::size_t i = 0; i < edited.stock.parts.size(); ++i) {
        const Part part = edited.stock.parts[i];
        const bool isTaken =
            !findPart(before, part.id) && std::any_of(edited.plan.begin(), edited.plan.end(), [&part](const Mod& mod) {
                const std::vector<const NewPart*> fitted = newPartsOf(mod.change);
                return fitsPart(mod, part.id) || std::any_of(fitted.begin(), fitted.end(), [&part](const NewPart* one) {
                           return one->reference == part.reference;
                       });
            });
        if (isTaken) {
            edited.stock.parts[i].reference = nextFreeReference(edited, part.kind);
            PartId id = inLowerCase(edited.stock.parts[i].reference);
            while (findPart(edited.stock, id)) {
                id += "'";
            }
            renamePart(edited.stock, part.id, id);
        }
    }
}

}  // namespace

Result<Job> withDrawing(const Job& job, const EditResult& edit) {
    if (!edit) {
        return edit.error();
    }
    if (const Part* part = putBack(job.stock, edit->circuit)) {
        return Error{ErrorCode::invalidInput,
                     displayName(*part) +
                         " is joined elsewhere than its lines show, since a leg of it was corrected: "
                         "pick it and tidy it first.",
                     part->reference};
    }
    Job edited = job;
    edited.stock = edit->circuit;
    keepOffThePlansNames(edited, job.stock);
    for (Mod& mod : edited.plan) {
        followNets(mod.change, edit->goneInto);
    }
    if (const Result<void> sound = requireMods(job.stock, edited.stock, edited.plan); !sound) {
        return sound.error();
    }
    for (UnitReading& reading : edited.visit.readings) {
        follow(reading.net, edit->goneInto);
    }
    std::erase_if(edited.setting.knobs, [&](const auto& knob) {
        return findKnob(job.stock, knob.first) && !findKnob(edited.stock, knob.first);
    });
    return edited;
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/mod.h"

#include "core/base/value_text.h"

namespace ohmwright {

namespace {

/// The printed number of a pin, or its place from 1.
std::string legOf(const Part* part, int pin) {
    const auto index = static_cast<std::size_t>(pin);
    if (part && pin >= 0 && index < part->pins.size() && !part->pins[index].empty()) {
        return part->pins[index];
    }
    return std::to_string(pin + 1);
}

std::string whatIsFitted(const NewPart& part) {
    if (!part.model.name.empty()) {
        return part.model.name;
    }
    return part.kind == PartKind::link ? "wire" : formatPartValue({part.value, unitOf(part.kind)});
}

/// One sentence part a kind of change; `part` is null for a part that another mod fits.
struct ChangeDescriber {
    const Part* part;

    std::string operator()(const SwapValue& change) const {
        if (!part) {
            return "new value";
        }
        const Unit unit = unitOf(part->kind);
        return formatPartValue({part->value, unit}) + " → " + formatPartValue({change.value, unit});
    }
    std::string operator()(const SwapType& change) const {
        return (part ? part->model + " → " : std::string()) + change.model.name;
    }
    std::string operator()(const AddInSeries& change) const {
        return whatIsFitted(change.fitted) + (change.reversed ? " in series, reversed" : " in series");
    }
    std::string operator()(const AddAcross& change) const {
        return whatIsFitted(change.fitted) + (change.reversed ? " across, reversed" : " across");
    }
    std::string operator()(const Lift& change) const { return "leg " + legOf(part, change.pin) + " lifted"; }
    std::string operator()(const Bridge& change) const {
        return "legs " + legOf(part, change.pinA) + " and " + legOf(part, change.pinB) + " bridged";
    }
};

}  // namespace

const PartId& targetOf(const Change& change) {
    return std::visit([](const auto& kind) -> const PartId& { return kind.part; }, change);
}

std::string describeChange(const Circuit& stock, const Change& change) {
    return std::visit(ChangeDescriber{findPart(stock, targetOf(change))}, change);
}

std::string_view changeKind(const Change& change) {
    struct Namer {
        std::string_view operator()(const SwapValue&) const { return "swap value"; }
        std::string_view operator()(const SwapType&) const { return "swap type"; }
        std::string_view operator()(const AddInSeries&) const { return "add in series"; }
        std::string_view operator()(const AddAcross&) const { return "add across"; }
        std::string_view operator()(const Lift&) const { return "lift"; }
        std::string_view operator()(const Bridge&) const { return "bridge"; }
    };
    return std::visit(Namer{}, change);
}

}  // namespace ohmwright

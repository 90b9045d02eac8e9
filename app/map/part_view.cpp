// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/part_view.h"

#include "app/look/law_text.h"
#include "app/look/level_units.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "core/base/value_text.h"
#include "core/plan/board_walk.h"

#include <QStringList>

#include <algorithm>
#include <array>
#include <cmath>

namespace ohmwright {
namespace {

QString modelText(const Part& part, const std::string& model) {
    const bool isDualPackage = part.kind == PartKind::opamp && part.pins.size() == 5 && part.pins[3] == "8";
    return isDualPackage ? QObject::tr("half %1").arg(text(model)) : text(model);
}

/// The part on the board that a mod works on, were it through parts that other mods fit.
PartId hostOf(const Plan& plan, const Mod& mod) {
    PartId host = targetOf(mod.change);
    for (std::size_t steps = 0; steps < plan.size(); ++steps) {
        const auto fits =
            std::find_if(plan.begin(), plan.end(), [&host](const Mod& each) { return fitsPart(each, host); });
        if (fits == plan.end()) {
            break;
        }
        host = targetOf(fits->change);
    }
    return host;
}

/// Writes one active mod into the view of the part it changes.
struct ChangeWriter {
    const Job& job;
    const Part& part;
    const Mod& mod;
    PartView& view;

    void operator()(const SwapValue& change) const {
        view.swapped = view.swapped || change.value != part.value;
        Part changed = part;
        changed.value = change.value;
        view.nowValue = valueText(job, changed, change.value);
    }
    void operator()(const SwapType& change) const {
        view.swapped = view.swapped || change.model.name != part.model;
        view.nowValue = modelText(part, change.model.name);
    }
    void operator()(const AddInSeries& change) const {
        view.fitted.push_back(
            {{{idOf(mod, change.fitted), change.fitted, change.reversed}}, change.pin, change.pin, false, false});
    }
    void operator()(const AddAcross& change) const {
        view.fitted.push_back(
            {{{idOf(mod, change.fitted), change.fitted, false}}, change.pinA, change.pinB, true, change.reversed});
    }
    void operator()(const Lift& change) const { view.liftedPins.push_back(change.pin); }
    void operator()(const Bridge& change) const { view.bridges.emplace_back(change.pinA, change.pinB); }
    void operator()(const RemovePart&) const {
        view.removed = true;
        view.swapped = true;
        view.nowValue = QObject::tr("out");
    }
    void operator()(const ChangePot& change) const {
        view.swapped = true;
        Part changed = part;
        changed.value = change.ohms;
        changed.taper = change.taper;
        changed.shareAtHalf = change.shareAtHalf;
        view.nowValue = valueText(job, changed, change.ohms);
    }
    void operator()(const MoveLeg& change) const { view.liftedPins.push_back(change.pin); }
    void operator()(const AddPart&) const {}  // It stands beside the part, not in it.
};

/// Writes one active mod into the chain that holds the part it works on. What lies across a fitted part, a lifted leg
/// of it and a bridge over it have no room on the drawing: the triangle alone tells of them.
struct LinkWriter {
    const Mod& mod;
    FittedView& fitted;
    std::size_t place;

    void operator()(const SwapValue& change) const { fitted.links[place].part.value = change.value; }
    void operator()(const SwapType& change) const { fitted.links[place].part.model = change.model; }
    void operator()(const AddInSeries& change) const {
        const auto at = fitted.links.begin() + static_cast<std::ptrdiff_t>(place) + (change.pin == 0 ? 0 : 1);
        fitted.links.insert(at, {idOf(mod, change.fitted), change.fitted, change.reversed});
    }
    template <class Other>
    void operator()(const Other& /*change*/) const {}
};

void writeOnFitted(const Mod& mod, std::vector<FittedView>& all) {
    for (FittedView& fitted : all) {
        for (std::size_t place = 0; place < fitted.links.size(); ++place) {
            if (fitted.links[place].mod == targetOf(mod.change)) {
                std::visit(LinkWriter{mod, fitted, place}, singleChanges(mod.change).front());
                return;
            }
        }
    }
}

QString spokenValue(const Job& job, const Part& part, double value) {
    if (!hasValue(part.kind)) {
        return valueText(job, part, value);
    }
    struct Prefix {
        double factor;
        const char* word;
    };
    static constexpr std::array<Prefix, 7> prefixes{{{1e6, toSay("%1 mega")},
                                                     {1e3, toSay("%1 kilo")},
                                                     {1.0, "%1"},
                                                     {1e-3, toSay("%1 milli")},
                                                     {1e-6, toSay("%1 micro")},
                                                     {1e-9, toSay("%1 nano")},
                                                     {1e-12, toSay("%1 pico")}}};
    // Half a part in a thousand: 999.9995 n is spoken as 1 micro, not as 1000 nano.
    const auto prefix = std::find_if(prefixes.begin(), prefixes.end(), [value](const Prefix& candidate) {
        return std::abs(value) * 1.0005 >= candidate.factor;
    });
    const Prefix& chosen = prefix == prefixes.end() ? prefixes.back() : *prefix;
    return saidText(chosen.word).arg(numberText(value / chosen.factor, 'g', 4));
}

QString spokenKnowledge(Knowledge knowledge) {
    switch (knowledge) {
        case Knowledge::drawn:
            return QObject::tr("drawn");
        case Knowledge::seen:
            return QObject::tr("seen");
        case Knowledge::measured:
            return QObject::tr("measured");
    }
    return {};
}

double nowValueOf(const Job& job, const Part& part) {
    double value = part.value;
    for (const Mod& mod : job.plan) {
        for (const SingleChange& change : singleChanges(mod.change, throwOf(job.setting.throws, mod.id))) {
            const auto* swap = std::get_if<SwapValue>(&change);
            if (mod.on && swap && swap->part == part.id) {
                value = swap->value;
            }
        }
    }
    return value;
}

}  // namespace

QString valueText(const Job& job, const Part& part, double value) {
    if (!part.model.empty()) {
        return modelText(part, part.model);
    }
    if (part.id == job.stock.ports.source) {
        return part.kind == PartKind::currentSource ? numberText(job.setting.pickVoltsPeak * 1000.0, 'g', 4) + " mApk"
                                                    : pickLevelText(job.setting.pickVoltsPeak);
    }
    if (part.id == job.stock.ports.battery) {
        return text(formatPartValue(volts(job.setting.batteryVolts)));
    }
    if (QString law = lawText(part); !law.isEmpty()) {
        return law;
    }
    return text(formatPartValue({value, unitOf(part.kind)}));
}

PartView viewOf(const Job& job, const Part& part, bool holdsStock) {
    PartView view;
    view.reference = text(part.reference);
    // A pot's function is its knob's name, which the stage's head says with its position.
    view.function = knobOf(job.stock, part.id) ? QString() : text(part.function);
    view.stockValue = valueText(job, part, part.value);
    view.nowValue = view.stockValue;
    view.knowledge = part.knowledge;
    view.isOnBoard = isOnBoard(job.stock, part);
    if (holdsStock) {
        return view;
    }
    for (const Mod& mod : job.plan) {
        const std::vector<Mod> singles = asSingleMods(mod, throwOf(job.setting.throws, mod.id));
        const auto isHere = [&](const Mod& each) { return hostOf(job.plan, each) == part.id; };
        if (!isHere(mod) && std::none_of(singles.begin(), singles.end(), isHere)) {
            continue;
        }
        view.marks.push_back({text(mod.letter), mod.on});
        for (const Mod& single : singles) {
            if (single.on && targetOf(single.change) == part.id) {
                std::visit(ChangeWriter{job, part, single, view}, singleChanges(single.change).front());
            } else if (single.on && isHere(single)) {
                writeOnFitted(single, view.fitted);
            }
        }
    }
    return view;
}

QString fittedWords(const FittedView& fitted) {
    QString names;
    for (const FittedLink& link : fitted.links) {
        const QString reference = text(link.part.reference);
        names = names.isEmpty() ? reference : QObject::tr("%1 and %2").arg(names, reference);
    }
    return (fitted.across ? QObject::tr("%1 across") : QObject::tr("%1 in series")).arg(names);
}

QString spokenName(const Job& job, const Part& part, bool holdsStock) {
    const PartView view = viewOf(job, part, holdsStock);
    QStringList words{text(displayName(part)), saidText(kindName(part.kind))};
    const bool isValueSwap = view.swapped && part.model.empty();
    words << QObject::tr("stock %1").arg(spokenValue(job, part, part.value));
    if (view.swapped) {
        words << QObject::tr("now %1").arg(isValueSwap ? spokenValue(job, part, nowValueOf(job, part)) : view.nowValue);
    }
    for (const FittedView& fitted : view.fitted) {
        words << fittedWords(fitted);
    }
    for (const int pin : view.liftedPins) {
        words << QObject::tr("leg %1 lifted").arg(pin + 1);
    }
    if (!view.bridges.empty()) {
        words << QObject::tr("bridged");
    }
    for (const ModMark& mark : view.marks) {
        words << (mark.on ? QObject::tr("mod %1") : QObject::tr("mod %1 off")).arg(mark.letter);
    }
    if (view.isOnBoard) {
        words << spokenKnowledge(view.knowledge);
    }
    return words.join(", ");
}

QString spokenValues(const Job& job, const Part& part, bool holdsStock) {
    const PartView view = viewOf(job, part, holdsStock);
    QString stock = spokenValue(job, part, part.value);
    if (!view.swapped) {
        return stock;
    }
    const bool isValueSwap = part.model.empty() && !view.removed;
    return QObject::tr("now %1, stock %2")
        .arg(isValueSwap ? spokenValue(job, part, nowValueOf(job, part)) : view.nowValue, stock);
}

double plainValue(const Job& job, const Part& part, bool holdsStock) {
    return !hasValue(part.kind) ? 0.0 : holdsStock ? part.value : nowValueOf(job, part);
}

bool hasActiveMod(const Job& job, const Stage& stage) {
    return std::any_of(job.plan.begin(), job.plan.end(), [&job, &stage](const Mod& mod) {
        const PartId host = hostOf(job.plan, mod);
        return mod.on && std::find(stage.parts.begin(), stage.parts.end(), host) != stage.parts.end();
    });
}

bool hasTurnedModel(const Circuit& circuit, const Part& part) {
    const Model* model = part.model.empty() ? nullptr : findModel(circuit, part.model);
    if (!model) {
        return false;
    }
    const auto polarity = model->parameters.find("POLARITY");  // devices/bipolar.h, jfet.h, mosfet.h
    return polarity != model->parameters.end() && polarity->second < 0.0;
}

bool hasDrawing(const Circuit& circuit) {
    return std::any_of(circuit.parts.begin(), circuit.parts.end(),
                       [](const Part& part) { return part.placement.has_value(); });
}

QString packageName(const std::string& reference) {
    QString name = text(reference);
    if (name.size() > 2 && name.back().isLetter() && name.at(name.size() - 2).isDigit()) {
        name.chop(1);
    }
    return name;
}

std::vector<PartId> signalOrder(const Circuit& circuit) {
    struct Place {
        std::size_t stage;
        int x;
        int y;
        PartId id;
        auto key() const { return std::tie(stage, x, y); }
    };
    std::vector<Place> places;
    for (const Part& part : circuit.parts) {
        if (!part.placement) {
            continue;
        }
        const Stage* stage = stageOfPart(circuit, part.id);
        const std::size_t index =
            stage ? static_cast<std::size_t>(stage - circuit.stages.data()) : circuit.stages.size();
        places.push_back({index, part.placement->at.x, part.placement->at.y, part.id});
    }
    std::stable_sort(places.begin(), places.end(), [](const Place& a, const Place& b) { return a.key() < b.key(); });
    std::vector<PartId> order;
    order.reserve(places.size());
    for (const Place& place : places) {
        order.push_back(place.id);
    }
    return order;
}

}  // namespace ohmwright

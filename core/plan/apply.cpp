// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/apply.h"

#include "core/circuit/check.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ohmwright {

namespace {

std::string nameOf(const Mod& mod) {
    std::string name = "Mod " + (mod.letter.empty() ? mod.id : mod.letter);
    return mod.name.empty() ? name : name + " (" + mod.name + ")";
}

std::string withArticle(PartKind kind) {
    const std::string_view name = kindName(kind);
    const bool startsWithVowel = std::string_view("aeiou").find(name.front()) != std::string_view::npos;
    return (startsWithVowel ? "an " : "a ") + std::string(name);
}

/// One mod at work on its own copy of the circuit. The first thing that is wrong ends it.
class Fitter {
public:
    Fitter(const Circuit& circuit, const Mod& mod) : m_circuit(circuit), m_mod(mod) {}

    Result<Circuit> fit() {
        m_target = findPart(m_circuit, targetOf(m_mod.change));
        if (!m_target) {
            return wrong("There is no part \"" + targetOf(m_mod.change) + "\" in the circuit. Choose another part.");
        }
        const Result<void> done = std::visit([this](const auto& change) { return make(change); }, m_mod.change);
        if (!done) {
            return done.error();
        }
        return std::move(m_circuit);
    }

private:
    Result<void> make(const SwapValue& change);
    Result<void> make(const SwapType& change);
    Result<void> make(const AddInSeries& change);
    Result<void> make(const AddAcross& change);
    Result<void> make(const Lift& change);
    Result<void> make(const Bridge& change);

    [[nodiscard]] Error wrong(const std::string& sentence) const;
    [[nodiscard]] Result<void> requirePin(int pin) const;
    [[nodiscard]] Result<void> requireTwoPins(int pinA, int pinB) const;
    [[nodiscard]] Result<void> requireFittable(const NewPart& part) const;
    [[nodiscard]] Result<void> requireValue(PartKind kind, const std::string& name, double value) const;
    Result<void> bringModel(const Model& model);
    void addFitted(const NewPart& fitted, const NetName& first, const NetName& second);
    void addToStages(const PartId& part);

    [[nodiscard]] NetName& netOf(int pin) { return m_target->nets[static_cast<std::size_t>(pin)]; }
    [[nodiscard]] std::string legName(int pin) const;
    [[nodiscard]] NetName newNet(const std::string& wish) const;
    [[nodiscard]] bool isTaken(const NetName& net) const;

    Circuit m_circuit;
    const Mod& m_mod;
    Part* m_target = nullptr;  ///< In m_circuit; void once a part was added.
};

/// Conventional current flows into the part here when it conducts as it is meant to: an anode, the "+" of a polarised
/// capacitor, a collector, a base; not a cathode, an emitter, an output, the "+" of a supply.
bool currentEntersAt(PartKind kind, int pin) {
    switch (kind) {
        case PartKind::bipolar:
            return pin < 2;
        case PartKind::opamp:
            return pin != 2 && pin != 4;
        case PartKind::voltageSource:
            return pin == 1;
        default:
            return pin == 0;
    }
}

Result<void> Fitter::make(const SwapValue& change) {
    if (!hasValue(m_target->kind)) {
        return wrong(displayName(*m_target) + " is " + withArticle(m_target->kind) +
                     " and has no value to swap. Swap its type or choose another part.");
    }
    const Result<void> value = requireValue(m_target->kind, displayName(*m_target), change.value);
    if (!value) {
        return value.error();
    }
    m_target->value = change.value;
    // The marking and the reading belong to the part that comes off.
    m_target->printed.clear();
    m_target->measured.reset();
    return {};
}

Result<void> Fitter::make(const SwapType& change) {
    if (unitOf(m_target->kind) != Unit::none || m_target->kind == PartKind::link) {
        return wrong(displayName(*m_target) + " is " + withArticle(m_target->kind) +
                     " and has no type to swap. Swap its value or choose another part.");
    }
    if (change.model.kind != m_target->kind) {
        return wrong(change.model.name + " is " + withArticle(change.model.kind) + " and cannot stand for " +
                     displayName(*m_target) + ", " + withArticle(m_target->kind) + ". Choose a type of the same kind.");
    }
    const Result<void> model = bringModel(change.model);
    if (!model) {
        return model.error();
    }
    m_target->model = change.model.name;
    m_target->printed.clear();
    return {};
}

Result<void> Fitter::make(const AddInSeries& change) {
    for (const Result<void>& required : {requirePin(change.pin), requireFittable(change.fitted)}) {
        if (!required) {
            return required.error();
        }
    }
    const NetName joint = newNet(legName(change.pin) + " to " + change.fitted.reference);
    const NetName before = std::exchange(netOf(change.pin), joint);
    if (currentEntersAt(m_target->kind, change.pin) != change.reversed) {
        addFitted(change.fitted, before, joint);
    } else {
        addFitted(change.fitted, joint, before);
    }
    return bringModel(change.fitted.model);
}

Result<void> Fitter::make(const AddAcross& change) {
    for (const Result<void>& required : {requireTwoPins(change.pinA, change.pinB), requireFittable(change.fitted)}) {
        if (!required) {
            return required.error();
        }
    }
    const NetName atA = netOf(change.pinA);
    const NetName atB = netOf(change.pinB);
    addFitted(change.fitted, change.reversed ? atB : atA, change.reversed ? atA : atB);
    return bringModel(change.fitted.model);
}

Result<void> Fitter::make(const Lift& change) {
    const Result<void> pin = requirePin(change.pin);
    if (!pin) {
        return pin.error();
    }
    const std::vector<NetName>& open = m_circuit.openNets;
    if (std::find(open.begin(), open.end(), netOf(change.pin)) != open.end()) {
        return wrong("Leg " + legName(change.pin) + " is lifted already. Choose another leg.");
    }
    const std::vector<NetName> loose = netsWithoutDcPath(m_circuit);
    netOf(change.pin) = newNet(legName(change.pin) + " open");
    m_circuit.openNets.push_back(netOf(change.pin));
    // What only this leg held to a voltage floats now as the leg does, on purpose: a net between two capacitors.
    for (const NetName& net : netsWithoutDcPath(m_circuit)) {
        if (std::find(loose.begin(), loose.end(), net) == loose.end()) {
            m_circuit.openNets.push_back(net);
        }
    }
    return {};
}

Result<void> Fitter::make(const Bridge& change) {
    const Result<void> pins = requireTwoPins(change.pinA, change.pinB);
    if (!pins) {
        return pins.error();
    }
    NewPart wire;
    wire.reference = "W" + (m_mod.letter.empty() ? m_mod.id : m_mod.letter);
    wire.kind = PartKind::link;
    wire.value = linkOhms;
    const Result<void> fittable = requireFittable(wire);
    if (!fittable) {
        return fittable.error();
    }
    const NetName atA = netOf(change.pinA);
    addFitted(wire, atA, netOf(change.pinB));
    return {};
}

Error Fitter::wrong(const std::string& sentence) const {
    return {ErrorCode::invalidInput, sentence, m_target ? m_target->reference : targetOf(m_mod.change)};
}

Result<void> Fitter::requirePin(int pin) const {
    const auto pins = static_cast<int>(m_target->nets.size());
    if (pin < 0 || pin >= pins) {
        return wrong(displayName(*m_target) + " has no leg " + std::to_string(pin + 1) + "; it has " +
                     std::to_string(pins) + ". Choose one of them.");
    }
    return {};
}

Result<void> Fitter::requireTwoPins(int pinA, int pinB) const {
    for (const Result<void>& pin : {requirePin(pinA), requirePin(pinB)}) {
        if (!pin) {
            return pin.error();
        }
    }
    const std::vector<NetName>& nets = m_target->nets;
    if (nets[static_cast<std::size_t>(pinA)] == nets[static_cast<std::size_t>(pinB)]) {
        return wrong("Legs " + std::to_string(pinA + 1) + " and " + std::to_string(pinB + 1) + " of " +
                     displayName(*m_target) + " are joined already. Choose two legs on different nets.");
    }
    return {};
}

Result<void> Fitter::requireFittable(const NewPart& part) const {
    if (part.reference.empty()) {
        return wrong("The new part has no reference. Give it one, such as D3.");
    }
    if (pinCount(part.kind) != 2) {
        return wrong(part.reference + " is " + withArticle(part.kind) +
                     " and has more than two legs. Only a part with two can be added.");
    }
    if (m_mod.id.empty() || findPart(m_circuit, m_mod.id)) {
        return wrong("The mod's id \"" + m_mod.id + "\" cannot become the id of " + part.reference +
                     ": a part has it already. Give the mod another id.");
    }
    if (part.kind == PartKind::diode && (part.model.name.empty() || part.model.kind != part.kind)) {
        return wrong(part.reference + " has no diode type. Choose one, such as 1N4148.");
    }
    return requireValue(part.kind, part.reference, part.value);
}

Result<void> Fitter::requireValue(PartKind kind, const std::string& name, double value) const {
    const std::optional<ValueLimits> limits = valueLimits(kind);
    if (limits ? !limits->hold(value) : !std::isfinite(value)) {
        return wrong(name + " would get a value that no " + std::string(kindName(kind)) + " has. Choose one from " +
                     (limits ? std::string(limits->words) : "what can be measured") + ".");
    }
    return {};
}

Result<void> Fitter::bringModel(const Model& model) {
    if (model.name.empty()) {
        return {};
    }
    const Model* known = findModel(m_circuit, model.name);
    if (!known) {
        m_circuit.models.push_back(model);
        return {};
    }
    if (known->kind != model.kind || known->parameters != model.parameters) {
        return wrong("The circuit has a type " + model.name +
                     " with other parameters. Give one of the two another name.");
    }
    return {};
}

void Fitter::addFitted(const NewPart& fitted, const NetName& first, const NetName& second) {
    Part part;
    part.id = m_mod.id;
    part.reference = fitted.reference;
    part.role = m_mod.name;
    part.kind = fitted.kind;
    part.value = fitted.kind == PartKind::link ? linkOhms : fitted.value;
    part.model = fitted.model.name;
    part.tolerance = fitted.tolerance;
    part.nets = {first, second};
    addToStages(part.id);
    m_circuit.parts.push_back(std::move(part));
    m_target = findPart(m_circuit, targetOf(m_mod.change));
}

void Fitter::addToStages(const PartId& part) {
    for (Stage& stage : m_circuit.stages) {
        if (std::find(stage.parts.begin(), stage.parts.end(), m_target->id) != stage.parts.end()) {
            stage.parts.push_back(part);
        }
    }
}

/// "C4.1", "U1A.2": reference and printed number, or place from 1.
std::string Fitter::legName(int pin) const {
    const auto index = static_cast<std::size_t>(pin);
    const bool isPrinted = index < m_target->pins.size() && !m_target->pins[index].empty();
    return m_target->reference + "." + (isPrinted ? m_target->pins[index] : std::to_string(pin + 1));
}

/// `wish`, unless a part with the same reference has brought that net: then with the target's id as well.
NetName Fitter::newNet(const std::string& wish) const {
    NetName net = wish;
    for (int i = 1; isTaken(net); ++i) {
        net = wish + " (" + m_target->id + (i == 1 ? ")" : ", " + std::to_string(i) + ")");
    }
    return net;
}

bool Fitter::isTaken(const NetName& net) const {
    return std::any_of(m_circuit.parts.begin(), m_circuit.parts.end(), [&net](const Part& part) {
        return std::find(part.nets.begin(), part.nets.end(), net) != part.nets.end();
    });
}

bool fitsAPart(const Change& change) {
    return std::holds_alternative<AddInSeries>(change) || std::holds_alternative<AddAcross>(change) ||
           std::holds_alternative<Bridge>(change);
}

/// Why the part that `plan[index]` works on is not there, when another mod would fit it.
std::optional<Error> missingHost(const Plan& plan, std::size_t index) {
    const Mod& mod = plan[index];
    const PartId& target = targetOf(mod.change);
    for (std::size_t i = 0; i < plan.size(); ++i) {
        const Mod& host = plan[i];
        if (host.id != target || !fitsAPart(host.change) || (host.on && i <= index)) {
            continue;
        }
        const std::string sentence = nameOf(mod) + " works on the part that " + nameOf(host) + " fits, and that mod ";
        return Error{ErrorCode::invalidInput,
                     sentence + (host.on ? "comes after it. Move " + host.letter + " before " + mod.letter + "."
                                         : "is off. Switch " + host.letter + " on or " + mod.letter + " off."),
                     target};
    }
    return std::nullopt;
}

}  // namespace

Result<Circuit> applyMod(const Circuit& circuit, const Mod& mod) {
    return Fitter(circuit, mod).fit();
}

Result<Circuit> applyPlan(const Circuit& stock, const Plan& plan) {
    Circuit now = stock;
    for (std::size_t i = 0; i < plan.size(); ++i) {
        if (!plan[i].on) {
            continue;
        }
        if (!findPart(now, targetOf(plan[i].change))) {
            if (std::optional<Error> missing = missingHost(plan, i)) {
                return *std::move(missing);
            }
        }
        Result<Circuit> next = applyMod(now, plan[i]);
        if (!next) {
            Error error = next.error();
            error.message = nameOf(plan[i]) + ": " + error.message;
            return error;
        }
        now = *std::move(next);
    }
    return now;
}

Result<Circuit> applyAlone(const Circuit& stock, const Mod& mod) {
    return applyMod(stock, mod);
}

}  // namespace ohmwright

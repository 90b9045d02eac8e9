// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/apply.h"

#include "core/base/said.h"
#include "core/circuit/check.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace ohmwright {

namespace {

/// "a resistor", "an op-amp".
std::string withArticle(PartKind kind) {
    constexpr std::array names{
        toSay("a resistor"),
        toSay("a capacitor"),
        toSay("an inductor"),
        toSay("a pot"),
        toSay("a link"),
        toSay("a diode"),
        toSay("a transistor"),
        toSay("an op-amp"),
        toSay("a voltage source"),
        toSay("a current source"),
        toSay("a JFET"),
        toSay("a MOSFET"),
        toSay("a triode"),
        toSay("a pentode"),
        toSay("a switch"),
        toSay("a coupling"),
        toSay("a controlled voltage source"),
        toSay("a controlled current source"),
        toSay("a current-controlled current source"),
        toSay("a current-controlled voltage source"),
        toSay("a behavioural voltage source"),
        toSay("a behavioural current source"),
    };
    return said(names.at(static_cast<std::size_t>(kind)));
}

/// One mod at work on its own copy of the circuit. The first thing that is wrong ends it.
class Fitter {
public:
    Fitter(const Circuit& circuit, const Mod& mod) : m_circuit(circuit), m_mod(mod) {}

    Result<Circuit> fit(const std::string& throwName) {
        if (const std::optional<Error> unknown = unknownThrow(throwName)) {
            return *unknown;
        }
        for (const SingleChange& change : singleChanges(m_mod.change, throwName)) {
            m_targetId = targetOf(change);
            m_target = findPart(m_circuit, m_targetId);
            if (!m_target) {
                return wrong(said("There is no part \"%1\" in the circuit. Choose another part.", m_targetId));
            }
            const Result<void> done = std::visit([this](const auto& kind) { return make(kind); }, change);
            if (!done) {
                return done.error();
            }
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
    Result<void> make(const RemovePart& change);
    Result<void> make(const ChangePot& change);
    Result<void> make(const MoveLeg& change);
    Result<void> make(const AddPart& change);

    [[nodiscard]] std::optional<Error> unknownThrow(const std::string& throwName) const;
    [[nodiscard]] Error wrong(const std::string& sentence) const;
    [[nodiscard]] Result<void> requirePin(int pin) const;
    [[nodiscard]] Result<void> requireTwoPins(int pinA, int pinB) const;
    [[nodiscard]] Result<void> requireFittable(const NewPart& part) const;
    [[nodiscard]] Result<void> requireTwoLegs(const NewPart& part) const;
    [[nodiscard]] Result<void> requireValue(PartKind kind, const std::string& name, double value) const;
    void forgetOldBody();
    Result<void> bringModel(const Model& model);
    void addFitted(const NewPart& fitted, std::vector<NetName> nets);
    void openWhatFloats(const std::vector<NetName>& floatedBefore);
    void addToStages(const PartId& part);

    [[nodiscard]] NetName& netOf(int pin) { return m_target->nets[static_cast<std::size_t>(pin)]; }
    [[nodiscard]] std::string legName(int pin) const;
    [[nodiscard]] NetName newNet(const std::string& wish) const;
    [[nodiscard]] bool isTaken(const NetName& net) const;

    Circuit m_circuit;
    const Mod& m_mod;
    PartId m_targetId;
    Part* m_target = nullptr;  ///< In m_circuit; found anew once a part was added or taken out.
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

/// Marking, build and reading belong to the part that comes off; which one is fitted is not chosen yet.
void Fitter::forgetOldBody() {
    m_target->printed.clear();
    m_target->build.clear();
    m_target->measured.reset();
    if (m_target->knowledge == Knowledge::measured) {
        m_target->knowledge = Knowledge::seen;
    }
}

Result<void> Fitter::make(const SwapValue& change) {
    if (!hasValue(m_target->kind)) {
        return wrong(said("%1 is %2 and has no value to swap. Swap its type or choose another part.",
                          displayName(*m_target), withArticle(m_target->kind)));
    }
    const Result<void> value = requireValue(m_target->kind, displayName(*m_target), change.value);
    if (!value) {
        return value.error();
    }
    m_target->value = change.value;
    forgetOldBody();
    return {};
}

Result<void> Fitter::make(const SwapType& change) {
    if (unitOf(m_target->kind) != Unit::none || m_target->kind == PartKind::link) {
        return wrong(said("%1 is %2 and has no type to swap. Swap its value or choose another part.",
                          displayName(*m_target), withArticle(m_target->kind)));
    }
    if (change.model.kind != m_target->kind) {
        return wrong(said("%1 is %2 and cannot stand for %3, %4. Choose a type of the same kind.", change.model.name,
                          withArticle(change.model.kind), displayName(*m_target), withArticle(m_target->kind)));
    }
    const Result<void> model = bringModel(change.model);
    if (!model) {
        return model.error();
    }
    m_target->model = change.model.name;
    forgetOldBody();
    return {};
}

Result<void> Fitter::make(const AddInSeries& change) {
    for (const Result<void>& required :
         {requirePin(change.pin), requireTwoLegs(change.fitted), requireFittable(change.fitted)}) {
        if (!required) {
            return required.error();
        }
    }
    const NetName joint = newNet(legName(change.pin) + " to " + change.fitted.reference);
    const NetName before = std::exchange(netOf(change.pin), joint);
    if (currentEntersAt(m_target->kind, change.pin) != change.reversed) {
        addFitted(change.fitted, {before, joint});
    } else {
        addFitted(change.fitted, {joint, before});
    }
    return bringModel(change.fitted.model);
}

Result<void> Fitter::make(const AddAcross& change) {
    for (const Result<void>& required :
         {requireTwoPins(change.pinA, change.pinB), requireTwoLegs(change.fitted), requireFittable(change.fitted)}) {
        if (!required) {
            return required.error();
        }
    }
    const NetName atA = netOf(change.pinA);
    const NetName atB = netOf(change.pinB);
    addFitted(change.fitted, {change.reversed ? atB : atA, change.reversed ? atA : atB});
    return bringModel(change.fitted.model);
}

Result<void> Fitter::make(const Lift& change) {
    const Result<void> pin = requirePin(change.pin);
    if (!pin) {
        return pin.error();
    }
    const std::vector<NetName>& open = m_circuit.openNets;
    if (std::find(open.begin(), open.end(), netOf(change.pin)) != open.end()) {
        return wrong(said("Leg %1 is lifted already. Choose another leg.", legName(change.pin)));
    }
    const std::vector<NetName> loose = netsWithoutDcPath(m_circuit);
    netOf(change.pin) = newNet(legName(change.pin) + " open");
    m_circuit.openNets.push_back(netOf(change.pin));
    openWhatFloats(loose);
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
    addFitted(wire, {netOf(change.pinA), netOf(change.pinB)});
    return {};
}

Result<void> Fitter::make(const RemovePart&) {
    const auto isNamed = [this](const Part& other) {
        return std::find(other.controls.begin(), other.controls.end(), m_targetId) != other.controls.end();
    };
    const auto user = std::find_if(m_circuit.parts.begin(), m_circuit.parts.end(), isNamed);
    const Ports& ports = m_circuit.ports;
    if (user != m_circuit.parts.end()) {
        return wrong(said("%1 cannot come out alone: %2 depends on it. Take that one out first.",
                          displayName(*m_target), displayName(*user)));
    }
    if (m_targetId == ports.source || m_targetId == ports.battery || m_targetId == ports.load) {
        return wrong(
            said("%1 stands for what is connected to the unit and cannot come out. Change the setting instead.",
                 displayName(*m_target)));
    }
    const std::vector<NetName> loose = netsWithoutDcPath(m_circuit);
    std::erase_if(m_circuit.knobs, [this](const Knob& knob) { return knob.part == m_targetId; });
    for (Stage& stage : m_circuit.stages) {
        std::erase(stage.parts, m_targetId);
    }
    std::erase_if(m_circuit.parts, [this](const Part& part) { return part.id == m_targetId; });
    m_target = nullptr;
    openWhatFloats(loose);
    return {};
}

Result<void> Fitter::make(const ChangePot& change) {
    if (m_target->kind != PartKind::potentiometer) {
        return wrong(said("%1 is %2, and only a pot has a law. Choose a pot.", displayName(*m_target),
                          withArticle(m_target->kind)));
    }
    if (const Result<void> value = requireValue(m_target->kind, displayName(*m_target), change.ohms); !value) {
        return value.error();
    }
    if (!(change.shareAtHalf > 0.0 && change.shareAtHalf < 1.0)) {
        return wrong(said(
            "The share of the track of %1 at half travel must be between 0 and 100 %. 10 and 15 % are usual for log.",
            displayName(*m_target)));
    }
    m_target->value = change.ohms;
    m_target->taper = change.taper;
    m_target->shareAtHalf = change.shareAtHalf;
    forgetOldBody();
    return {};
}

Result<void> Fitter::make(const MoveLeg& change) {
    if (const Result<void> pin = requirePin(change.pin); !pin) {
        return pin.error();
    }
    if (change.net.empty()) {
        return wrong(said("Leg %1 is to move, but no net is named. Name one.", legName(change.pin)));
    }
    if (netOf(change.pin) == change.net) {
        return wrong(said("Leg %1 is at %2 already. Choose another net.", legName(change.pin), change.net));
    }
    const std::vector<NetName> loose = netsWithoutDcPath(m_circuit);
    netOf(change.pin) = change.net;
    openWhatFloats(loose);
    return {};
}

Result<void> Fitter::make(const AddPart& change) {
    if (const Result<void> fittable = requireFittable(change.fitted); !fittable) {
        return fittable.error();
    }
    const bool isWhole =
        static_cast<int>(change.nets.size()) == pinCount(change.fitted.kind) &&
        std::none_of(change.nets.begin(), change.nets.end(), [](const NetName& net) { return net.empty(); });
    if (!isWhole) {
        return wrong(said("%1 has %2 legs, and each needs a net. Name one for each.", change.fitted.reference,
                          pinCount(change.fitted.kind)));
    }
    addFitted(change.fitted, change.nets);
    return bringModel(change.fitted.model);
}

std::optional<Error> Fitter::unknownThrow(const std::string& throwName) const {
    const auto* fitted = std::get_if<FitSwitch>(&m_mod.change);
    if (!fitted || throwName.empty()) {
        return std::nullopt;
    }
    std::string names;
    for (const SwitchThrow& position : fitted->throws) {
        if (position.name == throwName) {
            return std::nullopt;
        }
        names += (names.empty() ? "" : ", ") + position.name;
    }
    return Error{ErrorCode::invalidInput, said("The switch has no throw \"%1\". Choose one of %2.", throwName, names),
                 m_mod.id};
}

/// Nets that nothing ties to ground any more float on purpose: one between two capacitors, a lifted leg.
void Fitter::openWhatFloats(const std::vector<NetName>& floatedBefore) {
    for (const NetName& net : netsWithoutDcPath(m_circuit)) {
        if (std::find(floatedBefore.begin(), floatedBefore.end(), net) == floatedBefore.end()) {
            m_circuit.openNets.push_back(net);
        }
    }
}

Error Fitter::wrong(const std::string& sentence) const {
    return {ErrorCode::invalidInput, sentence, m_target ? m_target->reference : m_targetId};
}

Result<void> Fitter::requirePin(int pin) const {
    const auto pins = static_cast<int>(m_target->nets.size());
    if (pin < 0 || pin >= pins) {
        return wrong(said("%1 has no leg %2; it has %3. Choose one of them.", displayName(*m_target), pin + 1, pins));
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
        return wrong(said("Legs %1 and %2 of %3 are joined already. Choose two legs on different nets.", pinA + 1,
                          pinB + 1, displayName(*m_target)));
    }
    return {};
}

Result<void> Fitter::requireFittable(const NewPart& part) const {
    if (part.reference.empty()) {
        return wrong(said("The new part has no reference. Give it one, such as D3."));
    }
    const PartId& id = idOf(m_mod, part);
    if (id.empty() || findPart(m_circuit, id)) {
        return wrong(
            said("The mod's id \"%1\" cannot become the id of %2: a part has it already. Give the mod another id.", id,
                 part.reference));
    }
    if (hasModel(part.kind) && (part.model.name.empty() || part.model.kind != part.kind)) {
        return wrong(part.kind == PartKind::diode
                         ? said("%1 has no diode type. Choose one, such as 1N4148.", part.reference)
                         : said("%1 has no %2 type. Choose one.", part.reference, said(kindName(part.kind))));
    }
    return requireValue(part.kind, part.reference, part.value);
}

Result<void> Fitter::requireTwoLegs(const NewPart& part) const {
    if (pinCount(part.kind) != 2) {
        return wrong(said("%1 is %2 and has more than two legs. Only a part with two can be added.", part.reference,
                          withArticle(part.kind)));
    }
    return {};
}

Result<void> Fitter::requireValue(PartKind kind, const std::string& name, double value) const {
    const std::optional<ValueLimits> limits = valueLimits(kind);
    if (limits ? !limits->hold(value) : !std::isfinite(value)) {
        return wrong(said("%1 would get a value that no %2 has. Choose one from %3.", name, said(kindName(kind)),
                          limits ? said(limits->words) : said("what can be measured")));
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
        return wrong(
            said("The circuit has a type %1 with other parameters. Give one of the two another name.", model.name));
    }
    return {};
}

void Fitter::addFitted(const NewPart& fitted, std::vector<NetName> nets) {
    Part part;
    part.id = idOf(m_mod, fitted);
    part.reference = fitted.reference;
    part.role = m_mod.name;
    part.kind = fitted.kind;
    part.value = fitted.kind == PartKind::link ? linkOhms : fitted.value;
    part.model = fitted.model.name;
    part.tolerance = fitted.tolerance;
    part.nets = std::move(nets);
    addToStages(part.id);
    m_circuit.parts.push_back(std::move(part));
    m_target = findPart(m_circuit, m_targetId);
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

/// Why the part that `plan[index]` works on is not there, when another mod would fit it.
std::optional<Error> missingHost(const Plan& plan, std::size_t index) {
    const Mod& mod = plan[index];
    const PartId& target = targetOf(mod.change);
    for (std::size_t i = 0; i < plan.size(); ++i) {
        const Mod& host = plan[i];
        if (i == index || !fitsPart(host, target) || (host.on && i <= index)) {
            continue;
        }
        return Error{
            ErrorCode::invalidInput,
            said(host.on ? toSay("%1 works on the part that %2 fits, and that mod comes after it. Move %3 before %4.")
                         : toSay("%1 works on the part that %2 fits, and that mod is off. Switch %3 on or %4 off."),
                 nameOfMod(mod), nameOfMod(host), host.letter, mod.letter),
            target};
    }
    return std::nullopt;
}

}  // namespace

Result<Circuit> applyMod(const Circuit& circuit, const Mod& mod, const std::string& throwName) {
    return Fitter(circuit, mod).fit(throwName);
}

Result<Circuit> applyPlan(const Circuit& stock, const Plan& plan, const Throws& throws) {
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
        Result<Circuit> next = applyMod(now, plan[i], throwOf(throws, plan[i].id));
        if (!next) {
            Error error = next.error();
            error.message = nameOfMod(plan[i]) + ": " + error.message;
            return error;
        }
        now = *std::move(next);
    }
    return now;
}

Result<Circuit> nowCircuit(const Job& job) {
    return applyPlan(job.stock, job.plan, job.setting.throws);
}

Result<Circuit> applyAlone(const Circuit& stock, const Mod& mod, const Throws& throws) {
    return applyMod(stock, mod, throwOf(throws, mod.id));
}

}  // namespace ohmwright

/// Jobs made of chance, the same ones on every run of a seed: for properties that must hold of any job.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/job.h"

#include <cmath>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

namespace ohmwright::test {

/// What the generator needs of chance; its own mapping, as that of std::uniform_* differs between libraries.
class Chance {
public:
    explicit Chance(std::uint32_t seed) : m_engine(seed) {}

    int below(int count) { return static_cast<int>(m_engine() % static_cast<std::uint32_t>(count)); }
    bool oneIn(int count) { return below(count) == 0; }
    double share() { return static_cast<double>(m_engine()) / 4294967296.0; }
    /// Between 1e-15 and 1e12, evenly by ratio, with all its digits; sometimes 0 or negative.
    double number() {
        if (oneIn(12)) {
            return 0.0;
        }
        const double magnitude = std::pow(10.0, -15.0 + 27.0 * share());
        return oneIn(10) ? -magnitude : magnitude;
    }
    std::string text() {
        static const std::vector<std::string> pieces{
            "",      "a",         "Cg",  "\"quoted\"", "back\\slash", "line\nbreak", "tab\t",
            "Ω µ −", "日本",      "🎸",   "/",          "~1",          "0",           "a long one that goes on",
            "\x01",  "</script>", "null"};
        std::string out;
        for (int i = below(4); i > 0; --i) {
            out += pieces[static_cast<std::size_t>(below(static_cast<int>(pieces.size())))];
        }
        return oneIn(40) ? std::string(500, 'n') : out;
    }
    template <class T>
    const T& of(const std::vector<T>& choices) {
        return choices[static_cast<std::size_t>(below(static_cast<int>(choices.size())))];
    }

private:
    std::mt19937 m_engine;
};

inline Model randomModel(Chance& chance, PartKind kind, const std::string& name) {
    Model model;
    model.name = name;
    model.kind = kind;
    for (const char* key : {"IS", "N", "RS", "Ω"}) {
        if (!chance.oneIn(3)) {
            model.parameters[key] = chance.number();
        }
    }
    model.source = chance.text();
    return model;
}

inline PartKind randomKind(Chance& chance) {
    return static_cast<PartKind>(chance.below(static_cast<int>(PartKind::currentSource) + 1));
}

inline GridPoint randomPoint(Chance& chance) {
    return {chance.below(200) - 50, chance.below(100) - 20};
}

inline Part randomPart(Chance& chance, int index) {
    Part part;
    part.id = "p" + std::to_string(index) + " " + chance.text();  // The blank keeps "1" + "0" from being 10.
    part.reference = chance.text();
    part.function = chance.text();
    part.role = chance.text();
    part.kind = randomKind(chance);
    part.value = chance.number();
    part.acAmplitude = chance.oneIn(3) ? chance.number() : 0.0;
    part.model = chance.oneIn(2) ? chance.text() : std::string();
    part.tolerance = std::abs(chance.number());
    part.taper = static_cast<Taper>(chance.below(3));
    part.shareAtHalf = 0.01 + 0.98 * chance.share();
    for (int pin = 0; pin < pinCount(part.kind); ++pin) {
        part.nets.push_back(chance.oneIn(4) ? "0" : "n" + std::to_string(chance.below(9)));
    }
    if (chance.oneIn(2)) {
        part.pins.assign(part.nets.size(), chance.text());
    }
    part.printed = chance.text();
    part.build = chance.text();
    part.boardNote = chance.text();
    part.knowledge = static_cast<Knowledge>(chance.below(3));
    if (chance.oneIn(2)) {
        part.measured = chance.number();
    }
    if (chance.oneIn(2)) {
        part.placement = Placement{randomPoint(chance), chance.below(4), chance.oneIn(2), 2 + chance.below(5),
                                   static_cast<LabelSide>(chance.below(5))};
    }
    return part;
}

inline Drawing randomDrawing(Chance& chance) {
    Drawing drawing;
    drawing.size = randomPoint(chance);
    for (int i = chance.below(4); i > 0; --i) {
        const std::string net = chance.text();
        const GridPoint from = randomPoint(chance);
        const GridPoint to = randomPoint(chance);
        const GridPoint end = randomPoint(chance);
        drawing.wires.push_back({net, {from, {from.x, to.y}, {end.x, to.y}}});  // level or upright
        drawing.flags.push_back(
            {static_cast<FlagKind>(chance.below(4)), chance.text(), randomPoint(chance), chance.text()});
        drawing.fields.push_back({chance.text(), chance.text(), randomPoint(chance), randomPoint(chance)});
    }
    return drawing;
}

inline Circuit randomCircuit(Chance& chance) {
    Circuit circuit;
    for (int i = chance.below(12); i > 0; --i) {
        circuit.parts.push_back(randomPart(chance, i));
    }
    for (int i = chance.below(4); i > 0; --i) {
        circuit.models.push_back(randomModel(chance, PartKind::diode, "type " + std::to_string(i)));
    }
    for (int i = chance.below(4); i > 0; --i) {
        circuit.knobs.push_back({"knob " + std::to_string(i), chance.text(), chance.text()});
        circuit.stages.push_back(
            {chance.text(), chance.text(), chance.text(), {chance.text(), chance.text()}, chance.below(90)});
    }
    circuit.ports = {chance.text(), chance.text(), chance.text(), chance.text(), chance.text(), chance.text()};
    if (chance.oneIn(3)) {
        circuit.openNets.push_back(chance.text());
    }
    if (chance.oneIn(2)) {
        circuit.drawing = randomDrawing(chance);
    }
    return circuit;
}

inline NewPart randomNewPart(Chance& chance) {
    NewPart part;
    part.reference = chance.oneIn(8) ? std::string() : "X" + std::to_string(chance.below(9));
    part.kind = randomKind(chance);
    part.value = chance.number();
    if (part.kind == PartKind::diode || chance.oneIn(3)) {
        part.model = randomModel(chance, chance.oneIn(5) ? randomKind(chance) : part.kind,
                                 "type " + std::to_string(chance.below(3)));
    }
    part.tolerance = std::abs(chance.number());
    return part;
}

/// A change on one of `targets`, often one that cannot be made.
inline SingleChange randomSingleChange(Chance& chance, const std::vector<PartId>& targets) {
    const PartId part = chance.of(targets);
    const int pin = chance.below(5);
    const int other = chance.below(5);
    switch (chance.below(10)) {
        case 0:
            return SwapValue{part, chance.number()};
        case 1:
            return SwapType{part, randomModel(chance, randomKind(chance), "type " + std::to_string(chance.below(3)))};
        case 2:
            return AddInSeries{part, pin, randomNewPart(chance), chance.oneIn(2)};
        case 3:
            return AddAcross{part, pin, other, randomNewPart(chance), chance.oneIn(2)};
        case 4:
            return Lift{part, pin};
        case 5:
            return RemovePart{part};
        case 6: {
            const Taper taper = chance.oneIn(2) ? Taper::linear : Taper::reverseLogarithmic;
            return ChangePot{part, chance.number(), taper, 0.1 * other};
        }
        case 7:
            return MoveLeg{part, pin, chance.oneIn(2) ? std::string("0") : chance.text()};
        case 8: {
            AddPart added{part, randomNewPart(chance), {}};
            for (int i = 0; i < pinCount(added.fitted.kind); ++i) {
                added.nets.push_back(chance.oneIn(2) ? std::string("0") : chance.text());
            }
            return added;
        }
        default:
            return Bridge{part, pin, other};
    }
}

inline std::vector<SingleChange> randomSingleChanges(Chance& chance, const std::vector<PartId>& targets) {
    std::vector<SingleChange> changes;
    for (int i = chance.below(3); i >= 0; --i) {
        changes.push_back(randomSingleChange(chance, targets));
    }
    return changes;
}

inline Change randomChange(Chance& chance, const std::vector<PartId>& targets) {
    if (chance.oneIn(8)) {
        return Combined{randomSingleChanges(chance, targets)};
    }
    if (chance.oneIn(8)) {
        return FitSwitch{chance.of(targets),
                         {{"up", randomSingleChanges(chance, targets)}, {"centre", {}}, {"down", {}}}};
    }
    return std::visit([](auto&& kind) -> Change { return kind; }, randomSingleChange(chance, targets));
}

/// Mods on the circuit's parts, on the parts that other mods fit, and on a part that is nowhere.
inline Plan randomPlan(Chance& chance, const Circuit& circuit) {
    std::vector<PartId> targets{"nowhere"};
    for (const Part& part : circuit.parts) {
        targets.push_back(part.id);
    }
    const int count = chance.below(7);
    for (int i = 0; i < count; ++i) {
        targets.push_back("mod " + std::to_string(i));
    }
    Plan plan;
    for (int i = 0; i < count; ++i) {
        Mod mod;
        mod.id = "mod " + std::to_string(i);
        mod.letter = std::string(1, static_cast<char>('A' + i));
        mod.name = chance.text();
        mod.change = randomChange(chance, targets);
        mod.on = !chance.oneIn(4);
        plan.push_back(mod);
    }
    return plan;
}

inline StepMark randomMark(Chance& chance) {
    StepMark mark;
    mark.step = chance.text();
    mark.result = static_cast<StepResult>(chance.below(4));
    if (chance.oneIn(2)) {
        mark.reading = chance.number();
    }
    mark.unit = static_cast<Unit>(chance.below(static_cast<int>(Unit::percent) + 1));
    mark.read = chance.text();
    mark.allowed = chance.text();
    mark.who = chance.text();
    mark.when = chance.text();
    return mark;
}

inline std::vector<UnitReading> randomReadings(Chance& chance) {
    std::vector<UnitReading> readings;
    for (int i = chance.below(4); i > 0; --i) {
        readings.push_back({chance.text(), chance.oneIn(2) ? chance.text() : "", chance.number(),
                            static_cast<Unit>(chance.below(static_cast<int>(Unit::percent) + 1))});
    }
    return readings;
}

inline Visit randomVisit(Chance& chance) {
    Visit visit;
    visit.number = chance.below(100);
    visit.state = static_cast<VisitState>(chance.below(5));
    for (std::string* text : {&visit.date, &visit.complaint, &visit.agreed, &visit.condition}) {
        *text = chance.text();
    }
    for (int word = chance.below(4); word > 0; --word) {
        visit.words.push_back(std::to_string(word) + chance.text());  // each once
    }
    visit.readings = randomReadings(chance);
    for (int i = chance.below(4); i > 0; --i) {
        visit.marks.push_back(randomMark(chance));
        visit.papers.push_back({chance.text(), chance.text(), chance.text()});
    }
    return visit;
}

inline Finding randomFinding(Chance& chance) {
    switch (chance.below(8)) {
        case 0:
            return ValueFound{chance.number(), chance.text()};
        case 1:
            return TypeFound{randomModel(chance, PartKind::diode, "type " + chance.text()), chance.text()};
        case 2:
            return ToleranceFound{std::abs(chance.number())};
        case 3:
            return LawFound{static_cast<Taper>(chance.below(3)), chance.share()};
        case 4:
            return LegFound{chance.below(5), chance.text()};
        case 5:
            return ReferenceFound{chance.text()};
        case 6:
            return BoardNoteFound{chance.text()};
        default:
            break;
    }
    PresenceFound found;
    if (chance.oneIn(2)) {
        found.part = randomPart(chance, 1);
        found.beside = chance.text();
        found.models = {randomModel(chance, PartKind::diode, "type")};
        found.index = chance.below(4) - 1;
        found.seats = {{chance.below(3), chance.below(9), chance.text(), chance.text()}};
        found.knob = Knob{chance.text(), chance.text(), chance.text()};
        found.knobIndex = chance.below(3);
        found.knobPosition = chance.oneIn(2) ? std::optional(10.0 * chance.share()) : std::nullopt;
    }
    return found;
}

inline std::vector<Correction> randomCorrections(Chance& chance) {
    std::vector<Correction> corrections;
    for (int i = chance.below(4); i > 0; --i) {
        Correction correction;
        correction.part = chance.text();
        correction.found = randomFinding(chance);
        do {
            correction.drawn = randomFinding(chance);
        } while (correction.drawn.index() != correction.found.index());
        correction.reason = static_cast<CorrectionReason>(chance.below(3));
        correction.note = chance.text();
        correction.who = chance.text();
        correction.when = chance.text();
        correction.visit = chance.below(9);
        correction.broughtType = chance.text();
        if (chance.oneIn(2)) {
            correction.opened.push_back(chance.text());
        }
        corrections.push_back(std::move(correction));
    }
    return corrections;
}

inline Departure randomDeparture(Chance& chance, int visitNumber) {
    Departure departure;
    departure.when = chance.text();
    departure.visit = randomVisit(chance);
    departure.visit.number = visitNumber;
    departure.stock = randomCircuit(chance);
    departure.plan = randomPlan(chance, departure.stock);
    departure.setting.toneHz = chance.number();
    departure.readings = randomReadings(chance);
    for (int i = chance.below(3); i > 0; --i) {
        departure.notes.push_back(chance.text());
    }
    departure.corrections = randomCorrections(chance);
    return departure;
}

inline Job randomJob(Chance& chance) {
    Job job;
    job.shop = chance.text();
    job.unit = {chance.text(), chance.text(), chance.text(), chance.text()};
    job.customer = {chance.text(), chance.text()};
    job.visit = randomVisit(chance);
    job.stock = randomCircuit(chance);
    job.plan = randomPlan(chance, job.stock);
    for (const Knob& knob : job.stock.knobs) {
        job.setting.knobs[knob.id] = 10.0 * chance.share();
    }
    job.setting.pickVoltsPeak = chance.number();
    job.setting.toneHz = chance.number();
    job.setting.batteryVolts = chance.number();
    for (int i = chance.below(3), number = 0; i > 0; --i) {
        number += 1 + chance.below(3);
        job.departures.push_back(randomDeparture(chance, number));
    }
    job.corrections = randomCorrections(chance);
    return job;
}

}  // namespace ohmwright::test

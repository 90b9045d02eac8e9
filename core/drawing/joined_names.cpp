// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/joined_names.h"

#include "core/base/text.h"
#include "core/drawing/stage_piece.h"

#include <algorithm>
#include <cctype>
#include <optional>

namespace ohmwright {

namespace {

const std::vector<std::string> firstHalfPins{"3", "2", "1", "8", "4"};
const std::vector<std::string> secondHalfPins{"5", "6", "7", "8", "4"};

std::string lookedUp(const std::map<std::string, std::string>& names, const std::string& own) {
    const auto found = names.find(own);
    return found == names.end() ? own : found->second;
}

/// The name, or with the first number from 2 on that is free; `separator` stands between.
std::string freeName(const std::string& name, const std::string& separator, std::set<std::string>& used) {
    std::string chosen = name;
    for (int number = 2; !used.insert(chosen).second; ++number) {
        chosen = name;
        chosen.append(separator).append(std::to_string(number));
    }
    return chosen;
}

/// "Drive", or "2nd drive": a number behind it would be read as its position.
std::string freeKnobName(const std::string& name, std::set<std::string>& used) {
    std::string chosen = name;
    for (int number = 2; !used.insert(chosen).second; ++number) {
        chosen = std::to_string(number);
        chosen.append(number == 2 ? "nd " : number == 3 ? "rd " : "th ").append(inLowerCase(name));
    }
    return chosen;
}

bool isShared(const NetName& net) {
    return net == groundNet || std::find(rails.begin(), rails.end(), net) != rails.end();
}

/// "U12A" in letters, number and the half's letter.
struct Reference {
    std::string letters;
    std::string digits;
    std::string half;
};

/// Absent where the reference has another shape: "VSIG", "R5.1".
std::optional<Reference> numberedReference(const std::string& text) {
    Reference reference;
    std::size_t at = 0;
    const auto take = [&](std::string& into, auto isOne) {
        while (at < text.size() && isOne(static_cast<unsigned char>(text[at]))) {
            into += text[at++];
        }
    };
    const auto isLetter = [](unsigned char c) { return std::isalpha(c) != 0; };
    take(reference.letters, isLetter);
    take(reference.digits, [](unsigned char c) { return std::isdigit(c) != 0; });
    take(reference.half, isLetter);
    const bool isWhole = at == text.size() && !reference.letters.empty() && !reference.digits.empty();
    return isWhole && reference.half.size() <= 1 ? std::optional(reference) : std::nullopt;
}

bool isDualHalf(const Part& part) {
    return part.kind == PartKind::opamp && (part.pins == firstHalfPins || part.pins == secondHalfPins);
}

/// What a half at rest takes from the supply [A]; 0 where the type does not say.
double restCurrent(const std::vector<Model>& models, const std::string& type) {
    for (const Model& model : models) {
        const auto current = model.parameters.find("IQ");
        if (model.name == type && current != model.parameters.end()) {
            return current->second;
        }
    }
    return 0.0;
}

/// Every net that the piece names, those of its parts first.
std::vector<NetName> netsOf(const Circuit& piece) {
    std::vector<NetName> nets;
    for (const Part& part : piece.parts) {
        nets.insert(nets.end(), part.nets.begin(), part.nets.end());
    }
    for (const Stage& stage : piece.stages) {
        nets.insert(nets.end(), {stage.input, stage.output});
    }
    for (const Wire& wire : piece.drawing.wires) {
        nets.push_back(wire.net);
    }
    for (const Flag& flag : piece.drawing.flags) {
        nets.push_back(flag.net);
    }
    return nets;
}

}  // namespace

// ---- PieceNames ---------------------------------------------------------------------------------------------

NetName PieceNames::net(const NetName& own) const {
    return lookedUp(m_nets, own);
}

PartId PieceNames::part(const PartId& own) const {
    return lookedUp(m_parts, own);
}

Part PieceNames::renamed(const Part& own) const {
    Part part = own;
    part.id = this->part(own.id);
    part.reference = m_references.at(own.id);
    part.model = lookedUp(m_models, own.model);
    part.call.clear();
    for (NetName& net : part.nets) {
        net = this->net(net);
    }
    for (PartId& control : part.controls) {
        control = this->part(control);
    }
    if (const auto pins = m_pins.find(own.id); pins != m_pins.end()) {
        part.pins = pins->second;
    }
    return part;
}

Stage PieceNames::renamed(const Stage& own, std::size_t index) const {
    Stage stage = own;
    stage.name = m_stages.at(index);
    stage.input = net(own.input);
    stage.output = net(own.output);
    for (PartId& part : stage.parts) {
        part = this->part(part);
    }
    return stage;
}

Knob PieceNames::renamed(const Knob& own) const {
    return {lookedUp(m_knobIds, own.id), lookedUp(m_knobNames, own.id), part(own.part)};
}

// ---- Namer --------------------------------------------------------------------------------------------------

Namer::Namer(const Circuit& output) : m_lastOutput(output.ports.output) {
    m_usedNets.insert(m_lastOutput);
}

PieceNames Namer::namesFor(const Circuit& piece, const NetName& input) {
    PieceNames names;
    nameNets(piece, input, names);
    nameModels(piece, names);
    nameParts(piece, names);
    nameKnobsAndStages(piece, names);
    return names;
}

void Namer::nameNets(const Circuit& piece, const NetName& input, PieceNames& names) {
    const bool keepsOutput = roleOf(piece) == PieceRole::output;
    if (!input.empty()) {
        names.m_nets[inputOf(piece)] = input;
    }
    for (const NetName& net : netsOf(piece)) {
        if (!net.empty() && names.m_nets.count(net) == 0) {
            const bool keepsName = isShared(net) || (keepsOutput && net == piece.ports.output);
            names.m_nets[net] = keepsName ? net : freeName(net, "_", m_usedNets);
        }
    }
}

void Namer::nameModels(const Circuit& piece, PieceNames& names) {
    for (const Model& model : piece.models) {
        Model taken = model;
        for (int number = 2;; ++number) {
            const auto there = std::find_if(m_models.begin(), m_models.end(),
                                            [&taken](const Model& other) { return other.name == taken.name; });
            if (there == m_models.end()) {
                m_models.push_back(taken);
                break;
            }
            if (*there == taken) {
                break;
            }
            taken.name = model.name;
            taken.name.append("-").append(std::to_string(number));
        }
        names.m_models[model.name] = taken.name;
    }
}

std::string Namer::nextNumbered(const std::string& letters) {
    for (;;) {
        std::string reference = letters;
        reference.append(std::to_string(++m_lastNumbers[letters]));
        if (m_usedReferences.insert(reference).second) {
            return reference;
        }
    }
}

std::string Namer::nextHalf(const Part& part, const PieceNames& names, std::vector<std::string>& pins) {
    const std::string model = lookedUp(names.m_models, part.model);
    const auto open = std::find_if(m_openChips.begin(), m_openChips.end(),
                                   [&model](const OpenChip& chip) { return chip.model == model; });
    if (open != m_openChips.end()) {
        std::string reference = open->name + "B";
        m_openChips.erase(open);
        pins = secondHalfPins;
        return reference;
    }
    const std::string chip = nextNumbered("U");
    m_chips.push_back(chip);
    m_openChips.push_back({chip, model});
    pins = firstHalfPins;
    return chip + "A";
}

/// @param chipsOfPiece  bodies of the piece that are numbered already: its "U1A" and "U1B" stay together.
std::string Namer::referenceFor(const Part& part, std::map<std::string, std::string>& chipsOfPiece) {
    const std::optional<Reference> own = numberedReference(part.reference);
    if (!own) {
        return freeName(part.reference.empty() ? inUpperCase(part.id) : part.reference, "_", m_usedReferences);
    }
    if (own->half.empty()) {
        return nextNumbered(own->letters);
    }
    std::string& body = chipsOfPiece[own->letters + own->digits];
    if (body.empty()) {
        body = nextNumbered(own->letters);
    }
    return freeName(body + own->half, "_", m_usedReferences);
}

void Namer::nameParts(const Circuit& piece, PieceNames& names) {
    std::map<std::string, std::string> chipsOfPiece;
    for (const Part& part : piece.parts) {
        std::vector<std::string> pins;
        const std::string reference = isDualHalf(part) ? nextHalf(part, names, pins) : referenceFor(part, chipsOfPiece);
        names.m_references[part.id] = reference;
        names.m_parts[part.id] = freeName(inLowerCase(reference), "_", m_usedIds);
        if (!pins.empty()) {
            names.m_pins[part.id] = pins;
        }
    }
}

void Namer::nameKnobsAndStages(const Circuit& piece, PieceNames& names) {
    for (const Knob& knob : piece.knobs) {
        names.m_knobIds[knob.id] = freeName(knob.id, "-", m_usedKnobIds);
        names.m_knobNames[knob.id] = freeKnobName(knob.name, m_usedKnobNames);
    }
    for (const Stage& stage : piece.stages) {
        names.m_stages.push_back(freeName(stage.name, " ", m_usedStages));
    }
}

std::vector<Part> Namer::spareHalves() {
    std::vector<Part> spares;
    for (const OpenChip& chip : m_openChips) {
        const double current = restCurrent(m_models, chip.model);
        if (current <= 0.0) {
            continue;
        }
        const std::string half = chip.name + "B";
        Part spare;
        spare.reference = freeName("I" + half, "_", m_usedReferences);
        spare.id = freeName(inLowerCase(spare.reference), "_", m_usedIds);
        spare.role =
            "supply current of " + half + ", the spare half: its + input to half supply, its output to its - input";
        spare.kind = PartKind::currentSource;
        spare.value = current;
        spare.nets = {NetName(supplyRail), NetName(groundNet)};
        spares.push_back(std::move(spare));
    }
    return spares;
}

}  // namespace ohmwright

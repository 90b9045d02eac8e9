// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/job.h"

#include "core/base/said.h"
#include "core/base/text.h"

#include <bit>
#include <cmath>
#include <cstdint>

namespace ohmwright {

namespace {

/// FNV-1a over a canonical order of bytes: the same on every machine.
/// Source: G. Fowler, L. C. Noll, K.-P. Vo, D. Eastlake, "The FNV Non-Cryptographic Hash Algorithm" (IETF draft).
class StateHash {
public:
    void addByte(std::uint8_t byte) { m_hash = (m_hash ^ byte) * prime; }
    void add(std::uint64_t number) {
        for (unsigned shift = 0; shift < 64; shift += 8) {
            addByte(static_cast<std::uint8_t>((number >> shift) & 0xFFU));
        }
    }
    /// Equal figures have equal bytes: 0 and −0 are one, and so is every NaN.
    void add(double number) {
        const double canonical = number == 0.0 ? 0.0 : number;
        add(std::isnan(canonical) ? notANumber : std::bit_cast<std::uint64_t>(canonical));
    }
    void add(int number) { add(static_cast<std::uint64_t>(static_cast<std::int64_t>(number))); }
    void add(bool flag) { addByte(flag ? 1 : 0); }
    /// With its length first, so that "ab", "c" and "a", "bc" differ.
    void add(const std::string& text) {
        add(static_cast<std::uint64_t>(text.size()));
        for (const char c : text) {
            addByte(static_cast<std::uint8_t>(c));
        }
    }
    template <class Entry>
    void add(const std::vector<Entry>& entries) {
        add(static_cast<std::uint64_t>(entries.size()));
        for (const Entry& entry : entries) {
            add(entry);
        }
    }
    /// What a job of an earlier version could not say adds nothing where it is not said: papers printed then hold.
    template <class Entry>
    void addIfSaid(const std::vector<Entry>& entries) {
        if (!entries.empty()) {
            add(entries);
        }
    }
    void add(const std::map<std::string, double>& numbers) {
        add(static_cast<std::uint64_t>(numbers.size()));
        for (const auto& [name, number] : numbers) {
            add(name);
            add(number);
        }
    }

    void add(const Part& part);
    void add(const ModelCorner& corner);
    void add(const Model& model);
    void add(const Knob& knob);
    void add(const Stage& stage);
    void add(const Circuit& circuit);
    void add(const NewPart& part);
    void add(const SingleChange& change);
    void add(const SwitchThrow& position);
    void add(const Mod& mod);
    void add(const Setting& setting);

    void addChange(const SwapValue& change) { add(change.value); }
    void addChange(const SwapType& change) { add(change.model); }
    void addChange(const AddInSeries& change) {
        add(change.pin);
        add(change.fitted);
        add(change.reversed);
    }
    void addChange(const AddAcross& change) {
        add(change.pinA);
        add(change.pinB);
        add(change.fitted);
        add(change.reversed);
    }
    void addChange(const Lift& change) { add(change.pin); }
    void addChange(const Bridge& change) {
        add(change.pinA);
        add(change.pinB);
    }
    void addChange(const RemovePart&) {}
    void addChange(const ChangePot& change) {
        add(change.ohms);
        add(static_cast<int>(change.taper));
        add(change.shareAtHalf);
    }
    void addChange(const MoveLeg& change) {
        add(change.pin);
        add(change.net);
    }
    void addChange(const AddPart& change) {
        add(change.fitted);
        add(change.nets);
    }
    void addChange(const Combined& change) { add(change.changes); }
    void addChange(const FitSwitch& change) { add(change.throws); }

    /// The halves of the 64 bits laid over each other.
    [[nodiscard]] std::uint32_t folded() const {
        return static_cast<std::uint32_t>((m_hash >> 32U) ^ (m_hash & 0xFFFFFFFFU));
    }

private:
    static constexpr std::uint64_t prime = 0x00000100000001B3U;
    static constexpr std::uint64_t offsetBasis = 0xCBF29CE484222325U;
    static constexpr std::uint64_t notANumber = 0x7FF8000000000000U;
    std::uint64_t m_hash = offsetBasis;
};

/// Everything but its place on the drawing.
void StateHash::add(const Part& part) {
    for (const std::string* text : {&part.id, &part.reference, &part.function, &part.role, &part.model, &part.printed,
                                    &part.build, &part.boardNote}) {
        add(*text);
    }
    add(static_cast<int>(part.kind));
    for (const double number : {part.value, part.acAmplitude, part.tolerance, part.shareAtHalf}) {
        add(number);
    }
    add(static_cast<int>(part.taper));
    add(part.nets);
    add(part.pins);
    add(static_cast<int>(part.knowledge));
    add(part.measured.has_value());
    add(part.measured.value_or(0.0));
}

void StateHash::add(const ModelCorner& corner) {
    add(corner.name);
    add(corner.parameters);
}

void StateHash::add(const Model& model) {
    add(model.name);
    add(static_cast<int>(model.kind));
    add(model.parameters);
    addIfSaid(model.corners);
}

void StateHash::add(const Knob& knob) {
    add(knob.id);
    add(knob.name);
    add(knob.part);
}

void StateHash::add(const Stage& stage) {
    add(stage.name);
    add(stage.input);
    add(stage.output);
    add(stage.parts);
}

void StateHash::add(const Circuit& circuit) {
    add(circuit.parts);
    add(circuit.models);
    add(circuit.knobs);
    add(circuit.stages);
    const Ports& ports = circuit.ports;
    for (const std::string* text :
         {&ports.source, &ports.output, &ports.battery, &ports.load, &ports.jack, &ports.clipNode}) {
        add(*text);
    }
    add(circuit.openNets);
}

void StateHash::add(const NewPart& part) {
    add(part.reference);
    add(static_cast<int>(part.kind));
    add(part.value);
    add(part.model);
    add(part.tolerance);
    if (!part.id.empty()) {
        add(part.id);
    }
}

void StateHash::add(const SingleChange& change) {
    add(static_cast<std::uint64_t>(change.index()));
    add(targetOf(change));
    std::visit([this](const auto& kind) { addChange(kind); }, change);
}

void StateHash::add(const SwitchThrow& position) {
    add(position.name);
    add(position.changes);
}

/// Everything but its name, which changes nothing on the bench.
void StateHash::add(const Mod& mod) {
    add(mod.id);
    add(mod.letter);
    add(mod.on);
    add(static_cast<std::uint64_t>(mod.change.index()));
    add(targetOf(mod.change));
    std::visit([this](const auto& change) { addChange(change); }, mod.change);
}

void StateHash::add(const Setting& setting) {
    add(setting.knobs);
    for (const double number :
         {setting.pickVoltsPeak, setting.toneHz, setting.batteryVolts, setting.loadOhms, setting.temperatureKelvin}) {
        add(number);
    }
    for (const auto& [mod, position] : setting.throws) {
        add(mod);
        add(position);
    }
}

}  // namespace

std::string_view visitStateWord(VisitState state) {
    switch (state) {
        case VisitState::draft:
            return toSay("draft");
        case VisitState::quoted:
            return toSay("quoted");
        case VisitState::onBench:
            return toSay("on bench");
        case VisitState::proven:
            return toSay("proven");
        case VisitState::gone:
            break;
    }
    return toSay("gone");
}

std::string stateHash(const Job& job) {
    StateHash hash;
    hash.add(job.stock);
    hash.add(job.plan);
    hash.add(job.setting);
    constexpr std::string_view digits = "0123456789ABCDEF";
    std::string text;
    for (unsigned shift = 32; shift > 0; shift -= 4) {
        text += shift == 16 ? " " : "";
        text += digits[(hash.folded() >> (shift - 4)) & 0xFU];
    }
    return text;
}

bool isSameSerial(std::string_view one, std::string_view other) {
    const auto bare = [](std::string_view serial) {
        std::string text = inLowerCase(serial);
        std::erase(text, ' ');
        return text;
    };
    return !bare(one).empty() && bare(one) == bare(other);
}

}  // namespace ohmwright

// Any text as a netlist: it is read, or refused in a sentence with a line; what is read is written and read again with
// the same figures, and solved in bounded work. Nothing may crash, leak or run on.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/setting.h"
#include "core/circuit/source_wave.h"
#include "core/expression/expression.h"
#include "core/files/netlist.h"
#include "core/measure/solved_circuit.h"
#include "core/solve/response.h"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace {

using namespace ohmwright;

constexpr std::size_t largestSolved = 60;  // parts: reading is what is tested, solving comes along

void require(bool truth) {
    if (!truth) {
        std::abort();
    }
}

/// What a card says of a part beside names: all of it must come back.
struct Figures {
    PartKind kind = PartKind::resistor;
    double value = 0.0;
    double acAmplitude = 0.0;
    double acDegrees = 0.0;
    std::optional<SourceWave> wave;
    std::string law;  ///< With every name as x.
    std::map<std::string, double> parameters;
    std::map<std::string, double> model;

    friend bool operator==(const Figures&, const Figures&) = default;
};

std::string lawWithoutNames(const std::string& law) {
    const auto parsed = Expression::parse(law);
    require(parsed.hasValue() || law.empty());
    if (!parsed) {
        return {};
    }
    return parsed->text([](const LawVariable& own) {
        return LawVariable{own.what, "x", own.second == "0" ? "0" : "x"};
    });
}

Figures figuresOf(const Circuit& circuit, const Part& part) {
    Figures figures{part.kind, part.value, part.acAmplitude, part.acDegrees, part.wave, {}, part.parameters, {}};
    figures.law = lawWithoutNames(part.law);
    if (const Model* model = findModel(circuit, part.model)) {
        figures.model = model->parameters;
    }
    if (part.kind == PartKind::link) {  // A wire is written as the resistor that it is taken for.
        figures.kind = PartKind::resistor;
        figures.value = linkOhms;
    }
    // The input alone drives the small signal.
    if (!circuit.ports.source.empty() && circuit.ports.source != part.id) {
        figures.acAmplitude = 0.0;
    }
    if (figures.acAmplitude == 0.0) {
        figures.acDegrees = 0.0;
    }
    return figures;
}

/// Valves become subcircuits, a wire between the ends of one net nothing.
bool isWrittenAsItself(const Part& part) {
    const bool isValve = part.kind == PartKind::triode || part.kind == PartKind::pentode;
    const bool isNoWire = part.kind == PartKind::link && part.nets[0] == part.nets[1];
    return !isValve && !isNoWire;
}

void requireSameFigures(const Circuit& written, const Circuit& read) {
    std::vector<Figures> before;
    std::vector<Figures> after;
    for (const Part& part : written.parts) {
        if (isWrittenAsItself(part)) {
            before.push_back(figuresOf(written, part));
        }
    }
    for (const Part& part : read.parts) {
        if (part.call.empty()) {  // Of the file's top: no piece of a valve.
            after.push_back(figuresOf(read, part));
        }
    }
    require(before == after);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    auto netlist = readNetlist(std::string_view(reinterpret_cast<const char*>(data), size));
    if (!netlist) {
        require(!netlist.error().message.empty());
        return 0;
    }
    if (!choosePorts(*netlist, "", "") || netlist->circuit.parts.size() > largestSolved) {
        return 0;
    }
    const Setting setting;
    const std::string text = writeNetlist(netlist->circuit, setting, "again");
    const auto solved = solveCircuit(netlist->circuit, setting);
    if (!solved) {
        require(!solved.error().message.empty());
        return 0;
    }
    const auto again = readNetlist(text);
    require(again.hasValue());
    requireSameFigures(netlist->circuit, again->circuit);
    const double hertz[] = {100.0, 1000.0};
    static_cast<void>(frequencyResponse(*solved->equations, *solved->bias, {netlist->circuit.ports.output}, hertz));
    return 0;
}

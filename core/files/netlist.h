/// Netlists in the Berkeley form: read into a circuit without drawing, and written from one.
///
/// First line is the title. R C L K V I E G F H D Q J M B X, .model (D NPN PNP NJF PJF NMOS PMOS level 1),
/// .subckt/.ends (nested, with parameters), .param, {expressions}, + continuation, * and ; comments, case-blind; ground
/// is 0 or gnd. `.ac .tran .op .dc .noise .options` cards and everything after `.end` are ignored; .control is never
/// run. Calls of KOREN_TRIODE and KOREN_PENTODE are laws of the program (devices/triode.h, pentode.h); a subcircuit of
/// that name in the file goes before.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// A part inside a call that stands on one of its pins.
struct CallTerminal {
    std::size_t part = 0;  ///< Index in the circuit's parts.
    std::size_t terminal = 0;
    std::size_t pin = 0;  ///< Of the call.
};

/// A subcircuit call at the top of the file: a part to the reader, dissolved in the circuit.
struct SubcircuitCall {
    std::string name;                     ///< "XU1A"
    std::string subcircuit;               ///< "TL072"
    std::vector<NetName> nets;            ///< In the order of the call.
    std::vector<std::string> pins;        ///< The subcircuit's own names of them.
    std::vector<CallTerminal> terminals;  ///< All that stands on its pins, however deep inside.
};

/// A line of the file where something stands.
struct NetlistNote {
    int line = 0;
    std::string message;  ///< An assumption, a model's limit, `1M` read as milli ...: one sentence.
};

struct Netlist {
    std::string title;
    /// Parts have id = reference = the name as first written, "X1.R2" inside a call; nets are "X1.n2" there. Part order
    /// is the file's. ports.source, ports.output are empty until chosen (see choosePorts).
    Circuit circuit;
    std::vector<NetName> topNets;  ///< Those written at the top of the file, in order of first mention, without ground.
    std::vector<SubcircuitCall> calls;
    std::vector<NetlistNote> notes;
};

/// Errors: fileDamaged, `where` is "line 12" and the message starts with the line and says what to do; where several
/// lines are wrong, the first. Bounds: 64 MiB, 200,000 parts after dissolving, 50 calls deep; no text makes it hang.
Result<Netlist> readNetlist(std::string_view text);

/// What is wrong in a text that readNetlist refuses, for a person who corrects all of it at once.
struct NetlistFaults {
    std::vector<NetlistNote> faults;  ///< At most one a line, in their order; empty when the text is read.
    std::vector<NetlistNote> notes;
};
/// What follows from another fault alone, such as a part that names one that could not be read, is left out. A
/// subcircuit without end, or a text that is none, ends the search.
NetlistFaults faultsOfNetlist(std::string_view text);
/// Errors: fileUnreadable; as readNetlist, the message starting "FILE:LINE: ".
Result<Netlist> loadNetlist(const std::filesystem::path& path);

/// Puts in what is the input and the output.
/// @param input   a V or I source by name, case-blind; empty: the only one with an AC value, or else the only V or I
///                that is not a supply by itself (none such: an error).
/// @param output  a net of the file, case-blind, inner ones as "X1.n2"; empty: "out".
/// Errors: invalidInput naming the candidates.
Result<void> choosePorts(Netlist& netlist, std::string_view input, std::string_view output);

/// The circuit as text that readNetlist gives back to the same figures: op-amps and valves as subcircuits with B
/// sources, pots as two resistors at their position, switches and links as resistors, knobs in a comment line. The
/// output is the net "out"; other names are made legal and unique whatever the case.
/// @param title   one line.
/// @param setting knobs, battery, load put in as in withEnds.
std::string writeNetlist(const Circuit& circuit, const struct Setting& setting, std::string_view title);

}  // namespace ohmwright

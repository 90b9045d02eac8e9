/// What a netlist defines: its cards sorted by the subcircuit that they stand in.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/netlist_parameters.h"
#include "core/files/netlist_words.h"

#include <memory>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <vector>

namespace ohmwright {

/// A .model card: its type is known before its figures are computed.
struct ModelText {
    std::string name;  ///< As written.
    int line = 0;
    PartKind kind = PartKind::diode;
    std::string type;       ///< "NPN"
    double polarity = 0.0;  ///< +1, -1; 0 for a kind without.
    Card card;
};

/// A .subckt with its body; the file itself is the outermost one.
struct Definition {
    std::string name;
    int line = 0;
    const Definition* outer = nullptr;
    int depth = 0;
    std::vector<std::string> pins;
    std::vector<ParameterText> callParameters;                           ///< With their defaults.
    std::vector<ParameterText> parameters;                               ///< Its .param cards.
    std::vector<Card> cards;                                             ///< Its elements.
    std::vector<std::string> modelOrder;                                 ///< Keys of `models`, as written.
    std::unordered_map<std::string, ModelText> models;                   ///< By name in lower case.
    std::unordered_set<std::string> lostModels;                          ///< Names of cards that could not be read.
    std::unordered_map<std::string, std::unique_ptr<Definition>> inner;  ///< By name in lower case.
    std::vector<const Definition*> innerOrder;
    std::size_t characters = 0;  ///< Of all that a call reads.
};

struct NetlistFile {
    std::string title;
    int lastLine = 1;
    Definition top;
    std::unordered_set<std::string> globals;  ///< Nets of .global, lower case.
};

/// Faults: .subckt and .ends that do not match (nothing more is read then), cards with a dot that are not known, names
/// twice, pins twice, .include and the like, .control without .endc.
/// Bounds: 100,000 parameters, 200,000 pins, 10,000 global nets, definitions 50 deep.
std::unique_ptr<NetlistFile> readDefinitions(std::string_view text, NetlistLog& log);

/// The subcircuit of that name that a body sees: its own first, then those around it. Null when there is none.
const Definition* findDefinition(const Definition& scope, const std::string& lowerName);

}  // namespace ohmwright

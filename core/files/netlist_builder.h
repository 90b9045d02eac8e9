/// The circuit of a netlist while it is put together: nets, parts, models, and what refers to what.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/expression/expression.h"
#include "core/files/netlist_definitions.h"

#include <array>
#include <map>
#include <optional>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <vector>

namespace ohmwright {

/// One use of a definition: the file itself, or a subcircuit call.
struct Instance {
    const Definition* definition = nullptr;
    Instance* outer = nullptr;  ///< The use of the definition around this one; null for the file.
    std::string call;           ///< "X1.X2"; empty for the file.
    std::string prefix;         ///< "X1.X2."
    int depth = 0;
    /// What a pin is outside: its net in the circuit, and the pin of the call at the top that leads there, if one does.
    struct Pin {
        NetName net;
        std::optional<std::size_t> topPin;
    };
    std::unordered_map<std::string, Pin> pins;  ///< By name in lower case.
    std::optional<std::size_t> topCall;         ///< Place in the netlist's calls; none at the top itself.
    ParameterScope parameters;
    std::unordered_map<std::string, std::string> models;  ///< Lower case -> name in the circuit.
};

/// A .model card and the use of a definition in which it stands.
struct ModelPlace {
    const ModelText* text = nullptr;
    Instance* instance = nullptr;
};

class NetlistBuilder {
public:
    NetlistBuilder(const NetlistFile& file, NetlistLog& log);

    /// Every card of the file, then what refers to other parts.
    void buildAll();
    /// Subcircuits of the file that nothing calls, by their defaults, as if each stood alone: only for their faults.
    void buildUncalled(const std::unordered_set<const Definition*>& called);
    [[nodiscard]] const std::unordered_set<const Definition*>& called() const { return m_called; }
    Netlist takeNetlist() { return std::move(m_netlist); }

    NetlistLog& log() { return m_log; }
    const NetlistFile& file() const { return m_file; }

    // For the readers of single cards:

    /// The net that a word names in an instance; new ones are entered.
    NetName netOf(Instance& instance, const Word& word);
    /// The same, and the pin of the call at the top that the word names inside it.
    Instance::Pin pinOf(Instance& instance, const Word& word);
    /// A number or {formula}; with `bare`, a formula without braces too. Faults with `who` before the sentence.
    std::optional<double> valueOf(Instance& instance, std::string_view text, int line, const std::string& who,
                                  bool bare = false);
    /// The model that an instance sees under a name.
    ModelPlace findModel(Instance& instance, std::string_view name) const;
    /// Whether an instance sees a .model card of that name that could not be read.
    static bool lostModel(const Instance& instance, std::string_view name);
    /// Its name in the circuit, where it is entered when it is first asked for.
    std::string enterModel(const ModelPlace& place);
    /// Names of models of a kind that an instance sees, enough of them for a sentence.
    std::vector<std::string> modelNames(const Instance& instance, PartKind kind) const;

    /// Enters a part under a name of the file. Nothing, and a fault, when there is one of that name or no room.
    std::optional<std::size_t> addPart(const Instance& instance, const Word& name, Part part);
    /// An F or H names the voltage source whose current it follows.
    void referToSource(std::size_t part, const Instance& instance, const Word& source);
    /// Inductors of the K cards that were entered from `first` on, two a part.
    void referToInductors(std::size_t part, const Instance& instance, const Word& one, const Word& other);
    void referFromLaw(std::size_t part, Instance& instance, Expression law, int line);

    /// A subcircuit call: its parts in its place.
    void dissolve(Instance& caller, const std::vector<Word>& words);

private:
    struct NetEntry {
        NetName name;
        std::size_t prefix = 0;  ///< Characters of the name that are the call's.
        int line = 0;
        int connections = 0;  ///< Pins, and laws that read it.
    };
    struct SourceReference {
        std::size_t part;
        std::string key;  ///< Name of the source, lower case, with its call.
        Word word;
        std::string call;
    };
    struct InductorReference {
        std::size_t part;
        std::array<std::string, 2> keys;
        std::array<Word, 2> words;
        std::string call;
    };
    struct LawReference {
        std::size_t part;
        Expression law;
        int line;
        std::string call;
        std::vector<LawVariable> keys;  ///< One a variable: what it names, lower case.
    };

    const NetlistFile& m_file;
    NetlistLog& m_log;
    Netlist m_netlist;
    Instance m_top;
    std::unordered_map<std::string, std::size_t> m_nets;  ///< Lower case -> place in m_netEntries.
    std::vector<NetEntry> m_netEntries;
    std::unordered_set<std::string> m_topNets;
    std::vector<Instance::Pin> m_netsRead;  ///< Of the card that is being read, in the order of its words.
    struct PartEntry {
        std::size_t index;
        int line;
    };
    std::unordered_map<std::string, PartEntry> m_parts;  ///< Lower case.
    std::unordered_map<const ModelText*, std::string> m_constantModels;
    std::unordered_set<std::string> m_modelNames;
    std::unordered_set<std::string> m_lostNames;  ///< Lower case: parts and nets of cards that could not be read.
    std::unordered_set<const Definition*> m_called;
    std::vector<const Definition*> m_active;  ///< Those that are being dissolved.
    std::vector<SourceReference> m_sourceReferences;
    std::vector<InductorReference> m_inductorReferences;
    std::vector<LawReference> m_lawReferences;
    std::size_t m_cardCharacters = 0;  ///< Read in calls.
    std::size_t m_nameCharacters = 0;  ///< Written into the circuit.
    std::size_t m_calls = 0;
    bool m_full = false;

    void readCards(Instance& instance);
    void readCard(Instance& instance, const Card& card);
    void requireRoom(int line);
    const NetName& enterNet(const std::string& prefix, const Word& word);
    void loseNames(const Instance& instance, const CardText& text);
    void countConnection(const std::string& key);
    void noteCallTerminals(const Instance& instance, std::size_t part);
    void defineParameters(Instance& instance);
    void enterModels(Instance& instance);

    // Calls.
    void enterValve(Instance& caller, const std::vector<Word>& words, std::size_t nameAt, PartKind kind);
    Model readValveModel(Instance& caller, const std::vector<Word>& words, std::size_t nameAt, PartKind kind);
    bool openCall(Instance& caller, const std::vector<Word>& words, std::size_t nameAt, const Definition& definition,
                  Instance& call);
    void connectPins(Instance& caller, const std::vector<Word>& words, std::size_t nameAt, Instance& call);
    void passParameters(Instance& caller, const std::vector<Word>& words, std::size_t nameAt, Instance& call);
    Instance* placeOf(Instance& caller, const Definition* outer) const;

    // What refers to other parts, when all are there.
    void resolveReferences();
    void resolveSource(const SourceReference& reference);
    void resolveInductors(const InductorReference& reference);
    void resolveLaw(LawReference& reference);
    std::optional<NetName> netOfLaw(const LawReference& reference, const std::string& key, const std::string& written);
    const Part* sourceUnder(const std::string& key) const;
    void checkCouplings();
    void noteSinglePins();
    std::string lawNetKey(Instance& instance, const std::string& written) const;
    std::vector<std::string> partNames(const std::string& call, PartKind kind) const;
};

/// "R1", or "R2 in the call X1".
std::string nameWithCall(const std::string& name, const std::string& call);

}  // namespace ohmwright

/// Parameters of a netlist by scope, each computed when it is first asked for, so that they may stand in any order.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/netlist_log.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace ohmwright {

/// A parameter as it stands in the file.
struct ParameterText {
    std::string name;  ///< As written.
    std::string formula;
    int line = 0;
};

/// Names of a formula that may be parameters: no functions, no suffixes of numbers; lower case.
std::vector<std::string> namesIn(std::string_view formula);

/// `a`, `gain_2`: what the name of a parameter may be.
bool isParameterName(std::string_view name);

/// What may be read in two ways in a number, as a note; nothing for an empty doubt.
void noteDoubt(NetlistLog& log, int line, std::string_view who, const std::string& doubt);

class ParameterScope {
public:
    /// @param outer  where names are looked for that are not here; must outlive this scope, as must all texts.
    explicit ParameterScope(ParameterScope* outer = nullptr) : m_outer(outer) {}

    void define(const ParameterText& parameter);
    void define(std::string_view name, double value);
    [[nodiscard]] bool knows(std::string_view name) const;

    /// Values of all the parameters that a formula names. Nothing when one of them has none, which is then a fault of
    /// that one's line, said once; so are parameters that depend on each other.
    std::optional<std::map<std::string, double>> valuesFor(std::string_view formula, NetlistLog& log);

    /// A formula without nets. Faults: `line`, with `who` before the sentence.
    std::optional<double> evaluate(std::string_view formula, int line, std::string_view who, NetlistLog& log);

    /// Every parameter of this scope, so that faults of those that nothing asks for are said too.
    void evaluateAll(NetlistLog& log);

private:
    enum class State { text, open, known, failed };
    struct Entry {
        State state = State::text;
        const ParameterText* written = nullptr;
        double value = 0.0;
    };
    struct Found {
        ParameterScope* scope = nullptr;
        Entry* entry = nullptr;
    };

    ParameterScope* m_outer;
    std::unordered_map<std::string, Entry> m_entries;
    std::vector<Entry*> m_order;  ///< As written.

    Found find(const std::string& name);
    static void settle(Found first, NetlistLog& log);
    static bool openEntry(const std::vector<Found>& open, std::vector<Found>& waiting, NetlistLog& log);
    static void closeEntry(Found found, NetlistLog& log);
};

}  // namespace ohmwright

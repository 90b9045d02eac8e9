/// Names and numbers as a netlist may hold them.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>

namespace ohmwright {

/// Gives every name of a circuit one of its own that a netlist can hold: letters, digits and _, unique whatever the
/// case.
class NetlistNames {
public:
    /// A name that none of these may get.
    void reserve(std::string_view name);

    /// The name for `key`, the same at every call.
    /// @param wished   what it should look like.
    /// @param initial  letter that it must begin with; '\0' for any.
    const std::string& nameFor(const std::string& key, std::string_view wished, char initial = '\0');

    /// The name that `key` has got; empty when it has none.
    [[nodiscard]] std::string_view known(const std::string& key) const;

private:
    std::unordered_map<std::string, std::string> m_names;
    std::unordered_set<std::string> m_taken;                    ///< In lower case.
    std::unordered_map<std::string, std::size_t> m_nextNumber;  ///< Of a wished name, lower case, that is taken.
};

/// "4.7k", "33n", "1meg", "0.75": as short as it can be and the same double when read.
std::string netlistNumber(double value);

/// The same without suffixes, in brackets where it is negative: for formulas.
std::string formulaNumber(double value);

}  // namespace ohmwright

/// What is wrong with a netlist and what stands to be said about it, line by line.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/netlist.h"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_set>
#include <vector>

namespace ohmwright {

/// Keeps the fault of the lowest line (the first one said, of two on a line) and every note once.
class NetlistLog {
public:
    void fault(int line, std::string message);
    /// False when an earlier line's fault is kept already: no need to look up what would be said.
    [[nodiscard]] bool wantsFault(int line) const { return !m_fault || line < m_fault->line; }
    void note(int line, std::string message);

    [[nodiscard]] const std::optional<NetlistNote>& firstFault() const { return m_fault; }
    /// In the order of the lines; a file that gives more than 200 ends with how many are not shown.
    [[nodiscard]] std::vector<NetlistNote> notes() const;

private:
    std::optional<NetlistNote> m_fault;
    std::vector<NetlistNote> m_notes;
    std::unordered_set<std::string> m_said;
    std::size_t m_untold = 0;
};

/// The words of a file in a sentence: in quotation marks, shortened when they are long.
std::string inQuotes(std::string_view words);
/// The same without marks.
std::string shortened(std::string_view words);
/// Names in a sentence; of more than this, the first ones are shown.
inline constexpr std::size_t mostListed = 12;
/// "a, b and c"; "a, b, c ... and others"; "none" when there are none.
std::string listed(std::span<const std::string> names);
/// ASCII letters only: names are compared case-blind, other letters are their own.
std::string inLowerCase(std::string_view text);
std::string inUpperCase(std::string_view text);

}  // namespace ohmwright

/// What is wrong with a netlist and what stands to be said about it, line by line.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/text.h"
#include "core/files/netlist.h"

#include <cstddef>
#include <map>
#include <span>
#include <string>
#include <string_view>
#include <unordered_set>
#include <vector>

namespace ohmwright {

/// Keeps the faults of the lowest 200 lines (the first one said, of two on a line) and every note once.
class NetlistLog {
public:
    void fault(int line, std::string message);
    /// False when this line has one already, or enough earlier lines have: no need to look up what would be said.
    [[nodiscard]] bool wantsFault(int line) const;
    void note(int line, std::string message);

    /// Faults told so far, kept or not.
    [[nodiscard]] std::size_t told() const { return m_faultsTold; }
    [[nodiscard]] bool hasFault() const { return !m_faults.empty(); }
    /// Of the lowest line.  REQUIRES: hasFault().
    [[nodiscard]] NetlistNote firstFault() const;
    /// In the order of the lines; a file that gives more than are kept ends with that being said.
    [[nodiscard]] std::vector<NetlistNote> faults() const;
    /// In the order of the lines; a file that gives more than 20,000 ends with how many are not shown.
    [[nodiscard]] std::vector<NetlistNote> notes() const;

private:
    std::map<int, std::string> m_faults;  ///< By line.
    std::vector<NetlistNote> m_notes;
    std::unordered_set<std::string> m_said;
    std::size_t m_untold = 0;
    std::size_t m_faultsTold = 0;
    bool m_moreFaults = false;
};

/// The words of a file in a sentence: in quotation marks, shortened when they are long.
std::string inQuotes(std::string_view words);
/// The same without marks.
std::string shortened(std::string_view words);
/// Names in a sentence; of more than this, the first ones are shown.
inline constexpr std::size_t mostListed = 12;
/// "a, b and c"; "a, b, c ... and others"; "none" when there are none.
std::string listed(std::span<const std::string> names);

}  // namespace ohmwright

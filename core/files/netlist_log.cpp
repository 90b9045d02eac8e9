// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_log.h"

#include "core/base/said.h"

#include <algorithm>
#include <cassert>
#include <iterator>
#include <utility>

namespace ohmwright {

namespace {

constexpr std::size_t mostNotes = 20'000;  // More than anyone reads, and some megabytes.
constexpr std::size_t mostFaults = 200;
constexpr std::size_t longestQuote = 48;  // Bytes of the file in a sentence.

bool continuesCharacter(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;  // UTF-8
}

/// Without bytes that a terminal would act on.
char shown(char byte) {
    const auto code = static_cast<unsigned char>(byte);
    return code < 0x20U || code == 0x7FU ? ' ' : byte;
}

}  // namespace

void NetlistLog::fault(int line, std::string message) {
    ++m_faultsTold;
    if (!wantsFault(line)) {
        m_moreFaults = m_moreFaults || !m_faults.contains(line);
        return;
    }
    m_faults.emplace(line, std::move(message));
    if (m_faults.size() > mostFaults) {
        m_faults.erase(std::prev(m_faults.end()));
        m_moreFaults = true;
    }
}

bool NetlistLog::wantsFault(int line) const {
    return !m_faults.contains(line) && (m_faults.size() < mostFaults || line < m_faults.rbegin()->first);
}

NetlistNote NetlistLog::firstFault() const {
    assert(hasFault());
    return {m_faults.begin()->first, m_faults.begin()->second};
}

std::vector<NetlistNote> NetlistLog::faults() const {
    std::vector<NetlistNote> faults;
    for (const auto& [line, message] : m_faults) {
        faults.push_back({line, message});
    }
    if (m_moreFaults) {
        faults.push_back({faults.back().line, said("More lines are wrong: correct these first.")});
    }
    return faults;
}

void NetlistLog::note(int line, std::string message) {
    if (m_notes.size() >= mostNotes) {
        ++m_untold;
        return;
    }
    if (m_said.insert(std::to_string(line) + " " + message).second) {
        m_notes.push_back({line, std::move(message)});
    }
}

std::vector<NetlistNote> NetlistLog::notes() const {
    std::vector<NetlistNote> sorted = m_notes;
    std::stable_sort(sorted.begin(), sorted.end(),
                     [](const NetlistNote& one, const NetlistNote& other) { return one.line < other.line; });
    if (m_untold > 0) {
        sorted.push_back({sorted.back().line, said("%1 more notes are not shown.", m_untold)});
    }
    return sorted;
}

std::string inQuotes(std::string_view words) {
    return "\"" + shortened(words) + "\"";
}

std::string shortened(std::string_view words) {
    std::size_t end = std::min(words.size(), longestQuote);
    while (end > 0 && end < words.size() && continuesCharacter(words[end])) {
        --end;
    }
    std::string text;
    std::transform(words.begin(), words.begin() + static_cast<std::ptrdiff_t>(end), std::back_inserter(text), shown);
    return text + (end < words.size() ? "..." : "");
}

std::string listed(std::span<const std::string> names) {
    if (names.empty()) {
        return said("none");
    }
    std::string text;
    const bool more = names.size() > mostListed;
    for (std::size_t index = 0; index < std::min(names.size(), mostListed); ++index) {
        const bool last = !more && index + 1 == names.size();
        const std::string name = shortened(names[index]);
        if (last && index > 0) {
            text = said("%1 and %2", text, name);
        } else {
            text += index > 0 ? ", " : "";
            text += name;
        }
    }
    return more ? said("%1 and others", text) : text;
}

}  // namespace ohmwright

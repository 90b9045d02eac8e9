// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_title.h"

#include "core/base/said.h"
#include "core/expression/expression.h"
#include "core/files/netlist_words.h"

#include <algorithm>
#include <unordered_set>
#include <vector>

namespace ohmwright {

namespace {

/// How many nets follow the name of an element; 0 for what is none, or names no nets (K).
std::size_t netCount(const std::vector<Word>& words) {
    switch (inLowerCase(words.front().text).front()) {
        case 'r':
        case 'c':
        case 'l':
        case 'v':
        case 'i':
        case 'd':
        case 'b':
        case 'f':
        case 'h':
            return 2;
        case 'q':
        case 'j':
            return 3;
        case 'm':
        case 'e':
        case 'g':
            return 4;
        case 'x': {
            const auto parameter = std::find_if(words.begin(), words.end(), [](const Word& w) { return w.assigns; });
            const auto plain = static_cast<std::size_t>(parameter - words.begin());
            return plain < 2 ? 0 : plain - 2;
        }
        default:
            return 0;
    }
}

/// R9 a 0 5k: enough of a card whatever the nets.
bool hasTwoNetsAndNumber(const std::vector<Word>& words) {
    constexpr std::size_t longestName = 6;
    return words.size() == 4 && words.front().text.size() <= longestName &&
           readNetlistNumber(words.back().text).hasValue();
}

/// Whether all that would be nets are nets of the file, not just ground, and something follows them.
bool standsBetweenNets(const std::vector<Word>& words, std::size_t count, const Circuit& circuit) {
    if (words.size() < count + 2) {
        return false;
    }
    std::unordered_set<std::string> nets;
    for (const Part& part : circuit.parts) {
        for (const NetName& net : part.nets) {
            nets.insert(inLowerCase(net));
        }
    }
    std::size_t grounded = 0;
    for (std::size_t at = 1; at <= count; ++at) {
        const std::string net = inLowerCase(words[at].text);
        const bool isGround = net == groundNet || net == "gnd";
        grounded += isGround ? 1 : 0;
        if (words[at].assigns || (!isGround && !nets.contains(net))) {
            return false;
        }
    }
    return grounded < count;
}

}  // namespace

void noteTitle(const std::string& title, const Circuit& circuit, NetlistLog& log) {
    NetlistLog silent;
    const std::optional<CardText> text = joinCard({title, 1}, silent);
    if (!text || text->starts.empty()) {
        return;
    }
    const bool isLaw = text->text.starts_with('b') || text->text.starts_with('B');
    const auto words = isLaw ? splitLawCard(*text, silent) : splitWords(*text, silent);
    if (!words || words->empty() || words->front().text.empty() || words->front().assigns) {
        return;
    }
    const std::string first = inLowerCase(words->front().text);
    const bool dotCard = first == ".model" || first == ".param" || first == ".subckt";
    const std::size_t nets = netCount(*words);
    const bool element = nets > 0 && (hasTwoNetsAndNumber(*words) || standsBetweenNets(*words, nets, circuit));
    if (dotCard || element) {
        log.note(1, said("The first line is the title and is not read, but it looks like a card (%1): if it is one, "
                         "put a title line above it.",
                         inQuotes(title)));
    }
}

}  // namespace ohmwright

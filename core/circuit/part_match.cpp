// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/part_match.h"

#include "core/base/said.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <optional>
#include <tuple>
#include <utility>

namespace ohmwright {

namespace {

/// Rounds of feeding: more than the longest way through a pedal's stages between two known ends.
constexpr int likenessRounds = 14;
/// What a part's own value or type says beside its neighbourhood.
constexpr double ownShare = 0.15;
/// Of the parts at a net that must answer to each other, so that one more or one less of four is allowed.
constexpr double firmShare = 0.7;
/// A part's own value decides between twins when it is this much nearer to one of them.
constexpr double twinFactor = 2.0;
constexpr std::size_t noIndex = static_cast<std::size_t>(-1);

/// Parts that do the same whichever way round they sit.
bool isTurnable(PartKind kind) {
    return kind == PartKind::resistor || kind == PartKind::capacitor || kind == PartKind::inductor ||
           kind == PartKind::link || kind == PartKind::switchContact;
}

/// Decades between two values; 0 where either has none.
double decadesBetween(const Part& one, const Part& other) {
    return one.value > 0.0 && other.value > 0.0 ? std::abs(std::log10(one.value / other.value)) : 0.0;
}

/// How much alike two parts of one kind are by themselves, 0..1.
double ownLikeness(const Part& one, const Part& other) {
    if (one.model != other.model) {
        return 0.8;
    }
    return 1.0 - 0.5 * std::min(1.0, decadesBetween(one, other) / 2.0);
}

/// A circuit as lists of indices.
struct Graph {
    struct End {
        std::size_t part = 0;
        std::size_t pin = 0;
        int sense = 0;  ///< The same for both ends of a turnable part.
    };

    explicit Graph(const Circuit& of) : circuit(of) {
        for (std::size_t p = 0; p < of.parts.size(); ++p) {
            const Part& part = of.parts[p];
            pins.emplace_back();
            for (std::size_t pin = 0; pin < part.nets.size(); ++pin) {
                const auto [found, isNew] = indexOf.emplace(part.nets[pin], names.size());
                if (isNew) {
                    names.push_back(part.nets[pin]);
                    ends.emplace_back();
                }
                pins.back().push_back(found->second);
                ends[found->second].push_back({p, pin, isTurnable(part.kind) ? 0 : static_cast<int>(pin)});
            }
        }
    }

    [[nodiscard]] std::size_t net(std::string_view name) const {
        const auto found = indexOf.find(NetName(name));
        return found != indexOf.end() ? found->second : noIndex;
    }
    [[nodiscard]] std::size_t part(const PartId& id) const {
        for (std::size_t p = 0; p < circuit.parts.size(); ++p) {
            if (circuit.parts[p].id == id) {
                return p;
            }
        }
        return noIndex;
    }

    const Circuit& circuit;
    std::vector<NetName> names;
    std::map<NetName, std::size_t> indexOf;
    std::vector<std::vector<std::size_t>> pins;  ///< [part][pin] -> net
    std::vector<std::vector<End>> ends;          ///< [net]
};

class Table {
public:
    Table(std::size_t rows, std::size_t columns, double value) : m_columns(columns), m_values(rows * columns, value) {}
    double& at(std::size_t row, std::size_t column) { return m_values[row * m_columns + column]; }
    [[nodiscard]] double at(std::size_t row, std::size_t column) const { return m_values[row * m_columns + column]; }

private:
    std::size_t m_columns;
    std::vector<double> m_values;
};

/// Pairs up two lists: the best first, each of them once.
template <class Score>
std::vector<std::pair<std::size_t, std::size_t>> pairUp(std::vector<std::pair<std::size_t, std::size_t>> pairs,
                                                        std::size_t rows, std::size_t columns, const Score& score) {
    std::stable_sort(pairs.begin(), pairs.end(),
                     [&score](const auto& one, const auto& other) { return score(one) > score(other); });
    std::vector<bool> isRowTaken(rows);
    std::vector<bool> isColumnTaken(columns);
    std::erase_if(pairs, [&](const auto& pair) {
        if (isRowTaken[pair.first] || isColumnTaken[pair.second]) {
            return true;
        }
        isRowTaken[pair.first] = isColumnTaken[pair.second] = true;
        return false;
    });
    return pairs;
}

class Matcher {
public:
    Matcher(const Circuit& known, const Circuit& other)
        : m_known(known),
          m_other(other),
          m_partLikeness(known.parts.size(), other.parts.size(), 0.0),
          m_netLikeness(m_known.names.size(), m_other.names.size(), 1.0),
          m_netOf(m_known.names.size(), noIndex),
          m_partOf(known.parts.size(), noIndex),
          m_takenBy(other.parts.size(), noIndex) {}

    CircuitMatch match() {
        findAnchors();
        for (int round = 0; round < likenessRounds; ++round) {
            feedParts();
            feedNets();
        }
        feedParts();
        // Likeness alone first, then with the nets that it pairs.
        for (int round = 0; round < 3; ++round) {
            pairParts();
            pairNets();
        }
        return verdicts();
    }

private:
    void findAnchors();
    void feedParts();
    void feedNets();
    void pairParts();
    void pairNets();
    [[nodiscard]] CircuitMatch verdicts() const;

    [[nodiscard]] const Part& known(std::size_t p) const { return m_known.circuit.parts[p]; }
    [[nodiscard]] const Part& other(std::size_t q) const { return m_other.circuit.parts[q]; }
    [[nodiscard]] bool mayMatch(std::size_t p, std::size_t q) const;
    [[nodiscard]] bool mayMatchNets(std::size_t n, std::size_t m) const;
    [[nodiscard]] bool isTurned(std::size_t p, std::size_t q) const;
    [[nodiscard]] double netLikeness(std::size_t n, std::size_t m) const;
    /// How much a leg at a known net says: at ground stand half of all parts.
    [[nodiscard]] double telling(std::size_t n) const { return 1.0 / static_cast<double>(m_known.ends[n].size()); }
    [[nodiscard]] double agreement(std::size_t p, std::size_t q, bool turned) const;
    [[nodiscard]] std::size_t agreeing(std::size_t p, std::size_t q, bool turned) const;
    [[nodiscard]] bool isFirm(std::size_t n) const;
    [[nodiscard]] bool standsAlike(std::size_t q, std::size_t r) const;
    [[nodiscard]] std::vector<PartId> twinsOf(std::size_t p, std::size_t q) const;
    [[nodiscard]] PartMatch verdict(std::size_t p) const;
    [[nodiscard]] PartMatch verdictOfPair(PartMatch match, std::size_t p, std::size_t q) const;

    Graph m_known, m_other;
    Table m_partLikeness, m_netLikeness;
    std::vector<std::pair<std::size_t, std::size_t>> m_netAnchors, m_partAnchors;
    std::vector<std::size_t> m_netOf, m_partOf, m_takenBy;
};

void Matcher::findAnchors() {
    const Ports& ours = m_known.circuit.ports;
    const Ports& theirs = m_other.circuit.ports;
    for (const auto& [one, two] : {std::pair<std::string_view, std::string_view>(groundNet, groundNet),
                                   {ours.output, theirs.output},
                                   {ours.jack, theirs.jack}}) {
        const std::size_t n = m_known.net(one);
        const std::size_t m = m_other.net(two);
        if (n != noIndex && m != noIndex) {
            m_netAnchors.emplace_back(n, m);
        }
    }
    for (const auto& [one, two] : {std::pair(ours.source, theirs.source), std::pair(ours.battery, theirs.battery),
                                   std::pair(ours.load, theirs.load)}) {
        const std::size_t p = m_known.part(one);
        const std::size_t q = m_other.part(two);
        if (p != noIndex && q != noIndex && known(p).kind == other(q).kind) {
            m_partAnchors.emplace_back(p, q);
        }
    }
}

bool Matcher::mayMatch(std::size_t p, std::size_t q) const {
    for (const auto& [a, b] : m_partAnchors) {
        if (p == a || q == b) {
            return p == a && q == b;
        }
    }
    return known(p).kind == other(q).kind;
}

bool Matcher::mayMatchNets(std::size_t n, std::size_t m) const {
    for (const auto& [a, b] : m_netAnchors) {
        if (n == a || m == b) {
            return n == a && m == b;
        }
    }
    return true;
}

double Matcher::netLikeness(std::size_t n, std::size_t m) const {
    return mayMatchNets(n, m) ? m_netLikeness.at(n, m) : 0.0;
}

/// Whether the other part sits the other way round.
bool Matcher::isTurned(std::size_t p, std::size_t q) const {
    if (!isTurnable(known(p).kind)) {
        return false;
    }
    const auto& ours = m_known.pins[p];
    const auto& theirs = m_other.pins[q];
    return netLikeness(ours[0], theirs[1]) + netLikeness(ours[1], theirs[0]) >
           netLikeness(ours[0], theirs[0]) + netLikeness(ours[1], theirs[1]);
}

void Matcher::feedParts() {
    for (std::size_t p = 0; p < m_partOf.size(); ++p) {
        for (std::size_t q = 0; q < m_takenBy.size(); ++q) {
            double& likeness = m_partLikeness.at(p, q);
            if (!mayMatch(p, q)) {
                likeness = 0.0;
                continue;
            }
            const std::size_t count = m_known.pins[p].size();
            const bool turned = isTurned(p, q);
            double sum = 0.0;
            double all = 0.0;
            for (std::size_t pin = 0; pin < count; ++pin) {
                const std::size_t net = m_known.pins[p][pin];
                sum += telling(net) * netLikeness(net, m_other.pins[q][turned ? 1 - pin : pin]);
                all += telling(net);
            }
            const double nets = count > 0 ? sum / all : 1.0;
            likeness = ownShare * ownLikeness(known(p), other(q)) + (1.0 - ownShare) * nets;
        }
    }
}

void Matcher::feedNets() {
    for (std::size_t n = 0; n < m_known.ends.size(); ++n) {
        for (std::size_t m = 0; m < m_other.ends.size(); ++m) {
            const auto& ours = m_known.ends[n];
            const auto& theirs = m_other.ends[m];
            std::vector<std::pair<std::size_t, std::size_t>> pairs;
            for (std::size_t i = 0; i < ours.size(); ++i) {
                for (std::size_t j = 0; j < theirs.size(); ++j) {
                    if (ours[i].sense == theirs[j].sense && mayMatch(ours[i].part, theirs[j].part)) {
                        pairs.emplace_back(i, j);
                    }
                }
            }
            const auto likeness = [&](const auto& pair) {
                return m_partLikeness.at(ours[pair.first].part, theirs[pair.second].part);
            };
            double sum = 0.0;
            for (const auto& pair : pairUp(std::move(pairs), ours.size(), theirs.size(), likeness)) {
                sum += likeness(pair);
            }
            m_netLikeness.at(n, m) = sum / static_cast<double>(std::max(ours.size(), theirs.size()));
        }
    }
    for (const auto& [n, m] : m_netAnchors) {
        m_netLikeness.at(n, m) = 1.0;
    }
}

/// How many pins are at nets that are paired.
std::size_t Matcher::agreeing(std::size_t p, std::size_t q, bool turned) const {
    std::size_t count = 0;
    for (std::size_t pin = 0; pin < m_known.pins[p].size(); ++pin) {
        count += m_netOf[m_known.pins[p][pin]] == m_other.pins[q][turned ? 1 - pin : pin] ? 1 : 0;
    }
    return count;
}

/// The same as a share, each leg by how much it says.
double Matcher::agreement(std::size_t p, std::size_t q, bool turned) const {
    double agree = 0.0;
    double all = 0.0;
    for (std::size_t pin = 0; pin < m_known.pins[p].size(); ++pin) {
        const std::size_t net = m_known.pins[p][pin];
        agree += m_netOf[net] == m_other.pins[q][turned ? 1 - pin : pin] ? telling(net) : 0.0;
        all += telling(net);
    }
    return all > 0.0 ? agree / all : 0.0;
}

void Matcher::pairParts() {
    std::vector<std::pair<std::size_t, std::size_t>> pairs;
    for (std::size_t p = 0; p < m_partOf.size(); ++p) {
        for (std::size_t q = 0; q < m_takenBy.size(); ++q) {
            if (mayMatch(p, q)) {
                pairs.emplace_back(p, q);
            }
        }
    }
    const auto score = [this](const auto& pair) {
        const auto [p, q] = pair;
        const double agree = std::max(agreement(p, q, false), isTurnable(known(p).kind) ? agreement(p, q, true) : 0.0);
        // Rounded, so that sums in another order do not decide; then value, and of two quite alike the reference.
        const double likeness = std::round(1e9 * (m_partLikeness.at(p, q) + agree)) / 1e9;
        return std::tuple(likeness, -decadesBetween(known(p), other(q)), known(p).reference == other(q).reference);
    };
    std::fill(m_partOf.begin(), m_partOf.end(), noIndex);
    std::fill(m_takenBy.begin(), m_takenBy.end(), noIndex);
    for (const auto& [p, q] : pairUp(std::move(pairs), m_partOf.size(), m_takenBy.size(), score)) {
        m_partOf[p] = q;
        m_takenBy[q] = p;
    }
}

/// Each net with the one at which most of its parts' partners are.
void Matcher::pairNets() {
    Table votes(m_known.names.size(), m_other.names.size(), 0.0);
    for (std::size_t p = 0; p < m_partOf.size(); ++p) {
        const std::size_t q = m_partOf[p];
        if (q == noIndex) {
            continue;
        }
        const bool turned = isTurned(p, q);
        for (std::size_t pin = 0; pin < m_known.pins[p].size(); ++pin) {
            votes.at(m_known.pins[p][pin], m_other.pins[q][turned ? 1 - pin : pin]) += m_partLikeness.at(p, q);
        }
    }
    std::vector<std::pair<std::size_t, std::size_t>> pairs;
    for (std::size_t n = 0; n < m_known.names.size(); ++n) {
        for (std::size_t m = 0; m < m_other.names.size(); ++m) {
            const bool isAnchor =
                std::find(m_netAnchors.begin(), m_netAnchors.end(), std::pair(n, m)) != m_netAnchors.end();
            if (isAnchor || (mayMatchNets(n, m) && votes.at(n, m) > 0.0)) {
                pairs.emplace_back(n, m);
            }
        }
    }
    std::fill(m_netOf.begin(), m_netOf.end(), noIndex);
    const auto score = [&](const auto& pair) {
        return votes.at(pair.first, pair.second) + m_netLikeness.at(pair.first, pair.second);
    };
    for (const auto& [n, m] : pairUp(std::move(pairs), m_known.names.size(), m_other.names.size(), score)) {
        m_netOf[n] = m;
    }
}

/// Whether a pair of nets holds: known from the start, or most parts at them answer to each other.
bool Matcher::isFirm(std::size_t n) const {
    const std::size_t m = m_netOf[n];
    if (m == noIndex) {
        return false;
    }
    if (std::find(m_netAnchors.begin(), m_netAnchors.end(), std::pair(n, m)) != m_netAnchors.end()) {
        return true;
    }
    double answered = 0.0;
    for (const Graph::End& end : m_known.ends[n]) {
        const std::size_t q = m_partOf[end.part];
        if (q == noIndex) {
            continue;
        }
        const bool turned = isTurned(end.part, q);
        answered += m_other.pins[q][turned ? 1 - end.pin : end.pin] == m ? 1.0 : 0.0;
    }
    const auto most = static_cast<double>(std::max(m_known.ends[n].size(), m_other.ends[m].size()));
    return answered >= firmShare * most;
}

/// Whether two parts of the other circuit stand at the same nets the same way.
bool Matcher::standsAlike(std::size_t q, std::size_t r) const {
    if (other(q).kind != other(r).kind) {
        return false;
    }
    auto one = m_other.pins[q];
    auto two = m_other.pins[r];
    if (isTurnable(other(q).kind)) {
        std::sort(one.begin(), one.end());
        std::sort(two.begin(), two.end());
    }
    return one == two;
}

/// What stands where `q` stands and could be `p` as well: neither quite alike with `q` nor clearly worse by its value.
std::vector<PartId> Matcher::twinsOf(std::size_t p, std::size_t q) const {
    std::vector<PartId> twins;
    for (std::size_t r = 0; r < m_takenBy.size(); ++r) {
        if (r == q || !mayMatch(p, r) || !standsAlike(q, r)) {
            continue;
        }
        const bool isAlike = other(q).value == other(r).value && other(q).model == other(r).model;
        const bool isWorse =
            decadesBetween(known(p), other(q)) + std::log10(twinFactor) <= decadesBetween(known(p), other(r)) ||
            (known(p).model == other(q).model && known(p).model != other(r).model);
        if (!isAlike && !isWorse) {
            twins.push_back(other(r).id);
        }
    }
    return twins;
}

PartMatch Matcher::verdict(std::size_t p) const {
    PartMatch match;
    match.part = known(p).id;
    const std::size_t q = m_partOf[p];
    if (q == noIndex) {
        match.sentence = said("no %1 is left that could be %2", said(kindName(known(p).kind)), displayName(known(p)));
        return match;
    }
    return verdictOfPair(std::move(match), p, q);
}

PartMatch Matcher::verdictOfPair(PartMatch match, std::size_t p, std::size_t q) const {
    const bool turnable = isTurnable(known(p).kind);
    const bool turned = turnable && (agreeing(p, q, true) > agreeing(p, q, false) ||
                                     (agreeing(p, q, true) == agreeing(p, q, false) && isTurned(p, q)));
    const std::size_t agree = agreeing(p, q, turned);
    const auto& nets = m_known.pins[p];
    // A leg at ground says little: half the parts have one there.
    bool hasOwnPlace = false;
    for (std::size_t pin = 0; pin < nets.size(); ++pin) {
        const bool agrees = m_netOf[nets[pin]] == m_other.pins[q][turned ? 1 - pin : pin];
        hasOwnPlace = hasOwnPlace || (agrees && m_known.names[nets[pin]] != groundNet && isFirm(nets[pin]));
    }
    if (agree < nets.size() && (agree == 0 || !hasOwnPlace)) {
        match.sentence = said("no %1 stands where %2 is: %3", said(kindName(known(p).kind)), displayName(known(p)),
                              roleWords(m_known.circuit, known(p)));
        return match;
    }
    match.other = other(q).id;
    match.pins.resize(nets.size());
    std::iota(match.pins.begin(), match.pins.end(), 0);
    if (turned) {
        std::reverse(match.pins.begin(), match.pins.end());
    }
    match.certainty = MatchCertainty::likely;
    if (agree < nets.size()) {
        match.sentence = said("%1 has %2 of its %3 legs where %4 has them", displayName(other(q)), agree, nets.size(),
                              displayName(known(p)));
        return match;
    }
    match.rivals = twinsOf(p, q);
    if (!match.rivals.empty()) {
        match.sentence =
            said("%1 and %2 stand at the same places, and the values do not tell which is %3", displayName(other(q)),
                 displayName(*findPart(m_other.circuit, match.rivals.front())), displayName(known(p)));
        return match;
    }
    if (!std::all_of(nets.begin(), nets.end(), [this](std::size_t n) { return isFirm(n); })) {
        match.sentence =
            said("what stands around %1 is not what stands around %2", displayName(other(q)), displayName(known(p)));
        return match;
    }
    match.certainty = MatchCertainty::sure;
    return match;
}

CircuitMatch Matcher::verdicts() const {
    CircuitMatch match;
    for (std::size_t p = 0; p < m_partOf.size(); ++p) {
        match.parts.push_back(verdict(p));
    }
    for (std::size_t n = 0; n < m_netOf.size(); ++n) {
        if (m_netOf[n] != noIndex) {
            match.nets[m_known.names[n]] = m_other.names[m_netOf[n]];
        }
    }
    for (std::size_t q = 0; q < m_takenBy.size(); ++q) {
        const bool isUsed = std::any_of(match.parts.begin(), match.parts.end(),
                                        [&](const PartMatch& each) { return each.other == other(q).id; });
        if (!isUsed) {
            match.unmatched.push_back(other(q).id);
        }
    }
    return match;
}

}  // namespace

std::string_view certaintyWord(MatchCertainty certainty) {
    switch (certainty) {
        case MatchCertainty::sure:
            return toSay("sure");
        case MatchCertainty::likely:
            return toSay("likely");
        case MatchCertainty::none:
            break;
    }
    return toSay("none");
}

const PartMatch* CircuitMatch::find(std::string_view part) const {
    const auto found =
        std::find_if(parts.begin(), parts.end(), [part](const PartMatch& match) { return match.part == part; });
    return found != parts.end() ? &*found : nullptr;
}

CircuitMatch matchCircuits(const Circuit& known, const Circuit& other) {
    return Matcher(known, other).match();
}

}  // namespace ohmwright

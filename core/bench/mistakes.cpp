// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/mistakes.h"

#include "core/base/preferred_numbers.h"
#include "core/base/said.h"
#include "core/base/value_text.h"
#include "core/bench/net_words.h"
#include "core/bench/unpowered_board.h"
#include "core/circuit/check.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace ohmwright {

namespace {

using Index = std::size_t;

bool hasPlus(const Part& part) {
    return part.kind == PartKind::capacitor && !isNonPolar(part) &&
           (part.build.find("lectrolytic") != std::string::npos || part.build.find("antal") != std::string::npos);
}

bool isTransistor(PartKind kind) {
    return kind == PartKind::bipolar || kind == PartKind::jfet || kind == PartKind::mosfet;
}

/// A net's name that the circuit does not have.
NetName freeNet(const Circuit& circuit, const std::string& wish) {
    const auto isTaken = [&](const NetName& net) {
        return std::any_of(circuit.parts.begin(), circuit.parts.end(), [&](const Part& part) {
            return std::find(part.nets.begin(), part.nets.end(), net) != part.nets.end();
        });
    };
    NetName net = wish;
    while (isTaken(net)) {
        net += "'";
    }
    return net;
}

/// What the change left without a way for direct current is open, as a lifted leg is.
void openWhatFloats(Circuit& circuit) {
    for (NetName& net : netsWithoutDcPath(circuit)) {
        circuit.openNets.push_back(std::move(net));
    }
}

Circuit withLegOpen(const Circuit& circuit, const PartId& id, int leg) {
    Circuit open = circuit;
    Part* part = findPart(open, id);
    const NetName net = freeNet(open, part->reference + "." + std::to_string(leg + 1) + " loose");
    part->nets[static_cast<Index>(leg)] = net;
    open.openNets.push_back(net);
    openWhatFloats(open);
    return open;
}

Circuit withBridge(const Circuit& circuit, const PartId& id, int legA, int legB) {
    Circuit bridged = circuit;
    const Part* part = findPart(bridged, id);
    Part solder;
    solder.id = id + " bridge";
    solder.reference = "solder over " + part->reference;
    solder.kind = PartKind::link;
    solder.value = linkOhms;
    solder.nets = {part->nets[static_cast<Index>(legA)], part->nets[static_cast<Index>(legB)]};
    bridged.parts.push_back(std::move(solder));
    return bridged;
}

Circuit withLegsExchanged(const Circuit& circuit, const PartId& id, int legA, int legB) {
    Circuit exchanged = circuit;
    Part* part = findPart(exchanged, id);
    std::swap(part->nets[static_cast<Index>(legA)], part->nets[static_cast<Index>(legB)]);
    return exchanged;
}

Circuit withValue(const Circuit& circuit, const PartId& id, double value) {
    Circuit other = circuit;
    Part* part = findPart(other, id);
    part->value = value;
    part->measured.reset();
    return other;
}

/// Two digits and the power of ten after them: 47 and 3 for 47,000 [Ω, or pF].
struct Marking {
    int first, second, zeros;
};

std::optional<Marking> markingOf(const Part& part) {
    const double unit = part.kind == PartKind::capacitor ? 1e-12 : 1.0;
    const double value = part.value / unit;
    const int zeros = static_cast<int>(std::floor(std::log10(value) - 1.0 + 1e-9));
    const double digits = value / std::pow(10.0, zeros);
    const int whole = static_cast<int>(std::lround(digits));
    constexpr double nearness = 1e-6;
    if (whole < 10 || whole > 99 || zeros < 0 || zeros > 9 || std::abs(digits - whole) > nearness * digits) {
        return std::nullopt;
    }
    return Marking{whole / 10, whole % 10, zeros};
}

/// Values that the marking gives with two of its places exchanged, as far as there is such a part.
std::vector<double> exchangedValues(const Part& part) {
    const std::optional<Marking> marking = markingOf(part);
    if (!marking || (part.kind != PartKind::resistor && part.kind != PartKind::capacitor)) {
        return {};
    }
    const double unit = part.kind == PartKind::capacitor ? 1e-12 : 1.0;
    const auto& [a, b, z] = *marking;
    std::vector<double> values;
    for (const Marking& read : {Marking{b, a, z}, Marking{z, b, a}, Marking{a, z, b}}) {
        const double value = (10 * read.first + read.second) * std::pow(10.0, read.zeros) * unit;
        const std::optional<ValueLimits> limits = valueLimits(part.kind);
        const bool isMade =
            read.first > 0 && isPreferred(value / std::pow(10.0, std::floor(std::log10(value))), Series::e24);
        // Nobody overlooks a part for a thousandth of the value, or finds one.
        constexpr double farthest = 1e3;
        const double ratio = value / part.value;
        if (isMade && limits && limits->hold(value) && std::abs(ratio - 1.0) > 1e-6 && ratio < farthest &&
            ratio > 1.0 / farthest) {
            values.push_back(value);
        }
    }
    return values;
}

std::string valueText(const Part& part, double value) {
    return formatPartValue({value, unitOf(part.kind)});
}

std::string_view taperWords(Taper taper) {
    switch (taper) {
        case Taper::linear:
            return toSay("linear");
        case Taper::logarithmic:
            return toSay("logarithmic");
        case Taper::reverseLogarithmic:
            return toSay("reverse logarithmic");
    }
    return {};
}

/// Collects the mistakes of one piece of work.
class Collector {
public:
    Collector(const std::vector<BoardEdit>& edits, const Circuit& finished) : m_edits(edits), m_finished(finished) {}

    std::vector<Mistake> collect() {
        for (const BoardEdit& edit : m_edits) {
            const Part* part = findPart(m_finished, edit.part().id);
            if (edit.kind == EditKind::partOut) {
                addLeftIn(edit);
            } else if (part != nullptr && part->nets == edit.after.nets) {
                addOf(edit, *part);
            }
        }
        std::stable_sort(m_mistakes.begin(), m_mistakes.end(),
                         [](const Mistake& a, const Mistake& b) { return a.kind < b.kind; });
        return std::move(m_mistakes);
    }

private:
    void addOf(const BoardEdit& edit, const Part& part) {
        if (edit.kind == EditKind::legMoved) {
            addLegs(edit, part);
            return;
        }
        if (part.kind == PartKind::link || part.kind == PartKind::switchContact) {
            addWire(part);
            return;
        }
        addReversed(part);
        addInLine(part);
        addSolder(part);
        addValues(part);
        addTaper(edit, part);
        addExchanged(part);
    }

    void add(MistakeKind kind, const PartId& part, std::string sentence, Circuit circuit, bool isAlike = false) {
        const bool isKnown = circuit.parts == m_finished.parts ||
                             std::any_of(m_mistakes.begin(), m_mistakes.end(),
                                         [&](const Mistake& known) { return known.circuit.parts == circuit.parts; });
        if (!isKnown || isAlike) {
            m_mistakes.push_back({kind, part, std::move(sentence), std::move(circuit), isAlike});
        }
    }

    void addReversed(const Part& part) {
        if (part.kind == PartKind::diode) {
            add(MistakeKind::reversed, part.id, said("%1 reversed", part.reference),
                withLegsExchanged(m_finished, part.id, 0, 1));
        } else if (hasPlus(part)) {
            add(MistakeKind::reversed, part.id, said("%1 with its plus the wrong way round", part.reference),
                m_finished, true);
        }
    }

    void addInLine(const Part& part) {
        const PartId host = inLineWith(m_finished, m_edits, part.id);
        const Part* standing = findPart(m_finished, host);
        if (standing == nullptr) {
            return;
        }
        const auto moved = std::find_if(m_edits.begin(), m_edits.end(), [&](const BoardEdit& edit) {
            return edit.kind == EditKind::legMoved && edit.after.id == host;
        });
        const auto leg = static_cast<Index>(moved->legs.front());
        const NetName pad = moved->before.nets[leg];
        const NetName joint = standing->nets[leg];
        const NetName other = standing->nets[1 - leg];
        // Across: the standing part's leg went back to its pad, the new part lies beside it, pointing the same way.
        {
            Circuit across = m_finished;
            findPart(across, host)->nets[leg] = pad;
            Part* fitted = findPart(across, part.id);
            std::replace(fitted->nets.begin(), fitted->nets.end(), joint, other);
            add(MistakeKind::acrossNotInLine, part.id,
                said("%1 across %2 instead of in line with it", part.reference, standing->reference),
                std::move(across));
        }
        for (const PartId& id : antiparallel(*standing, pad, other)) {
            const Part& neighbour = *findPart(m_finished, id);
            addOtherArm(part, *standing, neighbour, leg, pad, joint);
            add(MistakeKind::neighbourOpen, id, said("a leg of %1 came loose", neighbour.reference),
                withLegOpen(m_finished, id, 0));
        }
    }

    /// Diodes that run the other way between the pads that the standing part ran between.
    [[nodiscard]] std::vector<PartId> antiparallel(const Part& standing, const NetName& pad,
                                                   const NetName& other) const {
        std::vector<PartId> found;
        if (standing.kind != PartKind::diode) {
            return found;
        }
        const bool padWasCathode = standing.nets[0] == other;
        for (const Part& part : m_finished.parts) {
            if (part.kind == PartKind::diode && part.id != standing.id && part.nets.size() == 2 &&
                part.nets[padWasCathode ? 0 : 1] == pad && part.nets[padWasCathode ? 1 : 0] == other) {
                found.push_back(part.id);
            }
        }
        return found;
    }

    /// The standing part as before; the neighbour has the new one in line, on the pad that was worked at.
    void addOtherArm(const Part& part, const Part& standing, const Part& neighbour, Index leg, const NetName& pad,
                     const NetName& joint) {
        Circuit circuit = m_finished;
        findPart(circuit, standing.id)->nets[leg] = pad;
        Part* arm = findPart(circuit, neighbour.id);
        const Index armLeg = neighbour.nets[0] == pad ? 0 : 1;
        arm->nets[armLeg] = joint;
        Part* fitted = findPart(circuit, part.id);
        if (part.kind == PartKind::diode) {
            fitted->nets[armLeg] = pad;
            fitted->nets[1 - armLeg] = joint;
        }
        add(MistakeKind::otherArm, part.id,
            said("%1 in line with %2 instead of %3", part.reference, neighbour.reference, standing.reference),
            std::move(circuit));
    }

    void addSolder(const Part& part) {
        const auto legs = static_cast<int>(part.nets.size());
        for (int leg = 1; leg < legs; ++leg) {
            if (part.nets[static_cast<Index>(leg - 1)] != part.nets[static_cast<Index>(leg)]) {
                add(MistakeKind::bridged, part.id,
                    legs == 2 ? said("solder bridge over %1", displayName(part))
                              : said("solder between %1 and %2", pinWords(part, leg - 1), pinWords(part, leg)),
                    withBridge(m_finished, part.id, leg - 1, leg));
            }
        }
        for (int leg = 0; leg < legs; ++leg) {
            const std::string sentence = legs == 2 && part.kind != PartKind::diode
                                             ? said("leg of %1 at %2 open", displayName(part),
                                                    placeWords(m_finished, part.nets[static_cast<Index>(leg)], part.id))
                                             : said("%1 open", pinWords(part, leg));
            add(MistakeKind::legOpen, part.id, sentence, withLegOpen(m_finished, part.id, leg));
        }
    }

    void addValue(MistakeKind kind, const Part& part, double value) {
        const std::optional<ValueLimits> limits = valueLimits(part.kind);
        if (limits && limits->hold(value)) {
            add(kind, part.id,
                said("%1 fitted for %2 (%3)", valueText(part, value), valueText(part, part.value), displayName(part)),
                withValue(m_finished, part.id, value));
        }
    }

    void addValues(const Part& part) {
        if (!hasValue(part.kind) || !(part.value > 0.0)) {
            return;
        }
        constexpr double decade = 10.0;
        addValue(MistakeKind::decade, part, part.value / decade);
        addValue(MistakeKind::decade, part, part.value * decade);
        for (const double value : exchangedValues(part)) {
            addValue(MistakeKind::digitsExchanged, part, value);
        }
        if (part.kind != PartKind::potentiometer) {
            addValue(MistakeKind::neighbourValue, part, previousPreferred(part.value, Series::e12));
            addValue(MistakeKind::neighbourValue, part, nextPreferred(part.value, Series::e12));
        }
    }

    void addTaper(const BoardEdit& edit, const Part& part) {
        if (part.kind != PartKind::potentiometer || edit.kind != EditKind::partSwapped) {
            return;
        }
        for (const Taper taper : {Taper::linear, Taper::logarithmic, Taper::reverseLogarithmic}) {
            if (taper != part.taper) {
                Circuit circuit = m_finished;
                Part* pot = findPart(circuit, part.id);
                pot->taper = taper;
                // What most log tracks have at half travel. Common practice, no source.
                constexpr double usualShare = 0.15;
                pot->shareAtHalf = taper == Taper::linear   ? 0.5
                                   : part.shareAtHalf < 0.5 ? part.shareAtHalf
                                                            : usualShare;
                add(MistakeKind::otherTaper, part.id,
                    said("%1 pot for a %2 one (%3)", said(taperWords(taper)), said(taperWords(part.taper)),
                         displayName(part)),
                    std::move(circuit));
            }
        }
    }

    void addExchanged(const Part& part) {
        if (!isTransistor(part.kind)) {
            return;
        }
        constexpr std::pair<int, int> pairs[] = {{0, 2}, {0, 1}, {1, 2}};
        for (const auto& [a, b] : pairs) {
            add(MistakeKind::legsExchanged, part.id,
                said("%1 with %2 and %3 exchanged", part.reference, said(pinName(part.kind, a)),
                     said(pinName(part.kind, b))),
                withLegsExchanged(m_finished, part.id, a, b));
        }
    }

    /// A wire, or a contact of a switch.
    void addWire(const Part& part) {
        Circuit without = m_finished;
        findPart(without, part.id)->kind = PartKind::switchContact;
        findPart(without, part.id)->value = 0.0;
        openWhatFloats(without);
        add(MistakeKind::legOpen, part.id, said("%1 open", part.reference), std::move(without));
    }

    void addLegs(const BoardEdit& edit, const Part& part) {
        for (const int leg : edit.legs) {
            const NetName& pad = edit.before.nets[static_cast<Index>(leg)];
            const NetName& now = part.nets[static_cast<Index>(leg)];
            const bool isFree =
                std::find(m_finished.openNets.begin(), m_finished.openNets.end(), now) != m_finished.openNets.end();
            Circuit circuit = m_finished;
            findPart(circuit, part.id)->nets[static_cast<Index>(leg)] = pad;
            openWhatFloats(circuit);
            // A part that should be in line hangs free then; that it lies across is a mistake of its own.
            add(MistakeKind::leftOut, part.id, said("%1 still at its old pad", pinWords(part, leg)),
                std::move(circuit));
            if (!isFree) {
                add(MistakeKind::legOpen, part.id, said("%1 open", pinWords(part, leg)),
                    withLegOpen(m_finished, part.id, leg));
            }
        }
    }

    void addLeftIn(const BoardEdit& edit) {
        Circuit circuit = m_finished;
        circuit.parts.push_back(edit.before);
        openWhatFloats(circuit);
        if (edit.before.model.empty() || findModel(circuit, edit.before.model) != nullptr) {
            add(MistakeKind::leftOut, edit.before.id, said("%1 still on the board", displayName(edit.before)),
                std::move(circuit));
        }
    }

    const std::vector<BoardEdit>& m_edits;
    const Circuit& m_finished;
    std::vector<Mistake> m_mistakes;
};

void addFaultsOfTwoLegs(std::vector<Mistake>& faults, const Circuit& circuit, const Part& part) {
    const std::string name = hasValue(part.kind) ? displayName(part) + " " + valueWords(part) : displayName(part);
    faults.push_back({MistakeKind::legOpen, part.id, said("%1 open", name), withLegOpen(circuit, part.id, 0), false});
    if (part.nets[0] != part.nets[1] && part.kind != PartKind::link) {
        faults.push_back(
            {MistakeKind::bridged, part.id, said("%1 shorted", name), withBridge(circuit, part.id, 0, 1), false});
    }
}

void addFaultsOfLegs(std::vector<Mistake>& faults, const Circuit& circuit, const Part& part) {
    const auto legs = static_cast<int>(part.nets.size());
    for (int leg = 0; leg < legs; ++leg) {
        faults.push_back({MistakeKind::legOpen, part.id, said("%1 open", pinWords(part, leg)),
                          withLegOpen(circuit, part.id, leg), false});
        for (int other = leg + 1; other < legs; ++other) {
            if (part.nets[static_cast<Index>(leg)] != part.nets[static_cast<Index>(other)]) {
                faults.push_back({MistakeKind::bridged, part.id,
                                  said("%1 shorted to %2", pinWords(part, leg), said(pinName(part.kind, other))),
                                  withBridge(circuit, part.id, leg, other), false});
            }
        }
    }
}

void addLegsExchanged(std::vector<Mistake>& faults, const Circuit& circuit, const Part& part) {
    constexpr std::pair<int, int> pairs[] = {{0, 2}, {0, 1}, {1, 2}};
    for (const auto& [a, b] : pairs) {
        faults.push_back({MistakeKind::legsExchanged, part.id,
                          said("%1 with %2 and %3 exchanged", part.reference, said(pinName(part.kind, a)),
                               said(pinName(part.kind, b))),
                          withLegsExchanged(circuit, part.id, a, b), false});
    }
}

}  // namespace

std::string_view mistakeWords(MistakeKind kind) {
    switch (kind) {
        case MistakeKind::upsideDown:
            return toSay("upside down");
        case MistakeKind::reversed:
            return toSay("reversed");
        case MistakeKind::acrossNotInLine:
            return toSay("across instead of in line");
        case MistakeKind::otherArm:
            return toSay("in the other arm");
        case MistakeKind::bridged:
            return toSay("bridged");
        case MistakeKind::legOpen:
            return toSay("leg open");
        case MistakeKind::neighbourOpen:
            return toSay("neighbour open");
        case MistakeKind::decade:
            return toSay("ten times or a tenth");
        case MistakeKind::digitsExchanged:
            return toSay("marking read the wrong way round");
        case MistakeKind::neighbourValue:
            return toSay("neighbour value");
        case MistakeKind::legsExchanged:
            return toSay("legs exchanged");
        case MistakeKind::otherTaper:
            return toSay("other law");
        case MistakeKind::leftOut:
            return toSay("left out");
    }
    return {};
}

std::vector<Mistake> likelyMistakes(const std::vector<BoardEdit>& edits, const Circuit& finished) {
    return Collector(edits, finished).collect();
}

std::vector<Mistake> likelyFaults(const Circuit& circuit) {
    const Circuit board = unpoweredBoard(circuit);
    std::vector<Mistake> faults;
    for (const Part& part : circuit.parts) {
        const bool isOnBoard = findPart(board, part.id) != nullptr || isAmplifying(part.kind);
        if (!isOnBoard || part.nets.size() < 2 || part.kind == PartKind::opamp) {
            continue;
        }
        if (part.nets.size() == 2) {
            addFaultsOfTwoLegs(faults, circuit, part);
        } else {
            addFaultsOfLegs(faults, circuit, part);
        }
        if (isTransistor(part.kind)) {
            addLegsExchanged(faults, circuit, part);
        }
    }
    return faults;
}

}  // namespace ohmwright

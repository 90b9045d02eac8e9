// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/which_revision.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/base/said_meaning.h"
#include "core/base/text.h"
#include "core/bench/chi_square.h"
#include "core/bench/meter.h"
#include "core/bench/net_words.h"
#include "core/bench/probe_card.h"
#include "core/circuit/part_match.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

namespace ohmwright {

namespace {

Error wrong(const std::string& sentence, const std::string& where = {}) {
    return {ErrorCode::invalidInput, sentence, where};
}

struct Expected {
    std::optional<double> value;
    double low = 0.0, high = 0.0;
};

/// A candidate's board, powered and not, with the places of the first candidate found on it.
class CandidateBoard {
public:
    CandidateBoard(const RevisionCandidate& candidate, const Circuit& first)
        : m_candidate(candidate),
          m_board(candidate.circuit, candidate.setting),
          m_nets(matchCircuits(first, candidate.circuit).nets) {}

    Result<void> power(const std::stop_token& stop) {
        Result<ProbeCard> card = probeCard(m_candidate.circuit, m_candidate.setting, {}, stop);
        if (!card) {
            return card.error();
        }
        m_card = *std::move(card);
        return {};
    }
    /// Nothing where this drawing has no such place.
    [[nodiscard]] std::optional<NetName> netHere(const NetName& first) const {
        if (first == groundNet) {
            return first;
        }
        const auto found = m_nets.find(first);
        return found != m_nets.end() ? std::optional(found->second) : std::nullopt;
    }
    [[nodiscard]] std::optional<Expected> volts(const NetName& net) const {
        const auto line = std::find_if(m_card.lines.begin(), m_card.lines.end(),
                                       [&](const ProbeLine& each) { return each.net == net; });
        return line != m_card.lines.end() ? std::optional(Expected{line->nominal, line->low, line->high})
                                          : std::nullopt;
    }
    [[nodiscard]] Result<Expected> ohms(const NetName& red, const NetName& black, const std::stop_token& stop) const {
        const Result<MeterBand> band = m_board.ohmsBand(red, black, stop);
        if (!band) {
            return band.error();
        }
        const double nominal = band->nominal.value.value_or(0.0);
        return Expected{band->nominal.value, band->low.value_or(nominal), band->high.value_or(nominal)};
    }
    [[nodiscard]] const ProbeCard& card() const { return m_card; }

private:
    const RevisionCandidate& m_candidate;
    ProbedBoard m_board;
    std::map<NetName, NetName> m_nets;
    ProbeCard m_card;
};

/// Half the band on the side where the reading lies; never nothing.
double halfBand(const Expected& expected, double value) {
    const double side = value > *expected.value ? expected.high - *expected.value : *expected.value - expected.low;
    constexpr double leastShare = 1e-3;
    return std::max(side, leastShare * std::max(std::abs(*expected.value), 1.0));
}

double pullOf(const Expected& expected, const std::optional<double>& read) {
    if (!read || !expected.value) {
        return read.has_value() == expected.value.has_value() ? 0.0 : absentPull;
    }
    return (*read - *expected.value) / halfBand(expected, *read);
}

SpotFit fitOf(const SpotReading& reading, const std::optional<Expected>& expected) {
    SpotFit fit;
    const std::string read = readingWords(reading.value, reading.unit);
    if (!expected) {
        fit.isThere = false;
        fit.pull = absentPull;
        fit.sentence = said("%1: %2 read, no such place on this drawing", spotWords(reading), read);
        return fit;
    }
    fit.expected = expected->value;
    fit.low = expected->low;
    fit.high = expected->high;
    fit.pull = pullOf(*expected, reading.value);
    const std::string nominal = readingWords(expected->value, reading.unit);
    fit.sentence = expected->value
                       ? said("%1: %2 read, %3 expected (%4 to %5)", spotWords(reading), read, nominal,
                              readingWords(expected->low, reading.unit), readingWords(expected->high, reading.unit))
                       : said("%1: %2 read, %3 expected", spotWords(reading), read, nominal);
    return fit;
}

std::string bestWords(const std::string& name, double misfit, bool isAlone, std::size_t readings) {
    const std::string figure = formatFigure(misfit);
    if (readings == 1) {
        return isAlone ? said("%1 is the only drawing here: misfit %2 over 1 reading.", name, figure)
                       : said("%1 fits best: misfit %2 over 1 reading.", name, figure);
    }
    return isAlone ? said("%1 is the only drawing here: misfit %2 over %3 readings.", name, figure, readings)
                   : said("%1 fits best: misfit %2 over %3 readings.", name, figure, readings);
}

/// A pair of places of the first candidate.
struct Spot {
    NetName red, black;
    Unit unit = Unit::volt;
};

class Ranker {
public:
    Ranker(const std::vector<RevisionCandidate>& candidates, std::stop_token stop)
        : m_candidates(candidates), m_stop(std::move(stop)) {
        for (const RevisionCandidate& candidate : candidates) {
            m_boards.emplace_back(candidate, candidates.front().circuit);
        }
    }

    Result<RevisionRanking> rank(const std::vector<SpotReading>& readings) {
        if (const Result<void> powered = m_boards.front().power(m_stop); !powered) {
            return powered.error();
        }
        std::vector<Spot> spots;
        for (const SpotReading& reading : readings) {
            Result<Spot> spot = spotOf(reading);
            if (!spot) {
                return spot.error();
            }
            spots.push_back(*std::move(spot));
        }
        RevisionRanking ranking;
        for (std::size_t k = 0; k < m_boards.size(); ++k) {
            Result<RevisionFit> fit = fitOfBoard(k, spots, readings);
            if (fit) {
                ranking.fits.push_back(*std::move(fit));
            } else if (k == 0 || fit.error().code == ErrorCode::cancelled) {
                return fit.error();
            } else {
                ranking.leftOut.push_back(said("%1 is left out: %2", m_candidates[k].name, fit.error().message));
            }
        }
        std::stable_sort(ranking.fits.begin(), ranking.fits.end(),
                         [](const RevisionFit& a, const RevisionFit& b) { return a.misfit < b.misfit; });
        return judged(std::move(ranking), readings);
    }

private:
    /// The places on the first candidate's drawing.
    Result<Spot> spotOf(const SpotReading& reading) const {
        const Circuit& first = m_candidates.front().circuit;
        const Result<NetName> red = netOfSpot(first, reading.red);
        const Result<NetName> black =
            reading.black.empty() ? Result<NetName>(NetName(groundNet)) : netOfSpot(first, reading.black);
        if (!red || !black) {
            return red ? black.error() : red.error();
        }
        if (reading.unit == Unit::volt && !m_boards.front().volts(*red)) {
            return wrong(
                said("%1 is no pin of a transistor, valve or chip: read the volts at one of those.", reading.red),
                reading.red);
        }
        return Spot{*red, *black, reading.unit};
    }

    Result<RevisionFit> fitOfBoard(std::size_t k, const std::vector<Spot>& spots,
                                   const std::vector<SpotReading>& readings) {
        const Result<void> powered = k == 0 ? Result<void>() : m_boards[k].power(m_stop);
        if (!powered) {
            return powered.error();
        }
        RevisionFit fit{k, 0.0, {}};
        for (std::size_t i = 0; i < spots.size(); ++i) {
            const Result<std::optional<Expected>> expected = expectedAt(spots[i], m_boards[k]);
            if (!expected) {
                return expected.error();
            }
            fit.spots.push_back(fitOf(readings[i], *expected));
            fit.misfit += fit.spots.back().pull * fit.spots.back().pull;
        }
        return fit;
    }

    /// Nothing where the drawing has no such place.
    Result<std::optional<Expected>> expectedAt(const Spot& spot, const CandidateBoard& board) {
        const std::optional<NetName> red = board.netHere(spot.red);
        const std::optional<NetName> black = board.netHere(spot.black);
        if (!red || !black) {
            return std::optional<Expected>();
        }
        if (spot.unit == Unit::volt) {
            return board.volts(*red);
        }
        const Result<Expected> ohms = board.ohms(*red, *black, m_stop);
        if (!ohms) {
            return ohms.error();
        }
        return std::optional(*ohms);
    }

    Result<RevisionRanking> judged(RevisionRanking ranking, const std::vector<SpotReading>& readings) {
        const RevisionFit& best = ranking.fits.front();
        const auto name = [&](const RevisionFit& fit) { return m_candidates[fit.candidate].name; };
        ranking.isLikely = best.misfit <= likelyMisfit(static_cast<int>(readings.size()));
        ranking.sentence = bestWords(name(best), best.misfit, ranking.fits.size() < 2, readings.size());
        if (!ranking.isLikely) {
            ranking.sentence += " " + said(
                                          "Yet it explains them badly: another revision, an earlier mod, or a fault "
                                          "that is repaired first.");
        }
        if (ranking.fits.size() < 2) {
            ranking.isSeparated = true;
            return ranking;
        }
        const RevisionFit& second = ranking.fits[1];
        ranking.isSeparated = second.misfit - best.misfit >= separatingMisfit;
        if (ranking.isSeparated) {
            ranking.sentence += " " + said("Next is %1 with %2.", name(second), formatFigure(second.misfit));
            return ranking;
        }
        ranking.sentence += " " + said("%1 (%2) is not told apart from it by these readings.", name(second),
                                       formatFigure(second.misfit));
        return withFurther(std::move(ranking));
    }

    /// Volts at device pins, ohms of every net to ground and across every part: the one where the two bands lie
    /// furthest apart, in bands.
    Result<RevisionRanking> withFurther(RevisionRanking ranking) {
        const CandidateBoard& best = m_boards[ranking.fits[0].candidate];
        const CandidateBoard& second = m_boards[ranking.fits[1].candidate];
        double widest = 1.0;  // Below it the bands touch.
        for (const Spot& spot : spots()) {
            const Result<std::optional<Expected>> one = expectedAt(spot, best);
            const Result<std::optional<Expected>> two = expectedAt(spot, second);
            if (!one || !two) {
                const Error& error = one ? two.error() : one.error();
                if (error.code == ErrorCode::cancelled) {
                    return error;
                }
                continue;  // A place without figures tells nothing apart.
            }
            if (!*one || !*two || !(*one)->value || !(*two)->value) {
                continue;
            }
            const double apart = std::abs(*(*one)->value - *(*two)->value) /
                                 (halfBand(**one, *(*two)->value) + halfBand(**two, *(*one)->value));
            if (apart > widest) {
                widest = apart;
                ranking.further = furtherAt(spot, **one, **two);
            }
        }
        if (ranking.further) {
            ranking.sentence += " " + ranking.further->sentence;
        } else {
            ranking.sentence += " " + said("No reading of volts or ohms would do it: compare what is printed.");
        }
        return ranking;
    }

    [[nodiscard]] std::vector<Spot> spots() const {
        std::vector<Spot> all;
        for (const ProbeLine& line : m_boards.front().card().lines) {
            all.push_back({line.net, NetName(groundNet), Unit::volt});
        }
        std::set<std::pair<NetName, NetName>> known;
        for (const Part& part : m_candidates.front().circuit.parts) {
            for (const NetName& net : part.nets) {
                if (net != groundNet && known.emplace(net, groundNet).second) {
                    all.push_back({net, NetName(groundNet), Unit::ohm});
                }
            }
            if (part.nets.size() == 2 && part.nets[0] != part.nets[1] &&
                known.emplace(part.nets[0], part.nets[1]).second) {
                all.push_back({part.nets[0], part.nets[1], Unit::ohm});
            }
        }
        return all;
    }

    [[nodiscard]] FurtherReading furtherAt(const Spot& spot, const Expected& best, const Expected& second) const {
        const Circuit& first = m_candidates.front().circuit;
        FurtherReading further{
            placeWords(first, spot.red), placeWords(first, spot.black), spot.unit, best.value, second.value, {}};
        const std::string one = readingWords(best.value, spot.unit);
        const std::string two = readingWords(second.value, spot.unit);
        further.sentence =
            spot.unit == Unit::ohm
                ? said("Power off and discharged, read ohms from %1 to %2: %3 on the first, %4 on the second.",
                       further.red, further.black, one, two)
                : said("Read the volts at %1: %2 on the first, %3 on the second.", further.red, one, two);
        return further;
    }

    const std::vector<RevisionCandidate>& m_candidates;
    std::stop_token m_stop;
    std::vector<CandidateBoard> m_boards;
};

/// "Q1 collector", "U1A pin 3", "R2 leg 1": a part's leg by its number where it has no name.
/// @param part  called so.
std::string spotName(const std::string& name, const Part& part, int pin) {
    const auto index = static_cast<std::size_t>(pin);
    const std::string_view role = pinName(part.kind, pin);
    if (index < part.pins.size() && !part.pins[index].empty()) {
        return said("%1 pin %2", name, part.pins[index]);
    }
    return role == std::to_string(pin + 1) ? said("%1 leg %2", name, role) : name + " " + said(role);
}

/// "collector", "pin 3", "leg 2" or "2" of a part.
std::optional<int> pinOfWords(const Part& part, const std::string& words) {
    const auto pins = static_cast<int>(part.nets.size());
    for (int pin = 0; pin < pins; ++pin) {
        const auto index = static_cast<std::size_t>(pin);
        const std::string number = std::to_string(pin + 1);
        const bool isPrinted = index < part.pins.size() && !part.pins[index].empty();
        if (words == inLowerCase(pinName(part.kind, pin)) || words == "leg " + number || words == number ||
            (isPrinted && words == "pin " + inLowerCase(part.pins[index])) ||
            (!isPrinted && words == "pin " + number)) {
            return pin;
        }
    }
    return std::nullopt;
}

/// Of a part's leg as it is asked for, in English or as it is shown.
std::optional<int> pinOfSpot(const Part& part, const std::string& asked) {
    for (const std::string& name : {part.reference, displayName(part)}) {
        for (int pin = 0; pin < static_cast<int>(part.nets.size()); ++pin) {
            if (!name.empty() && asked == inLowerCase(spotName(name, part, pin))) {
                return pin;
            }
        }
        const std::string start = inLowerCase(name);
        if (start.empty() || asked.size() <= start.size() || !asked.starts_with(start) ||
            (asked[start.size()] != ' ' && asked[start.size()] != '.')) {
            continue;
        }
        if (const std::optional<int> pin = pinOfWords(part, asked.substr(start.size() + 1))) {
            return pin;
        }
    }
    return std::nullopt;
}

}  // namespace

double likelyMisfit(int readings) {
    constexpr double deviationsOfBand = 1.96;
    return chiSquare95(readings) / (deviationsOfBand * deviationsOfBand);
}

std::string spotWords(const SpotReading& reading) {
    return reading.unit == Unit::ohm
               ? saidMeaning("two places", "%1 to %2",
                             {reading.red, reading.black.empty() ? said("ground") : reading.black})
               : reading.red;
}

std::vector<std::string> spotNames(const Circuit& circuit) {
    std::vector<std::string> names;
    for (const bool isDevice : {true, false}) {
        for (const Part& part : circuit.parts) {
            if (isDevice != (part.kind == PartKind::opamp || isAmplifying(part.kind))) {
                continue;
            }
            for (std::size_t pin = 0; pin < part.nets.size(); ++pin) {
                names.push_back(spotName(part.reference, part, static_cast<int>(pin)));
            }
        }
    }
    return names;
}

Result<NetName> netOfSpot(const Circuit& circuit, std::string_view words) {
    std::string asked = inLowerCase(words);
    while (!asked.empty() && asked.back() == ' ') {
        asked.pop_back();
    }
    if (asked == "ground" || asked == inLowerCase(said("ground")) || asked == groundNet) {
        return NetName(groundNet);
    }
    for (const Part& part : circuit.parts) {
        for (const NetName& net : part.nets) {
            if (inLowerCase(net) == asked) {
                return net;
            }
        }
    }
    for (const Part& part : circuit.parts) {
        if (const std::optional<int> pin = pinOfSpot(part, asked)) {
            return part.nets[static_cast<std::size_t>(*pin)];
        }
    }
    return wrong(said("“%1” is no place of this drawing: name a leg, as in \"Q1 collector\", \"U1A pin 3\" or \"R2 leg "
                      "1\", a net, or ground.",
                      words),
                 std::string(words));
}

Result<RevisionRanking> whichRevision(const std::vector<RevisionCandidate>& candidates,
                                      const std::vector<SpotReading>& readings, const std::stop_token& stop) {
    if (candidates.empty() || readings.empty()) {
        return wrong(candidates.empty() ? said("There is no stored drawing to hold the readings against.")
                                        : said("Nothing was read yet: four voltages at pins and three resistances "
                                               "tell most."));
    }
    return Ranker(candidates, stop).rank(readings);
}

}  // namespace ohmwright

// Which checks a piece of work suggests: what hands can reach with a meter, pins with the power on, a few tones.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/said.h"
#include "core/bench/bench_state.h"
#include "core/bench/checks.h"
#include "core/bench/net_words.h"
#include "core/bench/probe_card.h"
#include "core/measure/spread.h"

#include <algorithm>
#include <utility>

namespace ohmwright {

namespace {

using Index = std::size_t;

bool isJunctionPart(PartKind kind) {
    return kind == PartKind::diode || kind == PartKind::bipolar;
}

/// A place with its words, in the language of the process and in English.
template <class Words>
Probe named(Probe place, const Words& words) {
    place.words = words();
    place.english = inEnglish(words);
    return place;
}

Probe jackSleeve() {
    return named({{}, 0, NetName(groundNet), {}, {}}, [] { return said("jack sleeve (ground)"); });
}

/// Collects checks once each and works out their bands.
class Collector {
public:
    Collector(const std::vector<BoardEdit>& edits, const Circuit& finished, const Setting& setting,
              const CheckOptions& options, const std::stop_token& stop)
        : m_edits(edits),
          m_finished(finished),
          m_setting(setting),
          m_options(options),
          m_stop(stop),
          m_state(finished, setting, options.meter) {}

    Result<std::vector<Check>> collect() {
        for (const BoardEdit& edit : m_edits) {
            if (edit.kind == EditKind::partOut) {
                addPadsOf(edit.before);
                continue;
            }
            const Part* part = findPart(m_finished, edit.after.id);
            if (part == nullptr) {
                continue;
            }
            if (edit.kind == EditKind::legMoved) {
                addMovedLegs(edit, *part);
            } else {
                addPart(*part);
            }
        }
        for (Check& check : m_checks) {
            const Result<void> done = findBand(check);
            if (!done) {
                return done.error();
            }
        }
        dropUseless();
        for (const Result<void>& added : {addVolts(), addTones()}) {
            if (!added) {
                return added.error();
            }
        }
        return std::move(m_checks);
    }

private:
    // ---- Places ---------------------------------------------------------------------------------------------------

    [[nodiscard]] static Probe atLeg(const Part& part, int leg) {
        return named({part.id, leg, {}, {}, {}}, [&] {
            return leg == Probe::eitherLeg ? said("a leg of %1", displayName(part)) : pinWords(part, leg);
        });
    }

    /// The best landmark of a net, apart from the part that is worked on; absent when nothing else is there.
    [[nodiscard]] std::optional<Probe> landmarkAt(const NetName& net, const PartId& apart) const {
        if (net == groundNet || net == m_finished.ports.jack || net == m_finished.ports.output) {
            return named({{}, 0, net, {}, {}}, [&] { return placeWords(m_finished, net, apart); });
        }
        const Part* best = nullptr;
        int bestLeg = 0;
        int bestRank = 0;
        for (const Part& part : m_finished.parts) {
            if (part.id == apart || part.kind == PartKind::voltageSource || part.kind == PartKind::currentSource ||
                part.id == m_finished.ports.load) {
                continue;
            }
            const auto pin = std::find(part.nets.begin(), part.nets.end(), net);
            if (pin == part.nets.end()) {
                continue;
            }
            const int rank = part.kind == PartKind::opamp           ? 4
                             : isAmplifying(part.kind)              ? 3
                             : part.kind == PartKind::potentiometer ? 2
                                                                    : 1;
            if (rank > bestRank) {
                best = &part;
                bestLeg = static_cast<int>(pin - part.nets.begin());
                bestRank = rank;
            }
        }
        if (best == nullptr) {
            return std::nullopt;
        }
        return named({best->id, bestLeg, {}, {}, {}}, [&] { return placeWords(m_finished, net, apart); });
    }

    /// The part whose leg is called "one leg of R5"; nullptr where the words name another place.
    [[nodiscard]] const Part* likeLegged(const std::string& words) const {
        const auto found = std::find_if(m_finished.parts.begin(), m_finished.parts.end(), [&](const Part& part) {
            return hasLikeLegs(part.kind) && !part.nets.empty() && pinWords(part, 0) == words;
        });
        return found == m_finished.parts.end() ? nullptr : &*found;
    }

    [[nodiscard]] NetName netOf(const Probe& probe) const {
        if (probe.part.empty()) {
            return probe.net;
        }
        const Part* part = findPart(m_finished, probe.part);
        return part->nets[static_cast<Index>(std::max(probe.leg, 0))];
    }

    [[nodiscard]] static bool isSamePlace(const Probe& a, const Probe& b) {
        return a.part == b.part && a.leg == b.leg && a.net == b.net;
    }

    // ---- What is checked ------------------------------------------------------------------------------------------

    void add(CheckKind kind, const Probe& red, const Probe& black, const PartId& part) {
        Check check;
        check.kind = kind;
        check.red = red;
        check.black = black;
        // Legs that look alike in the hand have one name: the second is the other one.
        if (const Part* both = red.words == black.words ? likeLegged(red.words) : nullptr) {
            check.black = named(black, [&] { return said("the other leg of %1", displayName(*both)); });
        }
        check.part = part;
        const bool isKnown = std::any_of(m_checks.begin(), m_checks.end(), [&](const Check& known) {
            return known.kind == kind && isSamePlace(known.red, red) && isSamePlace(known.black, black);
        });
        if (!isKnown) {
            m_checks.push_back(std::move(check));
        }
    }

    void addBothWays(CheckKind kind, const Probe& a, const Probe& b, const PartId& part) {
        add(kind, a, b, part);
        add(kind, b, a, part);
    }

    void addPart(const Part& part) {
        const auto legs = static_cast<int>(part.nets.size());
        const bool areAlike = legs == 2;
        const Part* host = findPart(m_finished, inLineWith(m_finished, m_edits, part.id));
        for (int leg = 0; leg < legs; ++leg) {
            const NetName& net = part.nets[static_cast<Index>(leg)];
            const bool isJoint =
                host != nullptr && std::find(host->nets.begin(), host->nets.end(), net) != host->nets.end();
            const auto landmark = isJoint ? std::nullopt : landmarkAt(net, part.id);
            if (landmark) {
                add(CheckKind::beep, areAlike ? atLeg(part, Probe::eitherLeg) : atLeg(part, leg), *landmark, part.id);
            }
        }
        for (int leg = 1; leg < legs; ++leg) {
            if (staysSilent(m_finished, part.nets[static_cast<Index>(leg - 1)], part.nets[static_cast<Index>(leg)])) {
                add(CheckKind::silence, atLeg(part, leg - 1), atLeg(part, leg), part.id);
            }
        }
        if (legs == 2) {
            addTwoLegged(part);
        } else if (part.kind == PartKind::bipolar) {
            addBothWays(CheckKind::diode, atLeg(part, 1), atLeg(part, 0), part.id);
            addBothWays(CheckKind::diode, atLeg(part, 1), atLeg(part, 2), part.id);
        } else if (part.kind == PartKind::jfet) {
            add(CheckKind::ohms, atLeg(part, 0), atLeg(part, 2), part.id);
            add(CheckKind::diode, atLeg(part, 1), atLeg(part, 2), part.id);
        } else if (part.kind == PartKind::potentiometer) {
            add(CheckKind::ohms, atLeg(part, 0), atLeg(part, 2), part.id);
            add(CheckKind::ohms, atLeg(part, 1), atLeg(part, 2), part.id);
        }
    }

    /// Two places for the probes: the part's own ends, or those of the arm that it is in line with, found by landmarks
    /// that stay where they are when the part is fitted wrongly.
    void addTwoLegged(const Part& part) {
        std::pair<NetName, NetName> ends{part.nets[0], part.nets[1]};
        if (const Part* host = findPart(m_finished, inLineWith(m_finished, m_edits, part.id))) {
            const NetName joint =
                host->nets[0] == part.nets[0] || host->nets[0] == part.nets[1] ? host->nets[0] : host->nets[1];
            ends.first = part.nets[0] == joint ? part.nets[1] : part.nets[0];
            ends.second = host->nets[0] == joint ? host->nets[1] : host->nets[0];
            addJoint(*host, joint, ends.first, ends.second, part.id);
        }
        const Probe first = landmarkAt(ends.first, part.id).value_or(atLeg(part, 0));
        const Probe second = landmarkAt(ends.second, part.id).value_or(atLeg(part, 1));
        const bool isArm = ends.first != part.nets[0] || ends.second != part.nets[1];
        const bool hasDiode = isJunctionPart(part.kind);
        if (hasDiode) {
            addBothWays(CheckKind::diode, first, second, part.id);
        } else {
            add(CheckKind::ohms, first, second, part.id);
        }
        if (isArm && !hasDiode) {
            return;
        }
        for (const Probe& end : {first, second}) {
            if (netOf(end) != groundNet && !hasDiode) {
                add(CheckKind::ohms, end, jackSleeve(), part.id);
            }
        }
    }

    /// The new joint must be free of both pads.
    void addJoint(const Part& host, const NetName& joint, const NetName& padA, const NetName& padB,
                  const PartId& part) {
        const int leg = host.nets[0] == joint ? 0 : 1;
        const Probe at = named(atLeg(host, leg), [&] { return said("the joint (%1)", pinWords(host, leg)); });
        for (const NetName& pad : {padA, padB}) {
            if (!staysSilent(m_finished, joint, pad)) {
                continue;
            }
            if (const auto landmark = landmarkAt(pad, part)) {
                add(CheckKind::silence, at, *landmark, part);
            }
        }
        const std::string& reference = findPart(m_finished, part)->reference;
        add(CheckKind::beep,
            named({part, Probe::eitherLeg, {}, {}, {}}, [&] { return said("a leg of %1", reference); }), at, part);
    }

    void addMovedLegs(const BoardEdit& edit, const Part& part) {
        // The joint with a part that is new in line is checked with that part.
        const bool hasNewInLine = std::any_of(m_edits.begin(), m_edits.end(), [&](const BoardEdit& other) {
            return other.kind == EditKind::partIn && inLineWith(m_finished, m_edits, other.after.id) == part.id;
        });
        if (hasNewInLine) {
            return;
        }
        for (const int leg : edit.legs) {
            const NetName& pad = edit.before.nets[static_cast<Index>(leg)];
            const NetName& now = part.nets[static_cast<Index>(leg)];
            const auto old = landmarkAt(pad, part.id);
            if (old && staysSilent(m_finished, pad, now)) {
                add(CheckKind::silence, atLeg(part, leg), *old, part.id);
            }
            if (const auto landmark = landmarkAt(now, part.id)) {
                add(CheckKind::beep, atLeg(part, leg), *landmark, part.id);
            }
        }
        if (part.nets.size() == 2) {
            addTwoLegged(part);
        }
    }

    /// The two pads of a part that was taken out.
    void addPadsOf(const Part& gone) {
        if (gone.nets.size() != 2) {
            return;
        }
        const auto first = landmarkAt(gone.nets[0], gone.id);
        const auto second = landmarkAt(gone.nets[1], gone.id);
        if (!first || !second || netOf(*first) == netOf(*second)) {
            return;
        }
        if (isJunctionPart(gone.kind)) {
            addBothWays(CheckKind::diode, *first, *second, gone.id);
        } else {
            add(CheckKind::ohms, *first, *second, gone.id);
        }
    }

    // ---- What they must show --------------------------------------------------------------------------------------

    Result<void> findBand(Check& check) {
        if (isBeeper(check.kind)) {
            const Result<CheckReading> reading = m_state.read(check, m_stop);
            if (!reading) {
                return reading.error();
            }
            check.expected = {*reading, *reading, *reading};
            return {};
        }
        const NetName red = netOf(check.red);
        const NetName black = netOf(check.black);
        const Result<MeterBand> band = check.kind == CheckKind::ohms ? m_state.board().ohmsBand(red, black, m_stop)
                                                                     : m_state.board().diodeBand(red, black, m_stop);
        if (!band) {
            return band.error();
        }
        check.expected = {band->low, band->nominal.value, band->high};
        check.hasChip = band->nominal.hasChip;
        if (check.kind == CheckKind::ohms && m_options.withSettling) {
            const Result<double> seconds = m_state.board().settleSeconds(red, black, m_stop);
            if (!seconds) {
                return seconds.error();
            }
            check.settleSeconds = *seconds;
        }
        return {};
    }

    /// A beep that the plan itself does not give (two pots' wipers) or a silence that beeps says nothing.
    void dropUseless() {
        m_checks.erase(std::remove_if(m_checks.begin(), m_checks.end(),
                                      [](const Check& check) {
                                          const bool beeps = check.expected.nominal.value_or(0.0) > 0.5;
                                          return (check.kind == CheckKind::beep && !beeps) ||
                                                 (check.kind == CheckKind::silence && beeps);
                                      }),
                       m_checks.end());
    }

    Result<void> addVolts() {
        ProbeOptions options;
        options.supplyShare = m_options.voltsShare;
        options.leastVolts = m_options.leastVolts;
        const Result<ProbeCard> card = probeCard(m_finished, m_setting, options, m_stop);
        if (!card) {
            return card.error();
        }
        for (const ProbeLine& line : card->lines) {
            Check check;
            check.kind = CheckKind::volts;
            check.red = named({line.part, line.leg, {}, {}, {}},
                              [&] { return deviceLegWords(*findPart(m_finished, line.part), line.leg); });
            check.black = jackSleeve();
            check.expected = {line.low, line.nominal, line.high};
            m_checks.push_back(std::move(check));
        }
        return {};
    }

    Result<void> addTones() {
        if (m_finished.ports.source.empty() || m_finished.ports.output.empty()) {
            return {};
        }
        const Result<QuickBand> band = quickBand(asMeasured(m_finished), m_setting, m_options.tonesHz, m_stop);
        if (!band) {
            // A silent output has no tone; every other check stays.
            return band.error().code == ErrorCode::cancelled ? Result<void>(band.error()) : Result<void>();
        }
        for (Index k = 0; k < m_options.tonesHz.size(); ++k) {
            Check check;
            check.kind = CheckKind::tone;
            check.toneHz = m_options.tonesHz[k];
            const double half = band->bandDb[k] + m_options.toneDb;
            check.expected = {band->nominalDb[k] - half, band->nominalDb[k], band->nominalDb[k] + half};
            m_checks.push_back(std::move(check));
        }
        return {};
    }

    const std::vector<BoardEdit>& m_edits;
    const Circuit& m_finished;
    const Setting& m_setting;
    const CheckOptions& m_options;
    const std::stop_token& m_stop;
    BenchState m_state;
    std::vector<Check> m_checks;
};

}  // namespace

Result<std::vector<Check>> candidateChecks(const std::vector<BoardEdit>& edits, const Circuit& finished,
                                           const Setting& setting, const CheckOptions& options,
                                           const std::stop_token& stop) {
    return Collector(edits, finished, setting, options, stop).collect();
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/checks.h"

#include "core/base/decibels.h"
#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/bench/net_words.h"
#include "core/measure/solved_circuit.h"
#include "core/measure/spread.h"
#include "core/solve/response.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>

namespace ohmwright {

// ---- Words --------------------------------------------------------------------------------------------------------

std::string_view checkWords(CheckKind kind) {
    switch (kind) {
        case CheckKind::beep:
            return toSay("must beep");
        case CheckKind::silence:
            return toSay("must stay silent");
        case CheckKind::ohms:
            return toSay("ohms");
        case CheckKind::diode:
            return toSay("diode range");
        case CheckKind::volts:
            return toSay("volts");
        case CheckKind::tone:
            return toSay("tone");
    }
    return {};
}

Unit unitOf(CheckKind kind) {
    switch (kind) {
        case CheckKind::ohms:
            return Unit::ohm;
        case CheckKind::diode:
        case CheckKind::volts:
            return Unit::volt;
        case CheckKind::tone:
            return Unit::decibel;
        default:
            return Unit::none;
    }
}

bool CheckBand::holds(CheckReading reading) const {
    if (!low && !high) {
        return !reading;
    }
    if (!reading) {
        return !high;
    }
    return (!low || *reading >= *low) && (!high || *reading <= *high);
}

namespace {

bool isBeeper(CheckKind kind) {
    return kind == CheckKind::beep || kind == CheckKind::silence;
}

std::string readingText(CheckKind kind, CheckReading reading) {
    if (isBeeper(kind)) {
        return reading && *reading > 0.5 ? said("beep") : said("silence");
    }
    if (kind == CheckKind::tone && reading) {
        return formatFixed(*reading, 1, Sign::always) + " dB";
    }
    return readingWords(reading, unitOf(kind));
}

}  // namespace

std::string CheckBand::words(CheckKind kind) const {
    if (isBeeper(kind)) {
        return readingText(kind, nominal);
    }
    if (!low && !high) {
        return said("no reading");
    }
    if (!high) {
        return said("over %1 or no reading", readingText(kind, low));
    }
    return said("%1 to %2", readingText(kind, low), readingText(kind, high));
}

std::string Check::words() const {
    const bool isEnglish = InEnglish::isSpoken();
    const std::string& redWords = isEnglish && !red.english.empty() ? red.english : red.words;
    const std::string& blackWords = isEnglish && !black.english.empty() ? black.english : black.words;
    switch (kind) {
        case CheckKind::tone:
            return said("tone of %1, instrument to output", formatFrequency(toneHz));
        case CheckKind::volts:
            return said("volts at %1", redWords);
        case CheckKind::beep:
            return said("must beep: %1 to %2", redWords, blackWords);
        case CheckKind::silence:
            return said("must stay silent: %1 to %2", redWords, blackWords);
        case CheckKind::ohms:
            return said("ohms, red on %1, black on %2", redWords, blackWords);
        case CheckKind::diode:
            return said("diode range, red on %1, black on %2", redWords, blackWords);
    }
    return {};
}

// ---- One circuit under the instruments ----------------------------------------------------------------------------

struct BenchState::Inside {
    Circuit circuit;
    Setting setting;
    ProbedBoard board;
    std::optional<Result<SolvedCircuit>> solved;
    std::map<double, Result<double>> gains;

    Inside(const Circuit& own, const Setting& at, const MeterModel& meter)
        : circuit(asMeasured(own)), setting(at), board(circuit, at, SupplyEnd::out, meter) {}

    const Result<SolvedCircuit>& powered(const std::stop_token& stop) {
        if (!solved) {
            solved = solveCircuit(circuit, setting, stop);
        }
        return *solved;
    }

    Result<double> gainDb(double hertz, const std::stop_token& stop) {
        if (const auto known = gains.find(hertz); known != gains.end()) {
            return known->second;
        }
        const Result<SolvedCircuit>& rest = powered(stop);
        if (!rest) {
            return rest.error();
        }
        const double one[] = {hertz};
        const auto response = frequencyResponse(*rest->equations, *rest->bias, {circuit.ports.output}, one, stop);
        Result<double> gain =
            response ? Result<double>(amplitudeDb(std::abs(response->front().front()))) : response.error();
        gains.emplace(hertz, gain);
        return gain;
    }

    /// Where a probe lies on this board.
    Result<std::vector<NetName>> netsOf(const Probe& probe) const {
        if (probe.part.empty()) {
            return std::vector<NetName>{probe.net};
        }
        const Part* part = findPart(circuit, probe.part);
        if (part == nullptr) {
            return Error{ErrorCode::invalidInput, said("There is no part for the probe at %1.", probe.words),
                         probe.part};
        }
        if (probe.leg == Probe::eitherLeg) {
            return part->nets;
        }
        return std::vector<NetName>{part->nets[static_cast<std::size_t>(probe.leg)]};
    }

    /// Whether a meter beeps from one of the places to one of the others.
    Result<bool> anyBeeps(const std::vector<NetName>& reds, const std::vector<NetName>& blacks,
                          const std::stop_token& stop) {
        for (const NetName& red : reds) {
            for (const NetName& black : blacks) {
                Result<bool> beeps = board.beeps(red, black, stop);
                if (!beeps || *beeps) {
                    return beeps;
                }
            }
        }
        return false;
    }
};

BenchState::BenchState(const Circuit& circuit, const Setting& setting, const MeterModel& meter)
    : m_inside(std::make_unique<Inside>(circuit, setting, meter)) {}
BenchState::BenchState(BenchState&&) noexcept = default;
BenchState& BenchState::operator=(BenchState&&) noexcept = default;
BenchState::~BenchState() = default;

const Circuit& BenchState::circuit() const {
    return m_inside->circuit;
}

const ProbedBoard& BenchState::board() const {
    return m_inside->board;
}

Result<CheckReading> BenchState::read(const Check& check, const std::stop_token& stop) {
    Inside& own = *m_inside;
    if (check.kind == CheckKind::tone) {
        const Result<double> gain = own.gainDb(check.toneHz, stop);
        return gain ? Result<CheckReading>(CheckReading(*gain)) : gain.error();
    }
    const Result<std::vector<NetName>> reds = own.netsOf(check.red);
    if (!reds) {
        return reds.error();
    }
    if (check.kind == CheckKind::volts) {
        const Result<SolvedCircuit>& rest = own.powered(stop);
        if (!rest) {
            return rest.error();
        }
        if (reds->front() != groundNet && rest->equations->indexOfNet(reds->front()) < 0) {
            return Error{ErrorCode::invalidInput, said("There is no net at %1.", check.red.words), reds->front()};
        }
        return CheckReading(rest->biasVolts(reds->front()));
    }
    const Result<std::vector<NetName>> blacks = own.netsOf(check.black);
    if (!blacks) {
        return blacks.error();
    }
    if (isBeeper(check.kind)) {
        const Result<bool> beeps = own.anyBeeps(*reds, *blacks, stop);
        return beeps ? Result<CheckReading>(CheckReading(*beeps ? 1.0 : 0.0)) : beeps.error();
    }
    const Result<MeterReading> reading = check.kind == CheckKind::ohms
                                             ? own.board.ohms(reds->front(), blacks->front(), stop)
                                             : own.board.diodeVolts(reds->front(), blacks->front(), stop);
    return reading ? Result<CheckReading>(reading->value) : reading.error();
}

// ---- The smallest set ---------------------------------------------------------------------------------------------

namespace {

/// Exact search: the row that the fewest columns cover is covered first, branches dearer than the best are left.
class CoverSearch {
public:
    CoverSearch(const std::vector<std::vector<bool>>& covers, const std::vector<double>& costs)
        : m_covers(covers), m_costs(costs) {
        for (std::size_t row = 0; row < covers.size(); ++row) {
            if (std::find(covers[row].begin(), covers[row].end(), true) != covers[row].end()) {
                m_open.push_back(row);
            }
        }
    }

    Cover search() {
        greedy();
        std::vector<std::size_t> chosen;
        descend(m_open, chosen, 0.0);
        std::sort(m_best.begin(), m_best.end());
        return {m_best, m_nodes < mostNodes};
    }

private:
    static constexpr long mostNodes = 200000;

    [[nodiscard]] std::vector<std::size_t> uncovered(const std::vector<std::size_t>& rows, std::size_t column) const {
        std::vector<std::size_t> left;
        for (const std::size_t row : rows) {
            if (!m_covers[row][column]) {
                left.push_back(row);
            }
        }
        return left;
    }

    /// A good start: again and again the column that covers the most for its cost.
    void greedy() {
        std::vector<std::size_t> rows = m_open;
        m_bestCost = 0.0;
        while (!rows.empty()) {
            std::size_t best = 0;
            double bestWorth = 0.0;
            for (std::size_t column = 0; column < m_costs.size(); ++column) {
                const auto gained = static_cast<double>(rows.size() - uncovered(rows, column).size());
                if (gained / m_costs[column] > bestWorth) {
                    bestWorth = gained / m_costs[column];
                    best = column;
                }
            }
            m_best.push_back(best);
            m_bestCost += m_costs[best];
            rows = uncovered(rows, best);
        }
    }

    void descend(const std::vector<std::size_t>& rows, std::vector<std::size_t>& chosen, double cost) {
        if (rows.empty()) {
            if (cost < m_bestCost) {
                m_best = chosen;
                m_bestCost = cost;
            }
            return;
        }
        if (++m_nodes >= mostNodes) {
            return;
        }
        std::vector<std::size_t> fewest;
        double bound = 0.0;
        for (const std::size_t row : rows) {
            std::vector<std::size_t> columns;
            double cheapest = std::numeric_limits<double>::infinity();
            for (std::size_t column = 0; column < m_costs.size(); ++column) {
                if (m_covers[row][column]) {
                    columns.push_back(column);
                    cheapest = std::min(cheapest, m_costs[column]);
                }
            }
            bound = std::max(bound, cheapest);
            if (fewest.empty() || columns.size() < fewest.size()) {
                fewest = std::move(columns);
            }
        }
        if (cost + bound >= m_bestCost) {
            return;
        }
        // What covers more is tried first, so that the bound bites early.
        std::vector<std::pair<std::size_t, std::size_t>> order;
        order.reserve(fewest.size());
        for (const std::size_t column : fewest) {
            order.emplace_back(uncovered(rows, column).size(), column);
        }
        std::sort(order.begin(), order.end());
        for (const auto& [left, column] : order) {
            if (cost + m_costs[column] >= m_bestCost) {
                continue;
            }
            chosen.push_back(column);
            descend(uncovered(rows, column), chosen, cost + m_costs[column]);
            chosen.pop_back();
        }
    }

    const std::vector<std::vector<bool>>& m_covers;
    const std::vector<double>& m_costs;
    std::vector<std::size_t> m_open;
    std::vector<std::size_t> m_best;
    double m_bestCost = 0.0;
    long m_nodes = 0;
};

double costOf(const Check& check, const CheckOptions& options) {
    switch (check.kind) {
        case CheckKind::volts:
            return options.voltsCost;
        case CheckKind::tone:
            return options.toneCost;
        default:
            return options.meterCost;
    }
}

/// Parts that are not the same on two boards, as they are on both.
std::vector<Part> differingParts(const Circuit& a, const Circuit& b) {
    std::vector<Part> parts;
    for (std::size_t k = 0; k < a.parts.size(); ++k) {
        const bool isSamePlace = k < b.parts.size() && b.parts[k].id == a.parts[k].id;
        const Part* other = isSamePlace ? &b.parts[k] : findPart(b, a.parts[k].id);
        if (other == nullptr || *other != a.parts[k]) {
            parts.push_back(a.parts[k]);
            if (other != nullptr) {
                parts.push_back(*other);
            }
        }
    }
    for (const Part& part : b.parts) {
        if (findPart(a, part.id) == nullptr) {
            parts.push_back(part);
        }
    }
    return parts;
}

/// The nets that a meter check's answer hangs on, on the finished board.
std::set<NetName> netsOfCheck(const Check& check, const BenchState& finished) {
    std::set<NetName> nets;
    const auto add = [&](const Probe& probe) {
        if (probe.part.empty()) {
            nets.insert(probe.net);
            return;
        }
        if (const Part* part = findPart(finished.circuit(), probe.part)) {
            nets.insert(part->nets.begin(), part->nets.end());
        }
    };
    add(check.red);
    add(check.black);
    const std::set<NetName> ends = nets;
    for (const NetName& red : ends) {
        for (const NetName& black : ends) {
            if (red != black) {
                nets.merge(finished.board().reach(red, black));
            }
        }
    }
    return nets;
}

std::string changeText(const CheckPlan& plan, std::size_t check, std::size_t mistake) {
    const CheckReading wrong = plan.readings[mistake][check];
    if (plan.checks[check].kind != CheckKind::tone) {
        return readingText(plan.checks[check].kind, wrong);
    }
    const CheckReading right = plan.checks[check].expected.nominal;
    if (!wrong || !right) {
        return said("no level");
    }
    const double change = *wrong - *right;
    return formatFixed(change, std::abs(change) < 1.0 ? 2 : 1, Sign::always) + " dB";
}

/// Resistor and capacitor of one leg both worked on: in one tone their errors can make up for each other.
bool bothLegsOfAnRc(const std::vector<BoardEdit>& edits) {
    const auto isWork = [](const BoardEdit& edit, PartKind kind) {
        return (edit.kind == EditKind::partSwapped || edit.kind == EditKind::partIn) && edit.after.kind == kind;
    };
    for (const BoardEdit& resistor : edits) {
        if (!isWork(resistor, PartKind::resistor)) {
            continue;
        }
        for (const BoardEdit& capacitor : edits) {
            if (!isWork(capacitor, PartKind::capacitor)) {
                continue;
            }
            for (const NetName& net : resistor.after.nets) {
                if (net != groundNet && std::find(capacitor.after.nets.begin(), capacitor.after.nets.end(), net) !=
                                            capacitor.after.nets.end()) {
                    return true;
                }
            }
        }
    }
    return false;
}

/// With both legs of an RC swapped a second tone joins a lone one: the farthest from it.
void addSecondTone(CheckPlan& plan) {
    std::vector<std::size_t> tones;
    for (const std::size_t k : plan.smallest) {
        if (plan.checks[k].kind == CheckKind::tone) {
            tones.push_back(k);
        }
    }
    if (tones.size() != 1) {
        return;
    }
    const double first = plan.checks[tones.front()].toneHz;
    std::optional<std::size_t> farthest;
    const auto distance = [&](std::size_t k) { return std::abs(std::log(plan.checks[k].toneHz / first)); };
    for (std::size_t k = 0; k < plan.checks.size(); ++k) {
        if (plan.checks[k].kind == CheckKind::tone && k != tones.front() &&
            (!farthest || distance(k) > distance(*farthest))) {
            farthest = k;
        }
    }
    if (farthest) {
        plan.smallest.push_back(*farthest);
        plan.notes.push_back(
            said("Resistor and capacitor of one leg are both new: one tone alone proves neither, so two are "
                 "taken."));
    }
}

void addNotes(CheckPlan& plan) {
    const bool hasChip = std::any_of(plan.checks.begin(), plan.checks.end(), [](const Check& check) {
        return check.hasChip && (check.kind == CheckKind::diode || check.kind == CheckKind::ohms);
    });
    if (hasChip) {
        plan.notes.push_back(
            said("An unpowered chip can conduct through its own junctions, which are not in these figures: "
                 "where a reading beside a chip looks wrong, lift one leg to be sure."));
    }
    for (const std::size_t mistake : plan.unseen) {
        plan.notes.push_back(said("%1: no reading tells it from the plan; look at the part before and after soldering.",
                                  plan.mistakes[mistake].sentence));
    }
}

/// With the power off, between two places.
bool isMeter(const Check& check) {
    return check.kind != CheckKind::volts && check.kind != CheckKind::tone;
}

/// What every check reads on a board with a mistake, and whether it sees the mistake.
struct WrongReadings {
    std::vector<CheckReading> readings;
    std::vector<bool> seen;
};

/// @param hangsOn  nets that a check's reading hangs on; it reads as planned where no part that differs is at one.
/// @param parts    that differ; without any, everything is read.
Result<WrongReadings> readWrong(const std::vector<Check>& checks, const std::vector<std::set<NetName>>& hangsOn,
                                BenchState& wrong, const std::vector<Part>& parts, const std::stop_token& stop) {
    WrongReadings all;
    for (std::size_t k = 0; k < checks.size(); ++k) {
        const Check& check = checks[k];
        const auto isNear = [&](const Part& part) {
            return std::any_of(part.nets.begin(), part.nets.end(),
                               [&](const NetName& net) { return hangsOn[k].count(net) > 0; });
        };
        const bool isFar = parts.empty() || (isMeter(check) && std::none_of(parts.begin(), parts.end(), isNear));
        const Result<CheckReading> reading =
            isFar ? Result<CheckReading>(check.expected.nominal) : wrong.read(check, stop);
        if (!reading && reading.error().code == ErrorCode::cancelled) {
            return reading.error();
        }
        all.readings.push_back(reading ? *reading : check.expected.nominal);
        all.seen.push_back(reading.hasValue() && !check.expected.holds(*reading));
    }
    return all;
}

/// The order of work: beeper, ohms, diode range, volts, tones.
void sortForWork(CheckPlan& plan) {
    std::sort(plan.smallest.begin(), plan.smallest.end(), [&](std::size_t a, std::size_t b) {
        return plan.checks[a].kind != plan.checks[b].kind ? plan.checks[a].kind < plan.checks[b].kind : a < b;
    });
}

}  // namespace

Cover cheapestCover(const std::vector<std::vector<bool>>& covers, const std::vector<double>& costs) {
    return CoverSearch(covers, costs).search();
}

Result<CheckPlan> planChecks(const std::vector<BoardEdit>& edits, const Circuit& finished, const Setting& setting,
                             const CheckOptions& options, const std::stop_token& stop) {
    CheckPlan plan;
    Result<std::vector<Check>> checks = candidateChecks(edits, finished, setting, options, stop);
    if (!checks) {
        return checks.error();
    }
    plan.checks = *std::move(checks);
    plan.mistakes = options.alsoLikely;
    for (Mistake& mistake : likelyMistakes(edits, finished)) {
        plan.mistakes.push_back(std::move(mistake));
    }

    const BenchState planned(finished, setting, options.meter);
    std::vector<std::set<NetName>> hangsOn;
    for (const Check& check : plan.checks) {
        hangsOn.push_back(isMeter(check) ? netsOfCheck(check, planned) : std::set<NetName>{});
    }
    std::vector<std::vector<bool>> seen;
    for (const Mistake& mistake : plan.mistakes) {
        if (stop.stop_requested()) {
            return Error{ErrorCode::cancelled, said("The solve was overtaken by a newer one."), ""};
        }
        BenchState wrong(mistake.circuit, setting, options.meter);
        const std::vector<Part> parts =
            mistake.isAlike ? std::vector<Part>{} : differingParts(finished, mistake.circuit);
        auto readings = readWrong(plan.checks, hangsOn, wrong, parts, stop);
        if (!readings) {
            return readings.error();
        }
        seen.push_back(std::move(readings->seen));
        plan.readings.push_back(std::move(readings->readings));
    }
    std::vector<double> costs;
    costs.reserve(plan.checks.size());
    for (const Check& check : plan.checks) {
        costs.push_back(costOf(check, options));
    }
    const Cover cover = cheapestCover(seen, costs);
    plan.smallest = cover.columns;
    plan.isSmallest = cover.isExact;
    for (std::size_t row = 0; row < seen.size(); ++row) {
        if (std::find(seen[row].begin(), seen[row].end(), true) == seen[row].end()) {
            plan.unseen.push_back(row);
        }
    }
    if (bothLegsOfAnRc(edits)) {
        addSecondTone(plan);
    }
    sortForWork(plan);
    addNotes(plan);
    return plan;
}

std::string howToSee(const CheckPlan& plan, std::size_t mistake) {
    const std::string& name = plan.mistakes[mistake].sentence;
    std::string blind, seeing;
    std::optional<std::size_t> best;
    const auto deviation = [&](std::size_t check) {
        return std::abs(plan.readings[mistake][check].value_or(0.0) -
                        plan.checks[check].expected.nominal.value_or(0.0));
    };
    for (std::size_t k = 0; k < plan.checks.size(); ++k) {
        if (plan.checks[k].kind != CheckKind::tone) {
            continue;
        }
        if (!plan.sees(k, mistake)) {
            const std::string tone = formatFrequency(plan.checks[k].toneHz);
            const std::string change = changeText(plan, k, mistake);
            blind.append(blind.empty() ? said("a tone of %1 cannot see it (%2)", tone, change)
                                       : ", " + said("%1 cannot see it (%2)", tone, change));
        } else if (!best || deviation(k) > deviation(*best)) {
            best = k;
        }
    }
    if (best) {
        seeing = formatFrequency(plan.checks[*best].toneHz) + " (" + changeText(plan, *best, mistake) + ")";
    }
    for (const CheckKind kind : {CheckKind::ohms, CheckKind::diode, CheckKind::beep, CheckKind::silence}) {
        for (std::size_t k = 0; k < plan.checks.size(); ++k) {
            if (plan.checks[k].kind == kind && plan.sees(k, mistake)) {
                const std::string way = said("%1 (%2)", said(checkWords(kind)), changeText(plan, k, mistake));
                seeing = seeing.empty() ? way : said("%1 or %2", seeing, way);
                break;
            }
        }
    }
    if (seeing.empty()) {
        return said("%1: no reading tells it from the plan; look at the part.", name);
    }
    return blind.empty() ? said("%1: use %2.", name, seeing) : said("%1: %2; use %3.", name, blind, seeing);
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/visits.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/base/text.h"
#include "core/plan/apply.h"
#include "core/plan/stock_setting.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace ohmwright {

namespace {

constexpr std::size_t mostPins = 5;
const char* const supplyPlace = toSay("supply current");

double bandOf(const ProbeLine& line) {
    return (line.high - line.low) / std::max(std::abs(line.nominal), 0.1);
}

bool isSamePlace(const UnitReading& one, const UnitReading& other) {
    return one.net == other.net && one.unit == other.unit;
}

template <class Reading, class Of>
const Reading* findPlace(const std::vector<Reading>& readings, const UnitReading& place, const Of& of) {
    const auto found = std::find_if(readings.begin(), readings.end(),
                                    [&](const Reading& reading) { return isSamePlace(of(reading), place); });
    return found != readings.end() ? &*found : nullptr;
}

std::vector<ExpectedReading> supplyReading(const ProbeCard& card) {
    if (!card.supply) {
        return {};
    }
    return {{{supplyPlace, {}, card.supply->nominal, Unit::ampere}, card.supply->low, card.supply->high}};
}

ExpectedReading expectedAt(const ProbeLine& line) {
    return {{line.place, line.net, line.nominal, Unit::volt}, line.low, line.high};
}

const Departure* findDeparture(const Job& job, int visitNumber) {
    const auto found = std::find_if(job.departures.begin(), job.departures.end(),
                                    [&](const Departure& departure) { return departure.visit.number == visitNumber; });
    return found != job.departures.end() ? &*found : nullptr;
}

Error noSuchDeparture(const Job& job, int visitNumber) {
    std::string ended;
    for (const Departure& departure : job.departures) {
        ended += (ended.empty() ? "" : ", ") + std::to_string(departure.visit.number);
    }
    return {ErrorCode::invalidInput,
            ended.empty() ? said("Visit %1 has no record of leaving; no visit of this unit has ended.", visitNumber)
                          : said("Visit %1 has no record of leaving; visits that have ended: %2.", visitNumber, ended)};
}

std::string returnSentence(const ReturnCheck& check) {
    std::string places;
    for (const ReturnedReading& reading : check.readings) {
        if (reading.verdict == check.verdict && reading.left) {
            places.append(places.empty() ? "" : "; ").append(said(reading.back.place)).append(" ");
            places.append(unitReadingWords(*reading.left, reading.back.unit)).append(" → ");
            places.append(unitReadingWords(reading.back.value, reading.back.unit));
        }
    }
    switch (check.verdict) {
        case ReturnVerdict::nothingChanged:
            return said("Nothing changed since the unit left: every reading is within what a meter and a battery do.");
        case ReturnVerdict::drifted:
            return said("A part has drifted, as parts do with age and heat: %1.", places);
        case ReturnVerdict::changed:
            return said("The unit is not as it left: a fault, or somebody was inside: %1.", places);
        case ReturnVerdict::notCompared:
            break;
    }
    return said("Nothing can be compared: none of these places was read when the unit left.");
}

/// How far units of this drawing lie from the middle at a place.
double unitsApart(const ProbeCard& card, const UnitReading& reading) {
    if (reading.unit == Unit::ampere) {
        return card.supply ? std::max(card.supply->high - card.supply->nominal, card.supply->nominal - card.supply->low)
                           : 0.0;
    }
    double apart = 0.0;
    for (const ProbeLine& line : card.lines) {
        if (line.net == reading.net) {
            apart = std::max(line.high - line.nominal, line.nominal - line.low);
        }
    }
    return apart;
}

/// @param units  more than that apart no wear explains.
void compareReading(ReturnedReading& one, double then, double units) {
    const ProbeOptions meter;
    one.left = then;
    one.limit = meter.supplyShare * std::abs(then) + (one.back.unit == Unit::ampere ? 0.0 : meter.leastVolts);
    const double moved = std::abs(one.back.value - then);
    one.verdict = moved <= one.limit ? ReturnVerdict::nothingChanged
                  : moved <= units   ? ReturnVerdict::drifted
                                     : ReturnVerdict::changed;
}

}  // namespace

std::string unitReadingWords(double value, Unit unit) {
    if (unit == Unit::ampere) {
        return formatFigure(1e3 * value) + " mA";
    }
    return formatFixed(value, 2) + " V";
}

Result<std::vector<ExpectedReading>> expectedReadings(const Circuit& circuit, const Setting& setting,
                                                      const std::stop_token& stop) {
    const Result<ProbeCard> card = probeCard(circuit, setting, {}, stop);
    if (!card) {
        return card.error();
    }
    std::vector<ExpectedReading> readings = supplyReading(*card);
    std::vector<const ProbeLine*> lines;
    for (const ProbeLine& line : card->lines) {
        lines.push_back(&line);
    }
    std::stable_sort(lines.begin(), lines.end(),
                     [](const ProbeLine* one, const ProbeLine* other) { return bandOf(*one) > bandOf(*other); });
    // A device once before any twice.
    std::set<PartId> seen;
    std::stable_partition(lines.begin(), lines.end(),
                          [&](const ProbeLine* line) { return seen.insert(line->part).second; });
    lines.resize(std::min(lines.size(), mostPins));
    for (const ProbeLine* line : lines) {
        readings.push_back(expectedAt(*line));
    }
    return readings;
}

Result<std::vector<ExpectedReading>> everyReading(const Circuit& circuit, const Setting& setting,
                                                  const std::stop_token& stop) {
    const Result<ProbeCard> card = probeCard(circuit, setting, {}, stop);
    if (!card) {
        return card.error();
    }
    std::vector<ExpectedReading> readings = supplyReading(*card);
    for (const ProbeLine& line : card->lines) {
        readings.push_back(expectedAt(line));
    }
    return readings;
}

const ExpectedReading* findPlace(const std::vector<ExpectedReading>& places, std::string_view words) {
    const std::string asked = inLowerCase(words);
    for (const ExpectedReading& place : places) {
        const std::string& net = place.nominal.net;
        if (inLowerCase(place.nominal.place) == asked || (!net.empty() && inLowerCase(net) == asked)) {
            return &place;
        }
    }
    return nullptr;
}

std::vector<JudgedReading> judgeReadings(const std::vector<UnitReading>& read,
                                         const std::vector<ExpectedReading>& expected) {
    std::vector<JudgedReading> judged;
    for (const UnitReading& reading : read) {
        JudgedReading one{reading, {}, false, {}};
        const ExpectedReading* band =
            findPlace(expected, reading, [](const ExpectedReading& each) { return each.nominal; });
        const std::string shown = unitReadingWords(reading.value, reading.unit);
        if (band == nullptr) {
            one.sentence = said("%1: %2; the drawing says nothing of it", said(reading.place), shown);
        } else {
            one.expected = *band;
            one.isOutside = !(reading.value >= band->low && reading.value <= band->high);
            const std::string low = unitReadingWords(band->low, reading.unit);
            const std::string high = unitReadingWords(band->high, reading.unit);
            one.sentence = one.isOutside
                               ? said(
                                     "%1: %2, drawing %3 to %4: a fault, an earlier mod or another drawing; find out "
                                     "before any mod",
                                     said(reading.place), shown, low, high)
                               : said("%1: %2, drawing %3 to %4", said(reading.place), shown, low, high);
        }
        judged.push_back(std::move(one));
    }
    return judged;
}

Result<Job> depart(const Job& job, const std::vector<UnitReading>& readings, const std::string& when) {
    if (job.visit.state == VisitState::gone) {
        return Error{ErrorCode::invalidInput,
                     said("Visit %1 has ended already: its record is frozen. Begin the next visit.", job.visit.number)};
    }
    if (const Result<Circuit> now = nowCircuit(job); !now) {
        return now.error();
    }
    Job gone = job;
    gone.visit.state = VisitState::gone;
    gone.departures.push_back({when, gone.visit, job.stock, job.corrections, job.plan, job.setting, readings, {}});
    return gone;
}

Result<Job> nextVisit(const Job& job, const std::string& date, const std::string& complaint) {
    if (job.visit.state != VisitState::gone) {
        return Error{
            ErrorCode::invalidInput,
            said("Visit %1 has not ended: write down what leaves before the next one begins.", job.visit.number)};
    }
    Result<Circuit> left = nowCircuit(job);
    if (!left) {
        return left.error();
    }
    Job next = job;
    next.stock = *std::move(left);
    next.plan.clear();
    next.pinned.clear();  // They stood on the stock of the visit before.
    next.setting.throws.clear();
    forgetKnobsNotThere(next);  // A mod may have taken a pot out.
    next.visit = Visit();
    next.visit.number = job.visit.number + 1;
    next.visit.date = date;
    next.visit.complaint = complaint;
    return next;
}

Result<Job> jobOfVisit(const Job& job, int visitNumber) {
    const Departure* departure = findDeparture(job, visitNumber);
    if (departure == nullptr) {
        return noSuchDeparture(job, visitNumber);
    }
    Job then = job;
    then.visit = departure->visit;
    then.stock = departure->stock;
    then.corrections = departure->corrections;
    then.plan = departure->plan;
    then.setting = departure->setting;
    then.pinned.clear();
    std::erase_if(then.departures, [&](const Departure& each) { return each.visit.number > visitNumber; });
    return then;
}

Result<Job> addDepartureNote(const Job& job, int visitNumber, const std::string& note) {
    const Departure* departure = findDeparture(job, visitNumber);
    if (departure == nullptr) {
        return noSuchDeparture(job, visitNumber);
    }
    Job noted = job;
    noted.departures[std::size_t(departure - job.departures.data())].notes.push_back(note);
    return noted;
}

std::string_view returnVerdictWord(ReturnVerdict verdict) {
    switch (verdict) {
        case ReturnVerdict::nothingChanged:
            return toSay("nothing changed");
        case ReturnVerdict::drifted:
            return toSay("drifted");
        case ReturnVerdict::changed:
            return toSay("changed");
        case ReturnVerdict::notCompared:
            break;
    }
    return toSay("not compared");
}

Result<ReturnCheck> checkReturn(const Departure& departure, const std::vector<UnitReading>& back,
                                const std::stop_token& stop) {
    const Result<Circuit> left = applyPlan(departure.stock, departure.plan, departure.setting.throws);
    if (!left) {
        return left.error();
    }
    const Result<ProbeCard> card = probeCard(*left, departure.setting, {}, stop);
    if (!card) {
        return card.error();
    }
    ReturnCheck check;
    for (const UnitReading& reading : back) {
        ReturnedReading one{reading, {}, 0.0, ReturnVerdict::notCompared};
        if (const UnitReading* then =
                findPlace(departure.readings, reading, [](const UnitReading& each) { return each; })) {
            compareReading(one, then->value, unitsApart(*card, reading));
            check.verdict =
                check.verdict == ReturnVerdict::notCompared ? one.verdict : std::max(check.verdict, one.verdict);
        }
        check.readings.push_back(one);
    }
    check.sentence = returnSentence(check);
    return check;
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/settling_reading.h"

#include "core/base/said.h"
#include "core/bench/meter.h"
#include "core/bench/net_words.h"

#include <utility>

namespace ohmwright {

namespace {

/// Where the probes are put, in both circuits.
struct ProbePair {
    NetName redHere, blackHere, redThere, blackThere;
};

std::vector<ProbePair> probePairs(const Part& there, const Part& here, const std::vector<int>& pins) {
    std::vector<ProbePair> pairs;
    const NetName ground(groundNet);
    const auto netHere = [&](std::size_t pin) { return here.nets[static_cast<std::size_t>(pins[pin])]; };
    for (std::size_t a = 0; a < there.nets.size(); ++a) {
        for (std::size_t b = a + 1; b < there.nets.size(); ++b) {
            pairs.push_back({netHere(a), netHere(b), there.nets[a], there.nets[b]});
        }
    }
    for (std::size_t pin = 0; pin < there.nets.size(); ++pin) {
        pairs.push_back({netHere(pin), ground, there.nets[pin], ground});
    }
    std::erase_if(pairs, [](const ProbePair& pair) {
        return pair.redHere == pair.blackHere || pair.redThere == pair.blackThere;
    });
    return pairs;
}

/// Whether a meter tells the two apart whatever the parts inside their tolerance do.
bool areApart(const MeterBand& one, const MeterBand& other) {
    if (one.nominal.hasChip || other.nominal.hasChip) {
        return false;
    }
    if (!one.nominal.value || !other.nominal.value) {
        return one.nominal.value.has_value() != other.nominal.value.has_value();
    }
    if (!one.low || !one.high || !other.low || !other.high) {
        return false;
    }
    return *one.high < *other.low || *other.high < *one.low;
}

std::string sentenceOf(const SettlingReading& reading, const std::string& here, const std::string& there) {
    const std::string asDrawn = readingWords(reading.asDrawn, reading.unit);
    const std::string asInRecipe = readingWords(reading.asInRecipe, reading.unit);
    if (reading.unit == Unit::ohm) {
        return said(
            "Power off and discharged, read ohms from %1 to %2: %3 where this unit is as drawn, %4 where %5 "
            "stands as %6 does in the recipe",
            reading.red, reading.black, asDrawn, asInRecipe, here, there);
    }
    return said(
        "Power off and discharged, read the diode range from %1 to %2: %3 where this unit is as drawn, %4 "
        "where %5 stands as %6 does in the recipe",
        reading.red, reading.black, asDrawn, asInRecipe, here, there);
}

}  // namespace

Result<SettlingReading> settlingReading(const Circuit& known, const Circuit& here, const PartMatch& match,
                                        const Setting& setting, const std::stop_token& stop) {
    const Part& there = *findPart(known, match.part);
    const Part& part = *findPart(here, match.other);
    const ProbedBoard boardThere(known, setting);
    const ProbedBoard boardHere(here, setting);
    for (const Unit unit : {Unit::ohm, Unit::volt}) {
        const auto band = unit == Unit::ohm ? &ProbedBoard::ohmsBand : &ProbedBoard::diodeBand;
        for (const ProbePair& pair : probePairs(there, part, match.pins)) {
            const Result<MeterBand> asDrawn = (boardHere.*band)(pair.redHere, pair.blackHere, stop);
            const Result<MeterBand> asInRecipe = (boardThere.*band)(pair.redThere, pair.blackThere, stop);
            if (!asDrawn || !asInRecipe) {
                return asDrawn ? asInRecipe.error() : asDrawn.error();
            }
            if (!areApart(*asDrawn, *asInRecipe)) {
                continue;
            }
            SettlingReading reading{placeWords(here, pair.redHere), placeWords(here, pair.blackHere), unit,
                                    asDrawn->nominal.value,         asInRecipe->nominal.value,        {}};
            reading.sentence = sentenceOf(reading, displayName(part), displayName(there));
            return reading;
        }
    }
    SettlingReading none;
    none.sentence = said(
        "No reading across the board tells whether %1 is %2 of the recipe: lift one leg and measure the part itself",
        displayName(part), displayName(there));
    return none;
}

Result<std::vector<SettlingReading>> settlingReadings(const Recipe& recipe, const RecipeFit& fit,
                                                      const std::stop_token& stop) {
    std::vector<SettlingReading> readings;
    for (const RecipePart& part : fit.parts) {
        if (part.match.certainty != MatchCertainty::likely) {
            continue;
        }
        Result<SettlingReading> reading =
            settlingReading(recipe.circuit, fit.job.stock, part.match, fit.job.setting, stop);
        if (!reading) {
            return reading.error();
        }
        readings.push_back(*std::move(reading));
    }
    return readings;
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/check.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/bench/meter.h"

namespace ohmwright {

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

bool isBeeper(CheckKind kind) {
    return kind == CheckKind::beep || kind == CheckKind::silence;
}

bool isMeter(CheckKind kind) {
    return kind != CheckKind::volts && kind != CheckKind::tone;
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

}  // namespace ohmwright

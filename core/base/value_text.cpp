// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/value_text.h"

#include "core/base/preferred_numbers.h"
#include "core/base/said.h"
#include "core/base/value_readings.h"
#include "core/base/value_writing.h"
#include "core/base/value_written.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <utility>

namespace ohmwright {

namespace {

/// Longer than any value a person writes; a pasted page is refused before it is looked at.
constexpr std::size_t longestText = 40;

std::string_view fieldName(Unit unit) {
    switch (unit) {
        case Unit::ohm:
            return toSay("a resistance");
        case Unit::farad:
            return toSay("a capacitance");
        case Unit::henry:
            return toSay("an inductance");
        case Unit::volt:
            return toSay("a voltage");
        case Unit::ampere:
            return toSay("a current");
        case Unit::hertz:
            return toSay("a frequency");
        case Unit::decibel:
            return toSay("a level in dB");
        case Unit::percent:
            return toSay("a percentage");
        case Unit::none:
            return toSay("a number");
    }
    return toSay("a number");
}

std::string_view examplesOf(Unit unit) {
    switch (unit) {
        case Unit::ohm:
            return toSay("4k7, 470R or 1M");
        case Unit::farad:
            return toSay("120n, 4n7, 100p or 2u2");
        case Unit::henry:
            return toSay("2.8 H or 100 mH");
        case Unit::volt:
            return toSay("9 V or 100 mV");
        case Unit::ampere:
            return toSay("4 mA");
        case Unit::hertz:
            return toSay("220 Hz or 1 kHz");
        default:
            return toSay("12.5");
    }
}

// ---- Sentences -----------------------------------------------------------------------------------------------

/// Bytes of the character at the front of the text; 0 where no whole one stands there. UTF-8, RFC 3629.
std::size_t characterLength(std::string_view text) {
    const auto lead = static_cast<unsigned char>(text.front());
    const std::size_t length = lead < 0x80   ? 1
                               : lead < 0xC2 ? 0
                               : lead < 0xE0 ? 2
                               : lead < 0xF0 ? 3
                               : lead < 0xF5 ? 4
                                             : 0;
    const std::string_view character = text.substr(0, length);
    const bool isWhole = character.size() == length &&
                         std::all_of(character.begin() + (length > 0 ? 1 : 0), character.end(),
                                     [](char c) { return (static_cast<unsigned char>(c) & 0xC0) == 0x80; });
    return isWhole ? length : 0;
}

/// Only what can be shown safely: the text as typed, cut where it is long; "?" for control bytes and for characters
/// that are cut or broken, which would make the sentence itself unreadable text.
std::string quoted(std::string_view text) {
    std::string shown;
    for (std::string_view rest = text.substr(0, longestText); !rest.empty();) {
        const std::size_t length = characterLength(rest);
        const bool isControl = static_cast<unsigned char>(rest.front()) < ' ' || rest.front() == '\x7f';
        shown += length == 0 || isControl ? std::string_view("?") : rest.substr(0, length);
        rest.remove_prefix(std::max<std::size_t>(length, 1));
    }
    return "“" + shown + (text.size() > longestText ? "…”" : "”");
}

/// @param english  with the text as typed as its first place.
template <class... Fillings>
Error refuse(const char* english, std::string_view text, const Fillings&... fillings) {
    return {ErrorCode::invalidInput, said(english, quoted(text), fillings...), {}};
}

Error notAValue(std::string_view text, Unit unit) {
    return refuse(toSay("%1 cannot be read as %2: write it like %3."), text, said(fieldName(unit)),
                  said(examplesOf(unit)));
}

// ---- Reading -------------------------------------------------------------------------------------------------

/// Questions that deserve their own words, before the text is refused in general.
std::optional<Error> knownTrap(std::string_view text, const std::string& flat, Unit unit) {
    const bool startsWithNumber = !flat.empty() && (isDigit(flat.front()) || flat.front() == '.');
    const std::size_t letter = flat.find_first_not_of("0123456789.,");
    if (!startsWithNumber || letter == std::string::npos) return std::nullopt;
    const std::string number = flat.substr(0, letter);
    const char scale = flat[letter];
    const bool alone = letter + 1 == flat.size();
    if (unit == Unit::ohm && scale == 'm' && !flat.substr(letter).starts_with("meg"))
        return refuse(toSay("%1 in a resistor field: is milliohm or megohm meant? Write %2M for megohm, or the "
                            "milliohms as a part of an ohm, like R1 for 100 milliohm."),
                      text, number);
    if ((scale == 'e' || scale == 'E') && !alone)
        return refuse(toSay("%1 could be a letter for the decimal point or a power of ten: write it like %2."), text,
                      said(examplesOf(unit)));
    if (unit == Unit::ohm && (scale == 'n' || scale == 'p' || scale == 'u'))
        return refuse(toSay("%1 is a capacitance, and this part is a resistor: write it like 4k7, 470R or 1M."), text);
    if (unit == Unit::farad && (scale == 'k' || scale == 'o'))
        return refuse(toSay("%1 is a resistance, and this part is a capacitor: write it like 120n, 4n7 or 2u2."), text);
    return std::nullopt;
}

bool beginsWithZeroCode(const Written& written) {
    return (written.scale.empty() || written.scale == "F") && !written.hasPoint && written.fraction.empty() &&
           written.whole.size() > 1 && written.whole.front() == '0' &&
           written.whole.find_first_not_of('0') != std::string::npos;
}

std::string rangeText(Unit unit) {
    const ValueRange range = valueRange(unit);
    return said("%1 to %2", withUnit({range.lowest, unit}, 1), withUnit({range.highest, unit}, 1));
}

Result<void> checkRange(std::string_view text, const ValueReading& candidate) {
    const ValueRange range = valueRange(candidate.value.unit);
    const double si = candidate.value.si;
    if (si == 0.0 && range.lowest > 0.0)
        return refuse(toSay("%1 is zero, and %2 must be more than that: bridge or lift the part instead."), text,
                      said(fieldName(candidate.value.unit)));
    if (!(si >= range.lowest * (1.0 - sameNumber)) || !(si <= range.highest * (1.0 + sameNumber)))
        return refuse(toSay("%1 is outside %2."), text, rangeText(candidate.value.unit));
    return {};
}

/// Sign allowed; used for levels, percentages and plain numbers.
Result<std::vector<ValueReading>> readSignedNumber(std::string_view text, const std::string& flat, Unit unit) {
    const bool negative = flat.starts_with("-");
    const bool hasSign = negative || flat.starts_with("+");
    const std::optional<Written> written = takeApart(std::string_view(flat).substr(hasSign ? 1 : 0), unit);
    if (!written) return notAValue(text, unit);
    std::vector<ValueReading> readings = readScaled(*written, unit);
    for (ValueReading& candidate : readings) {
        if (!std::isfinite(candidate.value.si)) return notAValue(text, unit);
        if (negative) candidate.value.si = -candidate.value.si;
    }
    return readings;
}

/// Keeps the readings that a part can have; the first complaint when none is left.
Result<std::vector<ValueReading>> soundReadings(std::string_view text, std::vector<ValueReading> candidates) {
    std::vector<ValueReading> sound;
    std::optional<Error> complaint;
    for (ValueReading& candidate : candidates) {
        const Result<void> inRange = checkRange(text, candidate);
        if (inRange)
            sound.push_back(std::move(candidate));
        else if (!complaint)
            complaint = inRange.error();
    }
    if (sound.empty()) return *complaint;
    return sound;
}

}  // namespace

Result<std::vector<ValueReading>> readValue(std::string_view text, Unit expected) {
    const std::string flat = text.size() <= longestText ? plain(text) : std::string();
    if (text.size() > longestText) return notAValue(text, expected);
    if (flat.empty())
        return Error{
            ErrorCode::invalidInput,
            said("Nothing is written: write %1 like %2.", said(fieldName(expected)), said(examplesOf(expected))),
            {}};
    if (expected == Unit::none || expected == Unit::decibel || expected == Unit::percent)
        return readSignedNumber(text, flat, expected);
    if (flat.front() == '-')
        return refuse(toSay("%1 is negative: write %2 without a sign, like %3."), text, said(fieldName(expected)),
                      said(examplesOf(expected)));
    if (const std::optional<Error> trap = knownTrap(text, flat, expected)) return *trap;
    const std::optional<Written> written = takeApart(flat, expected);
    if (!written) return notAValue(text, expected);
    if (expected == Unit::farad && beginsWithZeroCode(*written))
        return refuse(toSay("%1 begins with a zero: write .%2 for microfarads or the number with p, n or u."), text,
                      written->whole.substr(1));
    return soundReadings(text, expected == Unit::farad ? readCapacitor(*written) : readScaled(*written, expected));
}

Result<Quantity> parsePartValue(std::string_view text, Unit expected) {
    const Result<std::vector<ValueReading>> readings = readValue(text, expected);
    if (!readings) return readings.error();
    if (readings->size() == 1) return readings->front().value;
    std::string choices;
    for (const ValueReading& each : *readings) {
        const std::string choice = said("%1 (%2)", formatQuantity(each.value), each.because);
        choices = choices.empty() ? choice : said("%1 or %2", choices, choice);
    }
    return refuse(toSay("%1 can be %2: write which one is meant."), text, choices);
}

Result<double> parseShare(std::string_view text) {
    std::string figure(text);
    std::replace(figure.begin(), figure.end(), ',', '.');
    const auto isLeftOut = [](char letter) { return letter == ' ' || letter == '\t'; };
    std::erase_if(figure, isLeftOut);
    if (figure.ends_with('%')) {
        figure.pop_back();
    }
    double percent = 0.0;
    const char* end = figure.data() + figure.size();
    const auto [rest, problem] = std::from_chars(figure.data(), end, percent, std::chars_format::fixed);
    constexpr double whole = 100.0;
    // Written so that what is no number at all is refused too.
    if (figure.empty() || problem != std::errc() || rest != end || !(percent >= 0.0 && percent <= whole)) {
        return Error{ErrorCode::invalidInput, said("\"%1\" is no share: type 0 to 100 %, as in 5 %.", text),
                     std::string(text)};
    }
    return percent / whole;
}

Result<ValueReading> readChipResistor(std::string_view marking) {
    const std::string flat = plain(marking);
    const bool digitsOnly = !flat.empty() && flat.find_first_not_of("0123456789") == std::string::npos;
    if (digitsOnly && (flat.size() == 3 || flat.size() == 4)) {
        if (flat.find_first_not_of('0') == std::string::npos)
            return refuse(toSay("%1 on a chip is a link of 0 Ω and no resistor: mark it as a bridge."), marking);
        const std::string number = flat.substr(0, flat.size() - 1);
        const ValueReading read = reading(decimalNumber(number, "", flat.back() - '0'), Unit::ohm, '\0',
                                          said("chip resistor code, %1 and %2 zeros, in Ω", number, flat.back()));
        const Result<void> inRange = checkRange(marking, read);
        if (!inRange) return inRange.error();
        return read;
    }
    // EIA-96: index 01..96 of E96 times a letter; several letters stand for one multiplier.
    constexpr std::string_view letters = "YRXSABHCDEF";
    constexpr std::array<int, 11> exponents = {-2, -2, -1, -1, 0, 1, 1, 2, 3, 4, 5};
    const bool indexed = flat.size() == 3 && isDigit(flat[0]) && isDigit(flat[1]);
    const std::size_t letter = indexed ? letters.find(flat[2]) : std::string_view::npos;
    const int index = indexed ? (flat[0] - '0') * 10 + (flat[1] - '0') : 0;
    if (letter != std::string_view::npos && index >= 1 && index <= 96) {
        const double member = decadeOf(Series::e96)[static_cast<std::size_t>(index - 1)];
        const std::string hundredths = std::to_string(std::lround(member * 100.0));
        return reading(decimalNumber(hundredths, "", exponents[letter]), Unit::ohm, '\0',
                       said("chip resistor code, E96 value %1 and letter %2", flat.substr(0, 2), flat[2]));
    }
    const std::size_t point = flat.find('R');
    if (point != std::string::npos && flat.size() <= 4) {
        const Result<std::vector<ValueReading>> readings = readValue(flat, Unit::ohm);
        if (readings && readings->size() == 1) return readings->front();
    }
    return refuse(toSay("%1 is no marking of a chip resistor: they look like 472, 4702, 4R7 or 01C."), marking);
}

}  // namespace ohmwright

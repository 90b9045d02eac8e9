// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/value_text.h"

#include "core/base/number_text.h"
#include "core/base/preferred_numbers.h"
#include "core/base/said.h"

#include <algorithm>
#include <array>
#include <atomic>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <span>
#include <utility>

namespace ohmwright {

namespace {

std::atomic<ValueStyle> processStyle = ValueStyle::letterAsPoint;

/// Longer than any value a person writes; a pasted page is refused before it is looked at.
constexpr std::size_t longestText = 40;
/// Two decimal numbers nearer than this are one: rounding of a double is 1e-16, a sixth digit 1e-6.
constexpr double sameNumber = 1e-9;

// ---- What was written, taken apart -------------------------------------------------------------------------

/// "4k7J" is whole 4, scale k, fraction 7, tolerance J.
struct Written {
    std::string whole;
    std::string fraction;
    bool hasPoint = false;
    bool hasComma = false;
    std::string scale;  ///< As in the unit's scale table; empty when none.
    bool scaleIsPoint = false;
    bool hasUnit = false;
    char tolerance = '\0';
};

struct Scale {
    std::string_view text;
    int exponent;
};

// A longer text stands before a shorter one that it begins with.
constexpr std::array<Scale, 10> ohmScales = {
    {{"MEG", 6}, {"Meg", 6}, {"meg", 6}, {"R", 0}, {"r", 0}, {"K", 3}, {"k", 3}, {"M", 6}, {"G", 9}, {"L", -3}}};
constexpr std::array<Scale, 16> faradScales = {{{"mmfd", -12},
                                                {"MMFD", -12},
                                                {"mfd", -6},
                                                {"MFD", -6},
                                                {"Mfd", -6},
                                                {"mF", -3},
                                                {"p", -12},
                                                {"P", -12},
                                                {"n", -9},
                                                {"N", -9},
                                                {"u", -6},
                                                {"U", -6},
                                                {"m", -3},
                                                {"R", -12},
                                                {"r", -12},
                                                {"F", 0}}};
constexpr std::array<Scale, 5> henryScales = {{{"n", -9}, {"u", -6}, {"m", -3}, {"k", 3}, {"H", 0}}};
constexpr std::array<Scale, 6> voltScales = {{{"p", -12}, {"n", -9}, {"u", -6}, {"m", -3}, {"k", 3}, {"V", 0}}};
constexpr std::array<Scale, 5> ampereScales = {{{"p", -12}, {"n", -9}, {"u", -6}, {"m", -3}, {"A", 0}}};
// A bare m is no frequency: milli or mega?
constexpr std::array<Scale, 7> hertzScales = {
    {{"mHz", -3}, {"Meg", 6}, {"meg", 6}, {"k", 3}, {"K", 3}, {"M", 6}, {"G", 9}}};

std::span<const Scale> scalesOf(Unit unit) {
    switch (unit) {
        case Unit::ohm:
            return ohmScales;
        case Unit::farad:
            return faradScales;
        case Unit::henry:
            return henryScales;
        case Unit::volt:
            return voltScales;
        case Unit::ampere:
            return ampereScales;
        case Unit::hertz:
            return hertzScales;
        default:
            return {};
    }
}

std::span<const std::string_view> unitWordsOf(Unit unit) {
    static constexpr std::array<std::string_view, 5> ohmWords = {"ohms", "ohm", "Ohms", "Ohm", "OHM"};
    static constexpr std::array<std::string_view, 2> faradWords = {"F", "f"};
    static constexpr std::array<std::string_view, 1> henryWords = {"H"};
    static constexpr std::array<std::string_view, 1> voltWords = {"V"};
    static constexpr std::array<std::string_view, 1> ampereWords = {"A"};
    static constexpr std::array<std::string_view, 3> hertzWords = {"Hz", "hz", "HZ"};
    static constexpr std::array<std::string_view, 2> decibelWords = {"dB", "db"};
    static constexpr std::array<std::string_view, 1> percentWords = {"%"};
    switch (unit) {
        case Unit::ohm:
            return ohmWords;
        case Unit::farad:
            return faradWords;
        case Unit::henry:
            return henryWords;
        case Unit::volt:
            return voltWords;
        case Unit::ampere:
            return ampereWords;
        case Unit::hertz:
            return hertzWords;
        case Unit::decibel:
            return decibelWords;
        case Unit::percent:
            return percentWords;
        case Unit::none:
            return {};
    }
    return {};
}

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

/// Only what can be shown safely: the text as typed, cut where it is long or holds control bytes.
std::string quoted(std::string_view text) {
    std::string shown;
    for (char c : text.substr(0, longestText)) shown += (c >= ' ' && c != '\x7f') || (c & '\x80') != 0 ? c : '?';
    // A cut or broken multi-byte character would make the sentence itself unreadable text.
    std::string sound;
    for (std::size_t i = 0; i < shown.size();) {
        const auto lead = static_cast<unsigned char>(shown[i]);
        const std::size_t length = lead < 0x80 ? 1 : lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : lead >= 0xC2 ? 2 : 0;
        bool whole = length > 0 && i + length <= shown.size() && lead < 0xF5;
        for (std::size_t k = 1; whole && k < length; ++k)
            whole = (static_cast<unsigned char>(shown[i + k]) & 0xC0) == 0x80;
        sound += whole ? shown.substr(i, length) : "?";
        i += whole ? length : 1;
    }
    return "“" + sound + (text.size() > longestText ? "…”" : "”");
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

bool isDigit(char c) {
    return c >= '0' && c <= '9';
}

void replaceAll(std::string& text, std::string_view from, std::string_view to) {
    for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
}

/// The text in plain letters without outer and separating spaces; a space between digits stays and is refused later.
std::string plain(std::string_view text) {
    std::string result(text);
    replaceAll(result, "\u00B5", "u");    // micro sign
    replaceAll(result, "\u03BC", "u");    // Greek mu
    replaceAll(result, "\u03A9", "ohm");  // Greek capital omega
    replaceAll(result, "\u2126", "ohm");  // ohm sign
    replaceAll(result, "\u00A0", " ");    // no-break space
    replaceAll(result, "\u202F", " ");    // narrow no-break space
    replaceAll(result, "\u2009", " ");    // thin space
    replaceAll(result, "\u2212", "-");    // minus sign
    replaceAll(result, "\t", " ");
    std::string joined;
    for (std::size_t i = 0; i < result.size(); ++i) {
        const std::size_t next = result.find_first_not_of(' ', i);
        const bool betweenDigits =
            result[i] == ' ' && !joined.empty() && next != std::string::npos && isDigit(result[next]);
        if (result[i] != ' ' || betweenDigits) joined += result[i];
    }
    return joined;
}

std::string takeDigits(std::string_view& rest) {
    std::string digits;
    while (!rest.empty() && isDigit(rest.front())) {
        digits += rest.front();
        rest.remove_prefix(1);
    }
    return digits;
}

template <class Words>
std::string takeWord(std::string_view& rest, const Words& words) {
    for (std::string_view word : words) {
        if (!rest.starts_with(word)) continue;
        rest.remove_prefix(word.size());
        return std::string(word);
    }
    return {};
}

std::string takeScale(std::string_view& rest, std::span<const Scale> scales) {
    std::vector<std::string_view> words;
    for (const Scale& scale : scales) words.push_back(scale.text);
    return takeWord(rest, words);
}

bool takesTolerance(Unit unit) {
    return unit == Unit::ohm || unit == Unit::farad || unit == Unit::henry;
}

int scaleExponent(const std::string& scale, Unit unit) {
    for (const Scale& known : scalesOf(unit))
        if (known.text == scale) return known.exponent;
    return 0;
}

constexpr std::string_view toleranceLetters = "BCDFGJKMZ";

/// A bare number on a capacitor followed by K or M is a marking with its tolerance, not a multiple.
bool takeTolerance(std::string_view& rest, Unit unit, Written& written) {
    if (!takesTolerance(unit) || rest.size() != 1 || toleranceLetters.find(rest.front()) == std::string_view::npos)
        return false;
    written.tolerance = rest.front();
    rest.remove_prefix(1);
    return true;
}

/// Number, scale letter (which may stand for the point), unit word and tolerance letter; nothing may be left over.
std::optional<Written> takeApart(std::string_view text, Unit unit) {
    Written written;
    std::string_view rest = text;
    written.whole = takeDigits(rest);
    if (!rest.empty() && (rest.front() == '.' || rest.front() == ',')) {
        written.hasComma = rest.front() == ',';
        written.hasPoint = true;
        rest.remove_prefix(1);
        written.fraction = takeDigits(rest);
    }
    written.scale = takeScale(rest, scalesOf(unit));
    if (!written.scale.empty() && !rest.empty() && isDigit(rest.front())) {
        if (written.hasPoint) return std::nullopt;
        written.scaleIsPoint = true;
        written.fraction = takeDigits(rest);
    }
    if (written.whole.empty() && written.fraction.empty()) return std::nullopt;
    // "2H8" has said its unit already.
    const bool scaleIsUnit = !written.scale.empty() && scaleExponent(written.scale, unit) == 0 && unit != Unit::ohm;
    // "4R7" on a capacitor is the code of 4.7 pF, so that an F behind it is the tolerance; "47R" is a resistor.
    const bool isCode = unit == Unit::farad && (written.scale == "R" || written.scale == "r");
    if (isCode && !written.scaleIsPoint) return std::nullopt;
    written.hasUnit = scaleIsUnit || (!isCode && !takeWord(rest, unitWordsOf(unit)).empty());
    if (!rest.empty() && !takeTolerance(rest, unit, written)) return std::nullopt;
    return written;
}

/// The decimal number as the nearest double, so that "4k7" is exactly 4.7e3.
double decimalNumber(const std::string& whole, const std::string& fraction, int exponent) {
    const std::string text =
        (whole.empty() ? "0" : whole) + "." + (fraction.empty() ? "0" : fraction) + "e" + std::to_string(exponent);
    double value = 0.0;
    std::from_chars(text.data(), text.data() + text.size(), value);
    return value;
}

/// Letters of IEC 60062; under 10 pF the letters B to G are picofarads instead of percent.
std::optional<double> toleranceOf(char letter, Quantity value) {
    struct Letter {
        char letter;
        double percent;
        std::optional<double> picofarads;
    };
    static constexpr std::array<Letter, 8> letters = {{{'B', 0.1, 0.1},
                                                       {'C', 0.25, 0.25},
                                                       {'D', 0.5, 0.5},
                                                       {'F', 1.0, 1.0},
                                                       {'G', 2.0, 2.0},
                                                       {'J', 5.0, std::nullopt},
                                                       {'K', 10.0, std::nullopt},
                                                       {'M', 20.0, std::nullopt}}};
    constexpr double picofarad = 1e-12;
    for (const Letter& known : letters) {
        if (known.letter != letter) continue;
        const bool absolute = value.unit == Unit::farad && value.si < 10.0 * picofarad && known.picofarads;
        return absolute ? *known.picofarads * picofarad / value.si : known.percent / 100.0;
    }
    return std::nullopt;
}

ValueReading reading(double si, Unit unit, char tolerance, std::string because) {
    const Quantity value{si, unit};
    if (tolerance == 'Z') because = said("%1, tolerance Z: 20 % under to 80 % over", because);
    return {value, toleranceOf(tolerance, value), std::move(because)};
}

/// How a capacitor code reads: two digits and the third, which is the power.
std::string codeWords(const std::string& digits, int power) {
    switch (power) {
        case 1:
            return said("capacitor code, %1 and 1 zero, in pF", digits);
        case 8:
            return said("capacitor code, %1 times 0.01, in pF", digits);
        case 9:
            return said("capacitor code, %1 times 0.1, in pF", digits);
        default:
            return said("capacitor code, %1 and %2 zeros, in pF", digits, power);
    }
}

/// A bare whole number on a capacitor: the three-character code, the printed picofarads, or both.
std::vector<ValueReading> readBareCapacitor(const Written& written) {
    const std::string& digits = written.whole;
    const double printed = decimalNumber(digits, "", -12);
    std::vector<ValueReading> readings;
    if (digits.size() != 3) return {reading(printed, Unit::farad, written.tolerance, said("printed in pF"))};
    const int power = digits[2] - '0';
    // 8 and 9 as the third digit are x0.01 and x0.1.
    const double coded = decimalNumber(digits.substr(0, 2), "", -12 + (power >= 8 ? power - 10 : power));
    readings.push_back(reading(coded, Unit::farad, written.tolerance, codeWords(digits.substr(0, 2), power)));
    if (printed > 0.0 && isPreferred(decimalNumber(digits, "", 0), Series::e24))
        readings.push_back(reading(printed, Unit::farad, written.tolerance, said("printed in pF")));
    return readings;
}

/// "4,700" may be 4.7 or 4700.
bool commaMayPartThousands(const Written& written) {
    return written.hasComma && written.fraction.size() == 3 && !written.whole.empty() && written.whole.front() != '0' &&
           written.whole.size() <= 3;
}

std::vector<ValueReading> readDecimalCapacitor(const Written& written) {
    std::vector<ValueReading> readings;
    readings.push_back(reading(decimalNumber(written.whole, written.fraction, -6), Unit::farad, written.tolerance,
                               said("a bare decimal is µF by custom")));
    if (written.whole.find_first_not_of('0') != std::string::npos)
        readings.push_back(reading(decimalNumber(written.whole, written.fraction, -12), Unit::farad, written.tolerance,
                                   said("printed in pF")));
    if (commaMayPartThousands(written))
        readings.push_back(reading(decimalNumber(written.whole + written.fraction, "", -12), Unit::farad,
                                   written.tolerance, said("comma between thousands, in pF")));
    return readings;
}

std::string reasonOf(const Written& written) {
    if (written.scaleIsPoint) return said("letter for the decimal point");
    if (!written.scale.empty() || written.hasUnit) return said("number and unit");
    return said("plain number");
}

std::vector<ValueReading> readScaled(const Written& written, Unit unit) {
    const int exponent = scaleExponent(written.scale, unit);
    std::vector<ValueReading> readings;
    readings.push_back(
        reading(decimalNumber(written.whole, written.fraction, exponent), unit, written.tolerance, reasonOf(written)));
    if (commaMayPartThousands(written)) {
        readings.front().because = said("comma as the decimal point");
        readings.push_back(reading(decimalNumber(written.whole + written.fraction, "", exponent), unit,
                                   written.tolerance, said("comma between thousands")));
    }
    return readings;
}

std::vector<ValueReading> readCapacitor(const Written& written) {
    const bool unitOnly = written.scale == "F" && !written.scaleIsPoint;
    if (unitOnly && written.whole.size() == 3 && !written.hasPoint && written.tolerance == '\0') {
        // "104F" is no 104 farads: the F is the tolerance.
        Written code = written;
        code.tolerance = 'F';
        return readBareCapacitor(code);
    }
    if (!written.scale.empty()) {
        std::vector<ValueReading> readings = readScaled(written, Unit::farad);
        const bool milli = (written.scale == "m" || written.scale == "mF") && !written.scaleIsPoint;
        if (milli)
            readings.push_back(reading(decimalNumber(written.whole, written.fraction, -6), Unit::farad,
                                       written.tolerance, said("old print, m for micro")));
        return readings;
    }
    return written.hasPoint ? readDecimalCapacitor(written) : readBareCapacitor(written);
}

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

std::string withUnit(Quantity value, int fewestDigits);

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

// ---- Writing -------------------------------------------------------------------------------------------------

/// Decimal digits "39" and the power of ten of the first one: 3900 is 3.9e3.
struct Decimal {
    std::string digits;
    int exponent = 0;
};

Decimal roundedTo(double magnitude, int significant) {
    std::array<char, 48> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), magnitude, std::chars_format::scientific,
                                   significant - 1);
    const std::string_view written(text.data(), static_cast<std::size_t>(end.ptr - text.data()));
    Decimal result;
    const std::size_t e = written.find('e');
    for (char c : written.substr(0, e))
        if (isDigit(c)) result.digits += c;
    result.exponent = std::atoi(std::string(written.substr(e + 1)).c_str());
    return result;
}

/// At least `fewest` digits, more up to five where they tell the value exactly, else three.
Decimal shortestDecimal(double magnitude, int fewest) {
    constexpr int most = 5;
    for (int significant = fewest; significant <= most; ++significant) {
        Decimal decimal = roundedTo(magnitude, significant);
        const double shown = decimalNumber(decimal.digits.substr(0, 1), decimal.digits.substr(1), decimal.exponent);
        if (std::abs(shown - magnitude) <= sameNumber * magnitude) return decimal;
    }
    Decimal rounded = roundedTo(magnitude, 3);
    while (static_cast<int>(rounded.digits.size()) > fewest && rounded.digits.back() == '0') rounded.digits.pop_back();
    return rounded;
}

/// The digits before and after the point, once the value is shifted by `shift` powers of ten.
std::pair<std::string, std::string> splitAt(const Decimal& decimal, int shift) {
    const int wholeDigits = decimal.exponent - shift + 1;
    if (wholeDigits <= 0) return {"", std::string(static_cast<std::size_t>(-wholeDigits), '0') + decimal.digits};
    const auto whole = static_cast<std::size_t>(wholeDigits);
    if (whole >= decimal.digits.size()) return {decimal.digits + std::string(whole - decimal.digits.size(), '0'), ""};
    return {decimal.digits.substr(0, whole), decimal.digits.substr(whole)};
}

struct Prefix {
    int exponent;
    std::string_view text;
};

// Capacitors from 1 mF to 1 F stay in µF, as they are printed.
constexpr std::array<Prefix, 4> ohmPrefixes = {{{9, "G"}, {6, "M"}, {3, "k"}, {0, ""}}};
constexpr std::array<Prefix, 4> faradPrefixes = {{{0, ""}, {-6, "µ"}, {-9, "n"}, {-12, "p"}}};
constexpr std::array<Prefix, 8> anyPrefixes = {
    {{9, "G"}, {6, "M"}, {3, "k"}, {0, ""}, {-3, "m"}, {-6, "µ"}, {-9, "n"}, {-12, "p"}}};
constexpr std::array<Prefix, 1> noPrefixes = {{{0, ""}}};

std::span<const Prefix> prefixesOf(Unit unit) {
    switch (unit) {
        case Unit::ohm:
            return ohmPrefixes;
        case Unit::farad:
            return faradPrefixes;
        case Unit::henry:
        case Unit::volt:
        case Unit::ampere:
        case Unit::hertz:
            return anyPrefixes;
        default:
            return noPrefixes;
    }
}

Prefix prefixFor(int exponent, Unit unit) {
    const std::span<const Prefix> prefixes = prefixesOf(unit);
    for (const Prefix& prefix : prefixes)
        if (exponent >= prefix.exponent) return prefix;
    return prefixes.back();
}

std::string pointed(const Decimal& decimal, int shift) {
    const auto [whole, fraction] = splitAt(decimal, shift);
    return (whole.empty() ? "0" : whole) + (fraction.empty() ? "" : static_cast<char>(decimalMark()) + fraction);
}

std::string withUnit(Quantity value, int fewestDigits) {
    const std::string symbol = unitSymbol(value.unit);
    if (value.si == 0.0) return symbol.empty() ? "0" : "0 " + symbol;
    const Decimal decimal = shortestDecimal(std::abs(value.si), fewestDigits);
    const Prefix prefix = prefixFor(decimal.exponent, value.unit);
    const std::string unit = std::string(prefix.text) + symbol;
    return (value.si < 0.0 ? "\u2212" : "") + pointed(decimal, prefix.exponent) + (unit.empty() ? "" : " " + unit);
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

ValueStyle valueStyle() {
    return InEnglish::isSpoken() ? ValueStyle::letterAsPoint : processStyle.load();
}

void setValueStyle(ValueStyle style) {
    processStyle = style;
}

std::string formatPartValue(Quantity value, ValueStyle style) {
    if (!std::isfinite(value.si)) return said("none");
    if (value.unit != Unit::ohm && value.unit != Unit::farad) return withUnit(value, 1);
    const bool isBehind = style == ValueStyle::letterBehind;
    if (value.si == 0.0) return value.unit == Unit::farad ? (isBehind ? "0 p" : "0p") : isBehind ? "0 Ω" : "0R";
    const Decimal decimal = shortestDecimal(std::abs(value.si), 1);
    const Prefix prefix = prefixFor(decimal.exponent, value.unit);
    std::string text = value.si < 0.0 ? "\u2212" : "";
    if (isBehind) {
        text.append(pointed(decimal, prefix.exponent)).append(" ");
        return text.append(prefix.text.empty() ? unitSymbol(value.unit) : std::string(prefix.text));
    }
    const std::string unitLetter = value.unit == Unit::ohm ? "R" : "F";
    const auto [whole, fraction] = splitAt(decimal, prefix.exponent);
    return text.append(whole).append(prefix.text.empty() ? unitLetter : std::string(prefix.text)).append(fraction);
}

std::string formatQuantity(Quantity value) {
    if (!std::isfinite(value.si)) return said("none");
    return withUnit(value, 3);
}

}  // namespace ohmwright

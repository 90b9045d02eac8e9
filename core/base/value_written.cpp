// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/value_written.h"

#include <array>
#include <charconv>
#include <span>
#include <vector>

namespace ohmwright {

namespace {

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

void replaceAll(std::string& text, std::string_view from, std::string_view to) {
    for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
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

constexpr std::string_view toleranceLetters = "BCDFGJKMZ";

/// A bare number on a capacitor followed by K or M is a marking with its tolerance, not a multiple.
bool takeTolerance(std::string_view& rest, Unit unit, Written& written) {
    if (!takesTolerance(unit) || rest.size() != 1 || toleranceLetters.find(rest.front()) == std::string_view::npos)
        return false;
    written.tolerance = rest.front();
    rest.remove_prefix(1);
    return true;
}

}  // namespace

bool isDigit(char c) {
    return c >= '0' && c <= '9';
}

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

int scaleExponent(const std::string& scale, Unit unit) {
    for (const Scale& known : scalesOf(unit))
        if (known.text == scale) return known.exponent;
    return 0;
}

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

double decimalNumber(const std::string& whole, const std::string& fraction, int exponent) {
    const std::string text =
        (whole.empty() ? "0" : whole) + "." + (fraction.empty() ? "0" : fraction) + "e" + std::to_string(exponent);
    double value = 0.0;
    std::from_chars(text.data(), text.data() + text.size(), value);
    return value;
}

}  // namespace ohmwright

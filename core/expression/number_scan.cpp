// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/expression/number_scan.h"

#include "core/base/said.h"
#include "core/base/text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <system_error>

namespace ohmwright {

namespace {

/// The netlist's suffixes; "meg" stands before "m". Source: Nagel, UCB/ERL M520 (1975), input format.
struct Suffix {
    std::string_view letters;
    int exponent;  ///< Of ten.
};
constexpr std::array<Suffix, 9> suffixes{
    {{"meg", 6}, {"f", -15}, {"p", -12}, {"n", -9}, {"u", -6}, {"m", -3}, {"k", 3}, {"g", 9}, {"t", 12}}};
constexpr std::string_view microSign = "\xC2\xB5";  // U+00B5
constexpr std::string_view greekMu = "\xCE\xBC";    // U+03BC

bool isDigit(char c) {
    return c >= '0' && c <= '9';
}

/// A letter of a suffix or unit; bytes of Ω and µ count as letters.
bool isLetter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80;
}

std::size_t lengthOf(std::string_view text, bool (*belongs)(char)) {
    return std::size_t(std::find_if_not(text.begin(), text.end(), belongs) - text.begin());
}

/// "12", "1.", ".5", "4.7": its length, without exponent.
std::size_t mantissaLength(std::string_view text) {
    std::size_t length = lengthOf(text, isDigit);
    if (length < text.size() && text[length] == '.') {
        length += 1 + lengthOf(text.substr(length + 1), isDigit);
    }
    return length;
}

/// "e3", "e-3" at the head of a text: its length, 0 where there is none.
std::size_t exponentLength(std::string_view text) {
    if (text.empty() || (text[0] != 'e' && text[0] != 'E')) {
        return 0;
    }
    const std::size_t signs = text.size() > 1 && (text[1] == '+' || text[1] == '-') ? 2 : 1;
    const std::size_t digits = lengthOf(text.substr(std::min(signs, text.size())), isDigit);
    return digits > 0 ? signs + digits : 0;
}

Error wrong(std::string_view found, const std::string& message) {
    return {ErrorCode::invalidInput, message, std::string(found)};
}

Error bothReadings(std::string_view found, const std::string& likely, const std::string& other) {
    return wrong(found, said("%1 could mean %2 or %3: write %2.", found, likely, other));
}

/// The rest of a word as far as a person would see it, for messages.
std::string_view wordOf(std::string_view text) {
    const auto belongs = [](char c) { return isDigit(c) || isLetter(c) || c == '.' || c == ',' || c == '_'; };
    const std::size_t length = lengthOf(text, belongs);
    constexpr std::size_t longestShown = 60;
    return text.substr(0, std::min(length, longestShown));
}

/// The digits after "4," or "4k", with the letters behind them.
struct Tail {
    std::string_view digits;
    std::string_view letters;
};

Tail tailOf(std::string_view text) {
    const std::size_t digits = lengthOf(text, isDigit);
    const std::string_view rest = text.substr(digits);
    return {text.substr(0, digits), rest.substr(0, lengthOf(rest, isLetter))};
}

Error decimalComma(std::string_view text, std::string_view head) {
    const Tail tail = tailOf(text.substr(head.size() + 1));
    const std::string letters(tail.letters);
    const std::string point = std::string(head) + "." + std::string(tail.digits) + letters;
    const bool thousands = tail.digits.size() == 3;
    const std::string behind = std::string(tail.digits) + letters;
    const std::string other = thousands ? std::string(head) + behind : said("%1 and then %2", head, behind);
    return bothReadings(wordOf(text), point, other);
}

/// "0x10", "0xff".
bool isHexadecimal(std::string_view text) {
    const auto isHexDigit = [](char c) { return isDigit(c) || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F'); };
    return text.size() > 2 && text[0] == '0' && (text[1] == 'x' || text[1] == 'X') && isHexDigit(text[2]);
}

Error hexadecimal(std::string_view text) {
    const std::string_view word = wordOf(text);
    unsigned long long number = 0;
    const auto read = std::from_chars(word.data() + 2, word.data() + word.size(), number, 16);
    const std::string likely = read.ec == std::errc() ? std::to_string(number) : said("a hexadecimal number");
    return wrong(word, said("%1 could mean %2 or 0: write the number in tens.", word, likely));
}

/// "4k7": letters, and digits again.
Error letterForPoint(std::string_view text, std::string_view mantissa, std::string_view letters) {
    const Tail tail = tailOf(text.substr(mantissa.size() + letters.size()));
    const std::string likely = std::string(mantissa) + "." + std::string(tail.digits) + std::string(letters);
    return bothReadings(wordOf(text), likely, std::string(mantissa) + std::string(letters));
}

/// "e-12" as -12; far beyond any double, it stops.
int exponentOf(std::string_view exponent) {
    constexpr int beyondAny = 99999;
    if (exponent.empty()) {
        return 0;
    }
    const bool negative = exponent[1] == '-';
    const std::size_t sign = negative || exponent[1] == '+' ? 1 : 0;
    int size = 0;
    for (const char c : exponent.substr(1 + sign)) {
        size = std::min(beyondAny, 10 * size + (c - '0'));
    }
    return negative ? -size : size;
}

/// Decimal places in front of the point of the first digit that is not 0; negative behind it.
int orderOf(std::string_view digits) {
    const std::size_t first = digits.find_first_of("123456789");
    const std::size_t point = std::min(digits.find('.'), digits.size());
    return first == std::string_view::npos ? 0 : int(point) - int(first);
}

/// digits * 10^exponent, rounded once: 100n is the same double as 100e-9. Too small a number is 0.
Result<double> decimal(std::string_view digits, int exponent) {
    const std::string all = std::string(digits) + "e" + std::to_string(exponent);
    double value = 0.0;
    const auto read = std::from_chars(all.data(), all.data() + all.size(), value);
    if (read.ec == std::errc() || orderOf(digits) + exponent < 0) {
        return read.ec == std::errc() ? value : 0.0;
    }
    const std::string_view word = wordOf(digits);
    return wrong(word, said("%1 with its exponent is too large a number: write a smaller one.", word));
}

struct ReadSuffix {
    int exponent = 0;
    std::size_t length = 0;
};

ReadSuffix suffixOf(std::string_view letters) {
    if (letters.starts_with(microSign) || letters.starts_with(greekMu)) {
        return {-6, 2};
    }
    const std::string lower = inLowerCase(letters);
    for (const Suffix& suffix : suffixes) {
        if (lower.starts_with(suffix.letters)) {
            return {suffix.exponent, suffix.letters.size()};
        }
    }
    return {};
}

std::string doubtOf(std::string_view word, std::string_view mantissa, std::string_view letters,
                    const ReadSuffix& suffix) {
    if (letters.starts_with('M') && suffix.length == 1) {
        return said("%1 is read as %2 milli: write %2meg where a million is meant.", word, mantissa);
    }
    if (letters == "F") {
        return said("%1 is read as %2 femto: leave the F away where farads are meant.", word, mantissa);
    }
    return {};
}

/// "25mil", "2pi": a suffix and letters that are a word of their own.
Result<void> checkLetters(std::string_view word, std::string_view mantissa, std::string_view letters) {
    const std::string lower = inLowerCase(letters);
    const std::string head(mantissa);
    if (lower == "mil" || lower == "mils") {
        return wrong(word, said("%1 could mean %2m or %2 thousandths of an inch: write %2m or the length in metres.",
                                word, head));
    }
    // Other letters after a number are its unit, but an e is the exponent's: 1e is a digit short. 1.11eV is a gap.
    if (lower.starts_with('e') && lower != "ev") {
        const std::string rest(letters.substr(1));
        return wrong(word, said("%1 could mean %2 or %3 with its exponent left out: write the exponent's digits, or no "
                                "e.",
                                word, head + rest, head + "e3" + rest));
    }
    if (lower == "pi") {
        return wrong(word, said("%1 could mean %2*pi or %2p: write %2*pi or %2p.", word, head));
    }
    return {};
}

}  // namespace

bool startsNumber(std::string_view text) {
    return !text.empty() && (isDigit(text[0]) || (text[0] == '.' && text.size() > 1 && isDigit(text[1])));
}

Result<ScannedNumber> scanNumber(std::string_view text, bool commaSeparates) {
    if (isHexadecimal(text)) {
        return hexadecimal(text);
    }
    const std::string_view digits = text.substr(0, mantissaLength(text));
    const std::string_view exponent = text.substr(digits.size(), exponentLength(text.substr(digits.size())));
    const std::string_view mantissa = text.substr(0, digits.size() + exponent.size());
    std::string_view rest = text.substr(mantissa.size());
    const std::string_view letters = rest.substr(0, lengthOf(rest, isLetter));
    rest.remove_prefix(letters.size());

    if (!rest.empty() && isDigit(rest[0]) && exponent.empty() && digits.find('.') == std::string_view::npos) {
        return letterForPoint(text, mantissa, letters);
    }
    if (!rest.empty() && (isDigit(rest[0]) || rest[0] == '.' || rest[0] == '_')) {
        return wrong(wordOf(text), said("%1 is no number: write one such as 4.7k or 1e-9.", wordOf(text)));
    }
    if (!commaSeparates && rest.size() > 1 && rest[0] == ',' && isDigit(rest[1]) && letters.empty()) {
        return decimalComma(text, mantissa);
    }
    const std::string_view word = text.substr(0, mantissa.size() + letters.size());
    if (const Result<void> sound = checkLetters(word, mantissa, letters); !sound) {
        return sound.error();
    }
    const ReadSuffix suffix = suffixOf(letters);
    const Result<double> value = decimal(digits, exponentOf(exponent) + suffix.exponent);
    if (!value) {
        return value.error();
    }
    return ScannedNumber{{*value, doubtOf(word, mantissa, letters, suffix)}, word.size()};
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/request.h"

#include "core/base/value_text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <ctime>
#include <optional>

namespace ohmwright {

namespace {

template <class Number>
std::optional<Number> wholeText(const std::string& text) {
    Number number{};
    const auto end = std::from_chars(text.data(), text.data() + text.size(), number);
    if (end.ec != std::errc() || end.ptr != text.data() + text.size()) return std::nullopt;
    return number;
}

std::string clockText(const char* shape) {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    std::array<char, 32> text{};
    const std::size_t length = std::strftime(text.data(), text.size(), shape, &local);
    return {text.data(), length};
}

}  // namespace

Error refuseOption(std::string_view option, const std::string& sentence) {
    return {ErrorCode::invalidInput, std::string(option) + ": " + sentence, std::string(option)};
}

Result<double> readFigure(std::string_view option, const std::string& text, Unit unit) {
    if (const std::optional<double> plain = wholeText<double>(text)) {
        if (std::isfinite(*plain)) return *plain;
        return refuseOption(option, "“" + text + "” is no number that can be worked with.");
    }
    const Result<Quantity> value = parsePartValue(text, unit);
    if (!value) return refuseOption(option, value.error().message);
    return value->si;
}

Result<double> readFigureOr(std::string_view option, const std::string& text, Unit unit, double otherwise) {
    if (text.empty()) return otherwise;
    return readFigure(option, text, unit);
}

Result<double> requireInside(std::string_view option, double figure, const FigureRange& range) {
    if (figure >= range.lowest && figure <= range.highest) return figure;  // false for NaN
    return refuseOption(option, std::string("choose ") + range.words + ".");
}

Result<int> readCountOr(std::string_view option, const std::string& text, int lowest, int highest, int otherwise) {
    if (text.empty()) return otherwise;
    const std::optional<int> number = wholeText<int>(text);
    if (number && *number >= lowest && *number <= highest) return *number;
    return refuseOption(option,
                        "give a whole number from " + std::to_string(lowest) + " to " + std::to_string(highest) + ".");
}

Result<std::vector<double>> readFigureList(std::string_view option, const std::string& text, Unit unit) {
    std::vector<double> figures;
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find(',', begin), text.size());
        const Result<double> figure = readFigure(option, text.substr(begin, end - begin), unit);
        if (!figure) return figure.error();
        figures.push_back(*figure);
        begin = end + 1;
    }
    return figures;
}

std::string dayOfToday() {
    return clockText("%Y-%m-%d");
}

std::string timeOfNow() {
    return clockText("%Y-%m-%dT%H:%M:%S");
}

std::vector<std::string> splitAtCommas(const std::string& text) {
    std::vector<std::string> words;
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find(',', begin), text.size());
        words.push_back(text.substr(begin, end - begin));
        begin = end + 1;
    }
    return words;
}

}  // namespace ohmwright

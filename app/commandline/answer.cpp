// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/answer.h"

#include <array>
#include <charconv>
#include <cmath>
#include <string_view>

namespace ohmwright {

namespace {

/// More than any solver tolerance here, and none of the noise of a double's last digits.
constexpr int significantDigits = 12;

std::string numberText(double value) {
    if (value == 0.0) return "0";  // Without the sign that a negative zero has.
    std::array<char, 40> text{};
    const auto end =
        std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::general, significantDigits);
    return {text.data(), end.ptr};
}

std::string csvText(const std::string& word) {
    if (word.find_first_of(",\"\n\r") == std::string::npos) return word;
    std::string quoted = "\"";
    for (char c : word) {
        if (c == '"') quoted += '"';
        quoted += c;
    }
    return quoted + '"';
}

std::string csvCell(const Cell& cell) {
    if (const double* number = std::get_if<double>(&cell)) return numberText(*number);
    if (const std::string* word = std::get_if<std::string>(&cell)) return csvText(*word);
    return {};
}

std::string csvLine(const std::vector<std::string>& fields) {
    std::string line;
    for (const std::string& field : fields) line += (line.empty() ? "" : ",") + field;
    return line + '\n';
}

void appendCsvTable(const Table& table, std::string& text) {
    text += csvLine(table.columns);
    for (const std::vector<Cell>& row : table.rows) {
        for (std::size_t column = 0; column < row.size(); ++column) {
            if (column > 0) text += ',';
            text += csvCell(row[column]);
        }
        text += '\n';
    }
}

std::string jsonText(std::string_view word) {
    constexpr std::string_view hex = "0123456789abcdef";
    std::string quoted = "\"";
    for (char c : word) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\') {
            quoted += '\\';
            quoted += c;
        } else if (byte < 0x20) {
            quoted += "\\u00";
            quoted += hex[byte >> 4];
            quoted += hex[byte & 0xF];
        } else {
            quoted += c;
        }
    }
    return quoted + '"';
}

std::string jsonNumber(double value) {
    return std::isfinite(value) ? numberText(value) : "null";
}

std::string jsonCell(const Cell& cell) {
    if (const double* number = std::get_if<double>(&cell)) return jsonNumber(*number);
    if (const std::string* word = std::get_if<std::string>(&cell)) return jsonText(*word);
    return "null";
}

std::string jsonColumn(const Table& table, std::size_t column) {
    std::string array = "[";
    for (const std::vector<Cell>& row : table.rows) array += (array.size() > 1 ? "," : "") + jsonCell(row[column]);
    return array + ']';
}

std::string writeCsv(const Answer& answer) {
    std::string text;
    for (const Table& table : answer.tables) {
        if (!text.empty()) text += '\n';
        appendCsvTable(table, text);
    }
    for (const auto& [name, value] : answer.closing) text += csvLine({csvText(name), numberText(value)});
    return text;
}

std::string writeJson(const Answer& answer) {
    std::string members;
    const auto add = [&members](const std::string& name, const std::string& value) {
        members += (members.empty() ? "\n  " : ",\n  ") + jsonText(name) + ": " + value;
    };
    for (const Table& table : answer.tables)
        for (std::size_t column = 0; column < table.columns.size(); ++column)
            add(table.columns[column], jsonColumn(table, column));
    for (const auto& [name, value] : answer.closing) add(name, jsonNumber(value));
    return "{" + members + "\n}\n";
}

}  // namespace

std::string writeAnswer(const Answer& answer, OutputFormat format) {
    return format == OutputFormat::csv ? writeCsv(answer) : writeJson(answer);
}

}  // namespace ohmwright

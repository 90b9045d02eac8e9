// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/curve_csv.h"

#include "core/files/csv_table.h"

#include <charconv>
#include <cmath>

namespace ohmwright {

namespace {

constexpr char separator = ',';

/// Independent of the language that the machine is set to.
std::string numberText(double value) {
    if (value == 0.0) {
        return "0";  // Without the sign that a negative zero has.
    }
    constexpr std::size_t room = 40;
    constexpr int digits = 12;
    char text[room];
    const auto [end, error] = std::to_chars(text, text + room, value, std::chars_format::general, digits);
    return error == std::errc() && std::isfinite(value) ? std::string(text, end) : std::string();
}

void addCell(std::string& line, const std::string& cell) {
    if (!line.empty()) {
        line += separator;
    }
    line += cell;
}

}  // namespace

std::string writeCurveCsv(const CurveTable& table) {
    const bool hasNames = !table.rows.empty();
    std::string text;
    std::string head = hasNames ? "net" : "";
    for (const CurveColumn& column : table.columns) {
        addCell(head, column.id);
    }
    text.append(head).append("\n");
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        std::string line = hasNames ? csvCell(table.rows[row], separator) : "";
        bool isFirst = !hasNames;
        for (const CurveColumn& column : table.columns) {
            // An empty first cell must not swallow its comma.
            line.append(isFirst ? "" : ",").append(numberText(column.values[row]));
            isFirst = false;
        }
        text.append(line).append("\n");
    }
    return text;
}

}  // namespace ohmwright

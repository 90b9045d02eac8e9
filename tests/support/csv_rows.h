/// Rows of a reference table, by column name.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <fstream>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace ohmwright::test {

using CsvRow = std::map<std::string, std::string>;

/// Splits one line; a field in double quotes may hold commas.
inline std::vector<std::string> splitCsvLine(const std::string& line) {
    std::vector<std::string> fields(1);
    bool quoted = false;
    for (char c : line) {
        if (c == '"')
            quoted = !quoted;
        else if (c == ',' && !quoted)
            fields.emplace_back();
        else if (c != '\r')
            fields.back() += c;
    }
    return fields;
}

/// Reads tests/reference/`name`; lines that begin with '#' are left out. A missing or empty table ends the test.
inline std::vector<CsvRow> referenceTable(const std::string& name) {
    std::ifstream file(std::string(OHMWRIGHT_SOURCE_DIR) + "/tests/reference/" + name);
    std::vector<CsvRow> rows;
    std::vector<std::string> columns;
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line.front() == '#') continue;
        const std::vector<std::string> fields = splitCsvLine(line);
        if (columns.empty()) {
            columns = fields;
            continue;
        }
        CsvRow row;
        for (std::size_t i = 0; i < columns.size() && i < fields.size(); ++i) row[columns[i]] = fields[i];
        rows.push_back(row);
    }
    if (rows.empty()) throw std::runtime_error("no rows in tests/reference/" + name);
    return rows;
}

}  // namespace ohmwright::test

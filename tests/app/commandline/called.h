/// One call of the command line inside the test, and its CSV taken apart.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/commandline/command_line.h"
#include "tests/support/csv_rows.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace ohmwright::test {

struct Called {
    ExitStatus status = ExitStatus::answered;
    std::string out;
    std::string err;
};

inline Called call(const std::vector<std::string>& args) {
    std::ostringstream out;
    std::ostringstream err;
    Called called;
    called.status = runCommandLine(args, out, err);
    called.out = out.str();
    called.err = err.str();
    return called;
}

/// A call that must answer: its standard output.
inline std::string answered(const std::vector<std::string>& args) {
    const Called called = call(args);
    EXPECT_EQ(called.status, ExitStatus::answered) << called.err;
    EXPECT_EQ(called.err, "");
    return called.out;
}

/// A call that must fail: one to five lines of words and nothing on standard output.
inline std::string refused(const std::vector<std::string>& args, ExitStatus status) {
    const Called called = call(args);
    EXPECT_EQ(called.status, status) << called.err;
    EXPECT_EQ(called.out, "");
    EXPECT_FALSE(called.err.empty());
    EXPECT_LE(std::count(called.err.begin(), called.err.end(), '\n'), 5);
    return called.err;
}

/// The tables of an answer: blank lines part them; the first line of each names the columns.
inline std::vector<std::vector<CsvRow>> tablesOf(const std::string& csv) {
    std::vector<std::vector<CsvRow>> tables;
    std::vector<std::string> columns;
    std::istringstream lines(csv);
    for (std::string line; std::getline(lines, line);) {
        if (line.empty()) {
            columns.clear();
            continue;
        }
        const std::vector<std::string> fields = splitCsvLine(line);
        if (columns.empty()) {
            columns = fields;
            tables.emplace_back();
            continue;
        }
        CsvRow row;
        for (std::size_t i = 0; i < columns.size() && i < fields.size(); ++i) row[columns[i]] = fields[i];
        tables.back().push_back(row);
    }
    return tables;
}

inline std::vector<CsvRow> rowsOf(const std::string& csv) {
    const auto tables = tablesOf(csv);
    return tables.empty() ? std::vector<CsvRow>() : tables.front();
}

/// The row whose `column` holds `word`; the test fails when there is none.
inline CsvRow rowWith(const std::vector<CsvRow>& rows, const std::string& column, const std::string& word) {
    for (const CsvRow& row : rows)
        if (row.at(column) == word) return row;
    ADD_FAILURE() << "no row with " << column << " " << word;
    return {};
}

inline double numberIn(const CsvRow& row, const std::string& column) {
    const auto cell = row.find(column);
    if (cell == row.end() || cell->second.empty()) {
        ADD_FAILURE() << "no figure in " << column;
        return 0.0;
    }
    return std::stod(cell->second);
}

/// A folder of its own that goes with the test.
class ScratchFolder {
public:
    ScratchFolder() {
        std::string name = (std::filesystem::temp_directory_path() / "ohmwright-XXXXXX").string();
        m_path = mkdtemp(name.data());
    }
    ~ScratchFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(m_path, ignored);
    }
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;

    [[nodiscard]] std::string path(const std::string& name) const { return (m_path / name).string(); }
    [[nodiscard]] std::string write(const std::string& name, const std::string& bytes) const {
        std::ofstream(path(name), std::ios::binary) << bytes;
        return path(name);
    }

private:
    std::filesystem::path m_path;
};

inline std::string bytesOf(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream bytes;
    bytes << file.rdbuf();
    return bytes.str();
}

/// The demo job with a piece of its text replaced, as a file in `folder`.
inline std::string changedDemo(const ScratchFolder& folder, const std::string& from, const std::string& to) {
    std::string text = bytesOf(harbourLampPath());
    const std::size_t at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    if (at != std::string::npos) text.replace(at, from.size(), to);
    return folder.write("changed.ohmjob", text);
}

/// Netlists whose answers are known in closed form; the title is the first line.
namespace netlists {
/// 1 kHz to 1e-6: R C = 1/(2 pi 1 kHz).
inline const std::string lowPass =
    "low-pass of 1 kHz\nVIN in 0 DC 0 AC 1\nR1 in out 1k\nC1 out 0 159.154943091895n\n.end\n";
/// 0.4 of the input, which rests at 10 V.
inline const std::string divider = "divider\nVIN in 0 DC 10 AC 1\nR1 in out 6k\nR2 out 0 4k\n.end\n";
/// Two parts of one third each behind a call, which draws 1 mA.
inline const std::string called =
    "calls\nVIN in 0 DC 3 AC 1\nR1 in mid 1k\nX1 mid 0 out HALF\n.subckt HALF a b o\nR1 a o 1k\nR2 o b 1k\n.ends\n"
    ".end\n";
/// out = v + v^2/10.
inline const std::string squarer =
    "squarer\nVIN in 0 DC 0 AC 1\nR1 in 0 1k\nB1 out 0 V=v(in)+0.1*v(in)*v(in)\nR2 out 0 1k\n.end\n";
}  // namespace netlists

/// Figures of the demo from outside, by state, figure, place and condition.
inline double expectedFigure(const std::string& state, const std::string& figure, const std::string& where,
                             const std::string& condition) {
    static const std::vector<CsvRow> rows = referenceTable("harbour-lamp-figures.csv");
    for (const CsvRow& row : rows)
        if (row.at("state") == state && row.at("figure") == figure && row.at("where") == where &&
            row.at("condition") == condition)
            return std::stod(row.at("value"));
    ADD_FAILURE() << "no expected figure for " << state << " " << figure << " " << where << " " << condition;
    return 0.0;
}

}  // namespace ohmwright::test

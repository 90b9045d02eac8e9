// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/csv_table.h"

#include "core/base/said.h"

#include <algorithm>
#include <cstddef>

namespace ohmwright {

namespace {

constexpr std::size_t mostCells = 1'000'000;
constexpr std::string_view byteOrderMark = "\xEF\xBB\xBF";

bool isBlank(char c) {
    return c == ' ' || c == '\t';
}

std::string_view withoutMark(std::string_view text) {
    if (text.starts_with(byteOrderMark)) {
        text.remove_prefix(byteOrderMark.size());
    }
    return text;
}

/// Walks a text cell by cell.
class CsvScan {
public:
    CsvScan(std::string_view text, char separator) : m_text(withoutMark(text)), m_separator(separator) {}

    Result<std::vector<CsvRecord>> run() {
        std::vector<CsvRecord> records;
        std::size_t cells = 0;
        while (m_at < m_text.size()) {
            CsvRecord record{m_line, {}};
            bool isOver = false;
            while (!isOver) {
                Result<std::string> cell = readCell(isOver);
                if (!cell) {
                    return cell.error();
                }
                record.cells.push_back(*std::move(cell));
                if (++cells > mostCells) {
                    return Error{ErrorCode::fileDamaged,
                                 said("The table has more than a million cells: take it apart first."),
                                 "line " + std::to_string(m_line)};
                }
            }
            const bool isEmpty = std::all_of(record.cells.begin(), record.cells.end(),
                                             [](const std::string& cell) { return cell.empty(); });
            if (!isEmpty) {
                records.push_back(std::move(record));
            }
        }
        return records;
    }

private:
    /// @param isOver  set when the record ends after this cell.
    Result<std::string> readCell(bool& isOver) {
        while (m_at < m_text.size() && isBlank(m_text[m_at]) && m_text[m_at] != m_separator) {
            ++m_at;
        }
        std::string cell;
        if (m_at < m_text.size() && m_text[m_at] == '"') {
            if (!readQuoted(cell)) {
                return Error{
                    ErrorCode::fileDamaged,
                    said("line %1: a cell begins with a quotation mark that never ends. Close it.", m_quoteLine),
                    "line " + std::to_string(m_quoteLine)};
            }
        }
        const std::size_t quotedLength = cell.size();
        while (m_at < m_text.size() && m_text[m_at] != m_separator && m_text[m_at] != '\n' && m_text[m_at] != '\r') {
            cell += m_text[m_at++];
        }
        while (cell.size() > quotedLength && isBlank(cell.back())) {
            cell.pop_back();
        }
        isOver = m_at >= m_text.size() || m_text[m_at] != m_separator;
        if (isOver) {
            skipLineEnd();
        } else {
            ++m_at;
        }
        return cell;
    }

    bool readQuoted(std::string& cell) {
        m_quoteLine = m_line;
        ++m_at;
        while (m_at < m_text.size()) {
            const char c = m_text[m_at++];
            if (c != '"') {
                m_line += c == '\n' ? 1 : 0;
                cell += c;
            } else if (m_at < m_text.size() && m_text[m_at] == '"') {
                cell += m_text[m_at++];
            } else {
                return true;
            }
        }
        return false;
    }

    void skipLineEnd() {
        if (m_at >= m_text.size()) {
            return;
        }
        const char c = m_text[m_at++];
        if (c == '\r' && m_at < m_text.size() && m_text[m_at] == '\n') {
            ++m_at;
        }
        ++m_line;
    }

    std::string_view m_text;
    char m_separator;
    std::size_t m_at = 0;
    int m_line = 1;
    int m_quoteLine = 1;
};

}  // namespace

char separatorOf(std::string_view text) {
    text = withoutMark(text);
    std::ptrdiff_t commas = 0;
    std::ptrdiff_t semicolons = 0;
    std::ptrdiff_t tabs = 0;
    bool isQuoted = false;
    for (const char c : text) {
        if (c == '"') {
            isQuoted = !isQuoted;
        } else if (!isQuoted && (c == '\n' || c == '\r')) {
            break;
        } else if (!isQuoted) {
            commas += c == ',' ? 1 : 0;
            semicolons += c == ';' ? 1 : 0;
            tabs += c == '\t' ? 1 : 0;
        }
    }
    if (semicolons > commas && semicolons >= tabs) {
        return ';';
    }
    return tabs > commas ? '\t' : ',';
}

Result<std::vector<CsvRecord>> readCsvRecords(std::string_view text, char separator) {
    return CsvScan(text, separator).run();
}

std::string csvCell(std::string_view text, char separator) {
    const bool hasEdgeBlank = !text.empty() && (isBlank(text.front()) || isBlank(text.back()));
    const bool isPlain = !hasEdgeBlank && std::none_of(text.begin(), text.end(), [separator](char c) {
        return c == separator || c == '"' || c == '\n' || c == '\r';
    });
    if (isPlain) {
        return std::string(text);
    }
    std::string cell = "\"";
    for (const char c : text) {
        cell += c;
        if (c == '"') {
            cell += '"';
        }
    }
    return cell + '"';
}

}  // namespace ohmwright

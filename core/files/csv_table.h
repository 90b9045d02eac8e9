/// Tables as spreadsheets write them: records of cells, by RFC 4180 and with semicolons.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"

#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// One record and where it begins.
struct CsvRecord {
    int line = 0;  ///< 1-based.
    std::vector<std::string> cells;
};

/// ';' when the first line has more of them outside quotes than commas, '\t' likewise, else ','.
char separatorOf(std::string_view text);

/// The records that are not empty. Cells are trimmed of blanks outside quotes; a cell in double quotes may hold
/// separators, line breaks and doubled quotes. Lines end in LF, CR LF or CR; a byte-order mark is skipped.
/// Errors: fileDamaged naming the line where a quote begins that never ends; over a million cells.
Result<std::vector<CsvRecord>> readCsvRecords(std::string_view text, char separator);

/// The cell as it stands in a table, in quotes where it must be.
std::string csvCell(std::string_view text, char separator);

}  // namespace ohmwright

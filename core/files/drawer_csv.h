/// The drawer as a table for any spreadsheet: CSV in and out, with commas and decimal points or with semicolons and
/// decimal commas.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/parts/drawer.h"

#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// How a table is written. A table in semicolons has decimal commas: its neighbours in the spreadsheet do.
enum class CsvStyle { commas, semicolons };

/// A line that was left out, and why.
struct DrawerCsvTrouble {
    int line = 0;         ///< 1-based, the first line of the record.
    std::string message;  ///< "line 7: quantity “some” is no whole number."

    friend bool operator==(const DrawerCsvTrouble&, const DrawerCsvTrouble&) = default;
};

/// What a table held: sound lines as lots, the others named. Nothing is guessed.
struct DrawerTable {
    std::vector<DrawerLot> lots;
    std::vector<DrawerCsvTrouble> troubles;
    std::vector<std::string> unknownColumns;  ///< Headings that mean nothing here; their cells are left out.
};

/// Reads a table with a heading line. Columns by name, in any order, upper or lower case alike: kind, quantity, and
/// value or type are needed; id, lot, printed, measured, tolerance (per cent, or with the sign), pitch_mm, volts,
/// build, price, devices and reserved may be there. Values as a technician writes them ("4k7", "120n", "104"); a value
/// with two readings is a trouble that names both. A lot without an id gets one of its kind and value ("R-4k7",
/// "R-4k7-2").
///
/// devices: "7 idss=2.9m vp=-1.7 | 8 idss=3.1m vp=-1.9", "a beta=187"; reserved: "HL-0231/2=3 | QB-0007/1=1".
/// Separators: the one that the heading line has more of, outside quotes; cells in double quotes may hold separators,
/// doubled quotes and line breaks (RFC 4180). A byte-order mark is skipped.
/// Errors: fileDamaged when there is no heading line, a column is missing or there twice, or a quote never ends.
Result<DrawerTable> readDrawerCsv(std::string_view text);

/// All columns, a heading line first; `readDrawerCsv` of it gives the same lots back, values to five digits at least.
std::string writeDrawerCsv(const Drawer& drawer, CsvStyle style = CsvStyle::commas);

/// The drawer with the table's lots: a lot of the same id takes the old one's place (its reservations stay when the
/// table names none), others are added at the end. Troubles are not looked at: show them first.
Drawer mergedInto(const Drawer& drawer, const DrawerTable& table);

}  // namespace ohmwright

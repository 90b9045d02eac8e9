/// What a verb answers: tables of figures, written as CSV or JSON in one place.
///
/// Machine-readable: plain minus, decimal point, twelve significant digits, no units in the cells (the column
/// names carry them).
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace ohmwright {

/// Nothing, a figure or a word.
using Cell = std::variant<std::monostate, double, std::string>;

struct Table {
    std::vector<std::string> columns;
    std::vector<std::vector<Cell>> rows;  ///< As many cells each as there are columns.
};

struct Answer {
    std::vector<Table> tables;                            ///< Column names differ between tables.
    std::vector<std::pair<std::string, double>> closing;  ///< Single figures after the tables: "thd_percent".
    std::vector<std::string> notes;                       ///< Sentences beside the answer; not written with it.
};

enum class OutputFormat { csv, json };

/// CSV (RFC 4180, line feeds): the tables one after another with a blank line between, then a line "name,value" for
/// each closing figure. JSON: one object, an array under each column's name, closing figures under theirs. What does
/// not exist is an empty cell or null; a JSON number that is not finite is null.
std::string writeAnswer(const Answer& answer, OutputFormat format);

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/drawer/lot_cells.h"

#include "core/base/said.h"
#include "core/files/csv_table.h"
#include "core/files/drawer_csv.h"

#include <algorithm>
#include <string_view>

namespace ohmwright {

namespace {

struct LotRow {
    std::vector<std::string> columns;
    std::vector<std::string> cells;

    [[nodiscard]] std::string* find(const std::string& column) {
        const auto found = std::find(columns.begin(), columns.end(), column);
        return found == columns.end() ? nullptr : &cells[static_cast<std::size_t>(found - columns.begin())];
    }
};

LotRow rowOf(const DrawerLot& lot) {
    const auto records = readCsvRecords(writeDrawerCsv({"", {lot}}), ',');
    LotRow row{records->at(0).cells, records->at(1).cells};
    row.cells.resize(row.columns.size());
    return row;
}

Result<DrawerLot> readRow(const LotRow& row) {
    std::string table;
    for (const auto* line : {&row.columns, &row.cells}) {
        for (std::size_t i = 0; i < line->size(); ++i) {
            if (i > 0) {
                table.push_back(',');
            }
            table.append(csvCell((*line)[i], ','));
        }
        table.push_back('\n');
    }
    const Result<DrawerTable> read = readDrawerCsv(table);
    if (!read) {
        return read.error();
    }
    if (!read->troubles.empty()) {
        std::string message = read->troubles.front().message;
        const std::string line = said("line %1: %2", 2, "");
        if (message.rfind(line, 0) == 0) {
            message.erase(0, line.size());
        }
        return Error{ErrorCode::invalidInput, message, ""};
    }
    if (read->lots.empty()) {
        return Error{ErrorCode::invalidInput, said("Name a value or a type, and how many there are."), ""};
    }
    return read->lots.front();
}

}  // namespace

QString lotCell(const DrawerLot& lot, const QString& column) {
    LotRow row = rowOf(lot);
    const std::string* cell = row.find(column.toStdString());
    return cell != nullptr ? QString::fromStdString(*cell) : QString();
}

Result<DrawerLot> withCell(const DrawerLot& lot, const QString& column, const QString& typed) {
    LotRow row = rowOf(lot);
    std::string* cell = row.find(column.toStdString());
    if (cell == nullptr) {
        return Error{ErrorCode::invalidInput, said("There is no column %1.", column.toStdString()), ""};
    }
    *cell = typed.trimmed().toStdString();
    return readRow(row);
}

Result<DrawerLot> lotFromWords(const QString& kind, const QString& valueOrType, const QString& quantity) {
    const bool isTyped = kind != "resistor" && kind != "capacitor" && kind != "inductor" && kind != "potentiometer";
    return readRow({{"kind", isTyped ? "type" : "value", "quantity"},
                    {kind.toStdString(), valueOrType.trimmed().toStdString(), quantity.trimmed().toStdString()}});
}

Drawer withLot(const Drawer& drawer, DrawerLot lot) {
    const std::string base = lot.id;
    for (int number = 2; findLot(drawer, lot.id) != nullptr; ++number) {
        lot.id = base + "-" + std::to_string(number);
    }
    Drawer more = drawer;
    more.lots.push_back(std::move(lot));
    return more;
}

}  // namespace ohmwright

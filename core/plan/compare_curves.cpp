// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/compare_curves.h"

#include "core/base/said.h"
#include "core/plan/apply.h"
#include "core/plan/state_error.h"

#include <algorithm>
#include <limits>
#include <optional>

namespace ohmwright {

namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

/// The row of `table` that belongs to a row of the other one; nothing when it has none.
std::optional<std::size_t> rowLike(const CurveTable& table, const std::string& name, double against, std::size_t row) {
    if (!table.rows.empty()) {
        const auto found = std::find(table.rows.begin(), table.rows.end(), name);
        return found == table.rows.end() ? std::nullopt : std::optional(std::size_t(found - table.rows.begin()));
    }
    const std::vector<double>& axis = table.columns.front().values;
    if (row < axis.size() && axis[row] == against) {
        return row;
    }
    const auto found = std::find(axis.begin(), axis.end(), against);
    return found == axis.end() ? std::nullopt : std::optional(std::size_t(found - axis.begin()));
}

double valueAt(const CurveTable& table, std::size_t column, const std::optional<std::size_t>& row) {
    return row ? table.columns[column].values[*row] : none;
}

}  // namespace

Result<ComparedCurve> compareCurve(const Job& job, CurveKind kind, const std::stop_token& stop) {
    const Result<Circuit> circuit = nowCircuit(job);
    if (!circuit) {
        return named(toSay("now: %1"), circuit.error());
    }
    Result<CurveTable> stock = measureCurve(kind, job.stock, job.setting, stop);
    if (!stock) {
        return named(toSay("stock: %1"), stock.error());
    }
    if (*circuit == job.stock) {
        return ComparedCurve{*stock, *stock};
    }
    Result<CurveTable> now = measureCurve(kind, *circuit, job.setting, stop);
    if (!now) {
        return named(toSay("now: %1"), now.error());
    }
    return ComparedCurve{*std::move(stock), *std::move(now)};
}

CurveTable sideBySide(const ComparedCurve& curve) {
    const CurveTable& stock = curve.stock;
    const CurveTable& now = curve.now;
    const bool hasNames = !stock.rows.empty();
    CurveTable both;
    both.kind = stock.kind;
    both.where = stock.where;
    both.trouble = stock.trouble.empty() ? now.trouble : stock.trouble;
    const std::size_t first = hasNames ? 0 : 1;
    if (!hasNames) {
        both.columns.push_back({stock.columns[0].id, stock.columns[0].name, stock.columns[0].unit, {}});
    }
    for (std::size_t column = first; column < stock.columns.size(); ++column) {
        const CurveColumn& each = stock.columns[column];
        both.columns.push_back({"stock_" + each.id, said("%1, stock", each.name), each.unit, {}});
        both.columns.push_back({"now_" + each.id, said("%1, now", each.name), each.unit, {}});
        both.columns.push_back({"change_" + each.id, said("%1, change", each.name), each.unit, {}});
    }
    const auto addRow = [&](std::optional<std::size_t> inStock, std::optional<std::size_t> inNow) {
        const CurveTable& known = inStock ? stock : now;
        const std::size_t row = inStock ? *inStock : *inNow;
        std::size_t to = 0;
        if (hasNames) {
            both.rows.push_back(known.rows[row]);
        } else {
            both.columns[to++].values.push_back(known.columns[0].values[row]);
        }
        for (std::size_t column = first; column < stock.columns.size(); ++column) {
            const double before = valueAt(stock, column, inStock);
            const double after = valueAt(now, column, inNow);
            for (const double value : {before, after, after - before}) {
                both.columns[to++].values.push_back(value);
            }
        }
    };
    const auto nameOf = [&](const CurveTable& table, std::size_t row) {
        return hasNames ? table.rows[row] : std::string();
    };
    for (std::size_t row = 0; row < stock.rowCount(); ++row) {
        addRow(row, rowLike(now, nameOf(stock, row), stock.columns.front().values[row], row));
    }
    for (std::size_t row = 0; row < now.rowCount(); ++row) {
        if (!rowLike(stock, nameOf(now, row), now.columns.front().values[row], row)) {
            addRow(std::nullopt, row);
        }
    }
    return both;
}

}  // namespace ohmwright

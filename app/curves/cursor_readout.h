/// What the cursor column says of the plot that the cursor is in, whatever its kind.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/curves/curve_reading.h"
#include "core/base/level_unit.h"
#include "core/plan/compare_curves.h"

#include <QString>

#include <optional>
#include <vector>

namespace ohmwright {

struct ReadingRow {
    enum class Kind { heading, stock, now, change, ghost, ghostChange, pinned };
    Kind kind = Kind::stock;
    QString name;
    QString figure;

    friend bool operator==(const ReadingRow&, const ReadingRow&) = default;
};

struct CursorReadout {
    QString caption;  ///< "Cursor, open A"
    QString lead;     ///< "110 Hz"
    std::vector<ReadingRow> rows;
    QString sentence;    ///< The same for a screen reader.
    QString conditions;  ///< What the figures hold for: conditionsText.
    QString spread;      ///< "two stock units differ by ±1.24 here"; empty where it is not known.

    friend bool operator==(const CursorReadout&, const CursorReadout&) = default;
};

/// A state that was pinned, as the plots draw it.
struct PinnedCurve {
    QString letter;   ///< "A"
    int pattern = 0;  ///< Which dashes.
    CurveTable table;
};

/// In the order shown; only stock while stock is held. A missing value reads "none".
std::vector<ReadingRow> readingRows(const CursorReading& reading);

/// Of the response.
CursorReadout responseReadout(const CursorReading& reading, const std::vector<PinnedCurve>& pins);

/// Of a kind that is a table; all tables with their levels in `unit` (inLevelUnit).
struct TableReading {
    const ComparedCurve* curve = nullptr;            ///< Null before there is one.
    const CurveTable* ghost = nullptr;               ///< Null without one.
    const std::vector<PinnedCurve>* pins = nullptr;  ///< Null without any.
    double at = 0.0;                                 ///< On the tables' first column.
    double toneHz = 220.0;
    LevelUnit unit = LevelUnit::millivoltsPeak;
    bool holdsStock = false;
};
CursorReadout tableReadout(CurveKind kind, const TableReading& reading);

}  // namespace ohmwright

/// The read-out at the cursor, beside the response: frequency, stock, now, change, ghost.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/curves/curve_reading.h"

#include <QWidget>

#include <optional>
#include <vector>

namespace ohmwright {

struct ReadingRow {
    enum class Kind { stock, now, change, ghost, ghostChange };
    Kind kind = Kind::stock;
    QString name;
    QString figure;

    friend bool operator==(const ReadingRow&, const ReadingRow&) = default;
};

/// In the order shown; only stock while stock is held. A missing value reads "none".
std::vector<ReadingRow> readingRows(const CursorReading& reading);

/// Never folds; leaves its small print away where the height is short.
class CursorColumn : public QWidget {
    Q_OBJECT
public:
    explicit CursorColumn(QWidget* parent = nullptr);

    void setReading(const CursorReading& reading);
    /// Old figures stand faint under the words "not current".
    void setCurrent(bool isCurrent);
    /// What the figures hold for: conditionsText.
    void setConditions(const QString& text);
    /// What two stock units differ by at the cursor, ± dB; below the conditions.
    void setSpreadDb(std::optional<double> decibels);
    [[nodiscard]] QString spreadWords() const;

    [[nodiscard]] QSize sizeHint() const override;

private:
    void paintEvent(QPaintEvent* event) override;
    void followTheme();
    [[nodiscard]] double paintRows(QPainter& painter, double top) const;

    CursorReading m_reading;
    QString m_conditions;
    std::optional<double> m_spreadDb;
    bool m_isCurrent = true;
};

}  // namespace ohmwright

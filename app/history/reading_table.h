/// Readings of a meter, a row a place: what the drawing expects there, what was read, and in words whether it fits.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/visits.h"

#include <QWidget>

#include <vector>

class QComboBox;
class QGridLayout;
class QLineEdit;

namespace ohmwright {

class SignText;
class ThemedLabel;

class ReadingTable : public QWidget {
    Q_OBJECT
public:
    /// @param purpose  "before the work": part of the entries' names.
    explicit ReadingTable(const QString& purpose, QWidget* parent = nullptr);

    /// @param worthTaking  has a row each; @param every  what can be added; @param read  has a row each, too.
    void setReadings(const std::vector<ExpectedReading>& worthTaking, const std::vector<ExpectedReading>& every,
                     const std::vector<UnitReading>& read);
    /// Shown and no longer typed: the visit is closed.
    void setClosed(bool closed);

signals:
    void typed(const ohmwright::UnitReading& reading);
    void erased(const ohmwright::UnitReading& place);

private:
    struct Row {
        UnitReading place;
        ThemedLabel* name;
        ThemedLabel* band;
        QLineEdit* entry;
        SignText* verdict;
    };
    void build(const std::vector<UnitReading>& places);
    void showRow(Row& row);
    void take(std::size_t row);
    void fillOthers();

    QString m_purpose;
    QGridLayout* m_grid;
    QComboBox* m_others;
    std::vector<Row> m_rows;
    std::vector<ExpectedReading> m_every;
    std::vector<UnitReading> m_read, m_added;
    bool m_isClosed = false;
};

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/history/reading_table.h"

#include "app/look/said_text.h"
#include "app/look/sign_text.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "core/base/number_text.h"

#include <QComboBox>
#include <QGridLayout>
#include <QLineEdit>

#include <algorithm>
#include <cmath>
#include <optional>

namespace ohmwright {

namespace {

constexpr int entryWidth = 84;

bool isSamePlace(const UnitReading& one, const UnitReading& other) {
    return one.net == other.net && one.unit == other.unit && (!one.net.empty() || one.place == other.place);
}

const UnitReading* readingAt(const std::vector<UnitReading>& readings, const UnitReading& place) {
    const auto found = std::find_if(readings.begin(), readings.end(),
                                    [&place](const UnitReading& each) { return isSamePlace(each, place); });
    return found != readings.end() ? &*found : nullptr;
}

const ExpectedReading* expectationAt(const std::vector<ExpectedReading>& readings, const UnitReading& place) {
    const auto found = std::find_if(readings.begin(), readings.end(),
                                    [&place](const ExpectedReading& each) { return isSamePlace(each.nominal, place); });
    return found != readings.end() ? &*found : nullptr;
}

/// In the unit of the entry: milliamperes and volts.
QString entryText(double value, Unit unit) {
    return text(unit == Unit::ampere ? formatFigure(1e3 * value) : formatFixed(value, 2));
}

QString unitWord(Unit unit) {
    return unit == Unit::ampere ? "mA" : "V";
}

/// "4.43", "4,43 V", "3.91 mA", "120m".
std::optional<double> typedValue(const QString& typed, Unit unit) {
    QString plain = typed.trimmed().replace(',', '.').replace(QChar(0x2212), '-');
    const double inEntry = unit == Unit::ampere ? 1e-3 : 1.0;
    double factor = inEntry;
    for (const auto& [ending, scale] : {std::pair("mA", 1e-3), std::pair("mV", 1e-3), std::pair("A", 1.0),
                                        std::pair("V", 1.0), std::pair("m", 1e-3)}) {
        if (plain.endsWith(ending)) {
            plain.chop(int(qstrlen(ending)));
            factor = scale;
            break;
        }
    }
    bool isNumber = false;
    const double number = plain.trimmed().toDouble(&isNumber);
    return isNumber && std::isfinite(number) ? std::optional(number * factor) : std::nullopt;
}

}  // namespace

ReadingTable::ReadingTable(const QString& purpose, QWidget* parent)
    : QWidget(parent), m_purpose(purpose), m_grid(new QGridLayout(this)), m_others(new QComboBox(this)) {
    m_grid->setContentsMargins(0, 0, 0, 0);
    m_grid->setHorizontalSpacing(10);
    m_grid->setVerticalSpacing(4);
    m_grid->setColumnStretch(0, 1);
    m_others->setAccessibleName(tr("Another place to read, %1").arg(purpose));
    connect(m_others, &QComboBox::activated, this, [this](int index) {
        if (index < 1) {
            return;
        }
        const auto place = std::find_if(m_every.begin(), m_every.end(), [&](const ExpectedReading& each) {
            return saidText(each.nominal.place) == m_others->itemText(index);
        });
        if (place == m_every.end()) {
            return;
        }
        m_added.push_back(place->nominal);
        std::vector<UnitReading> places;
        for (const Row& row : m_rows) {
            places.push_back(row.place);
        }
        places.push_back(place->nominal);
        build(places);
        m_rows.back().entry->setFocus();
    });
}

void ReadingTable::setReadings(const std::vector<ExpectedReading>& worthTaking,
                               const std::vector<ExpectedReading>& every, const std::vector<UnitReading>& read) {
    m_every = every;
    m_read = read;
    std::vector<UnitReading> places;
    const auto add = [&places](const UnitReading& place) {
        if (readingAt(places, place) == nullptr) {
            places.push_back(place);
        }
    };
    for (const ExpectedReading& each : worthTaking) {
        add(each.nominal);
    }
    for (const UnitReading& each : read) {
        add(each);
    }
    for (const UnitReading& each : m_added) {
        if (expectationAt(every, each) != nullptr) {
            add(each);
        }
    }
    const bool isAsBefore =
        std::equal(places.begin(), places.end(), m_rows.begin(), m_rows.end(),
                   [](const UnitReading& place, const Row& row) { return isSamePlace(place, row.place); });
    if (!isAsBefore) {
        build(places);
        return;
    }
    for (Row& row : m_rows) {
        showRow(row);
    }
    fillOthers();
}

void ReadingTable::setClosed(bool closed) {
    m_isClosed = closed;
    for (Row& row : m_rows) {
        showRow(row);
    }
    m_others->setVisible(!closed);
}

void ReadingTable::build(const std::vector<UnitReading>& places) {
    for (const Row& row : m_rows) {
        for (QWidget* widget : std::initializer_list<QWidget*>{row.name, row.band, row.entry, row.verdict}) {
            widget->disconnect(this);
            widget->hide();
            widget->deleteLater();  // One of them may be what is being typed into.
        }
    }
    m_rows.clear();
    int line = 0;
    for (const UnitReading& place : places) {
        Row row{place, new ThemedLabel(TextRole::body, false, &ThemeColours::ink, this),
                new ThemedLabel(TextRole::caption, false, &ThemeColours::ink2, this), new QLineEdit(this),
                new SignText(this)};
        row.entry->setFixedWidth(entryWidth);
        row.entry->setAlignment(Qt::AlignRight);
        row.entry->setPlaceholderText(unitWord(place.unit));
        row.entry->setAccessibleName(saidText(place.place) + ", " + m_purpose);
        m_grid->addWidget(row.name, line, 0);
        m_grid->addWidget(row.band, line, 1, Qt::AlignRight | Qt::AlignVCenter);
        m_grid->addWidget(row.entry, line, 2);
        m_grid->addWidget(row.verdict, line + 1, 0, 1, 3);
        m_rows.push_back(row);
        const std::size_t index = m_rows.size() - 1;
        connect(row.entry, &QLineEdit::editingFinished, this, [this, index] { take(index); });
        for (QWidget* widget : std::initializer_list<QWidget*>{row.name, row.band, row.entry}) {
            widget->show();
        }
        showRow(m_rows.back());
        line += 2;
    }
    m_grid->addWidget(m_others, line, 0, 1, 3, Qt::AlignLeft);
    fillOthers();
}

void ReadingTable::showRow(Row& row) {
    const ExpectedReading* expected = expectationAt(m_every, row.place);
    const UnitReading* read = readingAt(m_read, row.place);
    const Unit unit = row.place.unit;
    row.name->setText(saidText(row.place.place));
    row.band->setText(
        expected != nullptr
            ? tr("%1 to %2 %3").arg(entryText(expected->low, unit), entryText(expected->high, unit), unitWord(unit))
            : tr("not in the drawing"));
    row.entry->setReadOnly(m_isClosed);
    if (!row.entry->hasFocus() || !row.entry->isModified()) {
        row.entry->setText(read != nullptr ? entryText(read->value, unit) : QString());
    }
    row.verdict->setVisible(read != nullptr);
    if (read == nullptr) {
        return;
    }
    const JudgedReading judged = judgeReadings({*read}, m_every).front();
    row.verdict->setSentence(text(judged.sentence), judged.isOutside  ? SignKind::care
                                                    : judged.expected ? SignKind::tick
                                                                      : SignKind::note);
}

/// What stands in an entry is a reading, nothing, or no number: then it is said and stays.
void ReadingTable::take(std::size_t index) {
    Row& row = m_rows[index];
    if (m_isClosed || !row.entry->isModified()) {
        return;
    }
    row.entry->setModified(false);
    const UnitReading* read = readingAt(m_read, row.place);
    const QString typedText = row.entry->text().trimmed();
    if (typedText.isEmpty()) {
        if (read != nullptr) {
            emit erased(row.place);
        }
        return;
    }
    const std::optional<double> value = typedValue(typedText, row.place.unit);
    if (!value) {
        row.verdict->setSentence(
            tr("“%1” is no reading: type the meter's figure in %2.").arg(typedText, unitWord(row.place.unit)),
            SignKind::care);
        row.verdict->show();
        return;
    }
    UnitReading reading = row.place;
    reading.value = *value;
    emit typed(reading);
}

void ReadingTable::fillOthers() {
    m_others->clear();
    m_others->addItem(tr("Another place"));
    for (const ExpectedReading& each : m_every) {
        const bool isShown = std::any_of(m_rows.begin(), m_rows.end(),
                                         [&each](const Row& row) { return isSamePlace(row.place, each.nominal); });
        if (!isShown) {
            m_others->addItem(saidText(each.nominal.place));
        }
    }
    m_others->setVisible(!m_isClosed && m_others->count() > 1);
}

}  // namespace ohmwright

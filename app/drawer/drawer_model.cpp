// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/drawer/drawer_model.h"

#include "app/document/shop_document.h"
#include "app/drawer/lot_cells.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "core/base/number_text.h"
#include "core/base/value_text.h"
#include "core/parts/combinations.h"

#include <QStringList>

#include <algorithm>
#include <array>

namespace ohmwright {

namespace {

struct ColumnInfo {
    const char* heading;
    const char* word;  ///< The heading inside a sentence.
    const char* cell;  ///< Of the table that is imported and exported; empty: not edited here.
};

constexpr std::array<ColumnInfo, DrawerModel::columnTotal> columns{{{toSay("Part"), toSay("part"), ""},
                                                                    {toSay("Lot"), toSay("lot"), "lot"},
                                                                    {toSay("Have"), toSay("have"), "quantity"},
                                                                    {toSay("Free"), toSay("free"), ""},
                                                                    {toSay("Printed"), toSay("printed"), "printed"},
                                                                    {toSay("Measured"), toSay("measured"), "measured"},
                                                                    {"±", "±", "tolerance"},
                                                                    {toSay("Pitch mm"), toSay("pitch mm"), "pitch_mm"},
                                                                    {toSay("Volts"), toSay("volts"), "volts"},
                                                                    {toSay("Build"), toSay("build"), "build"},
                                                                    {toSay("Price"), toSay("price"), "price"}}};

QString orNone(double number, const QString& words) {
    return number == 0.0 ? QObject::tr("none") : words;
}

bool isFigure(int column) {
    return column == DrawerModel::have || column == DrawerModel::freeCount ||
           (column >= DrawerModel::measured && column <= DrawerModel::volts) || column == DrawerModel::price;
}

std::vector<DrawerLot> assumedLots() {
    std::vector<DrawerLot> lots;
    for (const PartKind kind : {PartKind::resistor, PartKind::capacitor, PartKind::potentiometer, PartKind::inductor}) {
        for (const ValueOnHand& value : assumedStock(kind)) {
            DrawerLot lot;
            lot.kind = kind;
            lot.value = value.value;
            lots.push_back(std::move(lot));
        }
    }
    return lots;
}

}  // namespace

DrawerModel::DrawerModel(ShopDocument& shop, QObject* parent) : QAbstractTableModel(parent), m_shop(shop) {
    connect(&shop, &ShopDocument::shopChanged, this, &DrawerModel::refresh);
    refresh();
}

bool DrawerModel::isAssumed() const {
    return m_shop.shop()->isStockAssumed();
}

void DrawerModel::setFilter(const QString& words) {
    m_filter = words;
    refresh();
}

void DrawerModel::refresh() {
    std::vector<DrawerLot> all = isAssumed() ? assumedLots() : m_shop.onHand().lots;
    std::vector<std::size_t> shown;
    const QStringList words = m_filter.split(' ', Qt::SkipEmptyParts);
    for (std::size_t i = 0; i < all.size(); ++i) {
        const QString line = QStringList{textOf(all[i], part), text(all[i].lot), text(all[i].printed),
                                         text(all[i].build), saidText(kindName(all[i].kind))}
                                 .join(' ');
        const bool isWanted = std::all_of(words.begin(), words.end(), [&line](const QString& word) {
            return line.contains(word, Qt::CaseInsensitive);
        });
        if (isWanted) {
            shown.push_back(i);
        }
    }
    const auto isSameLot = [](const DrawerLot& a, const DrawerLot& b) { return a.id == b.id; };
    if (shown == m_shown && std::equal(all.begin(), all.end(), m_all.begin(), m_all.end(), isSameLot)) {
        // The same rows with other figures: the row under the keyboard stays.
        m_all = std::move(all);
        if (!m_shown.empty()) {
            emit dataChanged(index(0, 0), index(rowCount() - 1, columnTotal - 1));
        }
        return;
    }
    beginResetModel();
    m_all = std::move(all);
    m_shown = std::move(shown);
    endResetModel();
}

const DrawerLot* DrawerModel::lotAt(int row) const {
    return row >= 0 && row < rowCount() ? &m_all[m_shown[static_cast<std::size_t>(row)]] : nullptr;
}

int DrawerModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_shown.size());
}

int DrawerModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : columnTotal;
}

QString DrawerModel::textOf(const DrawerLot& lot, int column) const {
    switch (column) {
        case part:
            return lot.type.empty() ? text(formatPartValue({lot.value, unitOf(lot.kind)})) : text(lot.type);
        case delivery:
            return text(lot.lot);
        case have:
            return isAssumed() ? tr("assumed") : QString::number(lot.quantity);
        case freeCount:
            return isAssumed() ? tr("assumed") : QString::number(availableFor(lot));
        case printed:
            return text(lot.printed);
        case measured:
            if (!lot.devices.empty()) {
                return tr("%1 of %2").arg(lot.devices.size()).arg(lot.quantity);
            }
            return lot.measured ? text(formatPartValue({*lot.measured, unitOf(lot.kind)})) : tr("not measured");
        case tolerance:
            return orNone(lot.tolerance, numberText(lot.tolerance * 100.0, 'g', 3) + " %");
        case pitch:
            return orNone(lot.pitchMillimetres, numberText(lot.pitchMillimetres, 'g', 4));
        case volts:
            return orNone(lot.ratedVolts, numberText(lot.ratedVolts, 'g', 4));
        case build:
            return text(lot.build);
        case price:
            return orNone(lot.price, numberText(lot.price, 'f', 2));
        default:
            return {};
    }
}

QVariant DrawerModel::data(const QModelIndex& index, int role) const {
    const DrawerLot* found = lotAt(index.row());
    if (found == nullptr) {
        return {};
    }
    const QString words = textOf(*found, index.column());
    switch (role) {
        case Qt::DisplayRole:
            return words;
        case Qt::EditRole:
            return lotCell(*found, columns[static_cast<std::size_t>(index.column())].cell);
        case Qt::TextAlignmentRole:
            return QVariant::fromValue(
                Qt::Alignment((isFigure(index.column()) ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter));
        case Qt::FontRole:
            return Theme::current().font(TextRole::body, index.column() == part);
        case Qt::ForegroundRole: {
            const bool isMissing = words == tr("none") || words == tr("not measured") || words == tr("assumed");
            const bool isGone = !isAssumed() && availableFor(*found) == 0;
            const ThemeColours& colours = Theme::current().colours();
            return index.column() == measured && found->measured ? colours.measured
                   : isMissing || isGone                         ? colours.ink3
                                                                 : colours.ink;
        }
        case Qt::ToolTipRole:
            return words;
        case Qt::AccessibleTextRole:
            return QString("%1 %2: %3")
                .arg(textOf(*found, part), saidText(columns[static_cast<std::size_t>(index.column())].heading), words);
        default:
            return {};
    }
}

QVariant DrawerModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || section < 0 || section >= columnTotal) {
        return {};
    }
    if (role == Qt::TextAlignmentRole) {
        return QVariant::fromValue(
            Qt::Alignment((isFigure(section) ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter));
    }
    return role == Qt::DisplayRole ? QVariant(saidText(columns[static_cast<std::size_t>(section)].heading))
                                   : QVariant();
}

Qt::ItemFlags DrawerModel::flags(const QModelIndex& index) const {
    const bool isEdited =
        index.isValid() && !isAssumed() && *columns[static_cast<std::size_t>(index.column())].cell != '\0';
    return QAbstractTableModel::flags(index) | (isEdited ? Qt::ItemIsEditable : Qt::NoItemFlags);
}

bool DrawerModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    const DrawerLot* found = lotAt(index.row());
    if (role != Qt::EditRole || found == nullptr || isAssumed()) {
        return false;
    }
    Drawer drawer = *m_shop.shop()->drawer;
    const auto place = std::find_if(drawer.lots.begin(), drawer.lots.end(),
                                    [found](const DrawerLot& lot) { return lot.id == found->id; });
    if (place == drawer.lots.end()) {
        return false;
    }
    const ColumnInfo& column = columns[static_cast<std::size_t>(index.column())];
    Result<DrawerLot> edited = withCell(*place, column.cell, value.toString());
    if (!edited) {
        emit refused(text(edited.error().message));
        return false;
    }
    const QString words = tr("Change %1 of %2").arg(saidText(column.word), textOf(*place, part));
    *place = *std::move(edited);
    return m_shop.editDrawer(drawer, words);
}

}  // namespace ohmwright

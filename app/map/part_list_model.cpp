// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/part_list_model.h"

#include "app/look/said_text.h"
#include "app/look/text.h"

#include <QStringList>

#include <algorithm>
#include <array>
#include <utility>

namespace ohmwright {

namespace {

QString netsText(const Part& part) {
    QStringList nets;
    for (const NetName& net : part.nets) {
        nets << (net == groundNet ? QObject::tr("ground") : text(net));
    }
    return nets.join(", ");
}

/// "drain D1, gate G, ...": which pin is on which net, for those who ask.
QString pinsText(const Part& part) {
    QStringList pins;
    for (std::size_t pin = 0; pin < part.nets.size(); ++pin) {
        const QString net = part.nets[pin] == groundNet ? QObject::tr("ground") : text(part.nets[pin]);
        pins << QString("%1: %2").arg(saidText(pinName(part.kind, static_cast<int>(pin))), net);
    }
    return pins.join('\n');
}

QString fittingText(const PartView& view) {
    QStringList words;
    for (const FittedView& fitted : view.fitted) {
        words << fittedWords(fitted);
    }
    for (const int pin : view.liftedPins) {
        words << QObject::tr("leg %1 lifted").arg(pin + 1);
    }
    if (!view.bridges.empty()) {
        words << QObject::tr("bridged");
    }
    return words.join(", ");
}

int depthOf(const Part& part) {
    if (part.call.empty()) {
        return 0;
    }
    return 1 + static_cast<int>(std::count(part.call.begin(), part.call.end(), '.'));
}

}  // namespace

void PartListModel::setState(std::shared_ptr<const Job> job, bool holdsStock, const QString& faultPlace) {
    const bool isSameCircuit = m_job && (m_job == job || m_job->stock == job->stock);
    if (!isSameCircuit) {
        beginResetModel();
    }
    m_job = std::move(job);
    m_holdsStock = holdsStock;
    m_faultPlace = faultPlace;
    m_views.assign(m_job->stock.parts.size(), std::nullopt);
    if (!isSameCircuit) {
        endResetModel();
    } else if (rowCount() > 0) {
        emit dataChanged(index(0, 0), index(rowCount() - 1, columnTotal - 1));
    }
}

bool PartListModel::isTurned(int row) const {
    return hasTurnedModel(m_job->stock, part(row));
}

int PartListModel::rowOf(const PartId& id) const {
    if (!m_job || id.empty()) {
        return -1;
    }
    const auto& parts = m_job->stock.parts;
    const auto found = std::find_if(parts.begin(), parts.end(), [&id](const Part& each) { return each.id == id; });
    return found == parts.end() ? -1 : static_cast<int>(found - parts.begin());
}

int PartListModel::rowCount(const QModelIndex& parent) const {
    return m_job && !parent.isValid() ? static_cast<int>(m_job->stock.parts.size()) : 0;
}

int PartListModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : columnTotal;
}

const Part& PartListModel::part(int row) const {
    return m_job->stock.parts[static_cast<std::size_t>(row)];
}

const PartView& PartListModel::view(int row) const {
    std::optional<PartView>& made = m_views[static_cast<std::size_t>(row)];
    if (!made) {
        made = viewOf(*m_job, part(row), m_holdsStock);
    }
    return *made;
}

QVariant PartListModel::shownText(int row, int column) const {
    switch (column) {
        case partColumn:
            return text(displayName(part(row)));
        case kindColumn:
            return saidText(kindName(part(row).kind));
        case valueColumn:
            return view(row).nowValue;
        default:
            return netsText(part(row));
    }
}

bool PartListModel::isAtFault(const Part& part) const {
    if (m_faultPlace.isEmpty()) {
        return false;
    }
    const std::string place = m_faultPlace.toStdString();
    return part.id == place || part.reference == place ||
           std::find(part.nets.begin(), part.nets.end(), place) != part.nets.end();
}

QVariant PartListModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) {
        return {};
    }
    const int row = index.row();
    switch (role) {
        case Qt::DisplayRole:
            return shownText(row, index.column());
        case Qt::ToolTipRole:
            return index.column() == netsColumn ? pinsText(part(row)) : shownText(row, index.column()).toString();
        case Qt::AccessibleTextRole:
            return index.column() == partColumn ? spokenName(*m_job, part(row), m_holdsStock)
                                                : shownText(row, index.column()).toString();
        case depthRole:
            return depthOf(part(row));
        case stockRole:
            return view(row).swapped ? view(row).stockValue : QString();
        case nowRole:
            return view(row).nowValue;
        case fittingRole:
            return fittingText(view(row));
        case markRole:
            return view(row).marks.empty() ? QString() : view(row).marks.back().letter;
        case markOnRole:
            return !view(row).marks.empty() && view(row).marks.back().on;
        case faultRole:
            return isAtFault(part(row));
        default:
            return {};
    }
}

QVariant PartListModel::headerData(int section, Qt::Orientation orientation, int role) const {
    const std::array<QString, columnTotal> names{tr("Part"), tr("Kind"), tr("Value or type"), tr("Nets")};
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole || section < 0 || section >= columnTotal) {
        return {};
    }
    return names.at(static_cast<std::size_t>(section));
}

}  // namespace ohmwright

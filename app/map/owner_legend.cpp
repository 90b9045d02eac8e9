// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/owner_legend.h"

#include "app/look/owned_scale.h"
#include "app/look/theme.h"

#include <QFontMetrics>
#include <QPainter>

#include <algorithm>
#include <utility>

namespace ohmwright {
namespace {

constexpr int rim = 6;
constexpr int rowGap = 4;
constexpr int barHeight = 12;
constexpr int smallestWidth = 240;
constexpr std::size_t namedOwners = 3;
constexpr double stepDb = 0.25;  // of core/plan/owners.h

QFont titleFont() {
    return Theme::current().font(TextRole::body, true);
}

QFont wordFont() {
    return Theme::current().font(TextRole::caption);
}

}  // namespace

OwnerLegend::OwnerLegend(QWidget* parent) : QWidget(parent) {
    setAttribute(Qt::WA_TransparentForMouseEvents);
    setFocusPolicy(Qt::NoFocus);
    hide();
}

void OwnerLegend::setOwners(std::shared_ptr<const OwnersAnswer> owners, const PartId& selected) {
    m_owners = std::move(owners);
    m_selected = selected;
    setVisible(m_owners != nullptr);
    setAccessibleName(m_owners ? title() : QString());
    if (accessibleDescription() != words()) {
        setAccessibleDescription(words());
    }
    resize(sizeHint());
    update();
}

QString OwnerLegend::title() const {
    return ownersQuestion(m_owners->hertz, m_owners->isStock);
}

QStringList OwnerLegend::ranks() const {
    QStringList ranks;
    if (!m_owners) {
        return ranks;
    }
    const std::vector<Owner>& owners = m_owners->owners;
    for (std::size_t i = 0; i < owners.size(); ++i) {
        if (i < namedOwners || owners[i].part == m_selected) {
            ranks << QString("%1 %2 %3")
                         .arg(QString::number(i + 1), QString::fromStdString(owners[i].name),
                              ownedFigure(owners[i].dbPerTenPercent));
        }
    }
    return ranks;
}

QString OwnerLegend::words() const {
    if (!m_owners) {
        return {};
    }
    if (!m_owners->fault.isEmpty()) {
        return m_owners->fault;
    }
    return m_owners->owners.empty() ? tr("No part moves it by 0.02 dB.")
                                    : tr("dB for +10 % of a part: %1").arg(ranks().join(", "));
}

QSize OwnerLegend::sizeHint() const {
    if (!m_owners) {
        return {smallestWidth, 1};
    }
    const QFontMetrics heads(titleFont());
    const QFontMetrics rows(wordFont());
    const bool hasScale = m_owners->fault.isEmpty() && !m_owners->owners.empty();
    int width = std::max(smallestWidth, heads.horizontalAdvance(title()));
    if (!hasScale) {
        const QRect wrapped = rows.boundingRect(QRect(0, 0, width, 1000), Qt::TextWordWrap, words());
        return {width + 2 * rim, heads.height() + wrapped.height() + rowGap + 2 * rim};
    }
    for (const QString& rank : ranks()) {
        width = std::max(width, rows.horizontalAdvance(rank));
    }
    const int lines = static_cast<int>(ranks().size()) + 1;
    return {width + 2 * rim, heads.height() + barHeight + lines * rows.height() + 2 * rowGap + 2 * rim};
}

void OwnerLegend::paintEvent(QPaintEvent*) {
    if (!m_owners) {
        return;
    }
    const ThemeColours& colours = Theme::current().colours();
    QPainter painter(this);
    painter.fillRect(rect(), colours.canvas);
    QRect row = rect().adjusted(rim, rim, -rim, -rim);
    painter.setFont(titleFont());
    painter.setPen(colours.ink);
    painter.drawText(row, Qt::AlignLeft | Qt::AlignTop, title());
    const int headHeight = QFontMetrics(titleFont()).height();
    painter.setFont(wordFont());
    painter.setPen(colours.ink2);
    if (!m_owners->fault.isEmpty() || m_owners->owners.empty()) {
        row.setTop(row.top() + headHeight + rowGap);
        painter.drawText(row, Qt::AlignLeft | Qt::TextWordWrap, words());
        return;
    }
    row.setTop(row.top() + headHeight + rowGap);
    paintScale(painter, QRectF(row.left(), row.top(), row.width(), barHeight));
    row.setTop(row.top() + barHeight + rowGap);
    painter.setPen(colours.ink2);
    painter.drawText(row, Qt::AlignLeft, tr("%1 lowers").arg(ownedFigure(-1.0)));
    painter.drawText(row, Qt::AlignHCenter, tr("dB for +10 %"));
    painter.drawText(row, Qt::AlignRight, tr("raises %1").arg(ownedFigure(1.0)));
    const int lineHeight = QFontMetrics(wordFont()).height();
    painter.setPen(colours.ink);
    for (const QString& rank : ranks()) {
        row.setTop(row.top() + lineHeight);
        painter.drawText(row, Qt::AlignLeft, rank.section(' ', 0, -2));
        painter.drawText(row, Qt::AlignRight, rank.section(' ', -1));
    }
}

/// Eight cells from what lowers most to what raises most.
void OwnerLegend::paintScale(QPainter& painter, const QRectF& bar) const {
    painter.setPen(Qt::NoPen);
    const double cell = bar.width() / (2 * ownedSteps);
    for (int i = 0; i < 2 * ownedSteps; ++i) {
        const double db = (i - ownedSteps + 0.5) * stepDb;
        painter.setBrush(plateColour(db));
        painter.drawRect(QRectF(bar.left() + i * cell, bar.top(), cell, bar.height()));
    }
}

}  // namespace ohmwright

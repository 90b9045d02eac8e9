// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/drawer/import_view.h"

#include "app/look/theme.h"
#include "app/look/themed_label.h"

#include <QHBoxLayout>
#include <QListWidget>
#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>

namespace ohmwright {

ImportView::ImportView(QWidget* parent)
    : QWidget(parent),
      m_head(new ThemedLabel(TextRole::lead, true, &ThemeColours::ink, this)),
      m_lines(new QListWidget(this)),
      m_take(new QPushButton(this)) {
    m_head->setWordWrap(true);
    m_lines->setAccessibleName(tr("Lines of the table"));
    m_lines->setFrameShape(QFrame::NoFrame);
    m_lines->setWordWrap(true);
    auto* leave = new QPushButton(tr("Leave it"), this);
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(m_take);
    buttons->addWidget(leave);
    buttons->addStretch(1);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(14, 12, 14, 12);
    layout->addWidget(m_head);
    layout->addWidget(m_lines, 1);
    layout->addLayout(buttons);
    connect(m_take, &QPushButton::clicked, this, &ImportView::taken);
    connect(leave, &QPushButton::clicked, this, &ImportView::left);
}

void ImportView::show(const QString& fileName, const DrawerTable& table, const Drawer& present) {
    const auto text = [](const std::string& utf8) { return QString::fromStdString(utf8); };
    m_head->setText(tr("%1: %2 lots to take in, %3 lines left out")
                        .arg(fileName, QString::number(table.lots.size()), QString::number(table.troubles.size())));
    m_lines->clear();
    for (const DrawerCsvTrouble& trouble : table.troubles) {
        m_lines->addItem(tr("left out, %1").arg(text(trouble.message)));
    }
    for (const std::string& column : table.unknownColumns) {
        m_lines->addItem(tr("column “%1” means nothing here: left out").arg(text(column)));
    }
    for (const DrawerLot& lot : table.lots) {
        const DrawerLot* old = findLot(present, lot.id);
        m_lines->addItem(
            old != nullptr
                ? tr("%1, %2 of them, in place of %3")
                      .arg(text(displayName(lot)), QString::number(lot.quantity), QString::number(old->quantity))
                : tr("%1, %2 of them, new").arg(text(displayName(lot)), QString::number(lot.quantity)));
    }
    m_take->setText(tr("Take %1 lots in").arg(table.lots.size()));
    m_take->setEnabled(!table.lots.empty());
}

void ImportView::paintEvent(QPaintEvent*) {
    QPainter(this).fillRect(rect(), Theme::current().colours().panel);
}

}  // namespace ohmwright

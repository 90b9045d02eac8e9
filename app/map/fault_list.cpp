// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/fault_list.h"

#include "app/look/theme.h"
#include "app/look/themed_label.h"

#include <QListWidget>
#include <QVBoxLayout>

#include <algorithm>

namespace ohmwright {
namespace {

constexpr int margin = 14;

QString stateWords(const std::vector<DrawFault>& faults, const Circuit& circuit, bool hasAnswer) {
    if (!lacksOf(circuit).isEmpty()) {
        return FaultList::tr("The drawing is begun. Before it can be solved:");
    }
    if (faults.empty()) {
        return hasAnswer ? FaultList::tr("Nothing: the circuit is whole and its curves are drawn.")
                         : FaultList::tr("The circuit is whole; it is being solved.");
    }
    const bool isWrong = std::any_of(faults.begin(), faults.end(),
                                     [](const DrawFault& fault) { return fault.severity == Severity::wrong; });
    if (hasAnswer &&
        std::all_of(faults.begin(), faults.end(), [](const DrawFault& fault) { return fault.isUndrawn(); })) {
        return FaultList::tr("The circuit is whole and its curves are drawn. Not on the drawing:");
    }
    return isWrong ? FaultList::tr("Curves come when these are mended.")
                   : FaultList::tr("The curves can be drawn; look at these.");
}

}  // namespace

FaultList::FaultList(QWidget* parent) : QWidget(parent) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    auto* title = new ThemedLabel(TextRole::panelTitle, true, &ThemeColours::ink, this);
    title->setText(tr("Still to do"));
    title->setContentsMargins(margin, 6, margin, 2);
    column->addWidget(title);
    m_state = new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, this);
    m_state->setWordWrap(true);
    m_state->setContentsMargins(margin, 2, margin, 6);
    column->addWidget(m_state);
    m_list = new QListWidget(this);
    m_list->setAccessibleName(tr("Still to do"));
    m_list->setWordWrap(true);
    m_list->setFrameShape(QFrame::NoFrame);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setSpacing(3);
    m_list->setTextElideMode(Qt::ElideNone);
    m_list->setResizeMode(QListView::Adjust);
    m_list->setUniformItemSizes(false);
    m_list->viewport()->setAutoFillBackground(false);
    auto* inset = new QHBoxLayout;
    inset->setContentsMargins(margin - 6, 0, margin - 6, 8);
    inset->addWidget(m_list);
    column->addLayout(inset, 1);
    connect(m_list, &QListWidget::itemClicked, this, [this](const QListWidgetItem* item) { show(m_list->row(item)); });
    connect(m_list, &QListWidget::itemActivated, this, [this](const QListWidgetItem* item) {
        show(m_list->row(item));
        emit done();
    });
}

void FaultList::show(int row) {
    const auto index = static_cast<std::size_t>(row);
    if (index >= m_lines.size()) {
        return;
    }
    const DrawFault fault = m_lines[index].first;
    if (fault.hasPlace) {
        emit placeChosen(fault.at);
    } else if (!fault.part.empty()) {
        emit partChosen(fault.part);
    }
}

void FaultList::setFaults(const std::vector<DrawFault>& faults, const Circuit& circuit, bool hasAnswer) {
    m_lines = faultLines(faults);
    m_list->clear();
    m_list->setVisible(!m_lines.empty());
    for (const DrawFaultLine& line : m_lines) {
        m_list->addItem(line.sentence);
    }
    fitLines();
    m_state->setText(stateWords(faults, circuit, hasAnswer));
}

/// Each sentence has the lines that it needs at this width.
void FaultList::fitLines() {
    constexpr int inset = 14;
    const int width = m_list->viewport()->width() - inset;
    for (int row = 0; row < m_list->count(); ++row) {
        QListWidgetItem* item = m_list->item(row);
        const QRect words =
            m_list->fontMetrics().boundingRect(QRect(0, 0, width, 1000), Qt::TextWordWrap, item->text());
        item->setSizeHint({width, words.height() + 6});
    }
}

void FaultList::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fitLines();
}

}  // namespace ohmwright

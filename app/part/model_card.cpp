// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/model_card.h"

#include "app/look/panel_title.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/part/part_words.h"

#include <QGridLayout>
#include <QVBoxLayout>

namespace ohmwright {

namespace {
constexpr int pairsInRow = 2;
}

ModelCard::ModelCard(QWidget* parent)
    : QWidget(parent),
      m_grid(new QGridLayout),
      m_source(new ThemedLabel(TextRole::caption, false, &ThemeColours::ink3, this)) {
    m_grid->setHorizontalSpacing(10);
    m_grid->setVerticalSpacing(3);
    m_source->setWordWrap(true);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(6);
    layout->addWidget(new PanelTitle(tr("Model"), this));
    layout->addLayout(m_grid);
    layout->addWidget(m_source);
}

void ModelCard::show(const Model& model) {
    if (model == m_model) {
        return;
    }
    m_model = model;
    while (QLayoutItem* item = m_grid->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    const auto parameters = parameterTexts(model);
    const int rows = (static_cast<int>(parameters.size()) + pairsInRow - 1) / pairsInRow;
    for (int place = 0; place < static_cast<int>(parameters.size()); ++place) {
        const auto& [name, value] = parameters[static_cast<std::size_t>(place)];
        auto* nameLabel = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink2, this);
        auto* valueLabel = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink, this);
        nameLabel->setText(name);
        valueLabel->setText(value);
        const int column = place / rows * pairsInRow;
        m_grid->addWidget(nameLabel, place % rows, column);
        m_grid->addWidget(valueLabel, place % rows, column + 1);
        m_grid->setColumnStretch(column + 1, 1);
    }
    m_source->setText(model.source.empty() ? tr("source not stated")
                                           : tr("source: %1").arg(QString::fromStdString(model.source)));
}

}  // namespace ohmwright

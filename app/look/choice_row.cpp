// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/choice_row.h"

#include "app/look/theme.h"

#include <QButtonGroup>
#include <QHBoxLayout>
#include <QPushButton>

namespace ohmwright {

ChoiceRow::ChoiceRow(const QString& name, const QStringList& choices, QWidget* parent) : QWidget(parent) {
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    auto* group = new QButtonGroup(this);
    for (const QString& words : choices) {
        auto* button = new QPushButton(words, this);
        button->setCheckable(true);
        button->setProperty("tight", true);
        button->setAccessibleName(QString("%1: %2").arg(name, words));
        group->addButton(button, static_cast<int>(m_buttons.size()));
        layout->addWidget(button, 1);
        m_buttons.push_back(button);
    }
    // Where all are wanted in too little room, air goes and no word.
    const auto keepWords = [this] {
        constexpr int leastAir = 10;
        const QFontMetrics metrics(Theme::current().font(TextRole::body, true));
        for (QPushButton* each : m_buttons) {
            each->setMinimumWidth(metrics.horizontalAdvance(each->text()) + leastAir);
        }
    };
    keepWords();
    connect(&Theme::current(), &Theme::changed, this, keepWords);
    setChosen(0);
    connect(group, &QButtonGroup::idClicked, this, &ChoiceRow::choiceMade);
    setAccessibleName(name);
}

void ChoiceRow::setChosen(int index) {
    button(index).setChecked(true);
}

int ChoiceRow::chosen() const {
    for (std::size_t i = 0; i < m_buttons.size(); ++i) {
        if (m_buttons[i]->isChecked()) {
            return static_cast<int>(i);
        }
    }
    return 0;
}

}  // namespace ohmwright

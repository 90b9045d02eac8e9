// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/writing_choices.h"

#include "app/look/choice_row.h"
#include "app/look/language.h"
#include "app/look/settings.h"
#include "app/look/themed_label.h"

#include <QGridLayout>

#include <algorithm>
#include <array>

namespace ohmwright {

namespace {

constexpr std::array textScales{1.0, 1.15, 1.3};

}  // namespace

WritingChoices::WritingChoices(Settings& settings, QWidget* parent) : QWidget(parent), m_settings(settings) {
    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setColumnStretch(1, 1);
    m_language = add(*grid, tr("language"), {languageName(Language::english), languageName(Language::german)});
    m_nextStart = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink2, this);
    m_nextStart->setWordWrap(true);
    grid->addWidget(m_nextStart, grid->rowCount(), 1);
    m_values = add(*grid, tr("values"), {"4k7", "4.7 k"});
    m_levels = add(*grid, tr("levels"), {"mVpk", "mVrms", "dBV", "dBu"});
    m_symbols = add(*grid, tr("symbols"), {QString("IEC 60617"), QString("IEEE 315")});
    m_light = add(*grid, tr("light"), {tr("Day"), tr("Night"), tr("As desktop")});
    m_text = add(*grid, tr("text"), {"100 %", "115 %", "130 %"});
    connect(m_language, &ChoiceRow::choiceMade, this, [this](int index) {
        m_settings.setLanguage(static_cast<Language>(index));
        follow();
    });
    connect(m_values, &ChoiceRow::choiceMade, this, [this](int index) {
        m_settings.setValueStyle(static_cast<ValueStyle>(index));
        putInForce();
    });
    connect(m_levels, &ChoiceRow::choiceMade, this, [this](int index) {
        m_settings.setLevelUnit(static_cast<LevelUnit>(index));
        putInForce();
    });
    connect(m_symbols, &ChoiceRow::choiceMade, this, [this](int index) {
        m_settings.setSymbols(static_cast<SymbolStandard>(index));
        putInForce();
    });
    connect(m_light, &ChoiceRow::choiceMade, this, [this](int index) {
        m_settings.setTheme(static_cast<ThemeChoice>(index));
        putInForce();
    });
    connect(m_text, &ChoiceRow::choiceMade, this, [this](int index) {
        m_settings.setTextScale(textScales.at(static_cast<std::size_t>(index)));
        putInForce();
    });
    follow();
}

void WritingChoices::putInForce() {
    applyLookSettings(m_settings);
    emit changed();
}

void WritingChoices::setDefaults() {
    m_settings.clearWriting();
    putInForce();
    follow();
}

ChoiceRow* WritingChoices::add(QGridLayout& grid, const QString& name, const QStringList& choices) {
    const int row = grid.rowCount();
    auto* label = new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, this);
    label->setText(name);
    auto* made = new ChoiceRow(name, choices, this);
    grid.addWidget(label, row, 0);
    grid.addWidget(made, row, 1);
    return made;
}

void WritingChoices::follow() {
    const Language language = m_settings.language();
    m_language->setChosen(static_cast<int>(language));
    m_nextStart->setVisible(language != spokenLanguage());
    m_nextStart->setText(tr("%1 from the next start on.").arg(languageName(language)));
    m_values->setChosen(static_cast<int>(m_settings.valueStyle()));
    m_levels->setChosen(static_cast<int>(m_settings.levelUnit()));
    m_symbols->setChosen(static_cast<int>(m_settings.symbols()));
    m_light->setChosen(static_cast<int>(m_settings.theme()));
    const auto scale = std::find(textScales.begin(), textScales.end(), m_settings.textScale());
    m_text->setChosen(scale == textScales.end() ? 0 : static_cast<int>(scale - textScales.begin()));
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/settings_page.h"

#include "app/look/settings.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/window/writing_choices.h"

#include <QDialogButtonBox>
#include <QHBoxLayout>
#include <QPushButton>
#include <QVBoxLayout>

namespace ohmwright {

namespace {

ThemedLabel* words(TextRole role, bool isBold, QColor ThemeColours::*colour, const QString& text, QWidget* parent) {
    auto* label = new ThemedLabel(role, isBold, colour, parent);
    label->setText(text);
    label->setWordWrap(true);
    return label;
}

}  // namespace

SettingsPage::SettingsPage(Settings& settings, QWidget* parent) : QDialog(parent), m_settings(settings) {
    setWindowTitle(tr("Settings"));
    constexpr int leastWidth = 460;
    setMinimumWidth(leastWidth);
    auto* column = new QVBoxLayout(this);
    column->setSpacing(10);
    column->addWidget(words(TextRole::lead, true, &ThemeColours::ink, tr("How you write things"), this));
    m_writing = new WritingChoices(settings, this);
    column->addWidget(m_writing);
    column->addWidget(words(TextRole::caption, false, &ThemeColours::ink2,
                            tr("All ways of writing a value are read, whichever is chosen. Files keep their own."),
                            this));
    column->addSpacing(8);
    column->addWidget(words(TextRole::lead, true, &ThemeColours::ink, tr("Shop folder"), this));
    auto* row = new QHBoxLayout;
    m_folder = words(TextRole::body, false, &ThemeColours::ink, {}, this);
    auto* choose = new QPushButton(tr("Choose …"), this);
    choose->setAccessibleName(tr("Choose the shop folder"));
    row->addWidget(m_folder, 1);
    row->addWidget(choose);
    column->addLayout(row);
    column->addWidget(words(TextRole::caption, false, &ThemeColours::ink2,
                            tr("The drawer, rates, customers' words, the shop's own stages and jobs lie here. A job "
                               "that lies in a shop's folder goes by that one."),
                            this));
    column->addStretch(1);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    QPushButton* defaults = buttons->addButton(tr("Back to the defaults"), QDialogButtonBox::ResetRole);
    column->addWidget(buttons);

    connect(m_writing, &WritingChoices::changed, this, &SettingsPage::writingChanged);
    connect(choose, &QAbstractButton::clicked, this, &SettingsPage::shopFolderAsked);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(defaults, &QAbstractButton::clicked, this, [this] {
        m_writing->setDefaults();
        follow();
    });
    connect(&Theme::current(), &Theme::changed, this, &SettingsPage::follow);
    follow();
}

void SettingsPage::follow() {
    m_writing->follow();
    m_folder->setText(m_settings.shopFolder());
}

}  // namespace ohmwright

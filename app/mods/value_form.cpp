// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/mods/value_form.h"

#include "app/look/choice_button.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "core/base/value_text.h"

#include <QKeyEvent>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include <utility>

namespace ohmwright {

ValueForm::ValueForm(QWidget* parent)
    : QWidget(parent),
      m_title(new ThemedLabel(TextRole::body, true, &ThemeColours::ink, this)),
      m_field(new QLineEdit(this)),
      m_fit(new QPushButton(tr("Fit"), this)),
      m_echo(new ThemedLabel(TextRole::caption, false, &ThemeColours::ink2, this)),
      m_choices(new QVBoxLayout) {
    auto* cancel = new QPushButton(tr("Cancel"), this);
    auto* entry = new QHBoxLayout;
    entry->setSpacing(6);
    entry->addWidget(m_field, 1);
    entry->addWidget(m_fit);
    entry->addWidget(cancel);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(6);
    m_title->setWordWrap(true);
    m_echo->setWordWrap(true);
    layout->addWidget(m_title);
    layout->addLayout(entry);
    layout->addWidget(m_echo);
    layout->addLayout(m_choices);
    m_field->setMinimumWidth(60);
    m_field->installEventFilter(this);
    connect(m_field, &QLineEdit::textChanged, this, &ValueForm::read);
    connect(m_fit, &QPushButton::clicked, this, &ValueForm::fit);
    connect(cancel, &QPushButton::clicked, this, &ValueForm::close);
    hide();
}

void ValueForm::ask(const QString& title, Unit unit, const QString& start, Take take) {
    m_unit = unit;
    m_take = std::move(take);
    m_title->setText(title);
    m_field->setAccessibleName(title);
    m_field->setText(start);
    m_field->selectAll();
    read();
    show();
    m_field->setFocus(Qt::OtherFocusReason);
}

void ValueForm::close() {
    if (isHidden()) {
        return;
    }
    hide();
    clearChoices();
    m_take = nullptr;
    emit closed();
}

void ValueForm::clearChoices() {
    while (QLayoutItem* item = m_choices->takeAt(0)) {
        // A choice may be the one being pressed.
        item->widget()->hide();
        item->widget()->deleteLater();
        delete item;
    }
}

void ValueForm::read() {
    clearChoices();
    m_fit->setEnabled(false);
    if (m_field->text().trimmed().isEmpty()) {
        m_echo->setText(
            tr("Type a value in %1, such as %2.").arg(unitSymbol(m_unit), m_unit == Unit::farad ? "68n" : "4k7"));
        return;
    }
    const auto readings = readValue(m_field->text().toStdString(), m_unit);
    if (!readings) {
        m_echo->setText(text(readings.error().message));
        return;
    }
    if (readings->size() == 1) {
        m_echo->setText(text(formatQuantity(readings->front().value)));
        m_fit->setEnabled(true);
        return;
    }
    m_echo->setText(tr("This can be read in two ways. Which one is on the part?"));
    for (const ValueReading& reading : *readings) {
        auto* choice = new ChoiceButton(text(formatQuantity(reading.value)), text(reading.because), this);
        connect(choice, &QAbstractButton::clicked, this, [this, si = reading.value.si] { fitValue(si); });
        m_choices->addWidget(choice);
    }
}

void ValueForm::fit() {
    const auto readings = readValue(m_field->text().toStdString(), m_unit);
    if (readings && readings->size() == 1) {
        fitValue(readings->front().value.si);
    }
}

void ValueForm::fitValue(double si) {
    if (!m_take) {
        return;
    }
    const QString against = m_take(si);
    if (against.isEmpty()) {
        close();
    } else {
        m_echo->setText(against);
    }
}

bool ValueForm::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_field && event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        if (key == Qt::Key_Return || key == Qt::Key_Enter) {
            fit();
            return true;
        }
        if (key == Qt::Key_Escape) {
            close();
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/entry_form.h"

#include "app/look/theme.h"
#include "app/look/themed_label.h"

#include <QGridLayout>
#include <QKeyEvent>

#include <utility>

namespace ohmwright {

QLineEdit* EntryForm::addField(QGridLayout& grid, const QString& label, const QString& hint, Take take) {
    auto* words = new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, this);
    auto* field = new QLineEdit(this);
    field->setPlaceholderText(hint);
    field->installEventFilter(this);
    words->setBuddy(field);
    const int row = grid.rowCount();
    grid.addWidget(words, row, 0);
    grid.addWidget(field, row, 1);
    m_entries[field] = {words, std::move(take)};
    rename(field, label);
    connect(field, &QLineEdit::textEdited, this, [this, field] { m_typing = field; });
    connect(field, &QLineEdit::returnPressed, this, [this, field] { takeByEnter(field); });
    connect(field, &QLineEdit::editingFinished, this, [this, field] { takeWhenLeft(field); });
    return field;
}

void EntryForm::rename(QLineEdit* field, const QString& label) {
    m_entries.at(field).label->setText(label);
    field->setAccessibleName(label);
}

void EntryForm::showField(QLineEdit* field, bool isShown, const QString& words) {
    m_entries.at(field).label->setVisible(isShown);
    field->setVisible(isShown);
    if (m_typing != field && field->text() != words) {
        field->setText(words);
    }
}

void EntryForm::enter(QLineEdit* field, const QString& typed) {
    field->setFocus(Qt::OtherFocusReason);
    if (typed.isNull()) {
        field->selectAll();
    } else {
        field->setText(typed);
        m_typing = field;
    }
}

void EntryForm::takeByEnter(QLineEdit* field) {
    m_typing = nullptr;
    if (m_entries.at(field).take(field->text().trimmed())) {
        follow();
        emit done();
        return;
    }
    // It stays as it was typed, to be put right.
    m_typing = field;
    field->selectAll();
}

void EntryForm::takeWhenLeft(QLineEdit* field) {
    // With the keyboard still in it, this is Enter's.
    if (!field->hasFocus() && m_typing == field) {
        finishEntry();
    }
}

void EntryForm::finishEntry() {
    if (QLineEdit* field = std::exchange(m_typing, nullptr)) {
        m_entries.at(field).take(field->text().trimmed());
        follow();
    }
}

bool EntryForm::eventFilter(QObject* watched, QEvent* event) {
    auto* field = qobject_cast<QLineEdit*>(watched);
    if (field && event->type() == QEvent::FocusIn) {
        begin(field);
    }
    if (field && event->type() == QEvent::KeyPress && static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
        m_typing = nullptr;
        emit done();
        follow();
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/history/words_field.h"

#include "app/look/theme.h"

#include <QFontMetrics>

namespace ohmwright {

WordsField::WordsField(const QString& name, int lines, QWidget* parent) : QPlainTextEdit(parent), m_lines(lines) {
    setAccessibleName(name);
    setTabChangesFocus(true);
    setVerticalScrollBarPolicy(Qt::ScrollBarAsNeeded);
    connect(this, &QPlainTextEdit::textChanged, this, [this] {
        if (hasFocus() && toPlainText() != m_words) {
            emit written(toPlainText());
        }
    });
    connect(&Theme::current(), &Theme::changed, this, &WordsField::followTheme);
    followTheme();
}

void WordsField::setWords(const QString& words) {
    const bool isBeingTyped = hasFocus() && toPlainText() != m_words;
    m_words = words;
    if (!isBeingTyped && toPlainText() != words) {
        setPlainText(words);
    }
}

void WordsField::focusOutEvent(QFocusEvent* event) {
    QPlainTextEdit::focusOutEvent(event);
    if (event->reason() != Qt::PopupFocusReason && toPlainText() != m_words) {
        emit written(toPlainText());
    }
}

void WordsField::followTheme() {
    setFont(Theme::current().font(TextRole::body));
    setFixedHeight(m_lines * QFontMetrics(font()).lineSpacing() + 14);
}

}  // namespace ohmwright

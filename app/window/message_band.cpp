// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/message_band.h"

#include "app/look/theme.h"

#include <QApplication>
#include <QHBoxLayout>
#include <QPainter>
#include <QPushButton>

namespace ohmwright {

MessageBand::MessageBand(SignKind sign, Stays stays, QWidget* parent)
    : QWidget(parent), m_sign(sign), m_text(new SignText(this)) {
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(16, 8, 16, 8);
    layout->setSpacing(16);
    layout->addWidget(m_text, 1, Qt::AlignVCenter);
    if (stays == Stays::untilDismissed) {
        m_dismiss = new QPushButton(tr("Dismiss"), this);
        m_dismiss->setAccessibleDescription(tr("Take this message away"));
        layout->addWidget(m_dismiss, 0, Qt::AlignVCenter);
        connect(m_dismiss, &QPushButton::clicked, this, &MessageBand::dismiss);
    }
    connect(qApp, &QApplication::focusChanged, this, [this](QWidget* old, QWidget* now) {
        if (old != nullptr && now != nullptr && isAncestorOf(now) && !isAncestorOf(old)) {
            m_focusBefore = old;
        }
    });
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
    hide();
}

void MessageBand::dismiss() {
    const bool hadFocus = m_dismiss->hasFocus();
    setSentence({});
    emit dismissed();
    // The next sentence, if there is one, is dismissed by the next press.
    if (hadFocus && isVisible()) {
        m_dismiss->setFocus(Qt::OtherFocusReason);
    }
}

void MessageBand::setSentence(const QString& sentence) {
    const bool hadFocus = isAncestorOf(QApplication::focusWidget());
    m_text->setSentence(sentence, m_sign);
    setAccessibleName(sentence);
    setVisible(!sentence.isEmpty());
    if (hadFocus && !isVisible() && m_focusBefore != nullptr && m_focusBefore->isVisible()) {
        m_focusBefore->setFocus(Qt::OtherFocusReason);
    }
}

void MessageBand::setMore(const QString& words) {
    setChoices(words.isEmpty() ? QStringList() : QStringList{words});
}

void MessageBand::setChoices(const QStringList& words) {
    auto* row = static_cast<QHBoxLayout*>(layout());
    while (static_cast<qsizetype>(m_choices.size()) < words.size()) {
        const int choice = static_cast<int>(m_choices.size());
        auto* button = new QPushButton(this);
        row->insertWidget(1 + choice, button, 0, Qt::AlignVCenter);
        connect(button, &QPushButton::clicked, this, [this, choice] {
            emit taken(choice);
            emit moreAsked();
        });
        m_choices.push_back(button);
    }
    for (std::size_t i = 0; i < m_choices.size(); ++i) {
        const QString text = words.value(static_cast<qsizetype>(i));
        m_choices[i]->setText(text);
        m_choices[i]->setVisible(!text.isEmpty());
    }
}

QString MessageBand::sentence() const {
    return m_text->text();
}

void MessageBand::paintEvent(QPaintEvent*) {
    const ThemeColours& colours = Theme::current().colours();
    QPainter painter(this);
    painter.fillRect(rect(), m_sign == SignKind::stop ? colours.stopSoft : colours.warnSoft);
}

}  // namespace ohmwright

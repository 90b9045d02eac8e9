// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/message_band.h"

#include "app/look/theme.h"

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
        m_dismiss = new QPushButton("Dismiss", this);
        m_dismiss->setAccessibleDescription("Take this message away");
        layout->addWidget(m_dismiss, 0, Qt::AlignVCenter);
        connect(m_dismiss, &QPushButton::clicked, this, [this] {
            setSentence({});
            emit dismissed();
        });
    }
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
    hide();
}

void MessageBand::setSentence(const QString& sentence) {
    m_text->setSentence(sentence, m_sign);
    setAccessibleName(sentence);
    setVisible(!sentence.isEmpty());
}

void MessageBand::setMore(const QString& words) {
    if (!m_more && !words.isEmpty()) {
        constexpr int behindTheSentence = 1;
        m_more = new QPushButton(this);
        static_cast<QHBoxLayout*>(layout())->insertWidget(behindTheSentence, m_more, 0, Qt::AlignVCenter);
        connect(m_more, &QPushButton::clicked, this, &MessageBand::moreAsked);
    }
    if (m_more) {
        m_more->setText(words);
        m_more->setVisible(!words.isEmpty());
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

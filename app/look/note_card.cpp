// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/note_card.h"

#include "app/look/theme.h"
#include "app/look/themed_label.h"

#include <QPainter>
#include <QScreen>
#include <QScrollArea>
#include <QVBoxLayout>

#include <algorithm>

namespace ohmwright {

namespace {

constexpr int cardWidth = 420;
constexpr int margin = 14;
constexpr int gap = 6;

}  // namespace

NoteCard::NoteCard(const std::vector<Note>& notes, QWidget* parent) : QFrame(parent, Qt::Popup) {
    setObjectName("noteCard");
    auto* sheet = new QWidget;
    auto* lines = new QVBoxLayout(sheet);
    lines->setContentsMargins(margin, margin, margin, margin);
    lines->setSpacing(2);
    QStringList all;
    const auto add = [&](const QString& text, TextRole role, bool bold, QColor ThemeColours::*colour) {
        if (text.isEmpty()) {
            return;
        }
        auto* label = new ThemedLabel(role, bold, colour, sheet);
        label->setWordWrap(true);
        label->setText(text);
        label->setTextInteractionFlags(Qt::TextSelectableByMouse);
        lines->addWidget(label);
        all << text;
    };
    for (const Note& note : notes) {
        if (&note != &notes.front()) {
            lines->addSpacing(10);
        }
        add(note.title, TextRole::body, true, &ThemeColours::ink);
        add(note.words, TextRole::body, false, &ThemeColours::ink2);
        add(note.smallPrint, TextRole::caption, false, &ThemeColours::ink3);
    }
    m_text = all.join('\n');
    setAccessibleName(m_text);
    lines->addStretch(1);
    auto* scroll = new QScrollArea(this);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setWidgetResizable(true);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setWidget(sheet);
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(1, 1, 1, 1);
    whole->addWidget(scroll);
    const int width = qRound(cardWidth * Theme::current().textScale());
    resize(width, lines->heightForWidth(width - 2) + 2);
}

NoteCard* NoteCard::show(const std::vector<Note>& notes, QWidget& anchor) {
    return show(notes, *anchor.window(), QRect(anchor.mapToGlobal(QPoint(0, 0)), anchor.size()));
}

NoteCard* NoteCard::show(const std::vector<Note>& notes, QWidget& window, const QRect& beside) {
    auto* card = new NoteCard(notes, &window);
    card->setAttribute(Qt::WA_DeleteOnClose);
    const QRect room = QRect(window.mapToGlobal(QPoint(0, 0)), window.size());
    card->resize(std::min(card->width(), room.width()), std::min(card->height(), room.height() - 2 * gap));
    const int above = beside.top() - gap - card->height();
    int top = above >= room.top() ? above : beside.bottom() + gap;
    top = std::clamp(top, room.top(), std::max(room.top(), room.bottom() - card->height()));
    const int left = std::clamp(beside.left(), room.left(), std::max(room.left(), room.right() - card->width()));
    card->move(left, top);
    card->QFrame::show();
    return card;
}

void NoteCard::paintEvent(QPaintEvent*) {
    const ThemeColours& colours = Theme::current().colours();
    QPainter painter(this);
    painter.fillRect(rect(), colours.panel);
    painter.setPen(QPen(colours.edge, line::hair));
    painter.drawRect(rect().adjusted(0, 0, -1, -1));
}

}  // namespace ohmwright

/// A card of words beside what was pressed: sentences, sums, limits and where they come from.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFrame>
#include <QString>

#include <vector>

namespace ohmwright {

/// One entry: a bold line, the words below it, and small print. Empty ones take no room.
struct Note {
    QString title;
    QString words;
    QString smallPrint;
};

/// Goes with Esc or a press elsewhere; nothing waits for it. Scrolls when it is higher than the window.
class NoteCard : public QFrame {
    Q_OBJECT
public:
    explicit NoteCard(const std::vector<Note>& notes, QWidget* parent);

    /// A card that deletes itself, beside `anchor`: above it, else below, inside the window.
    static NoteCard* show(const std::vector<Note>& notes, QWidget& anchor);
    /// The same beside a place on the screen, inside `window`.
    static NoteCard* show(const std::vector<Note>& notes, QWidget& window, const QRect& beside);

    /// Everything that stands on it, a line each.
    [[nodiscard]] const QString& text() const { return m_text; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString m_text;
};

}  // namespace ohmwright

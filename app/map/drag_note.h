/// A line of words that lies beside the pointer while a value is dragged, and a moment longer.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <QTimer>
#include <QWidget>

namespace ohmwright {

class DragNote : public QWidget {
    Q_OBJECT
public:
    explicit DragNote(QWidget* parent);

    /// @param beside  in the parent; the words keep inside it.
    void say(const QString& words, const QPoint& beside, bool forAMoment);
    [[nodiscard]] const QString& words() const { return m_words; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString m_words;
    QTimer m_moment;
};

}  // namespace ohmwright

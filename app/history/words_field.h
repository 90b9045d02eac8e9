/// A few lines of words that are written when the field is left.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPlainTextEdit>

namespace ohmwright {

class WordsField : public QPlainTextEdit {
    Q_OBJECT
public:
    /// @param name  its heading, also for whoever hears the screen.
    WordsField(const QString& name, int lines, QWidget* parent = nullptr);

    /// What stands in the job; what is being typed stays.
    void setWords(const QString& words);

signals:
    /// Once, when the field is left with other words than it had.
    void written(const QString& words);

protected:
    void focusOutEvent(QFocusEvent* event) override;

private:
    void followTheme();

    QString m_words;
    int m_lines;
};

}  // namespace ohmwright

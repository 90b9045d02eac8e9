/// A few lines of words that are written while they are typed: a crash, a save, a close find them in the job.
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
    /// Whenever a hand has changed them.
    void written(const QString& words);

protected:
    void focusOutEvent(QFocusEvent* event) override;

private:
    void followTheme();

    QString m_words;
    int m_lines;
};

}  // namespace ohmwright

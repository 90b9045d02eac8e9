/// A form of fields that are taken with Enter, and also when they are left; Esc drops what was typed.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLineEdit>
#include <QWidget>

#include <functional>
#include <map>

class QGridLayout;
class QLabel;

namespace ohmwright {

class EntryForm : public QWidget {
    Q_OBJECT
public:
    using QWidget::QWidget;

signals:
    /// Enter was taken, or Esc pressed: the keyboard goes back to the drawing.
    void done();
    /// Why what was typed cannot be taken.
    void refused(const QString& sentence);

protected:
    /// Takes what was typed (without blanks around it); false when it was refused, in words.
    using Take = std::function<bool(const QString& typed)>;

    QLineEdit* addField(QGridLayout& grid, const QString& label, const QString& hint, Take take);
    void showField(QLineEdit* field, bool isShown, const QString& words);
    void rename(QLineEdit* field, const QString& label);
    /// The keyboard to a field. @param typed  its text, as if it were typed; null: what stands in it, selected.
    void enter(QLineEdit* field, const QString& typed = {});
    /// Takes what is half typed: what it is about is going to be another.
    void finishEntry();
    /// Forgets what is half typed: it was about another document.
    void dropEntry() { m_typing = nullptr; }
    /// Whether something is typed that is not yet taken.
    [[nodiscard]] bool isTyping() const { return m_typing != nullptr; }

    /// A field gets the keyboard: what its entry is about is what is picked now.
    virtual void begin(QLineEdit* field) = 0;
    /// The fields show what is true.
    virtual void follow() = 0;

    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    struct Entry {
        QLabel* label = nullptr;
        Take take;
    };
    void takeByEnter(QLineEdit* field);
    void takeWhenLeft(QLineEdit* field);

    std::map<QLineEdit*, Entry> m_entries;
    QLineEdit* m_typing = nullptr;
};

}  // namespace ohmwright

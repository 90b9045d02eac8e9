/// The large value field of the part panel: type a value, step it, and read back what was understood.
///
/// Questions and errors stand in place below the box; nothing modal. After an edit the focus stays in the
/// field with the text selected.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/quantity.h"
#include "core/base/value_text.h"

#include <QString>
#include <QWidget>

#include <optional>
#include <vector>

class QVBoxLayout;

namespace ohmwright {

class SignText;
class ValueBox;

/// The part whose value is shown.
struct ValueSubject {
    QString name;    ///< "C4 Cg": for the accessible name and questions.
    Quantity stock;  ///< As built; the unit decides how typed text is read.
    Quantity now;    ///< Planned; equal to stock when there is no mod.

    friend bool operator==(const ValueSubject&, const ValueSubject&) = default;
};

class ValueField : public QWidget {
    Q_OBJECT
public:
    /// A new value this many times off the stock value is asked about once.
    static constexpr double doubtfulFactor = 8.0;

    explicit ValueField(QWidget* parent = nullptr);

    /// Shows the part. Text being typed is kept while the same part and value are set again.
    void setSubject(const ValueSubject& subject);
    /// The line below the box at rest, "120 nF ±10 %, this one 118 nF"; empty: the value with its unit.
    void setNote(const QString& note);
    /// An error from elsewhere ("R5 cannot be lifted twice") below the box until the next edit.
    void showError(const QString& sentence);

    /// Takes the focus and starts a new entry with `text`: a digit pressed on the map.
    void startTyping(const QString& text);

    /// What stands in the entry, and what stands below.
    [[nodiscard]] QString text() const;
    [[nodiscard]] QString message() const;
    /// True while choices or the factor question wait for an answer.
    [[nodiscard]] bool isAsking() const { return !m_choices.empty(); }

signals:
    /// Enter on a sound value that differs from the one shown (or a choice taken).
    void valueEntered(ohmwright::Quantity value, const QString& text);
    /// Wheel, Page Up / Page Down, + and − halves: +1 to larger values.
    void stepped(int direction, Qt::KeyboardModifiers modifiers);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    struct Choice {
        QString title;
        QString reason;
        std::optional<Quantity> value;  ///< Absent: back to typing.
    };

    void readLive(const QString& text);
    void enter();
    void consider(Quantity value, const QString& text);
    void accept(Quantity value, const QString& text);
    void ask(const QString& sentence, std::vector<Choice> choices, const QString& text);
    void choose(std::size_t index);
    void stopAsking();
    void restore();
    void showNote();
    void selectEntry();

    ValueSubject m_subject;
    QString m_note;
    QString m_askedText;
    std::vector<Choice> m_choices;
    std::optional<double> m_confirmed;  ///< The far-off value that was already agreed to.

    ValueBox* m_box = nullptr;
    SignText* m_message = nullptr;
    QWidget* m_choiceArea = nullptr;
    QVBoxLayout* m_choiceLayout = nullptr;
};

}  // namespace ohmwright

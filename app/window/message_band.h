/// A band of words under the header: care (ochre triangle) or stop (oxblood octagon), never a window of its own.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/look/sign_text.h"

#include <QPointer>
#include <QStringList>
#include <QWidget>

#include <vector>

class QPushButton;

namespace ohmwright {

class MessageBand : public QWidget {
    Q_OBJECT
public:
    enum class Stays { untilDismissed, whileTrue };

    MessageBand(SignKind sign, Stays stays, QWidget* parent = nullptr);

    /// Shows the sentence; an empty one hides the band.
    void setSentence(const QString& sentence);
    [[nodiscard]] QString sentence() const;
    /// A button beside the sentence for what does not fit in it; empty words take it away.
    void setMore(const QString& words);
    /// What can be done about it, a button each.
    void setChoices(const QStringList& words);

signals:
    void moreAsked();
    /// @param choice  place in the list of setChoices.
    void taken(int choice);
    void dismissed();

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void dismiss();

    SignKind m_sign;
    SignText* m_text;
    std::vector<QPushButton*> m_choices;
    QPushButton* m_dismiss = nullptr;
    QPointer<QWidget> m_focusBefore;  ///< What had the keyboard before the band.
};

}  // namespace ohmwright

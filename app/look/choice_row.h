/// A few choices side by side, one of them chosen: what a person writes values with, light or dark.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStringList>
#include <QWidget>

#include <vector>

class QPushButton;

namespace ohmwright {

/// Left, Right, Up and Down choose the one beside; each choice is a button of its own name: "values: 4k7".
class ChoiceRow : public QWidget {
    Q_OBJECT
public:
    /// @param name  what is chosen, for those who do not see what stands before the row.
    ChoiceRow(const QString& name, const QStringList& choices, QWidget* parent = nullptr);

    /// Says nothing.
    void setChosen(int index);
    [[nodiscard]] int chosen() const;
    [[nodiscard]] QPushButton& button(int index) const { return *m_buttons.at(static_cast<std::size_t>(index)); }

signals:
    void choiceMade(int index);

private:
    std::vector<QPushButton*> m_buttons;
};

}  // namespace ohmwright

/// A small form in the rail that asks for one part value in place of a dialog.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/quantity.h"

#include <QString>
#include <QWidget>

#include <functional>

class QLabel;
class QLineEdit;
class QPushButton;
class QVBoxLayout;

namespace ohmwright {

/// Echoes what it reads while it is typed; an ambiguous marking ("470" on a capacitor) opens a choice.
class ValueForm : public QWidget {
    Q_OBJECT
public:
    /// Makes the edit; returns the sentence against it, or an empty text when it was taken.
    using Take = std::function<QString(double si)>;

    explicit ValueForm(QWidget* parent = nullptr);

    /// @param title  "Across C4 Cg: capacitor"
    /// @param start  text that stands in the field, selected; may be empty.
    void ask(const QString& title, Unit unit, const QString& start, Take take);
    void close();

signals:
    void closed();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void read();
    void fit();
    void fitValue(double si);
    void clearChoices();

    Unit m_unit = Unit::none;
    Take m_take;
    QLabel* m_title;
    QLineEdit* m_field;
    QPushButton* m_fit;
    QLabel* m_echo;
    QVBoxLayout* m_choices;
};

}  // namespace ohmwright

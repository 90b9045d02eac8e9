/// The head of a step: the mod's triangle, its part with the value struck out and the new one, "step 6 of 14".
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

namespace ohmwright {

class StepHead : public QWidget {
    Q_OBJECT
public:
    struct Words {
        QString letter;      ///< Empty for steps of the whole unit.
        QString name;        ///< "C4 Cg", "mod A", "whole unit"
        QString stock, now;  ///< Values that differ, or empty.
        QString state;       ///< "planned"; empty for the whole unit
        QString count;       ///< "step 6 of 14"
    };

    explicit StepHead(QWidget* parent = nullptr);

    void say(const Words& words);
    /// "A, C4 Cg 56n → 120n, planned, step 6 of 14"
    [[nodiscard]] QString words() const;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    Words m_words;
};

}  // namespace ohmwright

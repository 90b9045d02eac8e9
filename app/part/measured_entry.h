/// What a meter read of the part on the board: said in a line, typed over in place.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <QWidget>

#include <optional>

class QLabel;
class QLineEdit;

namespace ohmwright {

class TextLink;

/// Enter takes what was typed, nothing takes the reading back; Esc leaves it. An unreadable value is said and stays.
class MeasuredEntry : public QWidget {
    Q_OBJECT
public:
    explicit MeasuredEntry(QWidget* parent = nullptr);

    /// REQUIRES: a part with a value.
    void show(const Part& part);

signals:
    /// SI unit of the part's kind; nothing takes the reading back.
    void entered(std::optional<double> value);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void beginTyping();
    void endTyping();
    void take();

    TextLink* m_link;
    QLineEdit* m_field;
    QLabel* m_fault;
    PartKind m_kind = PartKind::resistor;
    QString m_value;
};

}  // namespace ohmwright

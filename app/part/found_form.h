/// What the board has in place of what the drawing says of one part: what differs, the reading, and why.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/job.h"

#include <QWidget>

#include <vector>

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QRadioButton;

namespace ohmwright {

class SignText;

class FoundForm : public QWidget {
    Q_OBJECT
public:
    explicit FoundForm(QWidget* parent = nullptr);

    /// The types that are offered beside those of the circuit.
    void setModels(std::vector<Model> models);
    /// Begins anew with a part of the circuit; the keyboard goes to the reading.
    void begin(const Circuit& stock, const PartId& part);
    /// A sentence against what was entered.
    void showError(const QString& sentence);

signals:
    /// Enter, or the button, on a sound entry; `who`, `when` are left to the receiver.
    void entered(const ohmwright::Correction& correction);
    void left();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    /// What can differ, in the order of the list.
    enum class Thing { value, type, tolerance, law, leg, missing, more, reference, place };

    void build();
    void fillThings();
    void showThing();
    void fillChoices(Thing thing);
    void echo();
    void take();
    [[nodiscard]] Thing thing() const;
    /// What is entered, or the sentence against it.
    [[nodiscard]] Result<Finding> finding() const;
    [[nodiscard]] Result<Finding> valueFinding() const;
    [[nodiscard]] Result<Finding> shareFinding() const;
    [[nodiscard]] Result<Finding> partMore() const;

    std::vector<Model> m_models;
    Circuit m_stock;
    Part m_part;
    QLabel* m_head;
    QComboBox* m_thing;
    QComboBox* m_choice;    ///< Type, law, leg, or kind of a part more.
    QComboBox* m_net;       ///< Where that leg sits, or the first of a part more.
    QComboBox* m_otherNet;  ///< Of a part more.
    QLineEdit* m_reading;   ///< Value, percent, reference or place.
    QLineEdit* m_printed;   ///< Marking; of a part more its reference.
    QLineEdit* m_note;
    std::vector<QRadioButton*> m_reasons;  ///< In the order of CorrectionReason.
    SignText* m_message;
    QPushButton* m_take;
};

}  // namespace ohmwright

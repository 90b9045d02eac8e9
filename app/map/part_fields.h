/// The one picked part in words that can be changed; with nothing picked, the unit's name.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/entry_form.h"
#include "core/base/result.h"
#include "core/circuit/circuit.h"

#include <optional>

class QComboBox;

namespace ohmwright {

class DrawHand;
class JobDocument;

class PartFields : public EntryForm {
    Q_OBJECT
public:
    /// Both must outlive the fields.
    PartFields(JobDocument& document, DrawHand& hand, QWidget* parent = nullptr);

    /// The keyboard to the value or the type, with a first letter typed.
    void typeValue(const QString& text);

protected:
    void begin(QLineEdit* field) override;
    void follow() final;

private:
    void buildFields(QGridLayout& grid);
    void buildLaw(QGridLayout& grid);
    void showPart(const Part* part);
    void showPot(const Part* part);
    [[nodiscard]] const Part* picked() const;
    /// What the entry is about, which may no longer be picked.
    [[nodiscard]] const Part* entered() const;

    bool takeUnitName(const QString& typed);
    bool takeValue(const QString& typed);
    bool takeType(const QString& typed);
    bool takeTolerance(const QString& typed);
    bool takeKnob(const QString& typed);
    bool takeSupplies();
    bool takeWord(std::string Part::*word, const QString& typed);
    void takeLaw(int index);
    bool describe(const Part& part, const std::optional<Model>& type = {});
    bool refuse(const Error& error);

    JobDocument& m_document;
    DrawHand& m_hand;
    PartId m_part;  ///< That the fields are about.
    QLabel* m_title = nullptr;
    QLineEdit* m_unit = nullptr;
    QLineEdit* m_reference = nullptr;
    QLineEdit* m_value = nullptr;
    QLineEdit* m_type = nullptr;
    QLineEdit* m_function = nullptr;
    QLineEdit* m_build = nullptr;
    QLineEdit* m_tolerance = nullptr;
    QLineEdit* m_knob = nullptr;
    QLineEdit* m_plus = nullptr;
    QLineEdit* m_minus = nullptr;
    QLabel* m_lawLabel = nullptr;
    QComboBox* m_law = nullptr;
};

}  // namespace ohmwright

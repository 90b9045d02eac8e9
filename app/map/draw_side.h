/// What is picked, in words that can be changed: part, net, stage; and what is still wrong with the drawing.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/draw_faults.h"

#include <QWidget>

#include <map>
#include <optional>
#include <vector>

class QComboBox;
class QGridLayout;
class QLabel;
class QLineEdit;
class QListWidget;
class QPushButton;

namespace ohmwright {

class DrawHand;
class JobDocument;

class DrawSide : public QWidget {
    Q_OBJECT
public:
    /// Both must outlive the panel.
    DrawSide(JobDocument& document, DrawHand& hand, QWidget* parent = nullptr);

    void setFaults(const std::vector<DrawFault>& faults);
    /// The keyboard to a field, with a first letter typed.
    void typeValue(const QString& text);
    void typeNetName();
    void typeStageName();
    void typeFrameName();

signals:
    /// Enter was taken: the keyboard goes back to the drawing.
    void done();
    /// What is picked is wanted as a stage of the shop's shelf.
    void keepAsked();
    void said(const QString& sentence);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    QLineEdit* addField(QGridLayout& grid, const char* label, const char* hint);
    void buildPart(QWidget& box);
    void buildPlace(QWidget& box);
    void follow();
    void showPart(const Part* part);
    void showPlace();
    void fitLines();
    void takePart(QLineEdit* from);
    void tidy();
    void takeUnitName();
    void takeNetName();
    void takeStageName();
    void takeKnob(Part& part);
    bool describe(const Part& part, const std::optional<Model>& type, const QString& words);
    [[nodiscard]] const Part* picked() const;

    JobDocument& m_document;
    DrawHand& m_hand;
    std::vector<DrawFaultLine> m_faults;
    std::map<QLineEdit*, QLabel*> m_labels;
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
    QLabel* m_place = nullptr;
    QLineEdit* m_net = nullptr;
    QLineEdit* m_stage = nullptr;
    QPushButton* m_stageHere = nullptr;
    QPushButton* m_frameHere = nullptr;
    QPushButton* m_tidy = nullptr;
    QPushButton* m_keep = nullptr;
    QLabel* m_state = nullptr;
    QListWidget* m_list = nullptr;
};

}  // namespace ohmwright

/// The walk over the board, in the part panel's place: one part after the other is seen, measured, or differs from the
/// drawing.
///
/// Space seen, N differs, digits a meter's reading, Right skips, Backspace goes back, Esc ends. Each is an undo step,
/// and undone ones are walked to again. While the form of what differs is open, these keys are the form's.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/part/found_form.h"
#include "app/part/walk_course.h"
#include "core/plan/correct.h"

#include <QWidget>

#include <vector>

class QLabel;
class QLineEdit;
class QProgressBar;
class QPushButton;
class QVBoxLayout;

namespace ohmwright {

class JobDocument;
class Selection;
class PanelTitle;
class SignText;

class WalkPanel : public QWidget {
    Q_OBJECT
public:
    WalkPanel(JobDocument& document, Selection& selection, QWidget* parent = nullptr);

    void setModels(std::vector<Model> models);
    /// From the signal's beginning, at the first part that nobody has looked at; the selection comes back at the end.
    void begin();
    /// What differs at the selected part alone, with the form open; ends when that is said.
    /// REQUIRES: a part of stock is selected.
    void beginDiffers();

    [[nodiscard]] QSize sizeHint() const override;

signals:
    void closed();

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void build();
    void followJob();
    void showAll();
    void showPart(const Part& part);
    void showProgress();
    void showEnd();
    void showMods(const std::vector<ModAndCorrection>& met);
    /// The map's selection and the panel follow the course.
    void arrive();
    void select(const PartId& part);
    void followSelection();
    void goBack();
    void takeStep(const Result<Job>& edited, const QString& words);
    void see();
    void skip();
    void differs();
    void beginReading(const QString& first);
    void echoReading();
    void takeReading();
    void takeCorrection(const Correction& correction);
    void end();
    [[nodiscard]] const Part* here() const;

    JobDocument& m_document;
    Selection& m_selection;
    WalkCourse m_course;
    PartId m_started;            ///< What was selected before.
    bool m_isOfOnePart = false;  ///< Only what differs at one part is asked for.
    bool m_isSelecting = false;  ///< The selection changes by the walk's own hand.

    PanelTitle* m_title;
    QLabel* m_progress;
    QProgressBar* m_bar;
    QLabel* m_name;
    QLabel* m_role;
    QLabel* m_value;
    QLabel* m_printed;
    QLabel* m_place;
    QLabel* m_keys;
    SignText* m_state;
    QWidget* m_readingBox;
    QLineEdit* m_reading;
    QLabel* m_echo;
    QWidget* m_buttons;
    QPushButton* m_seen;
    QPushButton* m_differs;
    QPushButton* m_skip;
    QPushButton* m_back;
    QPushButton* m_leave;
    FoundForm* m_form;
    QWidget* m_mods;
    QVBoxLayout* m_modList;
};

}  // namespace ohmwright

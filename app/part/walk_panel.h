/// The walk over the board, in the part panel's place: one part after the other is seen, measured, or differs from the
/// drawing.
///
/// Space seen, N differs, digits a meter's reading, Right skips, Backspace goes back, Esc ends. Each is an undo step,
/// and undone ones are walked to again.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/part/found_form.h"
#include "core/plan/correct.h"

#include <QWidget>

#include <optional>
#include <utility>
#include <vector>

class QLabel;
class QLineEdit;
class QProgressBar;
class QPushButton;
class QVBoxLayout;

namespace ohmwright {

class JobDocument;
class Selection;
class SignText;

class WalkPanel : public QWidget {
    Q_OBJECT
public:
    WalkPanel(JobDocument& document, Selection& selection, QWidget* parent = nullptr);

    void setModels(std::vector<Model> models);
    /// From the signal's beginning, at the first part that nobody has looked at; the selection comes back at the end.
    void begin();
    /// At the selected part, with the form of what differs open; does nothing without one of stock.
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
    void goTo(const PartId& part);
    /// The next part after this one that nobody has looked at; empty at the end of the board.
    [[nodiscard]] PartId nextPart() const;
    void goOn();
    void goBack();
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
    PartId m_here;     ///< Empty at the end of the board.
    PartId m_started;  ///< What was selected before.
    /// Where the walk was, and whether it looked at the part there.
    std::vector<std::pair<PartId, bool>> m_behind;

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
    FoundForm* m_form;
    QWidget* m_mods;
    QVBoxLayout* m_modList;
};

}  // namespace ohmwright

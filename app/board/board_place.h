/// The place Board: both sides of the unit's board, its legs marked on photos, nets lit on it, pads that were heated.
///
/// Without a photo a board is drawn from the circuit and says so. In bench mode it stands beside the step and only
/// shows where the probes go.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/photo_service.h"
#include "core/bench/check.h"
#include "core/board/board_sheet.h"
#include "core/board/pad_heat.h"

#include <QWidget>

#include <memory>
#include <optional>

class QFrame;
class QLineEdit;
class QPushButton;

namespace ohmwright {

class BoardView;
class ChoiceRow;
class ElidedLabel;
class JobDocument;
class KnowledgeCounts;
class Selection;
class ThemedLabel;

class BoardPlace : public QWidget {
    Q_OBJECT
public:
    /// Both must outlive the place.
    BoardPlace(JobDocument& document, Selection& selection, QWidget* parent = nullptr);
    ~BoardPlace() override;

    [[nodiscard]] BoardView& view() { return *m_view; }
    /// The tools above and the board itself, where F6 stops.
    [[nodiscard]] std::vector<QWidget*> panels() const;
    [[nodiscard]] BoardSide side() const { return m_side; }
    void setSide(BoardSide side);
    void flip() { setSide(otherSide(m_side)); }
    [[nodiscard]] const std::optional<Leg>& leg() const { return m_leg; }

    /// Copies a picture beside the job and makes it the photo of the side that is looked at; refused in words.
    bool addPhoto(const QString& picture);
    void removePhoto();
    /// "C4 1", "u1 pin 2", "q1 base", "R5": the leg is chosen. Returns whether there is one.
    bool goTo(const QString& words);

    /// Beside the check list: nothing can be pressed but the side.
    void setBench(bool isBench);
    /// Where the probes of a check go; nothing of none.
    void showCheck(const std::optional<Check>& check);
    /// What stands below the board and above it, line under line.
    [[nodiscard]] QString words() const;
    /// Nothing is being read any more.
    [[nodiscard]] bool isCurrent() const { return !m_photos.isBusy(); }

signals:
    void refused(const QString& sentence);

protected:
    void paintEvent(QPaintEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

private:
    void build();
    QWidget* buildTop();
    QWidget* buildStrip();
    void connectView();
    void follow();
    void followPhoto();
    void followSelection();
    void followWords();
    void followProbes();
    void choose(const Leg& leg);
    void stepLeg(int steps);
    void stepPart(int steps);
    void markNext(const BoardPoint& at);
    void moveMark(const Leg& leg, const BoardPoint& at, bool byKey);
    void unmark(const Leg& leg);
    void askPhoto();
    [[nodiscard]] QString heatWords() const;
    [[nodiscard]] QString whereText() const;

    JobDocument& m_document;
    Selection& m_selection;
    PhotoService m_photos;
    BoardSide m_side = BoardSide::part;
    std::shared_ptr<const Circuit> m_circuit;  ///< That is on the board: now, or stock where the plan makes none.
    BoardSheet m_sheet;
    std::vector<VisitHeat> m_heat;
    std::optional<Leg> m_leg;
    std::optional<Check> m_check;
    QString m_fault;  ///< Of the photo.
    bool m_isBench = false;
    bool m_isChoosing = false;

    BoardView* m_view = nullptr;
    QWidget* m_top = nullptr;
    ChoiceRow* m_sides = nullptr;
    KnowledgeCounts* m_counts = nullptr;
    ElidedLabel* m_ground = nullptr;
    QLineEdit* m_name = nullptr;
    QPushButton* m_add = nullptr;
    QPushButton* m_remove = nullptr;
    ThemedLabel* m_netHead = nullptr;
    ThemedLabel* m_net = nullptr;
    ElidedLabel* m_legs = nullptr;
    ThemedLabel* m_heated = nullptr;
    ElidedLabel* m_before = nullptr;
    ThemedLabel* m_where = nullptr;
};

}  // namespace ohmwright

/// A new unit put together from stages: the shelf, the signal path, the drawing that comes of it. No dialog.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"

#include <QString>
#include <QWidget>

#include <optional>

class QBoxLayout;
class QLineEdit;
class QListView;
class QPushButton;

namespace ohmwright {

class PieceModel;
class SmallDrawing;
class ThemedLabel;

/// On the shelf Enter puts the stage behind the chosen one of the path; in the path Alt+Up and Alt+Down move it and
/// Delete takes it out.
class StageJoiner : public QWidget {
    Q_OBJECT
public:
    explicit StageJoiner(QWidget* parent = nullptr);

    /// A path of one stage or of none, and the shelf read anew. @param shopFolder  empty: the house's stages alone.
    /// @param first  id of the stage that the path begins with; empty, or not on the shelf: none.
    void begin(const QString& shopFolder, const QString& first = {});
    /// The unit as it is joined now. Errors: as joinUnit.
    [[nodiscard]] Result<Job> unit() const;

signals:
    void made(const ohmwright::Job& job);
    void closed();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    QWidget* buildShelf();
    QWidget* buildPath();
    QWidget* buildFoot();
    void addChosen();
    void removeChosen();
    void moveChosen(int step);
    void follow();
    void make();

    PieceModel* m_shelf;
    PieceModel* m_path;
    QListView* m_shelfView = nullptr;
    QListView* m_pathView = nullptr;
    QPushButton* m_add = nullptr;
    QPushButton* m_up = nullptr;
    QPushButton* m_down = nullptr;
    QPushButton* m_remove = nullptr;
    QPushButton* m_make = nullptr;
    QLineEdit* m_name = nullptr;
    SmallDrawing* m_drawing = nullptr;
    ThemedLabel* m_ends = nullptr;
    ThemedLabel* m_sentence = nullptr;
};

}  // namespace ohmwright

/// The right rail while parts are sought for wanted figures: what is wanted, which parts may change, real answers.
///
/// An answer under the pointer or the keyboard is the ghost; Enter or the button makes it mods, in one undo step.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/target_service.h"
#include "core/plan/targets.h"

#include <QWidget>

#include <memory>
#include <vector>

class QCheckBox;
class QLabel;
class QLineEdit;
class QListView;
class QProgressBar;
class QPushButton;
class QVBoxLayout;

namespace ohmwright {

class JobDocument;
class Selection;
class ShopDocument;
class TargetModel;

class TargetPanel : public QWidget {
    Q_OBJECT
public:
    TargetPanel(JobDocument& document, Selection& selection, ShopDocument& shop, QWidget* parent = nullptr);

    /// Shows what is wanted as it is now, and the parts that own it: the gain leg's where there is one, else the
    /// selected part.
    void begin();
    /// A corner that was drawn on the curve: the search runs at once. Rounded to three digits.
    void wantCorner(double hz);

    [[nodiscard]] QSize sizeHint() const override;

signals:
    /// The person is through with it.
    void closed();

protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    struct WantField {
        QString figure;  ///< "gain_leg_corner"
        QLabel* name;
        QLineEdit* entry;
        QLabel* unit;
    };

    void build();
    void addWant(QVBoxLayout& layout, const QString& name, const QString& figure, const QString& unit);
    void addPart(const PartId& part, bool mayChange);
    void followJob();
    void followSelection();
    void showState();
    void search();
    void tryAnswer(const QModelIndex& index);
    void fitAnswer();
    [[nodiscard]] const TargetAnswer* chosenAnswer() const;
    [[nodiscard]] std::vector<Change> changesFor(const TargetAnswer& answer) const;

    JobDocument& m_document;
    Selection& m_selection;
    ShopDocument& m_shop;
    TargetService m_service;
    std::vector<WantField> m_wants;
    std::vector<std::pair<PartId, QCheckBox*>> m_parts;
    QVBoxLayout* m_partLayout = nullptr;
    QPushButton* m_addPart = nullptr;
    QPushButton* m_find = nullptr;
    QProgressBar* m_progress = nullptr;
    QLabel* m_message = nullptr;
    TargetModel* m_answers = nullptr;
    QListView* m_list = nullptr;
    QPushButton* m_fit = nullptr;
};

}  // namespace ohmwright

/// What stands at the hand's cross, in words that can be changed: the net, the stage, the area set apart; and what can
/// be done with the drawing there.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/entry_form.h"
#include "core/drawing/edit.h"

#include <QPushButton>

#include <optional>
#include <utility>

class QVBoxLayout;

namespace ohmwright {

class DrawHand;
class JobDocument;
class TidyService;

class PlaceFields : public EntryForm {
    Q_OBJECT
public:
    /// Both must outlive the fields.
    PlaceFields(JobDocument& document, DrawHand& hand, QWidget* parent = nullptr);

    /// The keyboard to a field; what is typed is about the place where the cross is now.
    void typeNetName();
    void typeStageName();
    void typeAreaName();

signals:
    /// What is picked is wanted as a stage of the shop's shelf.
    void keepAsked();

protected:
    void begin(QLineEdit* field) override;
    void follow() final;

private:
    /// What the stage's field takes.
    enum class Naming { stage, newStage, area };

    void buildButtons(QVBoxLayout& column);
    void showStage(const Circuit& circuit);
    void showButtons(const Circuit& circuit);
    bool takeNetName(const QString& typed);
    bool takeStageField(const QString& typed);
    bool takeArea(const std::string& name);
    bool takeStage(const std::string& name);
    void nameNew(Naming naming, const QString& typed);
    void moveEdge();
    void unframe();
    void makeRoomBy(GridPoint by);
    void tidy();
    void takeTidied();

    JobDocument& m_document;
    DrawHand& m_hand;
    TidyService* m_tidier;
    Naming m_naming = Naming::stage;
    GridPoint m_at;  ///< Where the entry began.
    NetName m_netThere;
    std::optional<std::pair<GridPoint, GridPoint>> m_corners;
    QLabel* m_place = nullptr;
    QLineEdit* m_net = nullptr;
    QLineEdit* m_stage = nullptr;
    QPushButton* m_stageHere = nullptr;
    QPushButton* m_edgeHere = nullptr;
    QPushButton* m_areaHere = nullptr;
    QPushButton* m_noArea = nullptr;
    QPushButton* m_roomRight = nullptr;
    QPushButton* m_roomBelow = nullptr;
    QPushButton* m_tidy = nullptr;
    QPushButton* m_keep = nullptr;
};

}  // namespace ohmwright

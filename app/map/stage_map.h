/// The stage map: zone strip, drawing and level rail; selects parts and asks for edits, makes none itself. A circuit
/// without drawing is shown as the list of its parts.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/owner_service.h"
#include "app/map/map_state.h"

#include <QWidget>

namespace ohmwright {

class JobDocument;
class LevelRail;
struct MapLayout;
class MapScene;
class MapView;
class OwnerLegend;
class PartList;
class PartTable;
class Selection;
class SolverService;
class ZoneStrip;

class StageMap : public QWidget {
    Q_OBJECT
public:
    /// All three must outlive the map.
    StageMap(JobDocument& document, Selection& selection, SolverService& solver, QWidget* parent = nullptr);

    /// The small layout folds the rail away.
    void setLevelRailShown(bool shown);
    [[nodiscard]] const MapScene& scene() const { return *m_scene; }
    [[nodiscard]] MapView& view() { return *m_view; }
    [[nodiscard]] PartTable& table();
    /// What it shows now, for what leaves the window (map_export.h).
    [[nodiscard]] MapState state() const;
    [[nodiscard]] OwnerLegend& legend() { return *m_legend; }
    /// Whether the list stands in the drawing's place.
    [[nodiscard]] bool showsList() const { return m_showsList; }

    /// Lights the net at the next leg (1) of the selected part, or at the one before (-1): once round, whatever the
    /// pointer does. Without a selected part it says so.
    void stepLeg(int step);
    [[nodiscard]] bool hasLitLeg() const { return m_leg.has_value(); }
    void putOutLeg();

signals:
    /// What was lit: "leg 2 at n4: 4.51 V".
    void legSaid(const QString& words);
    /// Wheel over a part, or Page Up and Page Down: the next or the previous value is wanted.
    void valueStepped(const ohmwright::PartId& part, int steps, Qt::KeyboardModifiers modifiers);
    /// A digit or letter while a part is selected: the value field takes it from here.
    void typedOnPart(const QString& text);
    void contextMenuAsked(const ohmwright::PartId& part, const QPoint& globalPosition);
    /// As MapView says it.
    void valueDragBegan(const ohmwright::PartId& part);
    void valueDragged(double decades);
    void valueDropped(Qt::KeyboardModifiers modifiers);

private:
    void choosePlace();
    void showState();
    void showSoon();
    [[nodiscard]] static QString spokenOwners(const MapLayout& layout, const OwnersAnswer& answer, const PartId& part);
    [[nodiscard]] static QString spokenLegs(const MapState& state, const Part& part);
    void showOwners(const MapState& now);
    void placeLegend();

    JobDocument& m_document;
    Selection& m_selection;
    SolverService& m_solver;
    OwnerService m_owners;
    ZoneStrip* m_strip;
    MapScene* m_scene;
    MapView* m_view;
    LevelRail* m_rail;
    PartList* m_list;
    OwnerLegend* m_legend;
    bool m_showsList = false;
    bool m_wantsRail = true;
    bool m_isDue = false;
    std::optional<int> m_leg;  ///< Of the selected part.
};

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/stage_map.h"

#include "app/background/solver_service.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/map/level_rail.h"
#include "app/map/map_scene.h"
#include "app/map/map_view.h"
#include "app/map/part_list.h"
#include "app/map/part_view.h"
#include "app/map/zone_strip.h"

#include <QTimer>
#include <QVBoxLayout>

namespace ohmwright {

StageMap::StageMap(JobDocument& document, Selection& selection, SolverService& solver, QWidget* parent)
    : QWidget(parent),
      m_document(document),
      m_selection(selection),
      m_solver(solver),
      m_strip(new ZoneStrip(this)),
      m_scene(new MapScene(this)),
      m_view(new MapView(*m_scene, this)),
      m_rail(new LevelRail(this)),
      m_list(new PartList(this)) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(m_strip);
    column->addWidget(m_view, 1);
    column->addWidget(m_rail);
    column->addWidget(m_list, 1);
    m_list->hide();
    setFocusProxy(m_view);

    // At once, so that the keyboard can be given to what will be shown.
    connect(&document, &JobDocument::jobChanged, this, &StageMap::choosePlace);
    connect(&document, &JobDocument::jobChanged, this, &StageMap::showSoon);
    connect(&selection, &Selection::partChanged, this, &StageMap::showSoon);
    connect(&selection, &Selection::cursorChanged, this, &StageMap::showSoon);
    connect(&selection, &Selection::holdsStockChanged, this, &StageMap::showSoon);
    connect(&solver, &SolverService::linearReady, this, &StageMap::showSoon);
    connect(&solver, &SolverService::largeSignalReady, this, &StageMap::showSoon);
    connect(&solver, &SolverService::stateChanged, this, &StageMap::showSoon);

    const auto joinFace = [this, &selection](auto* face) {
        using Face = std::remove_pointer_t<decltype(face)>;
        connect(face, &Face::partChosen, &selection, &Selection::setPart);
        connect(face, &Face::valueStepped, this, &StageMap::valueStepped);
        connect(face, &Face::typedOnPart, this, &StageMap::typedOnPart);
        connect(face, &Face::contextMenuAsked, this, &StageMap::contextMenuAsked);
    };
    joinFace(m_view);
    joinFace(&table());
    connect(m_view, &MapView::fitted, this, [this] {
        m_strip->setEdges(m_view->zoneEdges());
        m_rail->setEdges(m_view->zoneEdges());
    });
    choosePlace();
    showState();
}

PartTable& StageMap::table() {
    return m_list->table();
}

void StageMap::setLevelRailShown(bool shown) {
    m_wantsRail = shown;
    m_rail->setVisible(m_wantsRail && !m_showsList);
}

void StageMap::choosePlace() {
    const Circuit& stock = m_document.job()->stock;
    m_showsList = !stock.parts.empty() && !hasDrawing(stock);
    m_strip->setVisible(!m_showsList);
    m_view->setVisible(!m_showsList);
    m_list->setVisible(m_showsList);
    m_rail->setVisible(m_wantsRail && !m_showsList);
    setFocusProxy(m_showsList ? static_cast<QWidget*>(m_list) : m_view);
}

/// One edit makes several announcements; they are one redrawing.
void StageMap::showSoon() {
    if (!m_isDue) {
        m_isDue = true;
        QTimer::singleShot(0, this, [this] {
            m_isDue = false;
            showState();
        });
    }
}

void StageMap::showState() {
    const MapState now = state();
    if (m_showsList) {
        m_list->setState(now);
        return;
    }
    m_scene->setState(now);
    m_strip->setState(now);
    m_rail->setState(now);
    std::vector<SpokenPart> spoken;
    for (const PartId& id : signalOrder(now.job->stock)) {
        const Part* part = findPart(now.job->stock, id);
        spoken.push_back({id, spokenName(*now.job, *part, now.holdsStock)});
    }
    m_view->setParts(std::move(spoken));
    m_view->setSelected(now.selected);
    m_view->fitSheet();
}

MapState StageMap::state() const {
    MapState state;
    state.job = m_document.job();
    state.linear = m_solver.linear();
    state.largeSignal = m_solver.largeSignal();
    state.isCurrent = m_solver.isCurrent();
    state.holdsStock = m_selection.holdsStock();
    state.selected = m_selection.part();
    state.cursorHz = m_selection.cursorHz();
    state.fault = m_solver.fault();
    state.faultPlace = m_solver.faultPlace();
    return state;
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/stage_map.h"

#include "app/background/solver_service.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/look/level_units.h"
#include "app/look/said_text.h"
#include "app/map/level_rail.h"
#include "app/map/map_scene.h"
#include "app/map/map_view.h"
#include "app/map/owner_item.h"
#include "app/map/owner_legend.h"
#include "app/map/part_list.h"
#include "app/map/part_view.h"
#include "app/map/probe_item.h"
#include "app/map/zone_strip.h"

#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace ohmwright {

StageMap::StageMap(JobDocument& document, Selection& selection, SolverService& solver, QWidget* parent)
    : QWidget(parent),
      m_document(document),
      m_selection(selection),
      m_solver(solver),
      m_owners(document, selection),
      m_strip(new ZoneStrip(this)),
      m_scene(new MapScene(this)),
      m_view(new MapView(*m_scene, this)),
      m_rail(new LevelRail(this)),
      m_list(new PartList(this)),
      m_legend(new OwnerLegend(this)) {
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
    connect(&selection, &Selection::partChanged, this, &StageMap::putOutLeg);
    connect(&selection, &Selection::partChanged, this, &StageMap::showSoon);
    connect(&selection, &Selection::cursorChanged, this, &StageMap::showSoon);
    connect(&selection, &Selection::holdsStockChanged, this, &StageMap::showSoon);
    connect(&selection, &Selection::probesChanged, this, &StageMap::showSoon);
    connect(&LevelUnits::current(), &LevelUnits::changed, this, &StageMap::showSoon);
    connect(&selection, &Selection::ownersChanged, this, [this] { m_owners.setWanted(m_selection.showsOwners()); });
    connect(&m_owners, &OwnerService::changed, this, &StageMap::showSoon);
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
    connect(m_view, &MapView::valueDragBegan, this, &StageMap::valueDragBegan);
    connect(m_view, &MapView::valueDragged, this, &StageMap::valueDragged);
    connect(m_view, &MapView::valueDropped, this, &StageMap::valueDropped);
    connect(m_view, &MapView::fitted, this, [this] {
        m_strip->setEdges(m_view->zoneEdges());
        m_rail->setEdges(m_view->zoneEdges());
        placeLegend();
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
        showOwners(now);
        return;
    }
    m_scene->setState(now);
    m_strip->setState(now);
    m_rail->setState(now);
    std::vector<SpokenPart> spoken;
    for (const PartId& id : signalOrder(now.job->stock)) {
        const Part* part = findPart(now.job->stock, id);
        QString name = spokenName(*now.job, *part, now.holdsStock);
        if (now.owners) {
            name += spokenOwners(m_scene->layout(), *now.owners, id);
        }
        if (const QString volts = spokenProbes(now, *part); !volts.isEmpty()) {
            name += ", ";
            name += volts;
        }
        spoken.push_back({id, name, spokenValues(*now.job, *part, now.holdsStock),
                          plainValue(*now.job, *part, now.holdsStock), hasValue(part->kind) || hasModel(part->kind),
                          spokenLegs(now, *part)});
    }
    m_view->setParts(std::move(spoken));
    m_view->setSelected(now.selected);
    m_view->follow();
    showOwners(now);
}

void StageMap::stepLeg(int step) {
    const MapState now = state();
    const Part* part = findPart(now.job->stock, now.selected);
    if (!part || part->nets.empty()) {
        emit legSaid(tr("Select a part first: its legs are walked."));
        return;
    }
    const int count = static_cast<int>(part->nets.size());
    const int from = m_leg.value_or(step > 0 ? -1 : count);
    m_leg = (from + step + count) % count;
    m_scene->setState(now);
    m_scene->lightLeg(m_leg);
    const QString words = QString::fromStdString(displayName(*part)) + ", " + legWords(now, *part, *m_leg);
    m_view->describe(words);
    table().setAccessibleDescription(words);
    emit legSaid(words);
}

void StageMap::putOutLeg() {
    if (m_leg) {
        m_leg.reset();
        m_scene->lightLeg(std::nullopt);
        emit legSaid({});
    }
}

/// "leg 1 at n4: 4.51 V, leg 2 at ground"
QString StageMap::spokenLegs(const MapState& state, const Part& part) {
    QStringList legs;
    for (int pin = 0; pin < static_cast<int>(part.nets.size()); ++pin) {
        legs << legWords(state, part, pin);
    }
    return legs.join(", ");
}

/// "raises 0.76 dB for ten percent more" of the part, and of what is fitted to it.
QString StageMap::spokenOwners(const MapLayout& layout, const OwnersAnswer& answer, const PartId& part) {
    QString words;
    for (const Owner& owner : answer.owners) {
        if (drawnOwner(layout, owner) != part) {
            continue;
        }
        const QString db = numberText(std::abs(owner.dbPerTenPercent), 'f', 2);
        const QString does = owner.dbPerTenPercent > 0.0 ? tr("raises %1 dB for ten percent more")
                                                         : tr("lowers %1 dB for ten percent more");
        words += ", ";
        words += owner.part == part ? QString() : QString::fromStdString(owner.reference) + ' ';
        words += does.arg(db);
    }
    return words;
}

void StageMap::showOwners(const MapState& now) {
    m_legend->setOwners(now.owners, now.selected);
    std::vector<PartId> order;
    for (std::size_t i = 0; now.owners && i < now.owners->owners.size(); ++i) {
        const PartId part = drawnOwner(m_scene->layout(), now.owners->owners[i]);
        if (!part.empty() && std::find(order.begin(), order.end(), part) == order.end()) {
            order.push_back(part);
        }
    }
    QStringList words{m_legend->words(), probeWords(now)};
    words.removeAll(QString());
    m_view->setOwners(std::move(order), words.join(". "));
    placeLegend();
}

/// In the lower right, or where along the lower edge and then the upper one it hides least of the drawing.
void StageMap::placeLegend() {
    if (m_legend->isHidden()) {
        return;
    }
    constexpr int rim = 6;
    constexpr int step = 4;
    constexpr double perStep = 6.0;  // px² of drawing that a step away from the corner is worth
    constexpr double otherEdge = 600.0;
    const QWidget* face = m_showsList ? static_cast<QWidget*>(m_list) : m_view;
    const QRect room = QRect(face->pos(), face->size()).adjusted(rim, rim, -rim, -rim);
    const QSize size = m_legend->size();
    QPoint best(room.right() - size.width() + 1, room.bottom() - size.height() + 1);
    double least = std::numeric_limits<double>::infinity();
    Obstacles drawn = m_scene->layout().obstacles;
    drawn.sheet = {};
    for (const OwnerMark& mark : m_scene->ownerMarks()) {
        drawn.boxes.push_back(mark.figureBox);
        drawn.boxes.push_back(mark.plate);
    }
    const std::array<int, 2> tops{room.bottom() - size.height() + 1, room.top()};
    for (std::size_t edge = 0; edge < tops.size() && !m_showsList; ++edge) {
        for (int x = room.right() - size.width() + 1; x >= room.left(); x -= step) {
            const QRect box(QPoint(x, tops[edge]), size);
            const QRectF onSheet = m_view->mapToScene(box.translated(-m_view->pos())).boundingRect();
            const double cost = drawn.covered(onSheet, least) + perStep * (room.right() - box.right()) / step +
                                static_cast<double>(edge) * otherEdge;
            if (cost < least) {
                least = cost;
                best = box.topLeft();
            }
        }
    }
    m_legend->move(best);
    m_legend->raise();
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
    state.owners = m_selection.showsOwners() ? m_owners.answer() : nullptr;
    state.probesVolts = m_selection.probesVolts();
    state.fault = m_solver.fault();
    state.faultPlace = m_solver.faultPlace();
    return state;
}

}  // namespace ohmwright

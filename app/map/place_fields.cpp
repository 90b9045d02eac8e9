// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/place_fields.h"

#include "app/background/tidy_service.h"
#include "app/document/job_document.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/map/draw_hand.h"
#include "core/drawing/rejoin.h"
#include "core/drawing/zones.h"

#include <QGridLayout>
#include <QVBoxLayout>

#include <algorithm>
#include <cstdlib>
#include <utility>

namespace ohmwright {
namespace {

constexpr int margin = 14;
/// Steps that room is made by: a part with its leads and one step between.
constexpr int roomSteps = 4;

std::optional<std::size_t> areaAt(const Circuit& circuit, GridPoint point) {
    const std::vector<Field>& fields = circuit.drawing.fields;
    const auto found = std::find_if(fields.begin(), fields.end(), [point](const Field& field) {
        return point.x >= field.topLeft.x && point.x <= field.bottomRight.x && point.y >= field.topLeft.y &&
               point.y <= field.bottomRight.y;
    });
    return found == fields.end() ? std::nullopt : std::optional(static_cast<std::size_t>(found - fields.begin()));
}

/// The stage whose left edge is nearest to a column; the first one's is the sheet's.
std::optional<std::size_t> stageWithEdgeNear(const Circuit& circuit, int column) {
    std::optional<std::size_t> nearest;
    const auto away = [&](std::size_t stage) { return std::abs(circuit.stages[stage].firstColumn - column); };
    for (std::size_t i = 1; i < circuit.stages.size(); ++i) {
        nearest = !nearest || away(i) < away(*nearest) ? i : nearest;
    }
    return nearest;
}

}  // namespace

PlaceFields::PlaceFields(JobDocument& document, DrawHand& hand, QWidget* parent)
    : EntryForm(parent), m_document(document), m_hand(hand), m_tidier(new TidyService(this)) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(margin, 10, margin, 12);
    column->setSpacing(6);
    m_place = new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, this);
    m_place->setWordWrap(true);
    column->addWidget(m_place);
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(10);
    grid->setVerticalSpacing(6);
    grid->setColumnStretch(1, 1);
    column->addLayout(grid);
    m_net = addField(*grid, tr("Net"), tr("no net here"), [this](auto& typed) { return takeNetName(typed); });
    m_stage = addField(*grid, tr("Stage"), tr("name it"), [this](auto& typed) { return takeStageField(typed); });
    buildButtons(*column);
    connect(&hand, &DrawHand::replaced, this, &PlaceFields::dropEntry);
    connect(&hand, &DrawHand::changed, this, &PlaceFields::follow);
    connect(m_tidier, &TidyService::ready, this, &PlaceFields::takeTidied);
    follow();
}

void PlaceFields::buildButtons(QVBoxLayout& column) {
    const auto button = [this](const QString& words, auto&& then) {
        auto* made = new QPushButton(words, this);
        connect(made, &QPushButton::clicked, this, std::forward<decltype(then)>(then));
        return made;
    };
    m_stageHere = button(tr("Begin a stage here"), [this] { typeStageName(); });
    m_edgeHere = button(tr("Bring the nearest stage edge here"), [this] { moveEdge(); });
    m_areaHere = button(tr("Set the box apart as an area"), [this] { typeAreaName(); });
    m_noArea = button(tr("Give the area back to the stages"), [this] { unframe(); });
    m_roomRight = button(tr("Room to the right"), [this] { makeRoomBy({roomSteps, 0}); });
    m_roomBelow = button(tr("Room below"), [this] { makeRoomBy({0, roomSteps}); });
    m_tidy = button({}, [this] { tidy(); });
    m_keep = button(tr("Keep as a stage for the shelf …"), [this] { emit keepAsked(); });
    m_tidy->setAccessibleName(tr("Tidy"));
    m_keep->setAccessibleName(tr("Keep as a stage"));
    m_areaHere->setToolTip(tr("Parts in an area belong to no stage, such as those of the supply."));
    for (QPushButton* one : {m_stageHere, m_edgeHere, m_areaHere, m_noArea}) {
        column.addWidget(one);
    }
    auto* room = new QHBoxLayout;
    room->setSpacing(6);
    room->addWidget(m_roomRight);
    room->addWidget(m_roomBelow);
    column.addLayout(room);
    column.addWidget(m_tidy);
    column.addWidget(m_keep);
}

// --- what is shown -------------------------------------------------------------------------------------------------

/// What is typed is about the place where the cross is when the field gets the keyboard.
void PlaceFields::begin(QLineEdit* field) {
    m_at = m_hand.caret();
    m_netThere = netAt(m_document.job()->stock, m_at);
    m_corners = m_hand.boxCorners();
    if (field != m_stage) {
        m_naming = Naming::stage;
    }
}

void PlaceFields::follow() {
    const Circuit& circuit = m_document.job()->stock;
    m_place->setText(m_hand.placeWords());
    if (!m_net->hasFocus() && !m_stage->hasFocus()) {
        m_naming = Naming::stage;
    }
    const NetName net = netAt(circuit, m_hand.caret());
    showField(m_net, true, text(net));
    m_net->setEnabled(m_net->hasFocus() || (!net.empty() && net != groundNet));
    showStage(circuit);
    showButtons(circuit);
}

void PlaceFields::showStage(const Circuit& circuit) {
    if (m_naming != Naming::stage) {
        return;
    }
    const std::optional<std::size_t> stage = stageAt(circuit, m_hand.caret().x);
    showField(m_stage, true, stage ? text(circuit.stages[*stage].name) : QString());
    rename(m_stage, tr("Stage"));
    m_stage->setEnabled(m_stage->hasFocus() || stage.has_value());
}

void PlaceFields::showButtons(const Circuit& circuit) {
    const bool isSome = !m_hand.picked().parts.empty();
    m_stageHere->setEnabled(!circuit.parts.empty());
    m_edgeHere->setVisible(stageWithEdgeNear(circuit, m_hand.caret().x).has_value());
    m_areaHere->setVisible(m_hand.boxCorners().has_value());
    m_noArea->setVisible(areaAt(circuit, m_hand.caret()).has_value());
    m_roomRight->setEnabled(!circuit.parts.empty());
    m_roomBelow->setEnabled(!circuit.parts.empty());
    m_keep->setVisible(isSome);
    m_tidy->setText(m_tidier->isRunning() ? tr("Being laid out …")
                    : isSome              ? tr("Tidy what is picked")
                                          : tr("Tidy the whole drawing"));
    m_tidy->setEnabled(!circuit.parts.empty() && !m_tidier->isRunning());
}

// --- entries -------------------------------------------------------------------------------------------------------

void PlaceFields::typeNetName() {
    if (m_net->isEnabled()) {
        enter(m_net);
    } else {
        emit refused(m_net->text().isEmpty() ? tr("There is no net under the cross: go to a pin or a wire.")
                                             : tr("Ground keeps its name."));
    }
}

void PlaceFields::typeStageName() {
    nameNew(Naming::newStage, {});
}

void PlaceFields::typeAreaName() {
    nameNew(Naming::area, tr("Supply"));
}

void PlaceFields::nameNew(Naming naming, const QString& typed) {
    finishEntry();
    m_naming = naming;
    m_stage->setEnabled(true);
    m_stage->setText(typed);
    rename(m_stage, naming == Naming::area ? tr("Area") : tr("New stage"));
    if (m_stage->hasFocus()) {
        begin(m_stage);
    }
    enter(m_stage);
}

bool PlaceFields::takeNetName(const QString& typed) {
    return m_hand.edit(nameNet(m_document.job()->stock, m_netThere, typed.toStdString()),
                       tr("Name the net %1").arg(typed));
}

bool PlaceFields::takeStageField(const QString& typed) {
    const std::string name = typed.toStdString();
    const Naming naming = m_naming;
    const bool taken = naming == Naming::area       ? takeArea(name)
                       : naming == Naming::newStage ? m_hand.edit(beginStage(m_document.job()->stock, m_at.x, name),
                                                                  tr("Begin the stage %1").arg(typed))
                                                    : takeStage(name);
    if (taken) {
        m_naming = Naming::stage;
    }
    return taken;
}

bool PlaceFields::takeArea(const std::string& name) {
    if (!m_corners) {
        emit refused(tr("Open a box first: Shift with the arrows, or pull one with the pointer."));
        return false;
    }
    Field field;
    field.name = name;
    field.topLeft = m_corners->first;
    field.bottomRight = m_corners->second;
    return m_hand.edit(frameField(m_document.job()->stock, field), tr("Set the area %1 apart").arg(text(name)));
}

/// Without a name the stage goes up into its neighbour.
bool PlaceFields::takeStage(const std::string& name) {
    const Circuit& circuit = m_document.job()->stock;
    const std::optional<std::size_t> stage = stageAt(circuit, m_at.x);
    if (!stage) {
        return true;
    }
    if (name.empty()) {
        return m_hand.edit(endStage(circuit, *stage), tr("End the stage %1").arg(text(circuit.stages[*stage].name)));
    }
    return m_hand.editWords(nameStage(circuit, *stage, name), tr("Name the stage %1").arg(text(name)));
}

// --- the drawing at the cross --------------------------------------------------------------------------------------

void PlaceFields::moveEdge() {
    const Circuit& circuit = m_document.job()->stock;
    const int column = m_hand.caret().x;
    if (const std::optional<std::size_t> stage = stageWithEdgeNear(circuit, column)) {
        m_hand.edit(moveStage(circuit, *stage, column),
                    tr("Move the edge of the stage %1").arg(text(circuit.stages[*stage].name)));
    }
    emit done();
}

void PlaceFields::unframe() {
    const Circuit& circuit = m_document.job()->stock;
    if (const std::optional<std::size_t> area = areaAt(circuit, m_hand.caret())) {
        m_hand.edit(unframeField(circuit, *area),
                    tr("Give the area %1 back").arg(text(circuit.drawing.fields[*area].name)));
    }
    emit done();
}

void PlaceFields::makeRoomBy(GridPoint by) {
    m_hand.edit(makeRoom(m_document.job()->stock, m_hand.caret(), by), tr("Make room"));
    emit done();
}

/// The drawing, or what is picked of it, laid out anew; undo brings the old one back.
void PlaceFields::tidy() {
    m_tidier->start(m_document.job(), m_hand.picked().parts);
    follow();
    emit done();
}

void PlaceFields::takeTidied() {
    const TidyService::Tidied& tidied = m_tidier->answer();
    if (tidied.job->stock != m_document.job()->stock) {
        emit refused(tr("The drawing was changed while it was laid out: it stays as it is. Press Tidy again."));
    } else {
        m_hand.edit(Edited{tidied.drawn.circuit, tidied.drawn.goneInto, {tidied.chosen, {}, {}}},
                    tidied.chosen.empty() ? tr("Tidy the drawing") : tr("Tidy what is picked"));
    }
    follow();
}

}  // namespace ohmwright

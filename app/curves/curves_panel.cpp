// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/curves_panel.h"

#include "app/background/consequence_service.h"
#include "app/background/solver_service.h"
#include "app/curves/clip_figures.h"
#include "app/curves/clip_plot.h"
#include "app/curves/cursor_column.h"
#include "app/curves/curve_pane.h"
#include "app/curves/hair_rule.h"
#include "app/curves/pin_strip.h"
#include "app/curves/response_plot.h"
#include "app/curves/table_plot.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/look/level_units.h"
#include "app/look/sum_notes.h"
#include "app/look/theme.h"
#include "core/plan/pinned.h"

#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QMenu>
#include <QVBoxLayout>

#include <algorithm>
#include <utility>

namespace ohmwright {

namespace {

/// Below this width response and clip do not stand side by side [px].
constexpr int sideBySideWidth = 760;
/// Shares of the width, as the look has them.
constexpr int leftShare = 57;
constexpr int rightShare = 33;
constexpr int rightColumn = 4;

}  // namespace

CurvesPanel::CurvesPanel(JobDocument& document, Selection& selection, SolverService& solver, QWidget* parent)
    : QWidget(parent), m_document(document), m_selection(selection), m_solver(solver), m_pins(document) {
    setObjectName(QStringLiteral("curvesPanel"));
    setAccessibleName(tr("Curves"));
    build();
    follow();
    arrange();
    m_response->setCursorHz(selection.cursorHz());
    showLinear(solver.linear());
    showLargeSignal(solver.largeSignal());
    showHold();
    showState(true);
}

void CurvesPanel::build() {
    m_tabs = new CurveTabs(this);
    m_strip = new PinStrip(this);
    m_export = new CurveExport([this] { return shownCurve(); }, *this);
    m_response = new ResponsePlot(this);
    m_cursor = new CursorColumn(this);
    m_clipPage = new QWidget(this);
    m_clip = new ClipPlot(m_clipPage);
    m_figures = new ClipFigures(m_clipPage);
    for (CurvePane*& pane : m_panes) {
        pane = new CurvePane(m_document, this);
    }

    m_clipLayout = new QVBoxLayout(m_clipPage);
    m_clipLayout->setContentsMargins(0, 0, 0, 0);
    m_clipLayout->setSpacing(0);
    m_clipLayout->addWidget(m_clip, 1);
    m_clipLayout->addWidget(m_figures);

    m_body = new QGridLayout;
    m_body->setContentsMargins(0, 0, 0, 0);
    m_body->setSpacing(0);
    m_body->addWidget(new HairRule(this), 0, 1);
    m_body->addWidget(m_cursor, 0, 2);
    m_rightRule = new HairRule(this);
    m_body->addWidget(m_rightRule, 0, 3);
    m_body->setColumnStretch(0, leftShare);

    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(m_tabs);
    layout->addWidget(m_strip);
    layout->addLayout(m_body, 1);
    setFocusProxy(m_response);
}

void CurvesPanel::follow() {
    connect(&m_solver, &SolverService::linearReady, this, [this] {
        showLinear(m_solver.linear());
        showState(false);
    });
    connect(&m_solver, &SolverService::largeSignalReady, this, [this] {
        showLargeSignal(m_solver.largeSignal());
        showState(false);
    });
    connect(&m_solver, &SolverService::stateChanged, this, [this] { followState(); });
    connect(&m_document, &JobDocument::jobChanged, this, [this](JobAspect aspect) { followJob(aspect); });
    connect(&m_selection, &Selection::holdsStockChanged, this, [this] { showHold(); });
    connect(&m_selection, &Selection::ghostChanged, this, [this] { m_tabs->setLegend(legend()); });
    connect(m_response, &ResponsePlot::cornerDragged, this, &CurvesPanel::cornerDragged);
    connect(m_response, &ResponsePlot::cornerPressed, this,
            [this](const QRect& box) { emit sumsAsked(cornerSums() + gainSums(), box); });
    connect(m_figures, &ClipFigures::rowPressed, this,
            [this](int, const QRect& box) { emit sumsAsked(ceilingSums(), box); });
    connect(m_tabs, &CurveTabs::chosen, this, &CurvesPanel::showCurve);
    connect(m_tabs, &CurveTabs::sideAsked, this, &CurvesPanel::askSide);
    connect(&LevelUnits::current(), &LevelUnits::changed, this, [this] {
        showRows();
        showReading();
    });
    followPlots();
    followPins();
}

void CurvesPanel::pinNow() {
    m_document.edit(pinState(*m_document.job()), tr("Pin ghost"), JobAspect::words);
}

void CurvesPanel::followPins() {
    connect(&m_pins, &PinService::changed, this, &CurvesPanel::showPins);
    connect(m_strip, &PinStrip::promoteAsked, this, [this](const QString& letter) {
        m_document.edit(promotePinned(*m_document.job(), letter.toStdString()),
                        tr("Make ghost %1 the plan").arg(letter));
    });
    connect(m_strip, &PinStrip::removeAsked, this, [this](const QString& letter) {
        m_document.edit(unpinState(*m_document.job(), letter.toStdString()), tr("Take ghost %1 away").arg(letter),
                        JobAspect::words);
    });
    connect(m_strip, &PinStrip::named, this, [this](const QString& letter, const QString& name) {
        m_document.edit(renamePinned(*m_document.job(), letter.toStdString(), name.toStdString()),
                        tr("Name ghost %1").arg(letter), JobAspect::words);
    });
}

/// One cursor for all that is read against frequency.
void CurvesPanel::followPlots() {
    connect(&m_selection, &Selection::cursorChanged, this, [this] {
        m_response->setCursorHz(m_selection.cursorHz());
        for (CurvePane* pane : m_panes) {
            pane->setCursorHz(m_selection.cursorHz());
        }
        showReading();
    });
    connect(m_response, &ResponsePlot::cursorMoved, this, [this](double hz) { m_selection.setCursorHz(hz); });
    connect(m_response, &ResponsePlot::cursorHeld, &m_selection, &Selection::setHoldsCursor);
    for (CurvePane* pane : m_panes) {
        connect(&pane->plot(), &CurvePlot::cursorMoved, this, [this, pane](double at) {
            if (pane->plot().kind() == CurveKind::noise) {
                m_selection.setCursorHz(at);
            }
        });
    }
    for (CurvePlot* plot :
         std::initializer_list<CurvePlot*>{m_response, m_clip, &m_panes[0]->plot(), &m_panes[1]->plot()}) {
        connect(plot, &CurvePlot::readingChanged, this, &CurvesPanel::showReading);
        connect(plot, &CurvePlot::menuAsked, this, [this, plot](const QPoint& at) { showMenu(*plot, at); });
        connect(plot, &CurvePlot::focused, this, [this, plot] { followFocus(plot); });
    }
}

/// What the keyboard is in, the cursor column reads.
void CurvesPanel::followFocus(const QWidget* plot) {
    for (const CurveSide side : bothSides) {
        const QWidget* shown = widgetAt(side);
        if (shown == plot || shown->isAncestorOf(plot)) {
            m_side = side;
        }
    }
    showReading();
}

void CurvesPanel::followSwitches(ConsequenceService& consequences) {
    m_consequences = &consequences;
    connect(&consequences, &ConsequenceService::ready, this, [this](ConsequenceService::Section section) {
        if (section == ConsequenceService::Section::switches) {
            showThrows();
        }
    });
    connect(&consequences, &ConsequenceService::stateChanged, this, &CurvesPanel::showThrows);
    showThrows();
}

void CurvesPanel::setLack(const QString& sentence) {
    m_lack = sentence;
    for (CurvePane* pane : m_panes) {
        pane->setLack(lack());
    }
    showState(true);
}

QString CurvesPanel::lack() const {
    return m_lack.isEmpty() && m_document.job()->stock.parts.empty() ? tr("Nothing to solve yet.") : m_lack;
}

void CurvesPanel::followJob(JobAspect aspect) {
    if (aspect == JobAspect::everything) {
        setLack({});
        m_response->resetRange();
        m_clip->resetRange();
    }
}

void CurvesPanel::followState() {
    // Another job takes the old answers away without bringing new ones.
    if (!m_solver.linear()) {
        showLinear(nullptr);
    }
    if (!m_solver.largeSignal()) {
        showLargeSignal(nullptr);
    }
    showState(true);
}

void CurvesPanel::setNarrow(bool narrow) {
    m_asksNarrow = narrow;
    arrange();
}

bool CurvesPanel::isNarrow() const {
    return m_asksNarrow || width() < sideBySideWidth;
}

void CurvesPanel::showCurve(CurveKind kind) {
    showCurveAt(kind, kind == kindAt(CurveSide::left) ? CurveSide::left : CurveSide::right);
}

void CurvesPanel::showCurveAt(CurveKind kind, CurveSide side) {
    const CurveSide other = side == CurveSide::left ? CurveSide::right : CurveSide::left;
    if (kind == kindAt(other)) {
        std::swap(m_kinds[0], m_kinds[1]);
        std::swap(m_tables[0], m_tables[1]);
    } else if (kind != kindAt(side)) {
        m_kinds[index(side)] = kind;
        m_tables[index(side)] = false;
    }
    m_side = side;
    arrange();
    QWidget* shown = widgetAt(side);
    (shown == m_clipPage ? static_cast<QWidget*>(m_clip) : shown)->setFocus(Qt::OtherFocusReason);
}

/// The menu of a tab: where its kind shall stand.
void CurvesPanel::askSide(CurveKind kind, const QPoint& at) {
    auto* menu = new QMenu(this);
    menu->setAttribute(Qt::WA_DeleteOnClose);
    menu->addAction(tr("Show at the &left"), this, [this, kind] { showCurveAt(kind, CurveSide::left); });
    menu->addAction(tr("Show at the &right"), this, [this, kind] { showCurveAt(kind, CurveSide::right); });
    menu->popup(at);
}

void CurvesPanel::toggleTable() {
    m_tables[index(m_side)] = !m_tables[index(m_side)];
    showCurveAt(kindAt(m_side), m_side);
}

bool CurvesPanel::isTable(CurveSide side) const {
    return m_tables[index(side)] || kindAt(side) == CurveKind::bias;
}

QWidget* CurvesPanel::widgetAt(CurveSide side) const {
    if (!isTable(side) && kindAt(side) == CurveKind::response) {
        return m_response;
    }
    return !isTable(side) && kindAt(side) == CurveKind::clip ? m_clipPage : m_panes[index(side)];
}

void CurvesPanel::arrange() {
    const bool narrow = isNarrow();
    m_isArrangedNarrow = narrow;
    std::vector<CurveKind> kinds;
    std::vector<QWidget*> shown;
    for (QWidget* each : std::initializer_list<QWidget*>{m_response, m_clipPage, m_panes[0], m_panes[1]}) {
        m_body->removeWidget(each);
    }
    for (const CurveSide side : bothSides) {
        if (narrow && side != m_side) {
            continue;
        }
        // Narrow, the pane that was chosen takes all the room left of the cursor column.
        m_body->addWidget(widgetAt(side), 0, side == CurveSide::left || narrow ? 0 : rightColumn);
        shown.push_back(widgetAt(side));
        kinds.push_back(kindAt(side));
    }
    for (QWidget* each : std::initializer_list<QWidget*>{m_response, m_clipPage, m_panes[0], m_panes[1]}) {
        each->setVisible(std::find(shown.begin(), shown.end(), each) != shown.end());
    }
    for (const CurveSide side : bothSides) {
        CurvePane& own = *m_panes[index(side)];
        if (own.isVisibleTo(this)) {
            own.show(kindAt(side), isTable(side));
        } else {
            own.rest();
        }
    }
    m_body->setColumnStretch(rightColumn, narrow ? 0 : rightShare);
    // Low and wide, the figures beside the plot leave it its height.
    m_clipLayout->setDirection(narrow ? QBoxLayout::LeftToRight : QBoxLayout::TopToBottom);
    m_figures->setBeside(narrow);
    m_rightRule->setVisible(!narrow);
    m_response->setDifferenceShown(!narrow);
    m_tabs->setShown(kinds);
    m_pins.show(kinds);
    showPins();
    m_tabs->setLegend(legend());
    showReading();
    // At once, so that what was hidden has its size before it is drawn.
    layout()->activate();
}

void CurvesPanel::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    arrange();
}

void CurvesPanel::keyPressEvent(QKeyEvent* event) {
    const int digit = event->key() - Qt::Key_1;
    const bool isKind = digit >= 0 && digit < static_cast<int>(curveKindNames.size());
    const CurveKind kind = isKind ? curveKindNames[static_cast<std::size_t>(digit)].kind : CurveKind::response;
    if (isKind && event->modifiers() == Qt::NoModifier) {
        showCurve(kind);
    } else if (isKind && event->modifiers() == Qt::AltModifier) {
        showCurveAt(kind, CurveSide::left);
    } else {
        QWidget::keyPressEvent(event);
    }
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_board.h"

#include "app/background/solver_service.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/map/draw_canvas.h"
#include "app/map/draw_hand.h"
#include "app/map/draw_palette.h"
#include "app/map/draw_side.h"
#include "app/map/fault_list.h"
#include "app/map/zone_strip.h"

#include <QScrollArea>
#include <QSplitter>
#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>

namespace ohmwright {
namespace {

constexpr int lineHeight = 28;

/// A column of the window's panel colour that scrolls when it is higher than the window.
QScrollArea* rail(QWidget* content, QWidget* parent) {
    auto* area = new QScrollArea(parent);
    area->setFrameShape(QFrame::NoFrame);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    area->setWidgetResizable(true);
    area->setFocusPolicy(Qt::NoFocus);
    content->setAutoFillBackground(true);
    area->setWidget(content);
    return area;
}

}  // namespace

DrawBoard::DrawBoard(JobDocument& document, Selection& selection, SolverService& solver, QWidget* parent)
    : QWidget(parent),
      m_document(document),
      m_selection(selection),
      m_solver(solver),
      m_hand(new DrawHand(document, this)),
      m_palette(new DrawPalette(*m_hand)),
      m_strip(new ZoneStrip(this)),
      m_canvas(new DrawCanvas(*m_hand)),
      m_side(new DrawSide(document, *m_hand)),
      m_left(rail(m_palette, this)),
      m_right(rail(m_side, this)),
      m_centre(new QSplitter(Qt::Vertical, this)),
      m_line(new QWidget(this)),
      m_where(new ThemedLabel(TextRole::caption, true, &ThemeColours::ink2, this)),
      m_keys(new ThemedLabel(TextRole::caption, false, &ThemeColours::ink2, this)) {
    auto* drawing = new QWidget(this);
    auto* column = new QVBoxLayout(drawing);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(m_strip);
    column->addWidget(m_canvas, 1);
    buildLine(*column);
    m_centre->addWidget(drawing);
    m_centre->setHandleWidth(1);
    m_centre->setChildrenCollapsible(false);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(1);
    row->addWidget(m_left);
    row->addWidget(m_centre, 1);
    row->addWidget(m_right);
    setFocusProxy(m_canvas);

    connectParts();
    followTheme();
    showState();
}

void DrawBoard::buildLine(QBoxLayout& column) {
    m_line->setAutoFillBackground(true);
    auto* words = new QHBoxLayout(m_line);
    words->setContentsMargins(14, 0, 14, 0);
    words->setSpacing(18);
    words->addWidget(m_where);
    words->addWidget(m_keys, 1);
    m_keys->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    m_keys->setMinimumWidth(1);  // the words are cut with a sign, not the window widened
    column.addWidget(m_line);
}

void DrawBoard::connectParts() {
    connect(&m_document, &JobDocument::jobChanged, this, &DrawBoard::showSoon);
    connect(&m_solver, &SolverService::linearReady, this, &DrawBoard::showSoon);
    connect(&m_solver, &SolverService::stateChanged, this, &DrawBoard::showSoon);
    connect(m_hand, &DrawHand::changed, this, [this] {
        m_said.clear();
        followHand();
    });
    connect(m_hand, &DrawHand::refused, this, &DrawBoard::refused);
    connect(m_hand, &DrawHand::accepted, this, &DrawBoard::accepted);
    connect(m_hand, &DrawHand::said, this, [this](const QString& sentence) {
        m_said = sentence;
        sayLine();
        emit said(sentence);
    });
    connect(m_side, &DrawSide::refused, this, &DrawBoard::refused);
    connect(m_side, &DrawSide::keepAsked, this, [this] { emit keepAsked(m_hand->picked().parts); });
    connect(m_canvas, &DrawCanvas::fitted, this, [this] { m_strip->setEdges(m_canvas->zoneEdges()); });
    const auto back = [this] { m_canvas->setFocus(Qt::OtherFocusReason); };
    connect(m_side, &DrawSide::done, this, back);
    connect(m_palette, &DrawPalette::taken, this, back);
    connect(&Theme::current(), &Theme::changed, this, &DrawBoard::followTheme);
}

void DrawBoard::setModels(const std::vector<Model>& models) {
    m_hand->setModels(models);
}

std::vector<QWidget*> DrawBoard::panels() const {
    return {m_left, m_canvas, m_right};
}

void DrawBoard::setCurves(QWidget* curves) {
    if (m_centre->indexOf(curves) < 0) {
        m_centre->addWidget(curves);
        m_centre->setStretchFactor(0, 5);
        m_centre->setStretchFactor(1, 3);
        m_centre->setSizes({6, 4});
    }
}

void DrawBoard::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    showState();
}

void DrawBoard::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fitRails();
    sayLine();
}

/// One edit makes several announcements; they are one redrawing.
void DrawBoard::showSoon() {
    if (!m_isDue && isVisible()) {
        m_isDue = true;
        QTimer::singleShot(0, this, [this] {
            m_isDue = false;
            showState();
        });
    }
}

void DrawBoard::showState() {
    MapState state;
    state.job = m_document.job();
    state.linear = m_solver.linear();
    state.isCurrent = m_solver.isCurrent();
    m_strip->setVisible(!state.job->stock.stages.empty());
    MapState stages = state;
    stages.holdsStock = true;
    m_strip->setState(stages);
    m_canvas->setState(state);
    state.fault = m_solver.fault();
    state.faultPlace = m_solver.faultPlace();
    const std::vector<DrawFault> faults = drawFaults(state);
    m_canvas->setFaults(faults);
    m_side->faultList().setFaults(faults, state.job->stock, state.linear && state.isCurrent);
    followHand();
    const QString lack = lacksOf(state.job->stock).join(" ");
    emit nothingToSolve(lack.isEmpty() ? QString() : tr("Nothing to solve yet. Still wanted: %1").arg(lack));
}

void DrawBoard::followHand() {
    sayLine();
    if (isVisible() && m_hand->picked().parts.size() == 1) {
        m_selection.setPart(m_hand->picked().parts.front());
    }
}

/// Where the cross is, and what was just done or what the keys do now.
void DrawBoard::sayLine() {
    m_where->setText(m_hand->placeWords());
    const QString words = m_said.isEmpty() ? m_hand->keyWords() : m_said;
    const QFontMetrics metrics(m_keys->font());
    constexpr int margins = 2 * 14 + 18;
    const int room = m_line->width() - margins - m_where->sizeHint().width();
    m_keys->setText(metrics.elidedText(words, Qt::ElideRight, std::max(room, 1)));
    m_keys->setToolTip(words);
}

/// A narrow window keeps the drawing wide: the palette folds to symbols and keys.
void DrawBoard::fitRails() {
    const double scale = Theme::current().textScale();
    constexpr int roomy = 1400;
    const bool isNarrow = width() < qRound(roomy * scale);
    m_palette->setFolded(isNarrow);
    m_left->setFixedWidth(qRound(space::leftRail * scale * (isNarrow ? 0.45 : 0.8)));
    m_right->setFixedWidth(qRound(space::rightRail * scale));
}

void DrawBoard::followTheme() {
    m_where->setFixedHeight(qRound(lineHeight * Theme::current().textScale()));
    fitRails();
    for (QWidget* panel : {static_cast<QWidget*>(m_palette), static_cast<QWidget*>(m_side), m_line}) {
        QPalette own = panel->palette();
        own.setColor(QPalette::Window, Theme::current().colours().panel);
        panel->setPalette(own);
    }
    sayLine();
}

}  // namespace ohmwright

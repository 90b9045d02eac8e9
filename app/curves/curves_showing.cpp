// What the curves show: answers, what is pinned, throws of switches, and what is read of them.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/curves_panel.h"

#include "app/background/consequence_service.h"
#include "app/background/solver_service.h"
#include "app/curves/clip_figures.h"
#include "app/curves/clip_plot.h"
#include "app/curves/cursor_column.h"
#include "app/curves/curve_pane.h"
#include "app/curves/pin_strip.h"
#include "app/curves/response_plot.h"
#include "app/curves/table_plot.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/look/said_text.h"
#include "core/base/number_text.h"
#include "core/base/value_text.h"
#include "core/measure/model_notes.h"
#include "core/plan/apply.h"
#include "core/plan/pinned.h"

#include <algorithm>
#include <utility>
#include <variant>

namespace ohmwright {

namespace {

/// "ghost 150n", "ghost 1N4148": what is being tried, as short as the legend needs it.
QString ghostWords(const Job& job, const std::optional<Change>& ghost) {
    QString word = QObject::tr("ghost");
    if (!ghost) {
        return word;
    }
    if (const auto* swap = std::get_if<SwapValue>(&*ghost)) {
        const Part* part = findPart(job.stock, swap->part);
        const Quantity value{swap->value, part ? unitOf(part->kind) : Unit::none};
        return part ? QObject::tr("ghost %1").arg(QString::fromStdString(formatPartValue(value))) : word;
    }
    if (const auto* swap = std::get_if<SwapType>(&*ghost)) {
        return QObject::tr("ghost %1").arg(QString::fromStdString(swap->model.name));
    }
    return QObject::tr("ghost %1").arg(saidText(changeKind(*ghost)));
}

}  // namespace

std::vector<PinnedCurve> CurvesPanel::pinnedOf(CurveKind kind) const {
    std::vector<PinnedCurve> curves;
    for (const PinnedTable& pinned : m_pins.tables(kind)) {
        const auto pattern = static_cast<int>(pinnedLetters.find(pinned.letter));
        curves.push_back({QString::fromStdString(pinned.letter), pattern, *pinned.table});
    }
    return curves;
}

void CurvesPanel::showPins() {
    std::vector<PinStrip::Entry> entries;
    for (const PinnedState& pinned : m_document.job()->pinned) {
        entries.push_back({QString::fromStdString(pinned.letter), QString::fromStdString(pinned.name),
                           static_cast<int>(pinnedLetters.find(pinned.letter)), m_pins.fault(pinned.letter)});
    }
    m_strip->setEntries(entries);
    m_response->setPins(pinnedOf(CurveKind::response));
    m_clip->setPins(pinnedOf(CurveKind::clip));
    for (const CurveSide side : bothSides) {
        m_panes[index(side)]->setPins(pinnedOf(kindAt(side)));
    }
}

/// While a knob turns the last curves stay; when the service says that they are old, they go.
void CurvesPanel::showThrows() {
    m_throws.clear();
    m_standing.clear();
    const auto switches = m_consequences->switches();
    if (switches && m_consequences->isCurrent(ConsequenceService::Section::switches)) {
        const Plan& plan = m_document.job()->plan;
        m_throws = otherThrows(*switches, plan);
        m_standing = standingThrows(*switches, plan);
    }
    m_response->setThrows(m_throws);
    m_tabs->setLegend(legend());
}

bool CurvesPanel::isLinearOfJob() const {
    return m_solver.linear() && m_solver.linear()->job == m_document.job();
}

bool CurvesPanel::isLargeSignalOfJob() const {
    return m_solver.largeSignal() && m_solver.largeSignal()->job == m_document.job();
}

/// An answer that comes may only lift a stamp: whether one is due is the solver's to say, after its patience.
void CurvesPanel::showState(bool mayStamp) {
    const auto stateOf = [this](bool hasAnswer, bool isOfJob) {
        const bool isCurrent = m_solver.isCurrent() || isOfJob;
        const QString fault = isCurrent ? QString() : m_solver.fault();
        return PlotState{isCurrent || (!hasAnswer && fault.isEmpty()), fault, isCurrent ? QString() : lack()};
    };
    const PlotState linear = stateOf(m_solver.linear() != nullptr, isLinearOfJob());
    const PlotState largeSignal = stateOf(m_solver.largeSignal() != nullptr, isLargeSignalOfJob());
    if (mayStamp || linear.isCurrent) {
        m_response->setState(linear);
    }
    if (mayStamp || largeSignal.isCurrent) {
        m_clip->setState(largeSignal);
        m_figures->setCurrent(largeSignal.isCurrent);
    }
    showReading();
}

bool CurvesPanel::isCurrent() const {
    return m_solver.isCurrent() && std::all_of(m_panes.begin(), m_panes.end(), [](const CurvePane* pane) {
               return !pane->service().shown() || pane->service().isCurrent();
           });
}

void CurvesPanel::setAnswers(const LinearAnswer* linear, const LargeSignalAnswer* largeSignal) {
    showLinear(linear ? std::make_shared<const LinearAnswer>(*linear) : nullptr);
    showLargeSignal(largeSignal ? std::make_shared<const LargeSignalAnswer>(*largeSignal) : nullptr);
}

void CurvesPanel::showLinear(std::shared_ptr<const LinearAnswer> answer) {
    m_linear = std::move(answer);
    m_response->setAnswer(m_linear.get());
    showReading();
    m_tabs->setLegend(legend());
}

void CurvesPanel::showLargeSignal(std::shared_ptr<const LargeSignalAnswer> answer) {
    m_largeSignal = std::move(answer);
    m_clip->setAnswer(m_largeSignal.get());
    const Result<Circuit> now =
        m_largeSignal && m_largeSignal->job ? nowCircuit(*m_largeSignal->job) : Result<Circuit>(Circuit());
    m_clip->setNote(m_largeSignal && m_largeSignal->job && now
                        ? QString::fromStdString(modelNotes(CurveKind::clip, m_largeSignal->job->stock, *now))
                        : QString());
    showRows();
}

CurvePlot* CurvesPanel::readPlot() const {
    const CurveSide other = m_side == CurveSide::left ? CurveSide::right : CurveSide::left;
    for (const CurveSide side : {m_side, other}) {
        if (side == other && isNarrow()) {
            break;
        }
        if (isTable(side)) {
            continue;
        }
        switch (kindAt(side)) {
            case CurveKind::response:
                return m_response;
            case CurveKind::clip:
                return m_clip;
            default:
                return &m_panes[index(side)]->plot();
        }
    }
    return nullptr;
}

CursorReadout CurvesPanel::readoutOf(const CurvePlot& plot) const {
    if (&plot == m_response) {
        CursorReadout readout = responseReadout(m_response->reading(), m_response->pins());
        readout.conditions =
            m_linear && m_linear->job ? conditionsText(CurveKind::response, *m_linear->job) : QString();
        const bool isAtCursor = m_linear && m_linear->stock.cursorHz == m_selection.cursorHz();
        if (isAtCursor && m_linear->stockBandAtCursorDb) {
            readout.spread = tr("two stock units differ by ±%1 here")
                                 .arg(QString::fromStdString(formatFigure(*m_linear->stockBandAtCursorDb)));
        }
        return readout;
    }
    if (&plot == m_clip) {
        CursorReadout readout = m_clip->readout();
        readout.conditions =
            m_largeSignal && m_largeSignal->job ? conditionsText(CurveKind::clip, *m_largeSignal->job) : QString();
        return readout;
    }
    const CurvePane& pane = &plot == &m_panes[0]->plot() ? *m_panes[0] : *m_panes[1];
    return pane.readout();
}

void CurvesPanel::showReading() {
    const CurvePlot* plot = readPlot();
    CursorReadout readout = plot != nullptr ? readoutOf(*plot) : CursorReadout{tr("Cursor"), {}, {}, {}, {}, {}};
    if (plot != nullptr && !plot->note().isEmpty()) {
        readout.conditions += QStringLiteral(". ") + plot->note();
    }
    m_cursor->setReadout(readout);
    m_cursor->setCurrent(plot == nullptr || plot->state().isCurrent);
}

void CurvesPanel::showRows() {
    m_figures->setRows(m_largeSignal ? clipRows(*m_largeSignal, m_selection.holdsStock()) : std::vector<ClipRow>());
}

std::vector<LegendEntry> CurvesPanel::legend() const {
    std::vector<LegendEntry> entries{{LegendLine::stock, tr("stock")}};
    if (m_selection.holdsStock()) {
        return entries;
    }
    entries.push_back({LegendLine::now, m_standing.isEmpty() ? tr("now") : tr("now, %1").arg(m_standing)});
    for (std::size_t at = 0; at < m_throws.size(); ++at) {
        entries.push_back({LegendLine::otherThrow, m_throws[at].name, static_cast<int>(at)});
    }
    const bool hasResponse = m_response->isVisibleTo(this);
    if (hasResponse && m_linear && !m_linear->nowBandDb.empty()) {
        entries.push_back({LegendLine::band, tr("95 % of builds")});
    }
    if (hasResponse && m_linear && !m_linear->stockBandDb.empty() && !m_isArrangedNarrow) {
        entries.push_back({LegendLine::spread, tr("spread of stock")});
    }
    if (m_linear && m_linear->ghost) {
        entries.push_back({LegendLine::ghost, ghostWords(*m_document.job(), m_selection.ghost())});
    }
    return entries;
}

void CurvesPanel::showHold() {
    const bool holds = m_selection.holdsStock();
    m_response->setHoldsStock(holds);
    m_clip->setHoldsStock(holds);
    for (CurvePane* pane : m_panes) {
        pane->setHoldsStock(holds);
    }
    showRows();
    showReading();
    m_tabs->setLegend(legend());
}

}  // namespace ohmwright

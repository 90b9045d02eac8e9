// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/curves_panel.h"

#include "app/background/consequence_service.h"
#include "app/background/solver_service.h"
#include "app/curves/clip_figures.h"
#include "app/curves/clip_plot.h"
#include "app/curves/cursor_column.h"
#include "app/curves/curve_pane.h"
#include "app/curves/response_plot.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/look/sum_notes.h"
#include "app/look/theme.h"
#include "core/base/value_text.h"

#include <QDir>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QPixmap>
#include <QVBoxLayout>

#include <variant>

namespace ohmwright {

namespace {

/// Below this width response and clip do not stand side by side [px].
constexpr int sideBySideWidth = 760;
/// Shares of the width, as the look has them.
constexpr int responseShare = 57;
constexpr int clipShare = 33;
constexpr int clipColumn = 4;
constexpr QSize pictureSize{1120, 560};

/// 1 px between two parts of a panel, in the theme's colour.
class Rule : public QWidget {
public:
    explicit Rule(QWidget* parent) : QWidget(parent) {
        setFixedWidth(1);
        setAutoFillBackground(true);
        followTheme();
        connect(&Theme::current(), &Theme::changed, this, [this] { followTheme(); });
    }

private:
    void followTheme() {
        QPalette own = palette();
        own.setColor(QPalette::Window, Theme::current().colours().hair);
        setPalette(own);
    }
};

/// "ghost 150n", "ghost 1N4148": what is being tried, as short as the legend needs it.
QString ghostWords(const Job& job, const std::optional<Change>& ghost) {
    const QString word = QStringLiteral("ghost");
    if (!ghost) {
        return word;
    }
    if (const auto* swap = std::get_if<SwapValue>(&*ghost)) {
        const Part* part = findPart(job.stock, swap->part);
        const Quantity value{swap->value, part ? unitOf(part->kind) : Unit::none};
        return part ? word + QLatin1Char(' ') + QString::fromStdString(formatPartValue(value)) : word;
    }
    if (const auto* swap = std::get_if<SwapType>(&*ghost)) {
        return word + QLatin1Char(' ') + QString::fromStdString(swap->model.name);
    }
    const std::string_view kind = changeKind(*ghost);
    return word + QLatin1Char(' ') + QString::fromUtf8(kind.data(), static_cast<qsizetype>(kind.size()));
}

/// Lays the page out and draws it without ever showing it.
bool savePage(QWidget& page, CurveKind kind, std::vector<LegendEntry> legend, QLayout* body, const QString& path) {
    auto* tabs = new CurveTabs(&page);
    tabs->setKinds({kind});
    tabs->setShown({kind});
    tabs->setLegend(std::move(legend));
    auto* layout = new QVBoxLayout(&page);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(tabs);
    layout->addLayout(body, 1);
    page.setAttribute(Qt::WA_DontShowOnScreen);
    page.resize(pictureSize);
    page.show();
    for (auto* plot : page.findChildren<ResponsePlot*>()) {
        plot->replotNow();
    }
    for (auto* plot : page.findChildren<ClipPlot*>()) {
        plot->replotNow();
    }
    return page.grab().save(path, "PNG");
}

}  // namespace

CurvesPanel::CurvesPanel(JobDocument& document, Selection& selection, SolverService& solver, QWidget* parent)
    : QWidget(parent), m_document(document), m_selection(selection), m_solver(solver) {
    setObjectName(QStringLiteral("curvesPanel"));
    setAccessibleName(QStringLiteral("Curves"));
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
    m_response = new ResponsePlot(this);
    m_cursor = new CursorColumn(this);
    m_clipPage = new QWidget(this);
    m_clip = new ClipPlot(m_clipPage);
    m_figures = new ClipFigures(m_clipPage);
    m_pane = new CurvePane(m_document, this);

    m_clipLayout = new QVBoxLayout(m_clipPage);
    m_clipLayout->setContentsMargins(0, 0, 0, 0);
    m_clipLayout->setSpacing(0);
    m_clipLayout->addWidget(m_clip, 1);
    m_clipLayout->addWidget(m_figures);

    m_body = new QGridLayout;
    m_body->setContentsMargins(0, 0, 0, 0);
    m_body->setSpacing(0);
    m_body->addWidget(m_response, 0, 0);
    m_body->addWidget(new Rule(this), 0, 1);
    m_body->addWidget(m_cursor, 0, 2);
    m_clipRule = new Rule(this);
    m_body->addWidget(m_clipRule, 0, 3);
    m_body->addWidget(m_clipPage, 0, clipColumn);
    m_body->addWidget(m_pane, 0, clipColumn);
    m_body->setColumnStretch(0, responseShare);

    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(m_tabs);
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
    connect(&m_selection, &Selection::cursorChanged, this, [this] {
        m_response->setCursorHz(m_selection.cursorHz());
        showReading();
    });
    connect(&m_selection, &Selection::holdsStockChanged, this, [this] { showHold(); });
    connect(&m_selection, &Selection::ghostChanged, this, [this] { m_tabs->setLegend(legend()); });
    connect(m_response, &ResponsePlot::cornerDragged, this, &CurvesPanel::cornerDragged);
    connect(m_response, &ResponsePlot::cornerPressed, this,
            [this](const QRect& box) { emit sumsAsked(cornerSums() + gainSums(), box); });
    connect(m_figures, &ClipFigures::rowPressed, this,
            [this](int, const QRect& box) { emit sumsAsked(ceilingSums(), box); });
    connect(m_response, &ResponsePlot::cursorMoved, this, [this](double hz) { m_selection.setCursorHz(hz); });
    connect(m_tabs, &CurveTabs::chosen, this, &CurvesPanel::showCurve);
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

void CurvesPanel::setLack(const QString& sentence) {
    m_lack = sentence;
    m_pane->setLack(lack());
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
        m_cursor->setCurrent(linear.isCurrent);
    }
    if (mayStamp || largeSignal.isCurrent) {
        m_clip->setState(largeSignal);
        m_figures->setCurrent(largeSignal.isCurrent);
    }
}

void CurvesPanel::setAnswers(const LinearAnswer* linear, const LargeSignalAnswer* largeSignal) {
    showLinear(linear ? std::make_shared<const LinearAnswer>(*linear) : nullptr);
    showLargeSignal(largeSignal ? std::make_shared<const LargeSignalAnswer>(*largeSignal) : nullptr);
}

void CurvesPanel::showLinear(std::shared_ptr<const LinearAnswer> answer) {
    m_linear = std::move(answer);
    m_response->setAnswer(m_linear.get());
    m_cursor->setConditions(m_linear && m_linear->job ? conditionsText(*m_linear->job) : QString());
    showReading();
    m_tabs->setLegend(legend());
}

void CurvesPanel::showLargeSignal(std::shared_ptr<const LargeSignalAnswer> answer) {
    m_largeSignal = std::move(answer);
    m_clip->setAnswer(m_largeSignal.get());
    showRows();
}

void CurvesPanel::showReading() {
    const bool isAtCursor = m_linear && m_linear->stock.cursorHz == m_selection.cursorHz();
    m_cursor->setSpreadDb(isAtCursor ? m_linear->stockBandAtCursorDb : std::nullopt);
    m_cursor->setReading(m_response->reading());
}

void CurvesPanel::showRows() {
    m_figures->setRows(m_largeSignal ? clipRows(*m_largeSignal, m_selection.holdsStock()) : std::vector<ClipRow>());
}

std::vector<LegendEntry> CurvesPanel::legend() const {
    std::vector<LegendEntry> entries{{LegendLine::stock, QStringLiteral("stock")}};
    if (m_selection.holdsStock()) {
        return entries;
    }
    entries.push_back(
        {LegendLine::now, m_standing.isEmpty() ? QStringLiteral("now") : QStringLiteral("now, ") + m_standing});
    for (std::size_t at = 0; at < m_throws.size(); ++at) {
        entries.push_back({LegendLine::otherThrow, m_throws[at].name, static_cast<int>(at)});
    }
    const bool hasResponse = m_response->isVisibleTo(this);
    if (hasResponse && m_linear && !m_linear->nowBandDb.empty()) {
        entries.push_back({LegendLine::band, QStringLiteral("95 % of builds")});
    }
    if (hasResponse && m_linear && !m_linear->stockBandDb.empty() && !m_isArrangedNarrow) {
        entries.push_back({LegendLine::spread, QStringLiteral("spread of stock")});
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
    m_pane->setHoldsStock(holds);
    showRows();
    showReading();
    m_tabs->setLegend(legend());
}

void CurvesPanel::setNarrow(bool narrow) {
    m_asksNarrow = narrow;
    arrange();
}

bool CurvesPanel::isNarrow() const {
    return m_asksNarrow || width() < sideBySideWidth;
}

void CurvesPanel::showCurve(CurveKind kind) {
    if (kind != m_kind) {
        m_isTable = false;
    }
    m_kind = kind;
    if (kind != CurveKind::response) {
        m_beside = kind;
    }
    arrange();
    QWidget* shown = m_pane->isVisibleTo(this) ? static_cast<QWidget*>(m_pane) : m_clip;
    if (kind == CurveKind::response && !m_isTable) {
        shown = m_response;
    }
    shown->setFocus(Qt::OtherFocusReason);
}

void CurvesPanel::toggleTable() {
    m_isTable = !m_isTable;
    const CurveKind kind = m_kind;
    arrange();
    showCurve(kind);
}

/// The kind that stands in the second pane, or alone.
CurveKind CurvesPanel::paneKind() const {
    return isNarrow() || m_isTable ? m_kind : m_beside;
}

void CurvesPanel::arrange() {
    const bool narrow = isNarrow();
    const CurveKind beside = paneKind();
    const std::vector<CurveKind> shown =
        narrow || beside == CurveKind::response ? std::vector{beside} : std::vector{CurveKind::response, beside};
    const bool isAlone = narrow && (beside != CurveKind::response || m_isTable);
    const bool hasPane = m_isTable || (beside != CurveKind::response && beside != CurveKind::clip);
    m_isArrangedNarrow = narrow;
    // Narrow, the second pane takes the response's place, so that the cursor column stays where it was.
    for (QWidget* second : std::initializer_list<QWidget*>{m_clipPage, m_pane}) {
        m_body->removeWidget(second);
        m_body->addWidget(second, 0, narrow ? 0 : clipColumn);
    }
    m_body->setColumnStretch(clipColumn, narrow ? 0 : clipShare);
    // Low and wide, the figures beside the plot leave it its height.
    m_clipLayout->setDirection(narrow ? QBoxLayout::LeftToRight : QBoxLayout::TopToBottom);
    m_figures->setBeside(narrow);
    m_clipRule->setVisible(!narrow);
    m_response->setVisible(!isAlone);
    m_clipPage->setVisible(!hasPane && (!narrow || beside == CurveKind::clip));
    m_pane->setVisible(hasPane);
    if (hasPane) {
        m_pane->show(beside, m_isTable);
    } else {
        m_pane->rest();
    }
    m_response->setDifferenceShown(!narrow);
    m_tabs->setShown(shown);
    m_tabs->setLegend(legend());
    // At once, so that what was hidden has its size before it is drawn.
    layout()->activate();
}

void CurvesPanel::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    arrange();
}

void CurvesPanel::keyPressEvent(QKeyEvent* event) {
    const int digit = event->key() - Qt::Key_1;
    if (event->modifiers() == Qt::NoModifier && digit >= 0 && digit < static_cast<int>(curveKindNames.size())) {
        showCurve(curveKindNames[static_cast<std::size_t>(digit)].kind);
    } else {
        QWidget::keyPressEvent(event);
    }
}

bool CurvesPanel::savePictures(const QString& folder) const {
    const bool isCurrent = m_response->state().isCurrent && m_clip->state().isCurrent;
    if (!m_linear || !m_largeSignal || !isCurrent) {
        return false;
    }
    const QDir place(folder);
    return saveResponse(place.filePath(QStringLiteral("response.png"))) &&
           saveClip(place.filePath(QStringLiteral("clip.png")));
}

bool CurvesPanel::saveResponse(const QString& path) const {
    QWidget page;
    auto* response = new ResponsePlot(&page);
    auto* cursor = new CursorColumn(&page);
    response->setAnswer(m_linear.get());
    response->setThrows(m_throws);
    response->setCursorHz(m_selection.cursorHz());
    cursor->setReading(response->reading());
    cursor->setSpreadDb(m_linear->stockBandAtCursorDb);
    cursor->setConditions(m_linear->job ? conditionsText(*m_linear->job) : QString());
    auto* body = new QHBoxLayout;
    body->setSpacing(0);
    body->addWidget(response, 1);
    body->addWidget(new Rule(&page));
    body->addWidget(cursor);
    return savePage(page, CurveKind::response, legend(), body, path);
}

bool CurvesPanel::saveClip(const QString& path) const {
    QWidget page;
    auto* clip = new ClipPlot(&page);
    auto* figures = new ClipFigures(&page);
    clip->setAnswer(m_largeSignal.get());
    figures->setRows(clipRows(*m_largeSignal, false));
    auto* body = new QVBoxLayout;
    body->setSpacing(0);
    body->addWidget(clip, 1);
    body->addWidget(figures);
    return savePage(page, CurveKind::clip, legend(), body, path);
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/candidate_section.h"

#include "app/background/solver_service.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/document/shop_document.h"
#include "app/look/panel_title.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/part/candidate_list.h"
#include "app/part/panel_section.h"
#include "app/part/try_on_words.h"
#include "app/part/value_steps.h"
#include "core/base/number_text.h"
#include "core/base/value_text.h"
#include "core/plan/pick_list.h"

#include <QLabel>

#include <algorithm>
#include <utility>

namespace ohmwright {

namespace {

constexpr int candidateCount = 5;

/// Not at an end of the values: at an end, the list moves on.
bool standsInside(const std::vector<double>& values, double value) {
    const auto found = std::find_if(values.begin(), values.end(), [value](double v) { return isSameValue(v, value); });
    return found != values.end() && found != values.begin() && found + 1 != values.end();
}

}  // namespace

CandidateSection::CandidateSection(JobDocument& document, Selection& selection, SolverService& solver,
                                   ShopDocument& shop, QWidget* parent)
    : QWidget(parent),
      m_document(document),
      m_selection(selection),
      m_solver(solver),
      m_shop(shop),
      m_title(new PanelTitle({}, this)),
      m_rows(new CandidateModel(this)),
      m_list(new CandidateList(this)),
      m_note(new ThemedLabel(TextRole::caption, false, &ThemeColours::ink3, this)),
      m_tryOn(new ThemedLabel(TextRole::caption, false, &ThemeColours::ink2, this)) {
    m_list->setAccessibleName(tr("Values of the drawer"));
    m_list->setModel(m_rows);
    auto* head = new QHBoxLayout;
    head->setContentsMargins(partMargin, 0, 0, 0);
    head->addWidget(m_title);
    QVBoxLayout* inner = layOutSection(*this, 0);
    inner->addLayout(head);
    inner->addWidget(m_list);
    for (QLabel* words : {m_note, m_tryOn}) {
        words->setWordWrap(true);
        words->setContentsMargins(partMargin, 2, partMargin, 0);
        inner->addWidget(words);
    }

    connect(m_list, &CandidateList::tried, this, [this](const QModelIndex& index) {
        const CandidateRow* row = m_rows->rowAt(index);
        m_selection.setGhost(row && !row->isNow ? std::optional(row->change) : std::nullopt);
    });
    connect(m_list, &CandidateList::taken, this, [this](const QModelIndex& index) {
        if (const CandidateRow* row = m_rows->rowAt(index)) {
            emit taken(CandidateRow(*row));  // a copy: taking it rebuilds the list
        }
    });
    connect(&m_selection, &Selection::ghostChanged, this, [this] {
        m_rows->setGhost(m_selection.ghost());
        showTryOn();
    });
    connect(&m_selection, &Selection::cursorChanged, this, &CandidateSection::showHead);
    connect(&m_solver, &SolverService::linearReady, this, &CandidateSection::showFigures);
    connect(&Theme::current(), &Theme::changed, this, &CandidateSection::showHead);
}

void CandidateSection::setModels(std::vector<Model> models) {
    m_models = std::move(models);
}

void CandidateSection::showValues(const Part& stock, const Part& now) {
    m_now = now;
    m_rows->setRows(valueRows(stock, now));
    m_list->updateGeometry();
    m_selection.setCandidateValues(m_values);
    const bool isCounted = !m_shop.onHand().lots.empty();
    const QString series = seriesName(shopSeries(now.kind));
    m_note->setText(!isCounted                  ? tr("assumed stock: %1").arg(series)
                    : stockOf(now.kind).empty() ? tr("the drawer knows no such part: %1 stands here").arg(series)
                                                : QString());
    m_note->setVisible(!m_note->text().isEmpty());
    m_rows->setGhost(m_selection.ghost());
    showHead();
    showTryOn();
}

void CandidateSection::showTypes(const Part& stock, const Part& now) {
    m_now = now;
    m_rows->setRows(typeRows(stock, now));
    m_list->updateGeometry();
    m_selection.setCandidateValues({});
    m_note->setVisible(true);
    m_note->setText(m_rows->rowCount() > 1 ? tr("Point at a type to try it as a ghost; press it to take it.")
                                           : tr("no other type of this kind in the part library"));
    m_rows->setGhost(m_selection.ghost());
    showHead();
    showTryOn();
}

void CandidateSection::showNothing() {
    m_now.reset();
    m_selection.setCandidateValues({});
}

const Model* CandidateSection::modelOfNow() const {
    const std::vector<CandidateRow>& rows = m_rows->rows();
    const auto now = std::find_if(rows.begin(), rows.end(), [](const CandidateRow& row) { return row.isNow; });
    const auto* type = now != rows.end() ? std::get_if<SwapType>(&now->change) : nullptr;
    return type ? &type->model : nullptr;
}

void CandidateSection::forgetValues() {
    m_values.clear();
}

void CandidateSection::forgetFigures() {
    m_rows->setFigures({});
}

std::vector<StockValue> CandidateSection::stockOf(PartKind kind) const {
    return stockValues(m_shop.onHand(), kind, reservationName(*m_document.job()));
}

std::optional<int> CandidateSection::leftOf(const std::vector<StockValue>& stock, double value) const {
    return m_shop.onHand().lots.empty() ? std::nullopt : std::optional(leftOfValue(stock, value));
}

/// The values stay where they are while the new one is among them, so that no row moves under the pointer.
std::vector<CandidateRow> CandidateSection::valueRows(const Part& stock, const Part& now) {
    const std::vector<StockValue> stocked = stockOf(now.kind);
    if (!standsInside(m_values, now.value)) {
        m_values = stocked.empty() ? valuesAround(now.value, now.kind, candidateCount)
                                   : stockAround(stocked, now.value, candidateCount);
    }
    std::vector<CandidateRow> rows;
    rows.reserve(m_values.size());
    for (const double value : m_values) {
        rows.push_back({SwapValue{now.id, value}, text(formatPartValue({value, unitOf(now.kind)})),
                        isSameValue(value, now.value), isSameValue(value, stock.value), leftOf(stocked, value)});
    }
    return rows;
}

std::vector<CandidateRow> CandidateSection::typeRows(const Part& stock, const Part& now) const {
    std::vector<Model> models = m_document.job()->stock.models;
    models.insert(models.end(), m_models.begin(), m_models.end());
    const Drawer& drawer = m_shop.onHand();
    const std::string job = reservationName(*m_document.job());
    std::vector<CandidateRow> rows;
    for (const Model& model : models) {
        const QString name = text(model.name);
        const bool isListed =
            std::any_of(rows.begin(), rows.end(), [&name](const CandidateRow& row) { return row.name == name; });
        if (model.kind == now.kind && !isListed) {
            const auto left =
                drawer.lots.empty() ? std::nullopt : std::optional(leftOfType(drawer, now.kind, model.name, job));
            rows.push_back({SwapType{now.id, model}, name, model.name == now.model, model.name == stock.model, left});
        }
    }
    // What is fitted and what can be fitted today comes first.
    std::stable_partition(rows.begin(), rows.end(),
                          [](const CandidateRow& row) { return row.isNow || row.isStock || row.left.value_or(0) > 0; });
    return rows;
}

void CandidateSection::showFigures() {
    const auto linear = m_solver.linear();
    m_rows->setFigures(linear ? linear->candidates : std::vector<Candidate>());
    showHead();
}

void CandidateSection::showHead() {
    const bool isCounted = m_rows->isCounted();
    std::vector<PanelTitle::Column> columns;
    if (isCounted) {
        columns.push_back({tr("have"), CandidateDelegate::haveRight()});
    }
    if (!m_now || !hasValue(m_now->kind)) {
        m_title->setTitle(tr("Types"));
        m_title->setColumns(std::move(columns));
        return;
    }
    m_title->setTitle(isCounted ? tr("Drawer") : tr("Assumed stock"));
    columns.push_back(
        {tr("at %1").arg(text(formatFrequency(m_selection.cursorHz()))), CandidateDelegate::changeRight(isCounted)});
    if (m_rows->hasCorners()) {
        columns.push_back({tr("corner Hz"), CandidateDelegate::cornerRight(isCounted)});
    }
    m_title->setColumns(std::move(columns));
}

/// For the value that is looked at: the ghost's while one is tried, else the one that is planned.
void CandidateSection::showTryOn() {
    QString words;
    if (m_now && hasValue(m_now->kind)) {
        const auto& ghost = m_selection.ghost();
        const auto* tried = ghost ? std::get_if<SwapValue>(&*ghost) : nullptr;
        const double target = tried != nullptr && tried->part == m_now->id ? tried->value : m_now->value;
        const Part* onBoard = findPart(m_document.job()->stock, m_now->id);
        if (onBoard != nullptr && !isSameValue(target, onBoard->value)) {
            words = tryOnWords(*m_document.job(), *onBoard, target, m_shop.onHand());
        }
    }
    m_tryOn->setText(words);
    m_tryOn->setVisible(!words.isEmpty());
}

}  // namespace ohmwright

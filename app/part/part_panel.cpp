// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/part_panel.h"

#include "app/background/solver_service.h"
#include "app/background/swap_checks.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/document/shop_document.h"
#include "app/look/figure_table.h"
#include "app/look/law_text.h"
#include "app/look/level_units.h"
#include "app/look/panel_title.h"
#include "app/look/said_text.h"
#include "app/look/text_link.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/look/value_field.h"
#include "app/part/alone_rows.h"
#include "app/part/candidate_list.h"
#include "app/part/candidate_model.h"
#include "app/part/check_rows.h"
#include "app/part/measured_entry.h"
#include "app/part/model_card.h"
#include "app/part/owner_list.h"
#include "app/part/part_head.h"
#include "app/part/part_words.h"
#include "app/part/stock_values.h"
#include "app/part/try_on_words.h"
#include "app/part/type_box.h"
#include "app/part/value_steps.h"
#include "core/base/number_text.h"
#include "core/base/value_text.h"
#include "core/plan/apply.h"
#include "core/plan/correct.h"
#include "core/plan/edits.h"
#include "core/plan/pick_list.h"

#include <QGridLayout>
#include <QMenu>
#include <QPainter>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include <algorithm>
#include <utility>

namespace ohmwright {

namespace {

constexpr int margin = 14;
constexpr int candidateCount = 5;

QString text(std::string_view utf8) {
    return QString::fromUtf8(utf8.data(), static_cast<qsizetype>(utf8.size()));
}

QString valueText(PartKind kind, double value) {
    return text(formatPartValue({value, unitOf(kind)}));
}

QFrame* ruler(QWidget* parent) {
    auto* line = new QFrame(parent);
    line->setFixedHeight(1);
    line->setAutoFillBackground(true);
    line->setBackgroundRole(QPalette::Midlight);
    return line;
}

/// A section below a ruler, with the panel's margins.
QVBoxLayout* section(QWidget& box, int sideMargin) {
    auto* outer = new QVBoxLayout(&box);
    outer->setContentsMargins(0, 0, 0, 0);
    outer->setSpacing(0);
    outer->addWidget(ruler(&box));
    auto* inner = new QVBoxLayout;
    inner->setContentsMargins(sideMargin, 10, sideMargin, 10);
    inner->setSpacing(4);
    outer->addLayout(inner);
    return inner;
}

std::optional<Part> partOf(const Circuit& circuit, const PartId& id) {
    const Part* part = findPart(circuit, id);
    return part ? std::optional(*part) : std::nullopt;
}

/// Ends of the values that are a list's own: at an end, the list moves on.
bool standsInside(const std::vector<double>& values, double value) {
    const auto found = std::find_if(values.begin(), values.end(), [value](double v) { return isSameValue(v, value); });
    return found != values.end() && found != values.begin() && found + 1 != values.end();
}

}  // namespace

PartPanel::PartPanel(JobDocument& document, Selection& selection, SolverService& solver, ShopDocument& shop,
                     QWidget* parent)
    : QWidget(parent),
      m_document(document),
      m_selection(selection),
      m_solver(solver),
      m_shop(shop),
      m_owners(new OwnerList(document, selection, this)),
      m_body(new QWidget(this)),
      m_head(new PartHead(this)),
      m_field(new ValueField(this)),
      m_type(new TypeBox(this)),
      m_elsewhere(new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, this)),
      m_swapChecks(new SwapChecks(document, selection, solver, this)),
      m_model(new ModelCard(this)),
      m_target(new QPushButton(tr("Find parts …"), this)),
      m_lift(new QPushButton(tr("Lift / bridge"), this)),
      m_measured(new MeasuredEntry(this)),
      m_sums(new TextLink(tr("Show the sums"), this)),
      m_differs(new TextLink(tr("Differs on the board …"), this)),
      m_drawing(new TextLink({}, this)) {
    setFixedWidth(sizeHint().width());
    m_elsewhere->setWordWrap(true);

    auto* top = new QVBoxLayout;
    top->setContentsMargins(margin, 12, margin, 10);
    top->setSpacing(10);
    top->addWidget(m_head);
    top->addWidget(m_field);
    top->addWidget(m_type);
    top->addWidget(m_elsewhere);
    auto* links = new QHBoxLayout;
    links->addWidget(m_measured, 1);
    links->addWidget(m_sums, 0, Qt::AlignTop | Qt::AlignLeft);
    top->addLayout(links);
    top->addWidget(m_differs, 0, Qt::AlignLeft);
    top->addWidget(m_drawing, 0, Qt::AlignLeft);

    // What may not fit a small window scrolls; the head and the value field stay.
    auto* sections = new QWidget;
    auto* rest = new QVBoxLayout(sections);
    rest->setContentsMargins(0, 0, 0, 0);
    rest->setSpacing(0);
    m_sections = rest;
    addCandidates(*rest);
    addAlone(*rest);
    addChecks(*rest);
    m_modelBox = new QWidget(sections);
    section(*m_modelBox, margin)->addWidget(m_model);
    rest->addWidget(m_modelBox);
    rest->addStretch(1);
    auto* scroll = new QScrollArea(this);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setWidgetResizable(true);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setWidget(sections);

    auto* body = new QVBoxLayout(m_body);
    body->setContentsMargins(0, 0, 0, 0);
    body->setSpacing(0);
    body->addLayout(top);
    body->addWidget(scroll, 1);
    body->addWidget(ruler(m_body));
    auto* buttons = new QHBoxLayout;
    buttons->setContentsMargins(margin, 10, margin, 10);
    buttons->setSpacing(8);
    buttons->addWidget(m_target);
    buttons->addWidget(m_lift);
    body->addLayout(buttons);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(m_owners, 1);
    layout->addWidget(m_body, 1);
    connectWidgets();
    showPart();
}

void PartPanel::addCandidates(QVBoxLayout& layout) {
    m_candidateBox = new QWidget(this);
    m_candidateTitle = new PanelTitle({}, m_candidateBox);
    m_candidates = new CandidateModel(this);
    m_list = new CandidateList(m_candidateBox);
    m_list->setAccessibleName(tr("Values of the drawer"));
    m_list->setModel(m_candidates);
    m_candidateNote = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink3, m_candidateBox);
    m_candidateNote->setWordWrap(true);
    m_candidateNote->setContentsMargins(margin, 2, margin, 0);
    auto* head = new QHBoxLayout;
    head->setContentsMargins(margin, 0, 0, 0);
    head->addWidget(m_candidateTitle);
    QVBoxLayout* inner = section(*m_candidateBox, 0);
    inner->addLayout(head);
    inner->addWidget(m_list);
    inner->addWidget(m_candidateNote);
    m_tryOn = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink2, m_candidateBox);
    m_tryOn->setWordWrap(true);
    m_tryOn->setContentsMargins(margin, 2, margin, 0);
    inner->addWidget(m_tryOn);
    layout.addWidget(m_candidateBox);
}

void PartPanel::addAlone(QVBoxLayout& layout) {
    m_aloneBox = new QWidget(this);
    m_alone = new FigureTable(m_aloneBox);
    m_alone->setAccessibleName(tr("This change alone"));
    m_aloneSpread = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink, m_aloneBox);
    m_aloneSpread->setWordWrap(true);
    m_aloneNote = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink3, m_aloneBox);
    m_aloneNote->setWordWrap(true);
    QVBoxLayout* inner = section(*m_aloneBox, margin);
    inner->addWidget(new PanelTitle(tr("This change alone"), m_aloneBox));
    inner->addWidget(m_alone);
    inner->addWidget(m_aloneSpread);
    inner->addWidget(m_aloneNote);
    layout.addWidget(m_aloneBox);
}

void PartPanel::addChecks(QVBoxLayout& layout) {
    m_checkBox = new QWidget(this);
    m_checkRows = new QGridLayout;
    m_checkRows->setHorizontalSpacing(12);
    m_checkRows->setVerticalSpacing(4);
    m_checkRows->setColumnStretch(1, 1);
    QVBoxLayout* inner = section(*m_checkBox, margin);
    inner->addWidget(new PanelTitle(tr("Checks after the swap"), m_checkBox));
    inner->addLayout(m_checkRows);
    layout.addWidget(m_checkBox);
}

void PartPanel::connectWidgets() {
    connect(m_field, &ValueField::valueEntered, this, [this](Quantity value) {
        if (const QString against = changeValue(value.si); !against.isEmpty()) {
            m_field->showError(against);
        }
    });
    connect(m_field, &ValueField::stepped, this, &PartPanel::stepValue);
    connect(m_list, &CandidateList::tried, this, [this](const QModelIndex& index) {
        const CandidateRow* row = m_candidates->rowAt(index);
        m_selection.setGhost(row && !row->isNow ? std::optional(row->change) : std::nullopt);
    });
    connect(m_list, &CandidateList::taken, this, [this](const QModelIndex& index) {
        if (const CandidateRow* row = m_candidates->rowAt(index)) {
            take(CandidateRow(*row));  // a copy: taking it rebuilds the list
        }
    });
    connect(m_owners, &OwnerList::partChosen, this, &PartPanel::partChosen);
    connect(m_target, &QPushButton::clicked, this, &PartPanel::targetAsked);
    connect(m_lift, &QPushButton::clicked, this, &PartPanel::showLiftMenu);
    connect(m_differs, &TextLink::clicked, this, &PartPanel::differsAsked);
    connect(m_drawing, &TextLink::clicked, this, &PartPanel::takeCorrectionBack);
    connect(m_sums, &TextLink::clicked, this, [this] {
        emit partSumsAsked({m_sums->mapToGlobal(QPoint(0, 0)), m_sums->size()});
    });
    connect(m_measured, &MeasuredEntry::entered, this, [this](std::optional<double> value) {
        m_document.edit(setPartMeasured(*m_document.job(), m_now->id, value),
                        tr("Measure %1").arg(text(m_now->reference)));
    });
    m_alone->setPressable(true);
    connect(m_alone, &FigureTable::rowPressed, this, [this](int row, const QRect& box) {
        emit sumsAsked(m_alone->rows().at(static_cast<std::size_t>(row)).sums, box);
    });
    connect(&m_document, &JobDocument::jobChanged, this, &PartPanel::showPart);
    connect(&m_selection, &Selection::partChanged, this, [this] {
        m_values.clear();
        m_selection.setGhost(std::nullopt);
        // The answers at hand are about the part before.
        m_candidates->setFigures({});
        m_alone->setRows({});
        m_aloneSpread->hide();
        showPart();
    });
    connect(&m_selection, &Selection::ghostChanged, this, [this] {
        m_candidates->setGhost(m_selection.ghost());
        showTryOn();
    });
    connect(&m_shop, &ShopDocument::shopChanged, this, [this] {
        m_values.clear();
        showPart();
    });
    connect(m_swapChecks, &SwapChecks::changed, this, &PartPanel::showChecks);
    connect(&m_selection, &Selection::cursorChanged, this, &PartPanel::showCandidateHead);
    connect(&m_solver, &SolverService::linearReady, this, &PartPanel::showAnswers);
    connect(&m_solver, &SolverService::largeSignalReady, this, &PartPanel::showAnswers);
    connect(&m_solver, &SolverService::stateChanged, this, &PartPanel::followState);
    connect(&LevelUnits::current(), &LevelUnits::changed, this, &PartPanel::followState);
    connect(&Theme::current(), &Theme::changed, this, [this] {
        setFixedWidth(sizeHint().width());
        showCandidateHead();
    });
}

QSize PartPanel::sizeHint() const {
    return {qRound(space::rightRail * Theme::current().textScale()), 600};
}

void PartPanel::setModels(std::vector<Model> models) {
    m_models = std::move(models);
    showPart();
}

void PartPanel::setPartsWithSums(std::set<PartId> parts) {
    m_partsWithSums = std::move(parts);
    m_sums->setVisible(m_now && m_partsWithSums.contains(m_now->id));
}

const Mod* PartPanel::plannedMod() const {
    return modOnPart(m_document.job()->plan, m_selection.part());
}

std::vector<StockValue> PartPanel::stockOfKind() const {
    return m_now ? stockValues(m_shop.onHand(), m_now->kind, reservationName(*m_document.job()))
                 : std::vector<StockValue>();
}

std::optional<int> PartPanel::leftOf(const std::vector<StockValue>& stock, double value) const {
    return m_shop.onHand().lots.empty() ? std::nullopt : std::optional(leftOfValue(stock, value));
}

void PartPanel::showPart() {
    const Job& job = *m_document.job();
    const Result<Circuit> now = nowCircuit(job);
    m_now = partOf(now ? *now : job.stock, m_selection.part());
    m_stock = partOf(job.stock, m_selection.part());
    if (!m_stock) {
        m_stock = m_now;  // fitted by a mod: there is nothing before it
    }
    m_body->setVisible(m_now.has_value());
    m_owners->setVisible(!m_now);
    if (!m_now) {
        m_selection.setCandidateValues({});
        return;
    }
    // The body that stands in the unit says what the place is like; a planned part is not chosen yet.
    m_head->show(*m_stock, plannedMod());
    const QString elsewhere = setElsewhere(job.stock, *m_now);
    const bool isChangedHere = elsewhere.isEmpty();
    const bool isValued = isChangedHere && hasValue(m_now->kind);
    const bool isTyped = isChangedHere && !m_now->model.empty();
    m_elsewhere->setText(isChangedHere ? lawText(*m_now) : elsewhere);
    m_elsewhere->setVisible(!m_elsewhere->text().isEmpty());
    m_field->setVisible(isValued);
    m_type->setVisible(isTyped);
    m_modelBox->setVisible(isTyped);
    m_candidateBox->setVisible(isValued || isTyped);
    m_lift->setVisible(isChangedHere && pinCount(m_now->kind) > 0);
    m_sums->setVisible(m_partsWithSums.contains(m_now->id));
    const Part* onBoard = findPart(job.stock, m_now->id);
    const bool isMeasurable = isValued && onBoard != nullptr;
    m_measured->setVisible(isMeasurable);
    if (isMeasurable) {
        m_measured->show(*onBoard);
    }
    showCorrection();
    if (isValued) {
        showValue(*m_stock, *m_now);
    } else if (isTyped) {
        showType(*m_stock, *m_now);
    } else {
        m_selection.setCandidateValues({});
    }
    m_candidates->setGhost(m_selection.ghost());
    showCandidateHead();
    // A list of types may be long: what the change does stands before it.
    if (m_sections->indexOf(m_aloneBox) != (isTyped ? 0 : 1)) {
        m_sections->removeWidget(m_aloneBox);
        m_sections->insertWidget(isTyped ? 0 : 1, m_aloneBox);
    }
    m_aloneBox->setVisible(plannedMod() != nullptr);
    showTryOn();
    showChecks();
}

void PartPanel::showCorrection() {
    const Job& job = *m_document.job();
    m_differs->setVisible(findPart(job.stock, m_now->id) != nullptr);
    const std::string drawing = drawingSays(job, m_now->id);
    m_drawing->setVisible(!drawing.empty());
    m_drawing->setText(tr("%1: take back").arg(text(drawing)));
    m_drawing->setAccessibleName(m_drawing->text());
    m_drawing->updateGeometry();
}

void PartPanel::takeCorrectionBack() {
    const Job& job = *m_document.job();
    for (std::size_t k = job.corrections.size(); k-- > 0;) {
        if (job.corrections[k].part == m_now->id) {
            m_document.edit(takeBackCorrection(job, k),
                            tr("Take the correction of %1 back").arg(text(m_now->reference)));
            return;
        }
    }
}

void PartPanel::showValue(const Part& stock, const Part& now) {
    const Unit unit = unitOf(now.kind);
    m_field->setSubject({text(displayName(now)), {stock.value, unit}, {now.value, unit}});
    m_field->setNote(valueNote(stock, now));
    m_candidates->setRows(valueRows(stock, now));
    m_list->updateGeometry();
    m_selection.setCandidateValues(m_values);
    const bool isCounted = !m_shop.onHand().lots.empty();
    const QString series = seriesName(shopSeries(now.kind));
    m_candidateNote->setText(!isCounted              ? tr("assumed stock: %1").arg(series)
                             : stockOfKind().empty() ? tr("the drawer knows no such part: %1 stands here").arg(series)
                                                     : QString());
    m_candidateNote->setVisible(!m_candidateNote->text().isEmpty());
}

void PartPanel::showType(const Part& stock, const Part& now) {
    m_type->setTexts(stock.model == now.model ? QString() : text(stock.model), text(now.model));
    m_candidates->setRows(typeRows(stock, now));
    m_list->updateGeometry();
    m_selection.setCandidateValues({});
    m_candidateNote->setVisible(true);
    m_candidateNote->setText(m_candidates->rowCount() > 1
                                 ? tr("Point at a type to try it as a ghost; press it to take it.")
                                 : tr("no other type of this kind in the part library"));
    for (const CandidateRow& row : m_candidates->rows()) {
        if (row.isNow) {
            m_model->show(std::get<SwapType>(row.change).model);
        }
    }
}

/// The values stay where they are while the new one is among them, so that no row moves under the pointer.
std::vector<CandidateRow> PartPanel::valueRows(const Part& stock, const Part& now) {
    const std::vector<StockValue> stocked = stockOfKind();
    if (!standsInside(m_values, now.value)) {
        m_values = stocked.empty() ? valuesAround(now.value, now.kind, candidateCount)
                                   : stockAround(stocked, now.value, candidateCount);
    }
    std::vector<CandidateRow> rows;
    for (const double value : m_values) {
        rows.push_back({SwapValue{now.id, value}, valueText(now.kind, value), isSameValue(value, now.value),
                        isSameValue(value, stock.value), leftOf(stocked, value)});
    }
    return rows;
}

std::vector<CandidateRow> PartPanel::typeRows(const Part& stock, const Part& now) const {
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

void PartPanel::showCandidateHead() {
    const bool isCounted = m_candidates->isCounted();
    std::vector<PanelTitle::Column> columns;
    if (isCounted) {
        columns.push_back({tr("have"), CandidateDelegate::haveRight()});
    }
    if (!m_now || !hasValue(m_now->kind)) {
        m_candidateTitle->setTitle(tr("Types"));
        m_candidateTitle->setColumns(std::move(columns));
        return;
    }
    m_candidateTitle->setTitle(isCounted ? tr("Drawer") : tr("Assumed stock"));
    columns.push_back(
        {tr("at %1").arg(text(formatFrequency(m_selection.cursorHz()))), CandidateDelegate::changeRight(isCounted)});
    if (m_candidates->hasCorners()) {
        columns.push_back({tr("corner Hz"), CandidateDelegate::cornerRight(isCounted)});
    }
    m_candidateTitle->setColumns(std::move(columns));
}

/// For the value that is looked at: the ghost's while one is tried, else the one that is planned.
void PartPanel::showTryOn() {
    QString words;
    if (m_now && m_stock && hasValue(m_now->kind)) {
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

void PartPanel::showChecks() {
    while (QLayoutItem* item = m_checkRows->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    m_checkBox->setVisible(m_now && plannedMod() != nullptr);
    const auto add = [this](const QString& word, const QString& words) {
        const int row = m_checkRows->rowCount();
        auto* name = new ThemedLabel(TextRole::body, false, &ThemeColours::ink3, m_checkBox);
        auto* sentence = new ThemedLabel(TextRole::body, false, &ThemeColours::ink, m_checkBox);
        name->setText(word);
        sentence->setText(words);
        sentence->setWordWrap(true);
        m_checkRows->addWidget(name, row, 0, Qt::AlignTop);
        m_checkRows->addWidget(sentence, row, 1);
    };
    const SwapChecksAnswer* answer = m_swapChecks->answer();
    if (answer == nullptr) {
        add({}, m_solver.fault().isEmpty() ? tr("solving") : tr("not current"));
        return;
    }
    if (!answer->fault.isEmpty()) {
        add({}, answer->fault);
    }
    for (const CheckRow& row : checkRows(answer->checks)) {
        add(row.word, row.words);
    }
}

void PartPanel::showAnswers() {
    const auto linear = m_solver.linear();
    m_candidates->setFigures(linear ? linear->candidates : std::vector<Candidate>());
    m_alone->setRows(aloneRows(linear.get(), m_solver.largeSignal().get()));
    m_aloneSpread->setText(linear ? aloneAgainstSpread(*linear) : QString());
    m_aloneSpread->setVisible(!m_aloneSpread->text().isEmpty());
    const Setting& setting = m_document.job()->setting;
    m_aloneNote->setText(tr("threshold and peak: %1, %2")
                             .arg(text(formatFrequency(setting.toneHz)), pickLevelText(setting.pickVoltsPeak)));
    showCandidateHead();
}

/// While a value turns the last figures stay; when the service says that they are old, the panel says it too.
void PartPanel::followState() {
    if (m_solver.isCurrent()) {
        showAnswers();
    } else {
        m_aloneNote->setText(m_solver.fault().isEmpty() ? tr("solving") : tr("not current: %1").arg(m_solver.fault()));
    }
}

void PartPanel::take(const CandidateRow& row) {
    m_selection.setGhost(std::nullopt);
    if (const auto* value = std::get_if<SwapValue>(&row.change)) {
        changeValue(value->value);
    } else if (const auto* type = std::get_if<SwapType>(&row.change)) {
        m_document.edit(setPartType(*m_document.job(), type->part, type->model),
                        tr("Change %1 to %2").arg(text(m_now->reference), row.name));
    }
}

QString PartPanel::changeValue(double value) {
    if (!m_now || isSameValue(value, m_now->value)) {
        return {};
    }
    const Part part = *m_now;
    Result<Job> edited = setPartValue(*m_document.job(), part.id, value);
    const QString against = edited ? QString() : text(edited.error().message);
    m_document.edit(std::move(edited), tr("Change %1 to %2").arg(text(part.reference), valueText(part.kind, value)),
                    JobAspect::electrical, MergeKind::value, text(part.id));
    return against;
}

void PartPanel::stepValue(int steps, Qt::KeyboardModifiers modifiers) {
    if (m_now && hasValue(m_now->kind) && setElsewhere(m_document.job()->stock, *m_now).isEmpty()) {
        const bool isPlain = !(modifiers & (Qt::ControlModifier | Qt::ShiftModifier | Qt::AltModifier));
        const std::vector<StockValue> stocked = stockOfKind();
        changeValue(isPlain && !stocked.empty() ? steppedInStock(stocked, m_now->value, steps)
                                                : steppedValue(m_now->value, m_now->kind, steps, modifiers));
    }
}

void PartPanel::beginTyping(const QString& typed) {
    if (!m_field->isHidden() && m_now) {
        m_field->startTyping(typed);
    }
}

void PartPanel::showLiftMenu() {
    if (!m_now) {
        return;
    }
    auto* menu = new QMenu(this);
    menu->setAttribute(Qt::WA_DeleteOnClose);
    const auto offer = [&](const Change& change, const QString& detail) {
        const QString words = text(describeChange(m_document.job()->stock, change));
        connect(menu->addAction(words + detail), &QAction::triggered, this, [this, change, words] {
            m_document.edit(addMod(*m_document.job(), change), text(displayName(*m_now)) + ": " + words);
        });
    };
    const int pins = pinCount(m_now->kind);
    const auto senseOf = [this](int pin) {
        const QString name = saidText(pinName(m_now->kind, pin));
        return name.size() > 1 ? " (" + name + ")" : QString();
    };
    for (int pin = 0; pin < pins; ++pin) {
        offer(Lift{m_now->id, pin}, senseOf(pin));
    }
    menu->addSeparator();
    for (int first = 0; first < pins; ++first) {
        for (int second = first + 1; second < pins; ++second) {
            offer(Bridge{m_now->id, first, second}, {});
        }
    }
    menu->popup(m_lift->mapToGlobal(QPoint(0, -menu->sizeHint().height())));
}

void PartPanel::paintEvent(QPaintEvent*) {
    QPainter(this).fillRect(rect(), Theme::current().colours().panel);
}

}  // namespace ohmwright

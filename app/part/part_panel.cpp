// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/part_panel.h"

#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/document/shop_document.h"
#include "app/look/law_text.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "app/look/text_link.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/look/value_field.h"
#include "app/part/alone_section.h"
#include "app/part/candidate_section.h"
#include "app/part/check_section.h"
#include "app/part/measured_entry.h"
#include "app/part/model_card.h"
#include "app/part/owner_list.h"
#include "app/part/panel_section.h"
#include "app/part/part_head.h"
#include "app/part/part_words.h"
#include "app/part/stock_values.h"
#include "app/part/type_box.h"
#include "app/part/value_steps.h"
#include "core/base/value_text.h"
#include "core/plan/apply.h"
#include "core/plan/correct.h"
#include "core/plan/edits.h"
#include "core/plan/pick_list.h"

#include <QMenu>
#include <QPainter>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include <utility>

namespace ohmwright {

namespace {

QString valueText(PartKind kind, double value) {
    return text(formatPartValue({value, unitOf(kind)}));
}

std::optional<Part> partOf(const Circuit& circuit, const PartId& id) {
    const Part* part = findPart(circuit, id);
    return part ? std::optional(*part) : std::nullopt;
}

}  // namespace

PartPanel::PartPanel(JobDocument& document, Selection& selection, SolverService& solver, ShopDocument& shop,
                     QWidget* parent)
    : QWidget(parent),
      m_document(document),
      m_selection(selection),
      m_shop(shop),
      m_owners(new OwnerList(document, selection, this)),
      m_body(new QWidget(this)),
      m_head(new PartHead(this)),
      m_field(new ValueField(this)),
      m_type(new TypeBox(this)),
      m_elsewhere(new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, this)),
      m_model(new ModelCard(this)),
      m_target(new QPushButton(tr("Find parts …"), this)),
      m_lift(new QPushButton(tr("Lift / bridge"), this)),
      m_measured(new MeasuredEntry(this)),
      m_sums(new TextLink(tr("Show the sums"), this)),
      m_differs(new TextLink(tr("Differs on the board …"), this)),
      m_drawing(new TextLink({}, this)) {
    setFixedWidth(PartPanel::sizeHint().width());
    m_elsewhere->setWordWrap(true);

    auto* top = new QVBoxLayout;
    top->setContentsMargins(partMargin, 12, partMargin, 10);
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
    m_candidates = new CandidateSection(document, selection, solver, shop, sections);
    m_alone = new AloneSection(document, solver, sections);
    m_checks = new CheckSection(document, selection, solver, sections);
    m_modelBox = new QWidget(sections);
    layOutSection(*m_modelBox)->addWidget(m_model);
    for (QWidget* box : std::initializer_list<QWidget*>{m_candidates, m_alone, m_checks, m_modelBox}) {
        rest->addWidget(box);
    }
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
    buttons->setContentsMargins(partMargin, 10, partMargin, 10);
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

void PartPanel::connectWidgets() {
    connect(m_field, &ValueField::valueEntered, this, [this](Quantity value) {
        if (const QString against = changeValue(value.si); !against.isEmpty()) {
            m_field->showError(against);
        }
    });
    connect(m_field, &ValueField::stepped, this, &PartPanel::stepValue);
    connect(m_candidates, &CandidateSection::taken, this, &PartPanel::take);
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
    connect(m_alone, &AloneSection::sumsAsked, this, &PartPanel::sumsAsked);
    connect(&m_document, &JobDocument::jobChanged, this, &PartPanel::showPart);
    connect(&m_selection, &Selection::partChanged, this, [this] {
        m_selection.setGhost(std::nullopt);
        m_candidates->forgetValues();
        m_candidates->forgetFigures();
        m_alone->forget();
        showPart();
    });
    connect(&m_shop, &ShopDocument::shopChanged, this, [this] {
        m_candidates->forgetValues();
        showPart();
    });
    connect(&Theme::current(), &Theme::changed, this, [this] { setFixedWidth(PartPanel::sizeHint().width()); });
}

QSize PartPanel::sizeHint() const {
    return {qRound(space::rightRail * Theme::current().textScale()), 600};
}

void PartPanel::setModels(std::vector<Model> models) {
    m_candidates->setModels(std::move(models));
    showPart();
}

void PartPanel::setPartsWithSums(std::set<PartId> parts) {
    m_partsWithSums = std::move(parts);
    m_sums->setVisible(m_now && m_partsWithSums.contains(m_now->id));
}

const Mod* PartPanel::plannedMod() const {
    return modOnPart(m_document.job()->plan, m_selection.part());
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
        m_candidates->showNothing();
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
    m_candidates->setVisible(isValued || isTyped);
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
        m_candidates->showNothing();
    }
    // A list of types may be long: what the change does stands before it.
    if (m_sections->indexOf(m_alone) != (isTyped ? 0 : 1)) {
        m_sections->removeWidget(m_alone);
        m_sections->insertWidget(isTyped ? 0 : 1, m_alone);
    }
    m_alone->setVisible(plannedMod() != nullptr);
    m_checks->setVisible(plannedMod() != nullptr);
    m_checks->showChecks();
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
    m_candidates->showValues(stock, now);
}

void PartPanel::showType(const Part& stock, const Part& now) {
    m_type->setTexts(stock.model == now.model ? QString() : text(stock.model), text(now.model));
    m_candidates->showTypes(stock, now);
    if (const Model* model = m_candidates->modelOfNow()) {
        m_model->show(*model);
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
    QString against = edited ? QString() : text(edited.error().message);
    m_document.edit(std::move(edited), tr("Change %1 to %2").arg(text(part.reference), valueText(part.kind, value)),
                    JobAspect::electrical, MergeKind::value, text(part.id));
    return against;
}

void PartPanel::stepValue(int steps, Qt::KeyboardModifiers modifiers) {
    if (m_now && hasValue(m_now->kind) && setElsewhere(m_document.job()->stock, *m_now).isEmpty()) {
        const bool isPlain = !(modifiers & (Qt::ControlModifier | Qt::ShiftModifier | Qt::AltModifier));
        const std::vector<StockValue> stocked =
            stockValues(m_shop.onHand(), m_now->kind, reservationName(*m_document.job()));
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

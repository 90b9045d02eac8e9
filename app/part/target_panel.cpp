// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/target_panel.h"

#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/document/shop_document.h"
#include "app/look/panel_title.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/part/target_model.h"
#include "core/base/number_text.h"
#include "core/base/value_text.h"
#include "core/circuit/gain_leg.h"
#include "core/measure/figures.h"
#include "core/plan/apply.h"
#include "core/plan/edits.h"
#include "core/plan/pick_list.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QLocale>
#include <QPainter>
#include <QProgressBar>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

constexpr int margin = 14;
constexpr std::size_t mostParts = 4;  // Of a request (core/plan/targets.h).
constexpr const char* cornerFigure = "gain_leg_corner";
constexpr const char* gainFigure = "plateau_gain";

double threeDigits(double value) {
    const double unit = std::pow(10.0, std::floor(std::log10(value)) - 2.0);
    return std::round(value / unit) * unit;
}

/// "590", "0,59k" as the trade writes numbers; nothing when it is none.
std::optional<double> numberIn(QString words) {
    words = words.trimmed().replace(QChar(0x2212), '-').replace(',', '.');
    double factor = 1.0;
    if (words.endsWith('k', Qt::CaseInsensitive)) {
        factor = 1e3;
        words.chop(1);
    }
    bool isNumber = false;
    const double value = QLocale::c().toDouble(words.trimmed(), &isNumber) * factor;
    return isNumber && std::isfinite(value) ? std::optional(value) : std::nullopt;
}

bool canChange(const Part& part) {
    return part.kind == PartKind::resistor || part.kind == PartKind::capacitor || part.kind == PartKind::inductor ||
           part.kind == PartKind::potentiometer;
}

std::optional<GainLeg> legOf(const Job& job) {
    const Result<Circuit> now = nowCircuit(job);
    return now ? findGainLeg(*now, now->ports.clipNode, potOhmsAt(*now, job.setting)) : std::nullopt;
}

}  // namespace

TargetPanel::TargetPanel(JobDocument& document, Selection& selection, ShopDocument& shop, QWidget* parent)
    : QWidget(parent), m_document(document), m_selection(selection), m_shop(shop), m_service(document) {
    setFixedWidth(TargetPanel::sizeHint().width());
    build();
    connect(&m_service, &TargetService::changed, this, &TargetPanel::showState);
    connect(&m_document, &JobDocument::jobChanged, this, &TargetPanel::followJob);
    connect(&m_selection, &Selection::partChanged, this, &TargetPanel::followSelection);
    connect(&m_selection, &Selection::cursorChanged, this, [this] { followJob(); });
    connect(&Theme::current(), &Theme::changed, this, [this] { setFixedWidth(TargetPanel::sizeHint().width()); });
}

QSize TargetPanel::sizeHint() const {
    return {qRound(space::rightRail * Theme::current().textScale()), 600};
}

void TargetPanel::build() {
    auto* back = new QPushButton(tr("Back to the part"), this);
    m_partLayout = new QVBoxLayout;
    m_partLayout->setSpacing(4);
    m_addPart = new QPushButton(this);
    m_find = new QPushButton(tr("Find parts"), this);
    m_progress = new QProgressBar(this);
    m_progress->setRange(0, 100);
    m_progress->setTextVisible(false);
    m_progress->setFixedHeight(6);
    m_progress->setAccessibleName(tr("Search"));
    m_message = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink2, this);
    m_message->setWordWrap(true);
    m_answers = new TargetModel(this);
    auto* list = new TargetAnswers(this);
    list->setModel(m_answers);
    m_list = list;
    m_fit = new QPushButton(tr("Plan this answer"), this);

    auto* top = new QVBoxLayout;
    top->setContentsMargins(margin, 12, margin, 10);
    top->setSpacing(8);
    top->addWidget(new PanelTitle(tr("What is wanted"), this));
    addWant(*top, tr("corner"), cornerFigure, "Hz");
    addWant(*top, tr("plateau gain"), gainFigure, "dB");
    addWant(*top, tr("at the cursor"), {}, "dB");
    top->addWidget(new PanelTitle(tr("Parts that may change"), this));
    top->addLayout(m_partLayout);
    top->addWidget(m_addPart);
    top->addWidget(m_find);
    top->addWidget(m_progress);
    top->addWidget(m_message);
    auto* buttons = new QHBoxLayout;
    buttons->setContentsMargins(margin, 10, margin, 10);
    buttons->setSpacing(8);
    buttons->addWidget(m_fit);
    buttons->addWidget(back);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addLayout(top);
    layout->addWidget(m_list, 1);
    layout->addLayout(buttons);

    connect(back, &QPushButton::clicked, this, [this] {
        m_selection.setGhost(std::nullopt);
        emit closed();
    });
    connect(m_find, &QPushButton::clicked, this, [this] { m_service.isRunning() ? m_service.stop() : search(); });
    connect(m_addPart, &QPushButton::clicked, this, [this] {
        addPart(m_selection.part(), true);
        followSelection();
    });
    connect(list, &TargetAnswers::tried, this, &TargetPanel::tryAnswer);
    connect(list, &TargetAnswers::accepted, this, &TargetPanel::fitAnswer);
    connect(m_fit, &QPushButton::clicked, this, &TargetPanel::fitAnswer);
    showState();
}

void TargetPanel::addWant(QVBoxLayout& layout, const QString& name, const QString& figure, const QString& unit) {
    auto* label = new ThemedLabel(TextRole::body, false, &ThemeColours::ink3, this);
    label->setText(name);
    auto* entry = new QLineEdit(this);
    entry->setAccessibleName(tr("wanted %1").arg(name));
    entry->setAlignment(Qt::AlignRight);
    auto* unitLabel = new ThemedLabel(TextRole::body, false, &ThemeColours::ink3, this);
    unitLabel->setText(unit);
    unitLabel->setFixedWidth(26);
    entry->setFixedWidth(96);
    auto* row = new QHBoxLayout;
    row->addWidget(label, 1);
    row->addWidget(entry);
    row->addWidget(unitLabel);
    layout.addLayout(row);
    connect(entry, &QLineEdit::returnPressed, this, &TargetPanel::search);
    m_wants.push_back({figure, label, entry, unitLabel});
}

void TargetPanel::begin() {
    for (auto& [part, box] : m_parts) {
        delete box;
    }
    m_parts.clear();
    for (const WantField& want : m_wants) {
        want.entry->clear();
    }
    const auto leg = legOf(*m_document.job());
    if (leg) {
        for (const auto& parts : {leg->resistors, leg->capacitors}) {
            for (const PartId& part : parts) {
                addPart(part, true);
            }
        }
    }
    if (m_parts.empty()) {
        addPart(m_selection.part(), true);
    }
    followJob();
    followSelection();
    showState();
    const auto first =
        std::find_if(m_wants.begin(), m_wants.end(), [](const WantField& want) { return !want.entry->isHidden(); });
    if (first != m_wants.end()) {
        first->entry->setFocus();
    }
}

void TargetPanel::wantCorner(double hz) {
    m_wants.front().entry->setText(numberText(threeDigits(hz), 'g', 6));
    search();
}

void TargetPanel::addPart(const PartId& id, bool mayChange) {
    const Result<Circuit> now = nowCircuit(*m_document.job());
    const Part* part = now ? findPart(*now, id) : nullptr;
    const bool isListed =
        std::any_of(m_parts.begin(), m_parts.end(), [&id](const auto& listed) { return listed.first == id; });
    if (part == nullptr || isListed || m_parts.size() >= mostParts || !canChange(*part)) {
        return;
    }
    auto* box = new QCheckBox(this);
    box->setChecked(mayChange);
    m_partLayout->addWidget(box);
    m_parts.emplace_back(id, box);
    followJob();
}

/// What stands in the fields' places while nothing is typed: how it is now.
void TargetPanel::followJob() {
    const Job& job = *m_document.job();
    const Result<Circuit> now = nowCircuit(job);
    const auto leg = legOf(job);
    for (std::size_t i = 0; i < 2; ++i) {
        for (QWidget* widget : std::initializer_list<QWidget*>{m_wants[i].name, m_wants[i].entry, m_wants[i].unit}) {
            widget->setVisible(leg.has_value());
        }
    }
    if (leg) {
        m_wants[0].entry->setPlaceholderText(tr("now %1").arg(text(formatFigure(leg->cornerHz()))));
    }
    m_wants[2].name->setText(tr("at %1").arg(text(formatFrequency(m_selection.cursorHz()))));
    for (auto listed = m_parts.begin(); listed != m_parts.end();) {
        const Part* part = now ? findPart(*now, listed->first) : nullptr;
        if (part == nullptr) {
            delete listed->second;
            listed = m_parts.erase(listed);
            continue;
        }
        listed->second->setText(text(displayName(*part)) + "  " +
                                text(formatPartValue({part->value, unitOf(part->kind)})));
        ++listed;
    }
}

void TargetPanel::followSelection() {
    const Result<Circuit> now = nowCircuit(*m_document.job());
    const Part* part = now ? findPart(*now, m_selection.part()) : nullptr;
    const bool isListed = std::any_of(m_parts.begin(), m_parts.end(),
                                      [this](const auto& listed) { return listed.first == m_selection.part(); });
    const bool canAdd = part != nullptr && canChange(*part) && !isListed && m_parts.size() < mostParts;
    m_addPart->setEnabled(canAdd);
    m_addPart->setText(canAdd ? tr("Let %1 change too").arg(text(displayName(*part)))
                              : tr("Select a part to let it change too"));
}

void TargetPanel::search() {
    TargetRequest request;
    QString wrong;
    for (const WantField& want : m_wants) {
        if (want.entry->isHidden() || want.entry->text().trimmed().isEmpty()) {
            continue;
        }
        const auto value = numberIn(want.entry->text());
        if (!value) {
            wrong = tr("“%1” is no number: type for example 590 or 0.59k.").arg(want.entry->text());
            break;
        }
        const std::string figure = want.figure.isEmpty()
                                       ? "response@" + QString::number(m_selection.cursorHz(), 'g', 8).toStdString()
                                       : want.figure.toStdString();
        Result<Want> read = readWant(figure + "=" + QString::number(*value, 'g', 12).toStdString());
        if (!read) {
            wrong = text(read.error().message);
            break;
        }
        request.wants.push_back(*std::move(read));
    }
    for (const auto& [part, box] : m_parts) {
        if (box->isChecked()) {
            request.parts.push_back(part);
        }
    }
    if (wrong.isEmpty() && request.wants.empty()) {
        wrong = tr("Type at least one figure that is wanted.");
    }
    if (wrong.isEmpty() && request.parts.empty()) {
        wrong = tr("Choose at least one part that may change.");
    }
    if (!wrong.isEmpty()) {
        m_message->setText(wrong);
        return;
    }
    request.drawer = m_shop.onHand();
    request.forJob = reservationName(*m_document.job());
    m_selection.setGhost(std::nullopt);
    m_service.search(request);
}

void TargetPanel::showState() {
    const bool isRunning = m_service.isRunning();
    m_find->setText(isRunning ? tr("Stop") : tr("Find parts"));
    m_progress->setVisible(isRunning);
    m_progress->setValue(qRound(100.0 * m_service.progress()));
    const auto outcome = m_service.outcome();
    // What was found for another state of the job is not shown as an answer.
    m_answers->setOutcome(m_service.isCurrent() ? outcome : nullptr);
    if (isRunning) {
        m_message->setText(tr("searching the drawer"));
    } else if (!outcome) {
        m_message->setText(m_shop.onHand().lots.empty() ? tr("assumed stock: preferred values") : "");
    } else if (!m_service.isCurrent()) {
        m_message->setText(tr("The plan has changed since the last search: find again."));
    } else if (!outcome->list) {
        m_message->setText(text(outcome->list.error().message));
    } else {
        const TargetList& found = *outcome->list;
        const QString looked = tr("%1 combinations looked at, %2 circuits solved")
                                   .arg(shownLocale().toString(static_cast<qulonglong>(found.considered)))
                                   .arg(shownLocale().toString(static_cast<qulonglong>(found.solved)));
        m_message->setText(found.note.empty() ? looked : looked + "; " + text(found.note));
    }
    m_fit->setEnabled(chosenAnswer() != nullptr && m_service.isCurrent());
}

const TargetAnswer* TargetPanel::chosenAnswer() const {
    return m_answers->answerAt(m_list->currentIndex());
}

std::vector<Change> TargetPanel::changesFor(const TargetAnswer& answer) const {
    const Result<Circuit> now = nowCircuit(*m_document.job());
    return now ? changesOf(*now, m_answers->asPrinted(answer)) : std::vector<Change>();
}

void TargetPanel::tryAnswer(const QModelIndex& index) {
    const TargetAnswer* answer = m_answers->answerAt(index);
    const std::vector<Change> changes = answer != nullptr ? changesFor(*answer) : std::vector<Change>();
    m_selection.setGhost(changes.empty() ? std::nullopt : std::optional(asOneChange(changes)));
    m_fit->setEnabled(!changes.empty());
}

void TargetPanel::fitAnswer() {
    const TargetAnswer* answer = chosenAnswer();
    if (answer == nullptr || !m_service.isCurrent()) {
        return;
    }
    const std::vector<Change> changes = changesFor(*answer);
    const QString words = m_list->currentIndex().data().toString();
    m_selection.setGhost(std::nullopt);
    if (m_document.edit(planChanges(*m_document.job(), changes), tr("Plan %1").arg(words))) {
        emit closed();
    }
}

void TargetPanel::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        m_selection.setGhost(std::nullopt);
        emit closed();
        return;
    }
    QWidget::keyPressEvent(event);
}

void TargetPanel::paintEvent(QPaintEvent*) {
    QPainter(this).fillRect(rect(), Theme::current().colours().panel);
}

}  // namespace ohmwright

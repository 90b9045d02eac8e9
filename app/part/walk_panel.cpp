// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/walk_panel.h"

#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/look/panel_title.h"
#include "app/look/sign_text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "core/base/number_text.h"
#include "core/base/value_text.h"
#include "core/bench/net_words.h"
#include "core/plan/apply.h"
#include "core/plan/board_walk.h"
#include "core/plan/edits.h"
#include "core/plan/papers.h"

#include <QDateTime>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPainter>
#include <QProgressBar>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

constexpr int margin = 14;
constexpr double percent = 100.0;

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QLabel* wrapped(TextRole role, bool bold, QColor ThemeColours::*colour, QWidget* parent) {
    auto* label = new ThemedLabel(role, bold, colour, parent);
    label->setWordWrap(true);
    return label;
}

QPushButton* button(const QString& words, QWidget* parent) {
    auto* made = new QPushButton(words, parent);
    made->setFocusPolicy(Qt::NoFocus);  // The panel keeps the keys of the walk.
    return made;
}

/// How the part is known, with what the drawing said before it was put right.
QString knowledgeWords(const Job& job, const Part& part) {
    QString words = "known from the drawing alone";
    if (part.knowledge == Knowledge::seen) {
        words = "seen on the board";
    } else if (part.measured) {
        words = QString("measured %1").arg(text(formatPartValue({*part.measured, unitOf(part.kind)})));
    }
    const std::string drawing = drawingSays(job, part.id);
    return drawing.empty() ? words : words + "; corrected: " + text(drawing);
}

QString plannedWords(const Job& job, const Part& part) {
    const Result<Circuit> now = nowCircuit(job);
    const Part* planned = now ? findPart(*now, part.id) : nullptr;
    if (now && planned == nullptr) {
        return "a mod of the plan takes it out";
    }
    const bool isChanged = planned != nullptr && valueWords(*planned) != valueWords(part);
    return isChanged ? QString("planned: %1").arg(text(valueWords(*planned))) : QString();
}

}  // namespace

WalkPanel::WalkPanel(JobDocument& document, Selection& selection, QWidget* parent)
    : QWidget(parent),
      m_document(document),
      m_selection(selection),
      m_progress(wrapped(TextRole::body, false, &ThemeColours::ink, this)),
      m_bar(new QProgressBar(this)),
      m_name(wrapped(TextRole::lead, true, &ThemeColours::ink, this)),
      m_role(wrapped(TextRole::body, false, &ThemeColours::ink2, this)),
      m_value(wrapped(TextRole::lead, true, &ThemeColours::ink, this)),
      m_printed(wrapped(TextRole::body, false, &ThemeColours::ink, this)),
      m_place(wrapped(TextRole::body, false, &ThemeColours::ink2, this)),
      m_keys(wrapped(TextRole::caption, false, &ThemeColours::ink3, this)),
      m_state(new SignText(this)),
      m_readingBox(new QWidget(this)),
      m_reading(new QLineEdit(m_readingBox)),
      m_echo(wrapped(TextRole::body, false, &ThemeColours::ink, m_readingBox)),
      m_buttons(new QWidget(this)),
      m_seen(button("Seen  (Space)", m_buttons)),
      m_differs(button("Differs  (N)", m_buttons)),
      m_skip(button("Skip  (→)", m_buttons)),
      m_back(button("Back  (Backspace)", m_buttons)),
      m_form(new FoundForm(this)),
      m_mods(new QWidget(this)),
      m_modList(new QVBoxLayout(m_mods)) {
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName("Walk over the board");
    setFixedWidth(WalkPanel::sizeHint().width());
    build();
    connect(m_seen, &QPushButton::clicked, this, &WalkPanel::see);
    connect(m_differs, &QPushButton::clicked, this, &WalkPanel::differs);
    connect(m_skip, &QPushButton::clicked, this, &WalkPanel::skip);
    connect(m_back, &QPushButton::clicked, this, &WalkPanel::goBack);
    connect(m_reading, &QLineEdit::textChanged, this, &WalkPanel::echoReading);
    connect(m_reading, &QLineEdit::returnPressed, this, &WalkPanel::takeReading);
    connect(m_form, &FoundForm::entered, this, &WalkPanel::takeCorrection);
    connect(m_form, &FoundForm::left, this, [this] {
        m_form->hide();
        showAll();
    });
    connect(&m_document, &JobDocument::jobChanged, this, &WalkPanel::followJob);
    connect(&m_selection, &Selection::partChanged, this, [this] {
        // A part that is pressed on the map is walked to.
        const bool isOther = !isHidden() && !m_selection.part().empty() && m_selection.part() != m_here;
        if (isOther && findPart(m_document.job()->stock, m_selection.part()) != nullptr) {
            m_here = m_selection.part();
            m_form->hide();
            showAll();
        }
    });
    connect(&Theme::current(), &Theme::changed, this, [this] { setFixedWidth(sizeHint().width()); });
}

QSize WalkPanel::sizeHint() const {
    return {qRound(space::rightRail * Theme::current().textScale()), 600};
}

void WalkPanel::build() {
    m_bar->setTextVisible(false);
    m_bar->setFixedHeight(6);
    m_bar->setAccessibleName("Parts looked at");
    m_reading->setAccessibleName("What the meter reads");
    m_reading->installEventFilter(this);
    auto* readings = new QVBoxLayout(m_readingBox);
    readings->setContentsMargins(0, 0, 0, 0);
    readings->addWidget(m_reading);
    readings->addWidget(m_echo);
    auto* keys = new QGridLayout(m_buttons);
    keys->setContentsMargins(0, 0, 0, 0);
    keys->setSpacing(8);
    keys->addWidget(m_seen, 0, 0);
    keys->addWidget(m_differs, 0, 1);
    keys->addWidget(m_back, 1, 0);
    keys->addWidget(m_skip, 1, 1);
    m_modList->setContentsMargins(0, 0, 0, 0);
    m_modList->setSpacing(6);

    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(margin, 12, margin, 10);
    layout->setSpacing(8);
    layout->addWidget(new PanelTitle("Walk over the board", this));
    layout->addWidget(m_progress);
    layout->addWidget(m_bar);
    for (QWidget* each : std::initializer_list<QWidget*>{m_name, m_role, m_value, m_printed, m_place, m_state,
                                                         m_readingBox, m_buttons, m_form, m_mods}) {
        layout->addWidget(each);
    }
    m_keys->setText(
        "A digit begins a meter's reading; in the circuit other parts read along, a lifted leg is sure. "
        "Ctrl+Z takes the last step back.");
    layout->addWidget(m_keys);
    layout->addStretch(1);
    auto* leave = button("End the walk  (Esc)", this);
    layout->addWidget(leave);
    connect(leave, &QPushButton::clicked, this, &WalkPanel::end);
}

void WalkPanel::setModels(std::vector<Model> models) {
    m_form->setModels(std::move(models));
}

const Part* WalkPanel::here() const {
    return findPart(m_document.job()->stock, m_here);
}

// ---- Where the walk is --------------------------------------------------------------------------------------------

void WalkPanel::begin() {
    m_started = m_selection.part();
    m_behind.clear();
    m_form->hide();
    m_here.clear();
    goOn();
}

void WalkPanel::beginDiffers() {
    m_started = m_selection.part();
    m_behind.clear();
    m_here = m_selection.part();
    if (here() == nullptr) {
        m_here.clear();
        goOn();
        return;
    }
    showAll();
    differs();
}

void WalkPanel::goTo(const PartId& part) {
    m_here = part;
    m_selection.setPart(part.empty() ? m_started : part);
    showAll();
}

PartId WalkPanel::nextPart() const {
    const Circuit& stock = m_document.job()->stock;
    const std::vector<PartId> order = walkOrder(stock);
    const auto at = std::find(order.begin(), order.end(), m_here);
    const auto next = std::find_if(at == order.end() ? order.begin() : at + 1, order.end(), [&](const PartId& id) {
        return findPart(stock, id)->knowledge == Knowledge::drawn;
    });
    return next == order.end() ? PartId() : *next;
}

void WalkPanel::goOn() {
    goTo(nextPart());
}

void WalkPanel::goBack() {
    if (m_behind.empty()) {
        return;
    }
    const PartId part = m_behind.back().first;
    m_behind.pop_back();
    goTo(part);
}

/// What was undone is not known any more: the walk stands there again.
void WalkPanel::followJob() {
    if (isHidden()) {
        return;
    }
    if (!m_behind.empty() && m_behind.back().second) {
        const Part* last = findPart(m_document.job()->stock, m_behind.back().first);
        if (last != nullptr && last->knowledge == Knowledge::drawn) {
            goBack();
            return;
        }
    }
    if (!m_here.empty() && here() == nullptr) {
        m_here.clear();
    }
    if (m_form->isHidden()) {
        showAll();
    }
}

void WalkPanel::end() {
    m_here.clear();
    m_form->hide();
    m_selection.setPart(m_started);
    emit closed();
}

// ---- Its steps ----------------------------------------------------------------------------------------------------

void WalkPanel::see() {
    if (here() == nullptr) {
        // At the end of the board: over what was skipped once more.
        goOn();
        return;
    }
    const PartId part = m_here;
    const QString name = text(here()->reference);
    m_behind.emplace_back(part, here()->knowledge == Knowledge::drawn);
    const bool isTaken = m_document.edit(markSeen(*m_document.job(), {part}), QString("See %1").arg(name));
    if (isTaken) {
        goOn();
    } else {
        m_behind.pop_back();
    }
}

void WalkPanel::skip() {
    if (here() == nullptr) {
        return;
    }
    m_behind.emplace_back(m_here, false);
    goOn();
}

void WalkPanel::differs() {
    if (here() == nullptr) {
        return;
    }
    // The form says what the drawing has, and needs the room of a small window.
    for (QWidget* each : std::initializer_list<QWidget*>{m_role, m_value, m_printed, m_place, m_keys, m_state,
                                                         m_buttons, m_readingBox, m_mods}) {
        each->hide();
    }
    m_form->show();
    m_form->begin(m_document.job()->stock, m_here);
}

void WalkPanel::beginReading(const QString& first) {
    const Part* part = here();
    if (part == nullptr) {
        return;
    }
    if (!hasValue(part->kind)) {
        m_state->setSentence(
            QString("%1 has no value that a meter reads: Space when it is seen.").arg(text(displayName(*part))),
            SignKind::note);
        return;
    }
    m_readingBox->show();
    m_reading->setText(first);
    m_reading->setFocus(Qt::OtherFocusReason);
}

void WalkPanel::echoReading() {
    const Part* part = here();
    if (part == nullptr || m_reading->text().trimmed().isEmpty()) {
        m_echo->clear();
        return;
    }
    const Result<Quantity> read = parsePartValue(m_reading->text().trimmed().toStdString(), unitOf(part->kind));
    if (!read) {
        m_echo->setText(text(read.error().message));
        return;
    }
    const double share = read->si / part->value - 1.0;
    QString words = QString("%1, %2 % off the drawing")
                        .arg(text(formatQuantity(*read)), text(formatFigure(share * percent, Sign::always)));
    if (part->tolerance > 0.0 && std::abs(share) > part->tolerance) {
        words += QString(": outside ±%1 %").arg(text(formatFigure(part->tolerance * percent)));
    }
    m_echo->setText(words);
}

void WalkPanel::takeReading() {
    const Part* part = here();
    const Result<Quantity> read = part != nullptr
                                      ? parsePartValue(m_reading->text().trimmed().toStdString(), unitOf(part->kind))
                                      : Result<Quantity>(Error{ErrorCode::invalidInput, "There is no part here.", {}});
    if (!read) {
        m_echo->setText(text(read.error().message));
        return;
    }
    const QString name = text(part->reference);
    m_behind.emplace_back(m_here, part->knowledge == Knowledge::drawn);
    if (m_document.edit(setPartMeasured(*m_document.job(), m_here, read->si), QString("Measure %1").arg(name))) {
        goOn();
    } else {
        m_behind.pop_back();
    }
}

void WalkPanel::takeCorrection(const Correction& entered) {
    Correction correction = entered;
    correction.when = QDateTime::currentDateTime().toString(Qt::ISODate).toStdString();
    const Result<Job> edited = correct(*m_document.job(), correction);
    if (!edited) {
        m_form->showError(text(edited.error().message));
        return;
    }
    const QString name = text(correctedName(m_document.job()->stock, correction));
    std::vector<ModAndCorrection> met = modsOnCorrected(*edited, correction);
    if (const std::string lines = linesSay(edited->stock, correction.part); !lines.empty()) {
        met.push_back({{}, false, lines});
    }
    const bool isOfThis = correction.part == m_here;
    const bool isLookedAt = isOfThis && correction.reason != CorrectionReason::misread;
    m_behind.emplace_back(m_here, isLookedAt && here()->knowledge == Knowledge::drawn);
    m_form->hide();
    // A part that is not there is no place to go on from.
    const PartId next = nextPart();
    const PartId stay = m_here;
    m_document.edit(edited, QString("Correct %1").arg(name));
    goTo(met.empty() && isOfThis ? next : stay);
    if (met.empty()) {
        return;
    }
    showMods(met);
}

/// What the correction means for mods that are on, with what can be done about it; Space walks on.
void WalkPanel::showMods(const std::vector<ModAndCorrection>& met) {
    while (QLayoutItem* item = m_modList->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    for (const ModAndCorrection& each : met) {
        auto* said = new SignText(m_mods);
        said->setSentence(text(each.sentence), each.changesNothing ? SignKind::care : SignKind::note);
        m_modList->addWidget(said);
        if (!each.changesNothing) {
            continue;
        }
        auto* off = button("Switch it off", m_mods);
        auto* out = button("Take it out of the plan", m_mods);
        m_modList->addWidget(off);
        m_modList->addWidget(out);
        connect(off, &QPushButton::clicked, this, [this, id = each.mod] {
            m_mods->hide();
            m_document.edit(setModOn(*m_document.job(), id, false), "Switch a mod off");
        });
        connect(out, &QPushButton::clicked, this, [this, id = each.mod] {
            m_mods->hide();
            m_document.edit(removeMod(*m_document.job(), id), "Remove a mod");
        });
    }
    m_mods->show();
}

// ---- What it shows ------------------------------------------------------------------------------------------------

void WalkPanel::showAll() {
    m_readingBox->hide();
    m_mods->hide();
    m_buttons->setVisible(m_form->isHidden());
    m_keys->setVisible(m_form->isHidden());
    m_state->show();
    showProgress();
    if (const Part* part = here()) {
        showPart(*part);
    } else {
        showEnd();
    }
    if (m_form->isHidden() && isVisible()) {
        setFocus(Qt::OtherFocusReason);
    }
}

void WalkPanel::showProgress() {
    const Circuit& stock = m_document.job()->stock;
    const WalkProgress progress = walkProgress(stock);
    const std::vector<PartId> order = walkOrder(stock);
    const auto at = std::find(order.begin(), order.end(), m_here);
    const QString place =
        at == order.end() ? QString() : QString("Part %1 of %2 · ").arg(at - order.begin() + 1).arg(order.size());
    m_progress->setText(QString("%1%2 left, %3 seen, %4 measured")
                            .arg(place)
                            .arg(progress.drawn)
                            .arg(progress.seen)
                            .arg(progress.measured));
    m_bar->setRange(0, std::max(1, progress.all()));
    m_bar->setValue(progress.seen + progress.measured);
    m_back->setEnabled(!m_behind.empty());
}

void WalkPanel::showPart(const Part& part) {
    const Job& job = *m_document.job();
    for (QLabel* each : {m_role, m_value, m_printed, m_place}) {
        each->show();
    }
    m_name->setText(text(displayName(part)));
    m_role->setText(text(part.role.empty() ? std::string(kindName(part.kind)) : part.role));
    m_value->setText(text(valueWords(part)));
    const QString marking = text(printedMarking(part));
    const QString planned = plannedWords(job, part);
    QStringList lines;
    if (!marking.isEmpty()) {
        lines << "on the body: " + marking;
    }
    if (!planned.isEmpty()) {
        lines << planned;
    }
    m_printed->setText(lines.join("; "));
    m_printed->setVisible(!m_printed->text().isEmpty());
    m_place->setText(text(part.boardNote));
    m_place->setVisible(!part.boardNote.empty());
    m_state->setSentence(knowledgeWords(job, part),
                         part.knowledge == Knowledge::drawn ? SignKind::note : SignKind::tick);
    m_skip->setEnabled(true);
    m_differs->setEnabled(true);
    setAccessibleDescription(QString("%1, %2, %3").arg(m_name->text(), m_value->text(), m_state->text()));
}

void WalkPanel::showEnd() {
    const int left = walkProgress(m_document.job()->stock).drawn;
    for (QLabel* each : {m_role, m_value, m_printed, m_place}) {
        each->hide();
    }
    m_name->setText("The end of the board");
    m_state->setSentence(left == 0 ? QString("Every part was looked at.")
                                   : QString("%1 %2 skipped: Space walks over what is left, Esc ends.")
                                         .arg(left)
                                         .arg(left == 1 ? "part was" : "parts were"),
                         left == 0 ? SignKind::tick : SignKind::care);
    m_skip->setEnabled(false);
    m_differs->setEnabled(false);
}

// ---- Keys ---------------------------------------------------------------------------------------------------------

void WalkPanel::keyPressEvent(QKeyEvent* event) {
    const QString typed = event->text();
    const bool isDigit = !typed.isEmpty() && (typed.front().isDigit() || typed.front() == '.');
    switch (event->key()) {
        case Qt::Key_Space:
            see();
            return;
        case Qt::Key_N:
            differs();
            return;
        case Qt::Key_Right:
            skip();
            return;
        case Qt::Key_Left:
        case Qt::Key_Backspace:
            goBack();
            return;
        case Qt::Key_Escape:
            end();
            return;
        default:
            break;
    }
    if (isDigit && event->modifiers() == Qt::NoModifier) {
        beginReading(typed);
        return;
    }
    QWidget::keyPressEvent(event);
}

bool WalkPanel::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_reading && event->type() == QEvent::KeyPress &&
        static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
        showAll();
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

void WalkPanel::paintEvent(QPaintEvent*) {
    QPainter(this).fillRect(rect(), Theme::current().colours().panel);
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/walk_panel.h"

#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/look/panel_title.h"
#include "app/look/said_text.h"
#include "app/look/sign_text.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/part/walk_words.h"
#include "core/base/value_text.h"
#include "core/bench/net_words.h"
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

namespace ohmwright {

namespace {

constexpr int margin = 14;

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

}  // namespace

WalkPanel::WalkPanel(JobDocument& document, Selection& selection, QWidget* parent)
    : QWidget(parent),
      m_document(document),
      m_selection(selection),
      m_title(new PanelTitle({}, this)),
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
      m_seen(button(tr("Seen  (Space)"), m_buttons)),
      m_differs(button(tr("Differs  (N)"), m_buttons)),
      m_skip(button(tr("Skip  (→)"), m_buttons)),
      m_back(button(tr("Back  (Backspace)"), m_buttons)),
      m_leave(button({}, this)),
      m_form(new FoundForm(this)),
      m_mods(new QWidget(this)),
      m_modList(new QVBoxLayout(m_mods)) {
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("Walk over the board"));
    setFixedWidth(WalkPanel::sizeHint().width());
    build();
    m_form->hide();
    connect(m_seen, &QPushButton::clicked, this, &WalkPanel::see);
    connect(m_differs, &QPushButton::clicked, this, &WalkPanel::differs);
    connect(m_skip, &QPushButton::clicked, this, &WalkPanel::skip);
    connect(m_back, &QPushButton::clicked, this, &WalkPanel::goBack);
    connect(m_reading, &QLineEdit::textChanged, this, &WalkPanel::echoReading);
    connect(m_reading, &QLineEdit::returnPressed, this, &WalkPanel::takeReading);
    connect(m_form, &FoundForm::entered, this, &WalkPanel::takeCorrection);
    connect(m_form, &FoundForm::left, this, [this] {
        m_form->hide();
        m_isOfOnePart ? end() : showAll();
    });
    connect(&m_document, &JobDocument::jobChanged, this, &WalkPanel::followJob);
    connect(&m_selection, &Selection::partChanged, this, &WalkPanel::followSelection);
    connect(&Theme::current(), &Theme::changed, this, [this] { setFixedWidth(sizeHint().width()); });
}

QSize WalkPanel::sizeHint() const {
    return {qRound(space::rightRail * Theme::current().textScale()), 600};
}

void WalkPanel::build() {
    m_bar->setTextVisible(false);
    m_bar->setFixedHeight(6);
    m_bar->setAccessibleName(tr("Parts looked at"));
    m_reading->setAccessibleName(tr("What the meter reads"));
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
    layout->addWidget(m_title);
    layout->addWidget(m_progress);
    layout->addWidget(m_bar);
    for (QWidget* each : std::initializer_list<QWidget*>{m_name, m_role, m_value, m_printed, m_place, m_state,
                                                         m_readingBox, m_buttons, m_form, m_mods}) {
        layout->addWidget(each);
    }
    m_keys->setText(
        tr("A digit begins a meter's reading. In the circuit, what else joins the same two nets changes the reading; "
           "with one leg lifted the part reads alone. Ctrl+Z takes the last step back."));
    layout->addWidget(m_keys);
    layout->addStretch(1);
    layout->addWidget(m_leave);
    connect(m_leave, &QPushButton::clicked, this, &WalkPanel::end);
}

void WalkPanel::setModels(std::vector<Model> models) {
    m_form->setModels(std::move(models));
}

const Part* WalkPanel::here() const {
    return findPart(m_document.job()->stock, m_course.here());
}

// ---- Where the walk is --------------------------------------------------------------------------------------------

void WalkPanel::begin() {
    m_started = m_selection.part();
    m_isOfOnePart = false;
    m_form->hide();
    m_course.begin();
    m_course.standAt(m_course.next(m_document.job()->stock));
    arrive();
}

void WalkPanel::beginDiffers() {
    m_started = m_selection.part();
    m_isOfOnePart = true;
    m_course.begin();
    m_course.standAt(m_selection.part());
    showAll();
    differs();
}

void WalkPanel::arrive() {
    m_form->hide();
    select(m_course.here().empty() ? m_started : m_course.here());
    showAll();
}

void WalkPanel::select(const PartId& part) {
    m_isSelecting = true;
    m_selection.setPart(part);
    m_isSelecting = false;
}

/// A part that is pressed on the map is walked to.
void WalkPanel::followSelection() {
    const PartId& pressed = m_selection.part();
    const bool isOther = !isHidden() && !m_isSelecting && pressed != m_course.here();
    if (isOther && findPart(m_document.job()->stock, pressed) != nullptr) {
        m_course.standAt(pressed);
        m_isOfOnePart = false;
        m_form->hide();
        showAll();
    }
}

void WalkPanel::goBack() {
    if (m_course.canGoBack()) {
        m_course.goBack();
        arrive();
    }
}

/// What was undone is not known any more: the walk stands there again.
void WalkPanel::followJob() {
    if (isHidden()) {
        return;
    }
    const bool wasAsking = !m_form->isHidden();
    if (m_course.follow(m_document.job()->stock)) {
        arrive();
        if (wasAsking) {
            m_state->setSentence(tr("The drawing has changed under the form: what was typed there is not taken."),
                                 SignKind::care);
        }
    } else if (!wasAsking) {
        showAll();
    }
}

void WalkPanel::end() {
    m_course.begin();
    m_form->hide();
    select(m_started);
    emit closed();
}

// ---- Its steps ----------------------------------------------------------------------------------------------------

void WalkPanel::see() {
    const Part* part = here();
    if (part == nullptr) {
        // At the end of the board: over what was skipped once more.
        m_course.standAt(m_course.next(m_document.job()->stock));
        arrive();
        return;
    }
    if (!m_readingBox->isHidden() && !m_reading->text().trimmed().isEmpty()) {
        takeReading();
        return;
    }
    takeStep(markSeen(*m_document.job(), {part->id}), tr("See %1").arg(text(part->reference)));
}

/// An edit that makes the part here known, and on to the next one.
void WalkPanel::takeStep(const Result<Job>& edited, const QString& words) {
    const bool hasMadeKnown = here()->knowledge == Knowledge::drawn;
    if (m_document.edit(edited, words)) {
        m_course.stepTo(m_course.next(m_document.job()->stock), hasMadeKnown);
        arrive();
    }
}

void WalkPanel::skip() {
    if (here() != nullptr) {
        m_course.stepTo(m_course.next(m_document.job()->stock), false);
        arrive();
    }
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
    m_form->begin(m_document.job()->stock, m_course.here());
}

void WalkPanel::beginReading(const QString& first) {
    const Part* part = here();
    if (part == nullptr) {
        return;
    }
    if (!hasValue(part->kind)) {
        m_state->setSentence(
            tr("%1 has no value that a meter reads: Space when it is seen.").arg(text(displayName(*part))),
            SignKind::note);
        return;
    }
    m_readingBox->show();
    m_reading->setText(first);
    m_reading->setFocus(Qt::OtherFocusReason);
}

void WalkPanel::echoReading() {
    const Part* part = here();
    m_echo->setText(part != nullptr ? readingWords(*part, m_reading->text()) : QString());
}

void WalkPanel::takeReading() {
    const Part* part = here();
    if (part == nullptr) {
        return;
    }
    const Result<Quantity> read = parsePartValue(m_reading->text().trimmed().toStdString(), unitOf(part->kind));
    if (!read) {
        m_echo->setText(text(read.error().message));
        return;
    }
    takeStep(setPartMeasured(*m_document.job(), part->id, read->si), tr("Measure %1").arg(text(part->reference)));
}

void WalkPanel::takeCorrection(const Correction& entered) {
    Correction correction = entered;
    correction.when = QDateTime::currentDateTime().toString(Qt::ISODate).toStdString();
    const auto job = m_document.job();
    const Result<Job> edited = correct(*job, correction);
    if (!edited) {
        m_form->showError(text(edited.error().message));
        return;
    }
    std::vector<ModAndCorrection> met = modsOnCorrected(*edited, correction);
    if (const std::string lines = linesSay(edited->stock, correction.part); !lines.empty()) {
        met.push_back({{}, false, lines});
    }
    // A part more has its id since just now.
    const std::string undrawn =
        correction.part.empty() ? notDrawn(edited->stock, edited->corrections.back().part) : std::string();
    if (!undrawn.empty()) {
        met.push_back({{}, false, undrawn});
    }
    const Part* before = here();
    const bool isOfThis = before != nullptr && correction.part == before->id;
    const bool hasMadeKnown =
        isOfThis && correction.reason != CorrectionReason::misread && before->knowledge == Knowledge::drawn;
    // Asked before the edit: a part that is taken out is no place to go on from.
    const PartId next = isOfThis && met.empty() ? m_course.next(job->stock) : m_course.here();
    m_form->hide();
    if (!m_document.edit(edited, tr("Correct %1").arg(text(correctedName(job->stock, correction))))) {
        return;
    }
    if (m_isOfOnePart && met.empty()) {
        end();
        return;
    }
    m_course.stepTo(next, hasMadeKnown);
    m_course.follow(m_document.job()->stock);
    arrive();
    if (!met.empty()) {
        showMods(met);
    }
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
        auto* off = new QPushButton(tr("Switch it off"), m_mods);
        auto* out = new QPushButton(tr("Take it out of the plan"), m_mods);
        m_modList->addWidget(off);
        m_modList->addWidget(out);
        connect(off, &QPushButton::clicked, this, [this, id = each.mod] {
            m_mods->hide();
            m_document.edit(setModOn(*m_document.job(), id, false), tr("Switch a mod off"));
        });
        connect(out, &QPushButton::clicked, this, [this, id = each.mod] {
            m_mods->hide();
            m_document.edit(removeMod(*m_document.job(), id), tr("Remove a mod"));
        });
    }
    m_mods->show();
}

// ---- What it shows ------------------------------------------------------------------------------------------------

void WalkPanel::showAll() {
    m_readingBox->hide();
    m_mods->hide();
    // Of one part alone there is no way to show: its form, and what comes of that.
    m_title->setTitle(m_isOfOnePart ? tr("Board and drawing") : tr("Walk over the board"));
    m_leave->setText(m_isOfOnePart ? tr("Done  (Esc)") : tr("End the walk  (Esc)"));
    m_progress->setVisible(!m_isOfOnePart);
    m_bar->setVisible(!m_isOfOnePart);
    m_buttons->setVisible(m_form->isHidden() && !m_isOfOnePart);
    m_keys->setVisible(m_form->isHidden() && !m_isOfOnePart);
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
    m_progress->setText(progressWords(stock, m_course.here()));
    m_bar->setRange(0, std::max(1, progress.all()));
    m_bar->setValue(progress.seen + progress.measured);
    m_back->setEnabled(m_course.canGoBack());
}

void WalkPanel::showPart(const Part& part) {
    const Job& job = *m_document.job();
    for (QLabel* each : {m_role, m_value, m_printed, m_place}) {
        each->show();
    }
    m_name->setText(text(displayName(part)));
    m_role->setText(part.role.empty() ? saidText(kindName(part.kind)) : text(part.role));
    m_value->setText(text(valueWords(part)));
    m_printed->setText(bodyWords(job, part));
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
    m_name->setText(tr("The end of the board"));
    m_state->setSentence(endWords(left), left == 0 ? SignKind::tick : SignKind::care);
    m_skip->setEnabled(false);
    m_differs->setEnabled(false);
}

// ---- Keys ---------------------------------------------------------------------------------------------------------

void WalkPanel::keyPressEvent(QKeyEvent* event) {
    if (!m_form->isHidden()) {
        QWidget::keyPressEvent(event);
        return;
    }
    if (m_isOfOnePart) {
        if (event->key() == Qt::Key_Escape || event->key() == Qt::Key_Space) {
            end();
        } else {
            QWidget::keyPressEvent(event);
        }
        return;
    }
    const QString typed = event->text();
    const bool isDigit = !typed.isEmpty() && (typed.front().isDigit() || typed.front() == '.' || typed.front() == ',');
    switch (event->key()) {
        case Qt::Key_Space:
            // A key that is held down has not looked at the whole board.
            if (!event->isAutoRepeat()) {
                see();
            }
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

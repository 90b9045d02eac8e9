// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/checklist/check_list.h"

#include "app/background/bench_service.h"
#include "app/checklist/bench_label.h"
#include "app/checklist/step_answers.h"
#include "app/checklist/step_view.h"
#include "app/checklist/typed_reading.h"
#include "app/checklist/work_list.h"
#include "app/document/job_document.h"
#include "app/look/said_text.h"
#include "app/look/text.h"

#include <QDateTime>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QPainter>
#include <QTimer>

#include <cmath>

namespace ohmwright {

namespace {

constexpr int sideWidth = 620;
/// Longer than a reading and a letter of its unit.
constexpr qsizetype mostTyped = 12;

/// What the beeper does when the step passes.
CheckReading passingBeep(const BenchStep& step) {
    return step.check->kind == CheckKind::beep ? 1.0 : 0.0;
}

bool showsNone(const BenchStep& step) {
    return step.check && !step.check->expected.low && !step.check->expected.high;
}

}  // namespace

CheckList::CheckList(JobDocument& document, BenchService& service, QWidget* parent)
    : QWidget(parent), m_document(document), m_service(service), m_timer(new QTimer(this)) {
    setAccessibleName(tr("Check list"));
    setFocusPolicy(Qt::StrongFocus);
    build();
    constexpr int second = 1000;
    m_timer->setInterval(second);
    connect(m_timer, &QTimer::timeout, this, &CheckList::tick);
    connect(&service, &BenchService::changed, this, &CheckList::follow);
    connect(&service, &BenchService::judged, this, &CheckList::take);
    connect(&document, &JobDocument::jobChanged, this, &CheckList::follow);
    connect(&Theme::current(), &Theme::changed, this, &CheckList::refresh);
}

std::optional<std::size_t> CheckList::step() const {
    return m_work ? m_step : std::nullopt;
}

QString CheckList::words() const {
    return m_view->words();
}

// --- building ------------------------------------------------------------------------------------------------------

void CheckList::build() {
    m_list = new WorkList(this);
    m_view = new StepView(this);
    m_view->setFixedWidth(sideWidth);
    // While there is no work to list, the step stays at its side.
    QSizePolicy kept = m_list->sizePolicy();
    kept.setRetainSizeWhenHidden(true);
    m_list->setSizePolicy(kept);
    connect(m_view, &StepView::passed, this, &CheckList::pass);
    connect(m_view, &StepView::failed, this, &CheckList::fail);
    connect(m_view, &StepView::back, this, &CheckList::back);
    connect(m_view, &StepView::skipped, this, &CheckList::skip);
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(1);
    m_left = new QVBoxLayout;
    m_left->setSpacing(1);
    m_left->addWidget(m_list, 1);
    layout->addLayout(m_left, 1);
    layout->addWidget(m_view);
}

void CheckList::setBeside(QWidget* beside) {
    m_left->insertWidget(0, beside, 1);
    m_left->setStretchFactor(m_list, 0);
    m_list->setShort(true);
    beside->show();
    tellCheck();
}

void CheckList::tellCheck() {
    const bool hasCheck = m_work && m_step && m_work->steps[*m_step].check;
    emit checkShown(hasCheck ? m_work->steps[*m_step].check : std::nullopt);
}

// --- following -----------------------------------------------------------------------------------------------------

void CheckList::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    m_isDischarged = false;
    m_step.reset();
    m_sentence.clear();
    m_service.setWanted(true);
    follow();
    setFocus();
}

/// A low screen shows less of what stands beside the step.
void CheckList::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    if (m_work && isVisible()) {
        refresh();
    }
}

void CheckList::hideEvent(QHideEvent* event) {
    QWidget::hideEvent(event);
    m_service.setWanted(false);
    m_timer->stop();
}

void CheckList::follow() {
    if (!isVisible()) {
        return;
    }
    const std::shared_ptr<const WorkPlan> work = m_service.work();
    if (work != m_work) {
        m_work = work;
        m_step.reset();
        m_typed.clear();
    }
    if (m_work) {
        m_log.emplace(m_work->steps, m_document.job()->visit);
        if (!m_step) {
            goOn();
            return;
        }
    }
    refresh();
}

bool CheckList::mustDischargeNow() const {
    return m_work->discharge.isHighVoltage && !m_isDischarged;
}

std::size_t CheckList::dischargeBefore(std::size_t step) const {
    while (step > 0 && m_work->steps[step].kind != StepKind::discharge) {
        --step;
    }
    return step;
}

void CheckList::goTo(std::size_t step) {
    m_view->scrollToTop();
    m_step = step;
    m_typed.clear();
    m_sentence.clear();
    m_timer->stop();
    m_secondsLeft = static_cast<int>(std::ceil(m_work->steps[step].waitSeconds));
    if (m_secondsLeft > 0 && m_work->steps[step].kind == StepKind::discharge) {
        m_timer->start();
    }
    refresh();
}

/// To the first step that is not done; of high voltage to its discharge first, whatever was signed another day.
void CheckList::goOn() {
    const std::optional<std::size_t> next = m_log->next();
    if (!next) {
        m_step.reset();
        refresh();
        return;
    }
    goTo(mustDischargeNow() ? dischargeBefore(*next) : *next);
}

void CheckList::tick() {
    m_secondsLeft = std::max(0, m_secondsLeft - 1);
    if (m_secondsLeft == 0) {
        m_timer->stop();
    }
    refresh();
}

// --- showing -------------------------------------------------------------------------------------------------------

void CheckList::refresh() {
    tellCheck();
    if (!m_work) {
        const QString fault = m_service.fault();
        showNothing(fault.isEmpty() ? tr("Working out the steps") : tr("No steps"), fault);
        return;
    }
    if (!m_step) {
        if (m_work->steps.empty()) {
            showNothing(tr("Nothing to do"), tr("No mod of the plan is on: switch one on in the mods list."));
        } else if (const auto refused = m_log->refused()) {
            const StepMark& mark = *m_log->mark(*refused);
            showNothing(tr("Work refused"), tr("%1 refused it at \"%2\". Undo takes the refusal back.")
                                                .arg(mark.who.empty() ? tr("Somebody") : text(mark.who),
                                                     text(m_work->steps[*refused].title)));
        } else {
            QStringList states;
            for (const ModProgress& each : modProgress(m_work->steps, *m_log)) {
                states << tr("mod %1: %2").arg(text(each.letter), saidText(modStateWords(each.state)));
            }
            showNothing(tr("All steps are signed"), states.join('\n'));
        }
        if (!m_work->steps.empty()) {
            m_list->showWork(*m_work, *m_log, m_log->refused().value_or(m_work->steps.size() - 1));
        }
        return;
    }
    m_list->setVisible(true);
    m_list->showWork(*m_work, *m_log, *m_step);
    m_view->showStep(*m_work, *m_log, *m_step,
                     {m_typed, m_secondsLeft, m_sentence, m_isBad, *m_step > 0 && !mustDischargeNow()});
}

void CheckList::showNothing(const QString& title, const QString& words) {
    m_list->setVisible(m_work && !m_work->steps.empty());
    m_view->showNothing(title, words);
}

void CheckList::say(const QString& sentence, bool isBad) {
    m_sentence = sentence;
    m_isBad = isBad;
    refresh();
}

void CheckList::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), Theme::current().colours().panel);
    painter.setPen(Theme::current().colours().edge);
    painter.drawLine(width() - sideWidth - 1, 0, width() - sideWidth - 1, height());
}

// --- answering -----------------------------------------------------------------------------------------------------

void CheckList::keyPressEvent(QKeyEvent* event) {
    // Two keys at once: a step is not skipped by accident.
    if (event->key() == Qt::Key_Right && (event->modifiers() & Qt::ControlModifier) && !event->isAutoRepeat() &&
        m_work && m_step) {
        skip();
        return;
    }
    if (!m_work || !m_step || event->isAutoRepeat() ||
        (event->modifiers() & ~Qt::KeypadModifier & ~Qt::ShiftModifier)) {
        QWidget::keyPressEvent(event);  // Keys of the window, Esc among them.
        return;
    }
    const QString letter = event->text();
    const bool takes = takesFigure(m_work->steps[*m_step]);
    const bool begins = !letter.isEmpty() && QString("0123456789.,-").contains(letter);
    const bool goesOn = !m_typed.isEmpty() && !letter.isEmpty() && QString::fromUtf8("kKMmunpRµ").contains(letter);
    if (event->key() == Qt::Key_Escape) {
        QWidget::keyPressEvent(event);
    } else if (takes && (begins || goesOn)) {
        if (m_typed.size() < mostTyped) {
            m_typed += letter;
        }
        m_sentence.clear();
        refresh();
    } else if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        enter();
    } else if (event->key() == Qt::Key_Down || event->key() == Qt::Key_Up) {
        m_view->scrollBy(event->key() == Qt::Key_Down ? bench::place : -bench::place);
    } else if (event->key() == Qt::Key_Backspace) {
        back();
    } else if (event->key() == Qt::Key_Space) {
        m_typed.isEmpty() ? pass() : enter();
    } else if (event->key() == Qt::Key_N && m_typed.isEmpty()) {
        fail();
    } else if (event->key() == Qt::Key_X) {
        emit flipAsked();
    }
}

/// Tab would walk the header's buttons: nothing else is pressed by accident.
bool CheckList::focusNextPrevChild(bool) {
    return false;
}

void CheckList::enter() {
    if (!m_step || m_typed.isEmpty()) {
        return;
    }
    const Result<double> reading = typedReading(m_typed, m_work->steps[*m_step]);
    m_typed.clear();
    if (!reading) {
        say(text(reading.error().message), true);
        return;
    }
    m_service.judge(*m_step, *reading);
}

void CheckList::pass() {
    const BenchStep& step = m_work->steps[*m_step];
    if (const auto closed = closedBy(m_work->steps, *m_log, *m_step)) {
        say(tr("Opens after step %1: %2").arg(*closed + 1).arg(text(m_work->steps[*closed].title)), true);
        return;
    }
    if (step.kind == StepKind::discharge && m_work->discharge.isHighVoltage &&
        (mustDischargeNow() || !m_log->has(*m_step, StepResult::passed))) {
        say(tr("Type what the meter reads across the capacitor: without a reading nothing opens."), true);
        return;
    }
    if (m_log->has(*m_step, StepResult::passed)) {
        // Done before: its reading stays.
        *m_step + 1 < m_work->steps.size() ? goTo(*m_step + 1) : goOn();
        return;
    }
    std::optional<CheckReading> reading;
    if (isBeeper(step)) {
        reading = passingBeep(step);
    } else if (showsNone(step)) {
        reading = CheckReading();
    }
    sign(*m_step, StepResult::passed, reading, Turn::onWards);
}

void CheckList::fail() {
    const BenchStep& step = m_work->steps[*m_step];
    if (step.kind == StepKind::discharge || step.kind == StepKind::stop) {
        sign(*m_step, StepResult::refused, std::nullopt, Turn::onWards);
    } else if (isBeeper(step)) {
        m_service.judge(*m_step, 1.0 - *passingBeep(step));
    } else if (showsNone(step)) {
        say(tr("Type the value that the meter shows."), true);
    } else if (step.check && (step.check->kind == CheckKind::ohms || step.check->kind == CheckKind::diode)) {
        m_service.judge(*m_step, std::nullopt);
    } else {
        const std::size_t at = *m_step;
        sign(at, StepResult::failed, std::nullopt, Turn::stay);
        say(text(step.ifItFails).isEmpty() ? tr("Signed as failed: put it right, then pass it.")
            : takesFigure(step)            ? tr("%1 Type the reading.").arg(text(step.ifItFails))
                                           : text(step.ifItFails),
            true);
    }
}

void CheckList::back() {
    if (!m_typed.isEmpty()) {
        m_typed.chop(1);
        refresh();
    } else if (m_step && *m_step > 0 && !mustDischargeNow()) {
        goTo(*m_step - 1);
    }
}

void CheckList::skip() {
    if (m_step && mayBeSkipped(m_work->steps[*m_step])) {
        sign(*m_step, StepResult::skipped, std::nullopt, Turn::onWards);
    }
}

void CheckList::take(std::size_t step, CheckReading reading, const Judgement& judgement) {
    if (!m_work || m_step != step) {
        return;
    }
    if (judgement.isInBand && closedBy(m_work->steps, *m_log, step)) {
        pass();  // Says what it waits for.
        return;
    }
    if (judgement.isInBand && m_work->steps[step].kind == StepKind::discharge) {
        m_isDischarged = true;
    }
    sign(step, judgement.isInBand ? StepResult::passed : StepResult::failed, reading,
         judgement.isInBand ? Turn::onWards : Turn::stay);
    if (!judgement.isInBand) {
        say(text(judgement.sentence), true);
    }
}

void CheckList::sign(std::size_t step, StepResult result, std::optional<CheckReading> reading, Turn turn) {
    const BenchStep& own = m_work->steps[step];
    StepMark mark;
    mark.step = m_log->key(step);
    mark.result = result;
    if (reading) {
        mark.reading = isBeeper(own) ? std::nullopt : *reading;
        mark.unit = mark.reading ? own.unit : Unit::none;
        mark.read = readWords(own, *reading);
    }
    mark.allowed = allowedWords(own);
    mark.who = m_who.toStdString();
    mark.when = QDateTime::currentDateTime().toString(Qt::ISODate).toStdString();
    // A failed discharge keeps all closed: it is no longer done in this sitting either.
    if (own.kind == StepKind::discharge && result != StepResult::passed) {
        m_isDischarged = false;
    }
    const bool isTaken = m_document.edit(markStep(*m_document.job(), own, std::move(mark)),
                                         tr("Sign step %1").arg(step + 1), JobAspect::words);
    if (isTaken && turn == Turn::onWards) {
        goOn();
    }
}

}  // namespace ohmwright

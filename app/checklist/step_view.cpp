// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/checklist/step_view.h"

#include "app/checklist/answer_button.h"
#include "app/checklist/bench_label.h"
#include "app/checklist/meter_dial.h"
#include "app/checklist/probe_row.h"
#include "app/checklist/step_answers.h"
#include "app/checklist/step_chips.h"
#include "app/checklist/step_head.h"
#include "app/checklist/stop_band.h"
#include "app/checklist/typed_reading.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "core/bench/judge_step.h"
#include "core/bench/net_words.h"

#include <QHBoxLayout>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QVBoxLayout>

#include <cmath>

namespace ohmwright {

namespace {

bool hasProbes(const BenchStep& step) {
    return step.check && step.check->kind != CheckKind::tone;
}

/// "old C4: 3k7 to 4k1": the meter's place stands elsewhere on the screen.
QString withoutBlank(QString words) {
    for (const QString& blank : {QObject::tr("%1: read").arg(QString()), QObject::tr("%1, read").arg(QString())}) {
        if (words.endsWith(blank)) {
            words.chop(blank.size());
        }
    }
    return words;
}

/// What the hands do, a line each.
QString workText(const BenchStep& step) {
    QStringList lines;
    // The screen's own title says it already.
    const bool isSaid = step.kind == StepKind::discharge || step.kind == StepKind::stop || hasProbes(step);
    if (!isSaid) {
        lines << text(step.title);
    }
    for (const StepLine& line : step.lines) {
        // Where the probes go and what the meter must show stands in words of its own; a title stands once.
        const bool isProbe = hasProbes(step) && !line.isThrow;
        if (!isProbe && step.kind != StepKind::photograph) {
            lines << (line.word.empty() ? QString("  ") : text(line.word) + ": ") + withoutBlank(text(line.text));
        }
    }
    return lines.join('\n');
}

MeterDial::Range rangeOf(const BenchStep& step) {
    if (step.kind == StepKind::discharge) {
        return MeterDial::Range::volts;
    }
    if (step.kind == StepKind::powerUp) {
        return step.unit == Unit::ampere ? MeterDial::Range::milliamperes : MeterDial::Range::none;
    }
    if (!step.check) {
        return MeterDial::Range::none;
    }
    switch (step.check->kind) {
        case CheckKind::beep:
        case CheckKind::silence:
            return MeterDial::Range::beep;
        case CheckKind::ohms:
            return MeterDial::Range::ohms;
        case CheckKind::diode:
            return MeterDial::Range::diode;
        case CheckKind::volts:
            return MeterDial::Range::volts;
        case CheckKind::tone:
            return MeterDial::Range::none;
    }
    return MeterDial::Range::none;
}

/// The part that a reading proves, as it was and as it is.
void addPart(StepHead::Words& words, const WorkPlan& work, const BenchStep& step) {
    if (!step.check || step.check->part.empty()) {
        return;
    }
    for (const PoweredGroup& group : work.powered) {
        const Part* now = findPart(group.finished, step.check->part);
        const Part* before = findPart(group.before, step.check->part);
        if (now == nullptr) {
            continue;
        }
        words.name = text(displayName(*now));
        if (before != nullptr && valueWords(*before) != valueWords(*now)) {
            words.stock = text(valueWords(*before));
            words.now = text(valueWords(*now));
            return;
        }
    }
}

StepHead::Words headOf(const WorkPlan& work, const WorkLog& log, std::size_t index) {
    const BenchStep& step = work.steps[index];
    StepHead::Words words{
        text(step.letter),
        step.letter.empty() ? QObject::tr("whole unit") : QObject::tr("mod %1").arg(text(step.letter)),
        {},
        {},
        {},
        QObject::tr("step %1 of %2").arg(index + 1).arg(work.steps.size())};
    for (const ModProgress& each : modProgress(work.steps, log)) {
        if (!step.letter.empty() && each.letter == step.letter) {
            words.state = saidText(modStateWords(each.state));
        }
    }
    if (!step.letter.empty()) {
        addPart(words, work, step);
    }
    return words;
}

/// The stop that the cold step stands before.
std::optional<std::size_t> stopAfter(const WorkPlan& work, std::size_t step) {
    const StepKind kind = work.steps[step].kind;
    if (kind == StepKind::powerUp || kind == StepKind::probe || kind == StepKind::tone) {
        return std::nullopt;
    }
    for (std::size_t k = step + 1; k < work.steps.size(); ++k) {
        if (work.steps[k].kind == StepKind::stop) {
            return k;
        }
    }
    return std::nullopt;
}

}  // namespace

// --- building ------------------------------------------------------------------------------------------------------

StepView::StepView(QWidget* parent) : QWidget(parent) {
    build();
}

BenchLabel* StepView::label(int pixels, bool bold, QColor ThemeColours::*colour, const char* name) {
    auto* made = new BenchLabel(pixels, bold, colour, this);
    made->setObjectName(name);
    return made;
}

void StepView::build() {
    m_chips = new StepChips(this);
    m_head = new StepHead(this);
    m_title = label(bench::title, true, &ThemeColours::ink, "title");
    m_sub = label(bench::small, false, &ThemeColours::ink2, "sub");
    m_dial = new MeterDial(this);
    m_work = label(bench::small + 2, false, &ThemeColours::ink, "work");
    m_wait = label(bench::small, true, &ThemeColours::ink, "wait");
    m_allowed = label(bench::small, false, &ThemeColours::ink2, "allowed");
    m_entry = label(bench::reading, true, &ThemeColours::ink, "entry");

    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(28, 18, 28, 18);
    layout->setSpacing(8);
    layout->addWidget(m_chips);
    layout->addSpacing(4);
    layout->addWidget(m_head);
    auto* words = new QVBoxLayout;
    words->setSpacing(2);
    words->addWidget(m_title);
    words->addWidget(m_sub);
    words->addStretch(1);
    auto* top = new QHBoxLayout;
    top->addLayout(words, 1);
    top->addWidget(m_dial, 0, Qt::AlignTop);
    layout->addLayout(top);
    // A step with many lines on a low screen: they scroll, with the arrows too, and the answers stay where they are.
    m_scroll = new QScrollArea(this);
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setWidgetResizable(true);
    m_scroll->setFocusPolicy(Qt::NoFocus);
    m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto* doing = new QWidget;
    auto* lines = new QVBoxLayout(doing);
    lines->setContentsMargins(0, 4, 0, 4);
    lines->setSpacing(4);
    m_red = new ProbeRow(ProbeRow::Colour::red, doing);
    m_black = new ProbeRow(ProbeRow::Colour::black, doing);
    m_work->setParent(doing);
    m_work->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    for (QWidget* part : std::initializer_list<QWidget*>{m_work, m_red, m_black}) {
        lines->addWidget(part);
    }
    lines->addStretch(1);
    m_scroll->setWidget(doing);
    layout->addWidget(m_scroll, 1);
    for (QWidget* part : std::initializer_list<QWidget*>{m_wait, m_allowed, m_entry}) {
        layout->addWidget(part);
    }
    addAnswers(*layout);
}

void StepView::addAnswers(QVBoxLayout& layout) {
    m_pass = new AnswerButton(AnswerButton::Kind::pass, this);
    m_fail = new AnswerButton(AnswerButton::Kind::fail, this);
    m_back = new QPushButton(tr("Back  (Backspace)"), this);
    m_skip = new QPushButton(tr("Skip, stays red on paper  (Ctrl →)"), this);
    for (QPushButton* button : {m_back, m_skip}) {
        button->setFocusPolicy(Qt::NoFocus);
        constexpr int handHigh = 48;
        button->setMinimumHeight(handHigh);
    }
    connect(m_pass, &AnswerButton::clicked, this, &StepView::passed);
    connect(m_fail, &AnswerButton::clicked, this, &StepView::failed);
    connect(m_back, &QPushButton::clicked, this, &StepView::back);
    connect(m_skip, &QPushButton::clicked, this, &StepView::skipped);
    auto* answers = new QHBoxLayout;
    answers->setSpacing(12);
    answers->addWidget(m_pass, 5);
    answers->addWidget(m_fail, 4);
    auto* turns = new QHBoxLayout;
    turns->addWidget(m_back);
    turns->addWidget(m_skip);
    turns->addStretch(1);
    m_judged = label(bench::small, true, &ThemeColours::ink, "judged");
    m_suspects = label(bench::small - 3, false, &ThemeColours::ink2, "suspects");
    m_next = label(bench::small - 3, false, &ThemeColours::ink2, "next");
    m_stop = new StopBand(this);
    layout.addSpacing(6);
    layout.addLayout(answers);
    layout.addLayout(turns);
    for (QWidget* part : std::initializer_list<QWidget*>{m_judged, m_suspects, m_next}) {
        layout.addWidget(part);
    }
    layout.addSpacing(4);
    layout.addWidget(m_stop);
}

// --- showing -------------------------------------------------------------------------------------------------------

bool StepView::isLow() const {
    constexpr int roomy = 800;
    return height() < roomy;
}

void StepView::showStep(const WorkPlan& work, const WorkLog& log, std::size_t step, const Moment& moment) {
    m_chips->setVisible(!isLow());
    m_chips->showSteps(log, step);
    m_head->say(headOf(work, log, step));
    showWork(work, work.steps[step], moment);
    showAnswers(work, log, step, moment);
    showJudgement(work, log, step, moment);
    showEntry(work.steps[step], moment.typed);
}

void StepView::showNothing(const QString& title, const QString& words) {
    for (BenchLabel* label : {m_sub, m_wait, m_allowed, m_entry, m_judged, m_suspects, m_next}) {
        label->say({});
    }
    m_head->say({});
    m_red->pointAt({});
    m_black->pointAt({});
    m_dial->turnTo(MeterDial::Range::none);
    m_stop->say({});
    for (QWidget* part : std::initializer_list<QWidget*>{m_chips, m_pass, m_fail, m_back, m_skip}) {
        part->setVisible(false);
    }
    m_title->say(title);
    m_work->say(words);
}

void StepView::showWork(const WorkPlan& work, const BenchStep& step, const Moment& moment) {
    const StepWords words = stepWordsOf(step);
    m_title->setPixels(isLow() ? bench::reading : bench::title);
    m_entry->setPixels(isLow() ? bench::small : bench::reading);
    m_title->say(words.title);
    m_sub->say(words.sub);
    m_dial->turnTo(isLow() ? MeterDial::Range::none : rangeOf(step));
    for (ProbeRow* row : {m_red, m_black}) {
        row->setPixels(isLow() ? bench::small : bench::place);
    }
    m_work->say(workText(step));
    m_red->pointAt(hasProbes(step) ? text(step.check->red.words) : QString());
    m_black->pointAt(hasProbes(step) ? text(step.check->black.words) : QString());
    const QString sentence = step.kind == StepKind::discharge ? text(work.discharge.sentence) : QString();
    const int left = moment.secondsLeft;
    const QString wait = left > 0 && !sentence.isEmpty()                 ? tr("Wait %1 s, then measure.").arg(left)
                         : step.waitSeconds > 0.0 && !sentence.isEmpty() ? tr("The wait is over: measure.")
                         : step.waitSeconds > 0.0
                             ? tr("The reading climbs: give it %1 s.").arg(std::ceil(step.waitSeconds))
                             : QString();
    m_wait->say(wait);
    const QString allowed = text(allowedWords(step));
    m_allowed->say(isBeeper(step) || allowed.isEmpty() ? QString() : tr("allowed: %1").arg(allowed));
}

void StepView::showAnswers(const WorkPlan& work, const WorkLog& log, std::size_t index, const Moment& moment) {
    const BenchStep& step = work.steps[index];
    const StepWords words = stepWordsOf(step);
    m_pass->setWords(words.pass, tr("Space or foot key, next step"));
    m_fail->setWords(words.fail, step.kind == StepKind::discharge || step.kind == StepKind::stop
                                     ? tr("N, nothing after it opens")
                                     : tr("N, find out why"));
    for (QWidget* answer : std::initializer_list<QWidget*>{m_pass, m_fail, m_back}) {
        answer->setVisible(true);
    }
    m_back->setEnabled(moment.mayGoBack);
    m_skip->setVisible(mayBeSkipped(step));
    m_pass->setEnabled(!closedBy(work.steps, log, index));
}

void StepView::showJudgement(const WorkPlan& work, const WorkLog& log, std::size_t index, const Moment& moment) {
    const std::optional<StepMark>& mark = log.mark(index);
    const auto closed = closedBy(work.steps, log, index);
    QString sentence = moment.sentence;
    bool isBad = moment.isBad;
    if (sentence.isEmpty() && closed) {
        sentence = tr("Opens after step %1: %2").arg(*closed + 1).arg(text(work.steps[*closed].title));
        isBad = true;
    } else if (sentence.isEmpty() && mark) {
        isBad = mark->result != StepResult::passed;
        sentence = mark->result == StepResult::passed    ? tr("Signed")
                   : mark->result == StepResult::skipped ? tr("Signed as skipped")
                                                         : tr("Signed as failed");
        sentence += mark->read.empty() ? QString() : ": " + saidText(mark->read);
    }
    m_judged->say(sentence, isBad ? &ThemeColours::stop : &ThemeColours::measured);
    // A failed step says its suspects by itself.
    const QString suspects = text(work.steps[index].ifItFails);
    m_suspects->say(suspects.isEmpty() || isLow() ? QString() : tr("if it fails: %1").arg(suspects));
    const bool hasNext = index + 1 < work.steps.size();
    m_next->say(!hasNext || isLow() ? QString() : tr("then: %1").arg(text(work.steps[index + 1].title)));
    const std::optional<std::size_t> stop = stopAfter(work, index);
    m_stop->say(stop ? tr("opens after step %1").arg(*stop + 1) : QString());
}

void StepView::showEntry(const BenchStep& step, const QString& typed) {
    if (!takesFigure(step)) {
        m_entry->say({});
        return;
    }
    const QString unit = entryUnit(step);
    m_entry->say(typed.isEmpty() ? tr("type the reading, %1").arg(unit) : tr("%1 %2, then Enter").arg(typed, unit),
                 typed.isEmpty() ? &ThemeColours::ink3 : &ThemeColours::ink);
}

void StepView::scrollBy(int pixels) {
    m_scroll->verticalScrollBar()->setValue(m_scroll->verticalScrollBar()->value() + pixels);
}

void StepView::scrollToTop() {
    m_scroll->verticalScrollBar()->setValue(0);
}

QString StepView::words() const {
    QStringList lines;
    const auto add = [&lines](const QString& words) {
        if (!words.isEmpty()) {
            lines << words;
        }
    };
    add(m_head->isHidden() ? QString() : m_head->words());
    for (const BenchLabel* label : {m_title, m_sub, m_work}) {
        add(label->isHidden() ? QString() : label->text());
    }
    add(m_red->words());
    add(m_black->words());
    for (const BenchLabel* label : {m_wait, m_allowed, m_entry, m_judged, m_suspects, m_next}) {
        add(label->isHidden() ? QString() : label->text());
    }
    add(m_stop->words());
    return lines.join('\n');
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/work_steps.h"

#include "app/papers/paper_frame.h"
#include "app/papers/sheet_text.h"
#include "core/base/said.h"
#include "core/bench/work_log.h"

#include <QObject>

namespace ohmwright {

namespace {

QString toneTitle() {
    return QObject::tr("Prove with a tone");
}

PrintedPicture printed(const BodyPicture& picture) {
    PrintedPicture made;
    made.marking = paperText(picture.marking);
    made.plainEnd = paperText(picture.plainEnd);
    made.markedEnd = paperText(picture.bandEnd);
    for (const std::string& band : picture.bands) {
        made.bands.push_back(paperText(band));
    }
    switch (picture.kind) {
        case BodyPicture::Kind::none:
            break;
        case BodyPicture::Kind::code:
            made.kind = PrintedPicture::Kind::code;
            break;
        case BodyPicture::Kind::bands:
            made.kind = PrintedPicture::Kind::bands;
            break;
        case BodyPicture::Kind::diode:
            made.kind = PrintedPicture::Kind::diode;
            break;
        case BodyPicture::Kind::polar:
            made.kind = PrintedPicture::Kind::polar;
            break;
    }
    return made;
}

BoxState boxOf(const std::optional<StepMark>& mark) {
    if (!mark) {
        return BoxState::open;
    }
    switch (mark->result) {
        case StepResult::passed:
            return BoxState::passed;
        case StepResult::failed:
            return BoxState::failed;
        case StepResult::skipped:
            return BoxState::skipped;
        case StepResult::refused:
            break;
    }
    return BoxState::refused;
}

QString signatureOf(const std::optional<StepMark>& mark) {
    if (!mark) {
        return {};
    }
    const QString who = paperText(mark->who);
    return who.isEmpty() ? paperTime(mark->when) : who + ", " + paperTime(mark->when);
}

PrintedStep printed(const BenchStep& step, const std::optional<StepMark>& mark) {
    PrintedStep made;
    made.title = paperText(step.title);
    made.letter = paperText(step.letter);
    made.box = boxOf(mark);
    made.signedBy = signatureOf(mark);
    for (const StepLine& line : step.lines) {
        made.lines.push_back({paperText(line.word), paperText(line.text), line.hasBlank, line.hasBox, made.box,
                              line.hasBlank && mark ? paperText(said(mark->read)) : QString()});
    }
    made.picture = printed(step.picture);
    made.isStop = step.kind == StepKind::stop;
    return made;
}

/// "Ohms", "red on U1 pin 1 (output), black on ...: 2.54 kΩ to 2.86 kΩ, read".
PrintedLine readingLine(const BenchStep& step, const std::optional<StepMark>& mark) {
    const Check& check = *step.check;
    PrintedLine line;
    line.hasBlank = true;
    line.box = boxOf(mark);
    line.read = mark ? paperText(said(mark->read)) : QString();
    const QString expected = paperText(check.expected.words(check.kind));
    switch (check.kind) {
        case CheckKind::ohms:
        case CheckKind::diode:
            line.word = check.kind == CheckKind::ohms ? QObject::tr("Ohms") : QObject::tr("Diode range");
            line.text = QObject::tr("red %1, black %2: %3")
                            .arg(paperText(check.red.words), paperText(check.black.words), expected);
            break;
        case CheckKind::volts:
            line.word = QObject::tr("Volts");
            line.text = paperText(check.red.words) + ": " + expected;
            break;
        default:
            line.word = QObject::tr("Tone");
            line.text = paperText(check.words()) + ": " + expected;
            break;
    }
    // A switch's throws are read one after the other.
    for (const StepLine& own : step.lines) {
        if (own.isThrow) {
            line.text = QObject::tr("switch %1; %2").arg(paperText(own.text), line.text);
        }
    }
    if (step.waitSeconds > 0.0) {
        line.text =
            QObject::tr("%1, after %2 s").arg(line.text, QString::number(static_cast<int>(step.waitSeconds) + 1));
    }
    line.text = QObject::tr("%1, read").arg(line.text);
    return line;
}

PrintedProbe probeRow(const BenchStep& step, const std::optional<StepMark>& mark) {
    const CheckBand& band = step.check->expected;
    return {paperText(step.check->red.words),
            paperText(band.words(CheckKind::volts)),
            band.low.value_or(0.0),
            band.nominal.value_or(0.0),
            band.high.value_or(0.0),
            boxOf(mark),
            mark ? paperText(said(mark->read)) : QString()};
}

}  // namespace

std::vector<PrintedStep> printedSteps(const WorkPlan& plan, const Visit& visit, const std::vector<StepPhoto>& photos) {
    const WorkLog log(plan.steps, visit);
    std::vector<PrintedStep> steps;
    std::vector<PrintedLine> photograph;
    for (std::size_t k = 0; k < plan.steps.size(); ++k) {
        const BenchStep& step = plan.steps[k];
        const std::optional<StepMark>& mark = log.mark(k);
        // After a discharge (high voltage) the pictures are a step of their own.
        if (step.kind == StepKind::photograph && steps.empty()) {
            photograph = printed(step, mark).lines;
        } else if (step.kind == StepKind::probe && step.check && !steps.empty()) {
            steps.back().probes.push_back(probeRow(step, mark));
        } else if (step.kind == StepKind::reading) {
            if (!isBeeper(step) && step.check && !steps.empty()) {
                steps.back().lines.push_back(readingLine(step, mark));
            }
        } else if (step.kind == StepKind::tone) {
            if (steps.empty() || steps.back().title != toneTitle()) {
                steps.push_back({});
                steps.back().title = toneTitle();
            }
            steps.back().lines.push_back(readingLine(step, mark));
        } else {
            steps.push_back(printed(step, mark));
            steps.back().photo = k < photos.size() ? photos[k] : StepPhoto{};
            if (step.kind == StepKind::discharge && !photograph.empty()) {
                // One step on paper: nobody takes pictures between the two.
                steps.back().title = QObject::tr("Photograph, then power off and discharge");
                steps.back().lines.insert(steps.back().lines.begin(), photograph.begin(), photograph.end());
                photograph.clear();
            }
        }
    }
    return steps;
}

std::vector<PrintedFailure> printedFailures(const WorkPlan& plan) {
    std::vector<PrintedFailure> failures;
    for (const BenchStep& step : plan.steps) {
        const bool isReading = step.kind == StepKind::reading || step.kind == StepKind::tone;
        if (isReading && step.isEnough && step.check && !isBeeper(step) && !step.ifItFails.empty()) {
            failures.push_back(
                {paperText(step.letter),
                 QObject::tr("%1: not %2")
                     .arg(paperText(step.check->words()), paperText(step.check->expected.words(step.check->kind))),
                 paperText(step.ifItFails)});
        }
    }
    return failures;
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/work_steps.h"

#include "app/papers/sheet_text.h"

namespace ohmwright {

namespace {

PrintedPicture printed(const BodyPicture& picture) {
    PrintedPicture made;
    made.marking = paperText(picture.marking);
    made.plainEnd = paperText(picture.plainEnd);
    made.bandEnd = paperText(picture.bandEnd);
    // Colour bands are read from the title's words on a sheet without colours.
    made.kind = picture.kind == BodyPicture::Kind::code    ? PrintedPicture::Kind::code
                : picture.kind == BodyPicture::Kind::diode ? PrintedPicture::Kind::diode
                                                           : PrintedPicture::Kind::none;
    return made;
}

PrintedLine printed(const StepLine& line) {
    return {paperText(line.word), paperText(line.text), line.hasBlank, line.hasBox};
}

PrintedStep printed(const BenchStep& step) {
    PrintedStep made;
    made.title = paperText(step.title);
    made.letter = paperText(step.letter);
    for (const StepLine& line : step.lines) {
        made.lines.push_back(printed(line));
    }
    made.picture = printed(step.picture);
    made.isStop = step.kind == StepKind::stop;
    return made;
}

/// "Ohms", "red on U1 pin 1 (output), black on ...: 2.54 k\u2126 to 2.86 k\u2126, read".
PrintedLine readingLine(const BenchStep& step) {
    const Check& check = *step.check;
    PrintedLine line;
    line.hasBlank = true;
    const QString expected = paperText(check.expected.words(check.kind));
    switch (check.kind) {
        case CheckKind::ohms:
        case CheckKind::diode:
            line.word = check.kind == CheckKind::ohms ? "Ohms" : "Diode range";
            line.text =
                QString("red %1, black %2: %3").arg(paperText(check.red.words), paperText(check.black.words), expected);
            break;
        case CheckKind::volts:
            line.word = "Volts";
            line.text = paperText(check.red.words) + ": " + expected;
            break;
        default:
            line.word = "Tone";
            line.text = paperText(check.words()) + ": " + expected;
            break;
    }
    if (step.waitSeconds > 0.0) {
        line.text += QString(", after %1 s").arg(static_cast<int>(step.waitSeconds) + 1);
    }
    line.text += ", read";
    return line;
}

bool isBeeper(const BenchStep& step) {
    return step.check && (step.check->kind == CheckKind::beep || step.check->kind == CheckKind::silence);
}

}  // namespace

std::vector<PrintedStep> printedSteps(const WorkPlan& plan) {
    std::vector<PrintedStep> steps;
    std::vector<PrintedLine> photograph;
    for (const BenchStep& step : plan.steps) {
        // After a discharge (high voltage) the pictures are a step of their own.
        if (step.kind == StepKind::photograph && steps.empty()) {
            photograph = printed(step).lines;
            continue;
        }
        if (step.kind == StepKind::reading || step.kind == StepKind::probe) {
            if (!isBeeper(step) && step.check && !steps.empty()) {
                steps.back().lines.push_back(readingLine(step));
            }
            continue;
        }
        if (step.kind == StepKind::tone) {
            if (steps.empty() || steps.back().title != "Prove with a tone") {
                steps.push_back({"Prove with a tone", {}, {}, {}, false});
            }
            steps.back().lines.push_back(readingLine(step));
            continue;
        }
        steps.push_back(printed(step));
        if (step.kind == StepKind::discharge && !photograph.empty()) {
            // One step on paper: nobody takes pictures between the two.
            steps.back().title = "Photograph, then power off and discharge";
            steps.back().lines.insert(steps.back().lines.begin(), photograph.begin(), photograph.end());
            photograph.clear();
        }
    }
    return steps;
}

}  // namespace ohmwright

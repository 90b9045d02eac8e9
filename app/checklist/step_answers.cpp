// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/checklist/step_answers.h"

namespace ohmwright {

namespace {

StepWords wordsOfCheck(const Check& check) {
    const bool showsNone = !check.expected.low && !check.expected.high;
    switch (check.kind) {
        case CheckKind::beep:
            return {"Must beep", "meter on beep, power off, supply out", "Beeps", "Silent", "silent"};
        case CheckKind::silence:
            return {"Must stay silent", "meter on beep, power off, supply out", "Silent", "Beeps", "beeps"};
        case CheckKind::ohms:
        case CheckKind::diode: {
            const bool isOhms = check.kind == CheckKind::ohms;
            return {isOhms ? "Ohms" : "Diode range",
                    isOhms ? "meter on ohms, power off, supply out" : "meter on diode range, power off, supply out",
                    showsNone ? "No reading" : "In band", showsNone ? "Shows a value" : "No reading",
                    showsNone ? "shows a value" : "no reading"};
        }
        case CheckKind::volts:
            return {"Volts", "meter on DC volts, powered, no signal", "In band", "Out of band", "out of band"};
        case CheckKind::tone:
            return {"Tone", "generator at the input as the pickup is, small signal; level meter at the output",
                    "In band", "Out of band", "out of band"};
    }
    return {};
}

}  // namespace

StepWords stepWordsOf(const BenchStep& step) {
    if (step.check) {
        return wordsOfCheck(*step.check);
    }
    switch (step.kind) {
        case StepKind::photograph:
            return {"Photograph", "sharp, in good light, markings readable", "Done", "Not done", "not done"};
        case StepKind::discharge:
            return {"Discharge", "power off, supply out; then measure", "Measured, safe", "Refuse the work", "refused"};
        case StepKind::takeOut:
            return {"Take out", "iron hot, board cold: supply out", "Done", "Something is wrong", "not done"};
        case StepKind::moveLeg:
            return {"Move a leg", "iron hot, board cold: supply out", "Done", "Something is wrong", "not done"};
        case StepKind::fit:
            return {"Fit", "iron hot, board cold: supply out", "Done", "Something is wrong", "not done"};
        case StepKind::stop:
            return {"Do not power yet", "everything above is signed first", "All signed", "Refuse the work", "refused"};
        case StepKind::powerUp:
            return {"Power on", "no signal, current limited; a hand on the switch", "Current in band", "Off at once",
                    "current out of band"};
        default:
            return {QString::fromStdString(step.title), {}, "Done", "Not done", "not done"};
    }
}

bool takesFigure(const BenchStep& step) {
    const bool isBeeper = step.check && (step.check->kind == CheckKind::beep || step.check->kind == CheckKind::silence);
    return !isBeeper && (step.check || step.unit != Unit::none);
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/checklist/step_answers.h"

#include <QObject>

namespace ohmwright {

namespace {

StepWords wordsOfCheck(const Check& check) {
    const bool showsNone = !check.expected.low && !check.expected.high;
    switch (check.kind) {
        case CheckKind::beep:
            return {QObject::tr("Must beep"), QObject::tr("meter on beep, power off, supply out"), QObject::tr("Beeps"),
                    QObject::tr("Silent")};
        case CheckKind::silence:
            return {QObject::tr("Must stay silent"), QObject::tr("meter on beep, power off, supply out"),
                    QObject::tr("Silent"), QObject::tr("Beeps")};
        case CheckKind::ohms:
        case CheckKind::diode: {
            const bool isOhms = check.kind == CheckKind::ohms;
            return {isOhms ? QObject::tr("Ohms") : QObject::tr("Diode range"),
                    isOhms ? QObject::tr("meter on ohms, power off, supply out")
                           : QObject::tr("meter on diode range, power off, supply out"),
                    showsNone ? QObject::tr("No reading") : QObject::tr("In band"),
                    showsNone ? QObject::tr("Shows a value") : QObject::tr("No reading")};
        }
        case CheckKind::volts:
            return {QObject::tr("Volts"), QObject::tr("meter on DC volts, powered, no signal"), QObject::tr("In band"),
                    QObject::tr("Out of band")};
        case CheckKind::tone:
            return {QObject::tr("Tone"),
                    QObject::tr("generator at the input as the pickup is, small signal; level meter at the output"),
                    QObject::tr("In band"), QObject::tr("Out of band")};
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
            return {QObject::tr("Photograph"), QObject::tr("sharp, in good light, markings readable"),
                    QObject::tr("Done"), QObject::tr("Not done")};
        case StepKind::discharge:
            return {QObject::tr("Discharge"), QObject::tr("power off, supply out; then measure"),
                    QObject::tr("Measured, safe"), QObject::tr("Refuse the work")};
        case StepKind::takeOut:
            return {QObject::tr("Take out"), QObject::tr("iron hot, board cold: supply out"), QObject::tr("Done"),
                    QObject::tr("Something is wrong")};
        case StepKind::moveLeg:
            return {QObject::tr("Move a leg"), QObject::tr("iron hot, board cold: supply out"), QObject::tr("Done"),
                    QObject::tr("Something is wrong")};
        case StepKind::fit:
            return {QObject::tr("Fit"), QObject::tr("iron hot, board cold: supply out"), QObject::tr("Done"),
                    QObject::tr("Something is wrong")};
        case StepKind::stop:
            return {QObject::tr("Do not power yet"), QObject::tr("everything above is signed first"),
                    QObject::tr("All signed"), QObject::tr("Refuse the work")};
        case StepKind::powerUp:
            return {QObject::tr("Power on"), QObject::tr("no signal, current limited; a hand on the switch"),
                    QObject::tr("Current in band"), QObject::tr("Off at once")};
        default:
            return {QString::fromStdString(step.title), {}, QObject::tr("Done"), QObject::tr("Not done")};
    }
}

bool takesFigure(const BenchStep& step) {
    return !isBeeper(step) && (step.check || step.unit != Unit::none);
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/bench_sheet.h"

#include "app/look/said_text.h"
#include "app/papers/sheet_cautions.h"
#include "app/papers/sheet_figures.h"
#include "app/papers/sheet_parts.h"
#include "app/papers/sheet_text.h"
#include "app/papers/sheet_work.h"
#include "app/papers/work_steps.h"
#include "core/plan/correct.h"

#include <QPainter>

namespace ohmwright {

namespace {

QStringList benchSignatures() {
    return {QObject::tr("work, date"), QObject::tr("second pair of eyes, date"), QObject::tr("played and proven, date"),
            QObject::tr("handed back, date")};
}

QString orNotWritten(const QString& words) {
    return words.isEmpty() ? QObject::tr("not written down") : words;
}

void addGap(PageFlow& flow) {
    constexpr double gap = 8.0;
    flow.add(
        gap, [](QPainter&, const QRectF&) {}, true);
}

/// Caveats, and what only the eye tells.
void addNotes(PageFlow& flow, const std::vector<std::string>& notes) {
    for (const std::string& note : notes) {
        addWords(flow, QObject::tr("Note:"), paperText(note), 3);
    }
}

/// Why steps stand without the photo that the job has.
void addFaults(PageFlow& flow, const StepPhotos& photos) {
    for (const QString& fault : photos.faults) {
        addWords(flow, QObject::tr("No photo beside the steps:"), paperText(fault), 3);
    }
}

/// Where this board is another than its drawing: what comes off, and goes back, is what the board has.
void addCorrections(PageFlow& flow, const Job& job) {
    for (const Correction& correction : job.corrections) {
        if (!drawingSays(job, correction.part).empty() || findPart(job.stock, correction.part) == nullptr) {
            addWords(flow, QObject::tr("On this board:"), paperText(correctionWords(job.stock, correction)), 3);
        }
    }
}

}  // namespace

Paper benchSheet(const PaperAnswers& answers, PaperSize size, const StepPhotos& photos) {
    const Job& job = *answers.job;
    Paper sheet = paperOf(job, saidText(paperName(PaperKind::bench)), size);
    PageFlow& flow = sheet.flow;
    const QString complaint = paperText(job.visit.complaint);
    addWords(flow, QObject::tr("Asked for:"),
             orNotWritten(complaint.isEmpty() ? complaint : QObject::tr("“%1”").arg(complaint)), 3);
    addWords(flow, QObject::tr("Agreed:"), orNotWritten(paperText(job.visit.agreed)), 3);
    addCorrections(flow, job);
    addBeforeAndAfter(flow, answers);
    addParts(flow, answers);
    addCautions(flow, answers);
    if (const std::vector<PrintedStep> steps = printedSteps(answers.work, job.visit, photos.steps); !steps.empty()) {
        addWork(flow, steps);
        addFailures(flow, printedFailures(answers.work));
        addGap(flow);
        addNotes(flow, answers.work.notes);
        addFaults(flow, photos);
        addWords(flow, QObject::tr("Way back, in this order:"), paperText(wayBackWords(answers.groups)), 3);
    }
    addSignatures(flow, benchSignatures());
    return sheet;
}

Paper wayBackSheet(const PaperAnswers& answers, PaperSize size, const StepPhotos& photos) {
    const WayBack& back = answers.back;
    Paper sheet = paperOf(*answers.job, saidText(paperName(PaperKind::wayBack)), size);
    PageFlow& flow = sheet.flow;
    QStringList letters;
    for (const std::string& letter : back.letters) {
        letters << paperText(letter);
    }
    constexpr int mostLines = 6;
    addWords(flow, QObject::tr("Undo, in this order:"),
             letters.isEmpty() ? QObject::tr("no mod is on") : letters.join(", "), 2);
    addWords(flow, QObject::tr("To stock:"),
             back.words.empty() ? QObject::tr("nothing to undo") : paperText(back.words), mostLines);
    addCorrections(flow, *answers.job);
    flow.beginSection(QObject::tr("No exact way back"),
                      QObject::tr("stock as this unit was found; readings below are its own"));
    if (back.notExact.empty()) {
        addWords(flow, QObject::tr("None:"), QObject::tr("every step goes back to the letter"), 1);
    }
    for (const std::string& sentence : back.notExact) {
        addWords(flow, "-", paperText(sentence), 3);
    }
    if (!back.fromBag.empty()) {
        addWords(
            flow, QObject::tr("From the customer's bag:"),
            QObject::tr("%1; where one is missing, a new one of the same value and type").arg(partList(back.fromBag)),
            4);
    }
    addCautions(flow, answers);
    // The marks of the visit are of the work forth: photograph and power-up are called the same on the way back.
    if (const std::vector<PrintedStep> steps = printedSteps(back.work, Visit{}, photos.steps); !steps.empty()) {
        addWork(flow, steps);
        addFailures(flow, printedFailures(back.work));
        addGap(flow);
        addNotes(flow, back.work.notes);
        addFaults(flow, photos);
    }
    addSignatures(flow, benchSignatures());
    return sheet;
}

}  // namespace ohmwright

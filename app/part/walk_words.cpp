// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/walk_words.h"

#include "app/look/text.h"
#include "core/base/number_text.h"
#include "core/base/value_text.h"
#include "core/bench/net_words.h"
#include "core/plan/apply.h"
#include "core/plan/board_walk.h"
#include "core/plan/correct.h"
#include "core/plan/papers.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

constexpr double percent = 100.0;

QString tr(const char* words) {
    return QCoreApplication::translate("WalkPanel", words);
}

QString plannedWords(const Job& job, const Part& part) {
    const Result<Circuit> now = nowCircuit(job);
    const Part* planned = now ? findPart(*now, part.id) : nullptr;
    if (now && planned == nullptr) {
        return tr("a mod of the plan takes it out");
    }
    const bool isChanged = planned != nullptr && valueWords(*planned) != valueWords(part);
    return isChanged ? tr("planned: %1").arg(text(valueWords(*planned))) : QString();
}

}  // namespace

QString knowledgeWords(const Job& job, const Part& part) {
    QString words = tr("known from the drawing alone");
    if (part.knowledge == Knowledge::seen) {
        words = tr("seen on the board");
    } else if (part.measured) {
        words = tr("measured %1").arg(text(formatPartValue({*part.measured, unitOf(part.kind)})));
    }
    const std::string drawing = drawingSays(job, part.id);
    return drawing.empty() ? words : tr("%1; corrected: %2").arg(words, text(drawing));
}

QString bodyWords(const Job& job, const Part& part) {
    QStringList lines;
    if (const QString marking = text(printedMarking(part)); !marking.isEmpty()) {
        lines << tr("on the body: %1").arg(marking);
    }
    if (const QString planned = plannedWords(job, part); !planned.isEmpty()) {
        lines << planned;
    }
    return lines.join("; ");
}

QString readingWords(const Part& part, const QString& typed) {
    if (typed.trimmed().isEmpty()) {
        return {};
    }
    const Result<Quantity> read = parsePartValue(typed.trimmed().toStdString(), unitOf(part.kind));
    if (!read) {
        return text(read.error().message);
    }
    const double share = read->si / part.value - 1.0;
    const QString words = tr("%1, %2 % off the drawing")
                              .arg(text(formatQuantity(*read)), text(formatFigure(share * percent, Sign::always)));
    const bool isOutside = part.tolerance > 0.0 && std::abs(share) > part.tolerance;
    return isOutside ? tr("%1: outside ±%2 %").arg(words, text(formatFigure(part.tolerance * percent))) : words;
}

QString progressWords(const Circuit& board, const PartId& here) {
    const WalkProgress progress = walkProgress(board);
    const std::vector<PartId> order = walkOrder(board);
    const auto at = std::find(order.begin(), order.end(), here);
    const QString counts =
        tr("%1 left, %2 seen, %3 measured").arg(progress.drawn).arg(progress.seen).arg(progress.measured);
    return at == order.end() ? counts
                             : tr("Part %1 of %2 · %3").arg(at - order.begin() + 1).arg(order.size()).arg(counts);
}

QString endWords(int partsLeft) {
    if (partsLeft == 0) {
        return tr("Every part was looked at.");
    }
    return partsLeft == 1 ? tr("1 part was skipped: Space walks over what is left, Esc ends.")
                          : tr("%1 parts were skipped: Space walks over what is left, Esc ends.").arg(partsLeft);
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/sum_notes.h"

#include "app/look/text.h"
#include "core/plan/sum_text.h"

#include <algorithm>
#include <functional>
#include <utility>

namespace ohmwright {

namespace {

/// Stock and now of one figure; either may be missing, not both.
Note noteOf(const Sum* stock, const Sum* now) {
    const Sum& shown = now != nullptr ? *now : *stock;
    Note note;
    QStringList words{text(shown.formula)};
    QStringList small;
    const bool isSame = stock != nullptr && now != nullptr && stock->withValues == now->withValues &&
                        stock->formula == now->formula &&
                        sumValueText(*stock, stock->result) == sumValueText(*now, now->result);
    if (stock != nullptr && now != nullptr && !isSame) {
        note.title = QString("%1: %2 → %3")
                         .arg(text(shown.name), text(sumValueText(*stock, stock->result)),
                              text(sumValueText(*now, now->result)));
    } else {
        note.title = QString("%1: %2").arg(text(shown.name), text(sumValueText(shown, shown.result)));
    }
    const bool isSolvedSame = isSame && solvedText(*stock) == solvedText(*now);
    const auto add = [&](const Sum& sum, const QString& state) {
        if (!isSame || &sum == now) {
            words << (isSame ? text(workedText(sum)) : state.arg(text(workedText(sum))));
        }
        const QString solved = text(solvedText(sum));
        if (!solved.isEmpty() && (!isSolvedSame || &sum == now)) {
            small << (isSolvedSame ? solved : state.arg(solved));
        }
    };
    if (stock != nullptr) {
        add(*stock, QObject::tr("stock: %1"));
    }
    if (now != nullptr) {
        add(*now, QObject::tr("now: %1"));
    }
    if (!shown.approximation.empty()) {
        small << text(shown.approximation);
    }
    note.words = words.join('\n');
    note.smallPrint = small.join('\n');
    return note;
}

using Wanted = std::function<bool(const Sum&)>;

std::vector<Note> notesWhere(const std::vector<Sum>& stock, const std::vector<Sum>& now, const Wanted& isWanted) {
    std::vector<Note> notes;
    for (const Sum& sum : now) {
        if (isWanted(sum)) {
            notes.push_back(noteOf(findSum(stock, sum.figure), &sum));
        }
    }
    for (const Sum& sum : stock) {
        if (isWanted(sum) && findSum(now, sum.figure) == nullptr) {
            notes.push_back(noteOf(&sum, nullptr));
        }
    }
    return notes;
}

bool isNamed(const Sum& sum, const QString& name) {
    const QString figure = text(sum.figure);
    return name.endsWith('*') ? figure.startsWith(name.chopped(1)) : figure == name;
}

}  // namespace

std::vector<Note> sumNotes(const std::vector<Sum>& stock, const std::vector<Sum>& now, const QStringList& figures) {
    std::vector<Note> notes;
    for (const QString& figure : figures) {
        auto more = notesWhere(stock, now, [&](const Sum& sum) { return isNamed(sum, figure); });
        std::move(more.begin(), more.end(), std::back_inserter(notes));
    }
    return notes;
}

std::vector<Note> sumNotesOfPart(const std::vector<Sum>& stock, const std::vector<Sum>& now, const PartId& part) {
    return notesWhere(stock, now, [&part](const Sum& sum) {
        return std::find(sum.parts.begin(), sum.parts.end(), part) != sum.parts.end();
    });
}

std::vector<Note> sumNotes(const std::vector<Sum>& stock, const std::vector<Sum>& now) {
    return notesWhere(stock, now, [](const Sum&) { return true; });
}

QStringList cornerSums() {
    return {"gain_leg_corner", "gain_zero", "corner_*"};
}
QStringList gainSums() {
    return {"stage_gain_1k", "plateau_gain", "transistor_gain*", "jfet_gain*", "valve_gain*", "shelf_*"};
}
QStringList ceilingSums() {
    return {"clip_level_positive", "clip_level_negative"};
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/check_rows.h"

#include "app/look/said_text.h"

#include <algorithm>
#include <array>

namespace ohmwright {

namespace {

struct KindWord {
    CheckKind kind;
    const char* word;
};

constexpr std::array<KindWord, 5> kindWords{{{CheckKind::beep, toSay("beeps")},
                                             {CheckKind::silence, toSay("silent")},
                                             {CheckKind::ohms, toSay("ohms")},
                                             {CheckKind::diode, toSay("diode")},
                                             {CheckKind::volts, toSay("volts")}}};

QString placesOf(const Check& check) {
    const QString red = QString::fromStdString(check.red.words);
    const QString black = QString::fromStdString(check.black.words);
    return check.kind == CheckKind::volts || black.isEmpty() ? red
                                                             : QObject::tr("%1 to %2", "two places").arg(red, black);
}

}  // namespace

std::vector<CheckRow> checkRows(const std::vector<Check>& checks) {
    std::vector<CheckRow> rows;
    for (const KindWord& each : kindWords) {
        const auto found =
            std::find_if(checks.begin(), checks.end(), [&each](const Check& check) { return check.kind == each.kind; });
        if (found == checks.end()) {
            continue;
        }
        const bool isHeard = isBeeper(each.kind);
        const QString reading = QString::fromStdString(found->expected.words(found->kind));
        rows.push_back({saidText(each.word), isHeard ? placesOf(*found) : placesOf(*found) + ", " + reading});
    }
    return rows;
}

}  // namespace ohmwright

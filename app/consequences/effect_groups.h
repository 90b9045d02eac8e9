/// Side effects and claims in the few words of the strip: grouped, each with its sign, figure and limit.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/consequences/figure_line.h"
#include "app/look/note_card.h"
#include "app/look/sign_text.h"
#include "core/plan/consequences.h"

#include <QString>

#include <vector>

namespace ohmwright {

/// A cell of the strip, or a lamp where it is folded.
struct StripEntry {
    SignKind sign = SignKind::none;
    QString name;                   ///< "Rails"
    std::vector<FigureRun> figure;  ///< "2.20 → 2.12 V"
    QString smallPrint;             ///< "limit 0.00 V"
    QString lampName;               ///< "Rails"; of a warning with its figure: "82 Hz clips at"
    bool isWarning = false;         ///< Keeps its figure as a lamp, and its ground is soft ochre.
    int weight = 0;                 ///< Of those that have nothing to warn of, the lightest share a cell first.
    std::vector<Note> notes;        ///< Every effect of the group: its sentence, its limit's source.
    QStringList sums;               ///< Names of the sums behind its figures (look/sum_notes.h).
};

/// One group a subject, in the order of the signal; the figure shown is that of the group's worst effect.
std::vector<StripEntry> effectEntries(const std::vector<SideEffect>& effects);
/// One entry a word: "“fuller”: yes".
std::vector<StripEntry> claimEntries(const std::vector<WordAnswer>& words, const ClaimLimits& table);
/// What several entries without a warning share: "4 more fine".
StripEntry sharedEntry(const std::vector<StripEntry>& entries);

/// An effect's figure with its unit, three significant digits: "40.8 kHz", "211 kΩ", "0.06 V".
QString effectValue(double value, const std::string& unit);

}  // namespace ohmwright

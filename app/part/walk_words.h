/// What the walk over the board says of a part, in words.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/job.h"

#include <QString>

namespace ohmwright {

/// How the part is known, with what the drawing said before it was put right.
QString knowledgeWords(const Job& job, const Part& part);
/// "on the body: 563; planned: 120n"; empty when nothing is printed and nothing planned.
QString bodyWords(const Job& job, const Part& part);
/// What a meter's reading as it is typed means, or the sentence against it; empty for no text.
QString readingWords(const Part& part, const QString& typed);
/// "Part 3 of 10 · 7 left, 2 seen, 1 measured".
QString progressWords(const Circuit& board, const PartId& here);
/// At the board's end.
QString endWords(int partsLeft);

}  // namespace ohmwright

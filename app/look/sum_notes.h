/// Sums as entries of a note card: the formula, worked for stock and for now, the solved figure and why they differ.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/look/note_card.h"
#include "core/plan/sums.h"

#include <QString>
#include <QStringList>

#include <vector>

namespace ohmwright {

/// Of the named figures, in the order named; those without a sum are left out. A name that ends in "*" stands for all
/// that begin so: "transistor_gain*".
std::vector<Note> sumNotes(const std::vector<Sum>& stock, const std::vector<Sum>& now, const QStringList& figures);
/// Of every figure that has the part's value in it, in the order of the signal.
std::vector<Note> sumNotesOfPart(const std::vector<Sum>& stock, const std::vector<Sum>& now, const PartId& part);
/// All.
std::vector<Note> sumNotes(const std::vector<Sum>& stock, const std::vector<Sum>& now);

/// @name Figures with their sums
///@{
QStringList cornerSums();
QStringList gainSums();
QStringList ceilingSums();
///@}

}  // namespace ohmwright

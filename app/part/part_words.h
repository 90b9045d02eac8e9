/// What a part is and where it sits, in words.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/job.h"

#include <QString>

#include <utility>
#include <vector>

namespace ohmwright {

/// "U1 pin 2 to top of Rg; film, 5 mm, 63 V"; without a board note the nets: "between im and leg".
QString placeText(const Part& part);

/// "gain-leg capacitor": what it is there for, else what kind of part it is.
QString roleText(const Part& part);

/// Below the value field: "120 nF ±10 %"; a measured part that is not changed adds ", this one 54.8 nF".
QString valueNote(const Part& stock, const Part& now);

/// A model's parameters with SI suffixes, "IS" "2.52n".
std::vector<std::pair<QString, QString>> parameterTexts(const Model& model);

/// Why a part has no value to be changed here (source, battery, next box), or nothing.
QString setElsewhere(const Circuit& circuit, const Part& part);

}  // namespace ohmwright

/// How much a part owns of a frequency, as it is shown everywhere: its colour, its figure and the question over it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QColor>
#include <QString>

namespace ohmwright {

/// Amber raises, blue lowers; four strengths.
QColor plateColour(double dbPerTenPercent);

/// "+0.76": two decimals, always signed [dB for +10 % of the part].
QString ownedFigure(double dbPerTenPercent);

/// "Who owns 110 Hz?" @param isStock  of the unit as found, which is then said.
QString ownersQuestion(double hertz, bool isStock);

}  // namespace ohmwright

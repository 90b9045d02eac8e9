/// How parts and places are named on paper: what is printed on a body, and which landmark a leg joins.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <QString>
#include <QStringList>

namespace ohmwright {

/// What to look for on the body: the part's own printed marking where it is known, else the capacitor code or
/// the colour bands of its value; empty where neither says it.
QString printedMarking(const Part& part);

/// "56n" or "1N4148".
QString valueWords(const Part& part);

/// "U1 pin 2", "Q1 base", "one leg of R5 Rg", "band leg of D1".
QString pinWords(const Part& part, int pin);

/// What one finds at a net, the best landmark first: chip pins, transistor legs, then the rest. Ground, the supply
/// line and the jacks are landmarks of their own. `apart` is the part that is being worked on.
QStringList landmarks(const Circuit& circuit, const NetName& net, const PartId& apart, int most);

/// "U1 pin 2 and one leg of R6"; "no other part" when the net has none.
QString joinsWords(const Circuit& circuit, const NetName& net, const PartId& apart);

/// Whether a meter must stay silent between two nets with the power off: no way of wire, solder, coil, pot or a
/// resistance under 100 Ω leads from one to the other.
bool staysSilent(const Circuit& circuit, const NetName& a, const NetName& b);

}  // namespace ohmwright

/// One part as the map tells it: what the unit has, what the plan makes of it, and how it is spoken.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/job.h"

#include <QString>

#include <utility>
#include <vector>

namespace ohmwright {

/// The lettered triangle of a mod at the part it changes.
struct ModMark {
    QString letter;
    bool on = true;

    friend bool operator==(const ModMark&, const ModMark&) = default;
};

/// A part that an active mod puts in, from its first pin to its second.
struct FittedLink {
    std::string mod;  ///< Id of the part, its mod's or its own: later mods may work on it.
    NewPart part;
    bool reversed = false;

    friend bool operator==(const FittedLink&, const FittedLink&) = default;
};

/// What an active mod puts in series with the part or across it, with what later mods put in series with that.
struct FittedView {
    std::vector<FittedLink> links;  ///< One after the other, from pinA's side to pinB's.
    int pinA = 0;                   ///< In series: the pin of the host that it joins.
    int pinB = 1;
    bool across = false;
    bool reversed = false;  ///< Across: the links run from pinB to pinA.

    friend bool operator==(const FittedView&, const FittedView&) = default;
};

struct PartView {
    QString reference;
    QString function;
    QString stockValue;
    QString nowValue;
    bool swapped = false;  ///< Value or type differs from stock.
    std::vector<ModMark> marks;
    std::vector<FittedView> fitted;
    std::vector<int> liftedPins;
    std::vector<std::pair<int, int>> bridges;
    bool removed = false;  ///< An active mod takes it off the board.
    Knowledge knowledge = Knowledge::drawn;
    bool isOnBoard = true;  ///< Guitar, cable and battery are not: nothing to be seen or measured there.

    friend bool operator==(const PartView&, const PartView&) = default;
};

/// @param holdsStock  the plan is left out: no marks, stock values.
PartView viewOf(const Job& job, const Part& part, bool holdsStock);

/// "56n", "1N4148", "half TL072", "100 mVpk"; a pot says its whole track, as is printed on it (where it stands is its
/// knob's to say), a controlled source its gain ("2 V/V"), a behavioural one its law, a switch whether it is closed.
QString valueText(const Job& job, const Part& part, double value);

/// "D3 in series", "C4 and R6 across".
QString fittedWords(const FittedView& fitted);

/// "C4 Cg, capacitor, stock 56 nano, now 120 nano, mod A, measured".
QString spokenName(const Job& job, const Part& part, bool holdsStock);

/// "now 120 nano, stock 56 nano"; "56 nano", "TL072" where the plan leaves it as it was built.
QString spokenValues(const Job& job, const Part& part, bool holdsStock);

/// What the plan makes of the part's value, SI; 0 of a part without one.
double plainValue(const Job& job, const Part& part, bool holdsStock);

/// Whether a mod that is on changes something in the stage.
bool hasActiveMod(const Job& job, const Stage& stage);

/// Whether the part's model is a pnp or of p channel.
bool hasTurnedModel(const Circuit& circuit, const Part& part);

/// Whether any part has a place on a drawing; a netlist's have none.
bool hasDrawing(const Circuit& circuit);

/// "U1" of "U1A": one package holds more than one amplifier.
QString packageName(const std::string& reference);

/// Ids of the drawn parts as the signal meets them: by stage, in a stage from left to right, the rest last.
std::vector<PartId> signalOrder(const Circuit& circuit);

}  // namespace ohmwright

/// Mods are data: one change to the circuit each, lettered, on or off, in the order of fitting.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <string>
#include <variant>
#include <vector>

namespace ohmwright {

/// A part that is not on the board yet.
struct NewPart {
    std::string reference;  ///< "D3"
    PartKind kind = PartKind::resistor;
    double value = 0.0;  ///< SI; 0 for a part with a model.
    Model model;         ///< Empty name for a part with a value.
    double tolerance = 0.0;

    friend bool operator==(const NewPart&, const NewPart&) = default;
};

struct SwapValue {
    PartId part;
    double value = 0.0;  ///< SI unit of the part's kind.

    friend bool operator==(const SwapValue&, const SwapValue&) = default;
};

struct SwapType {
    PartId part;
    Model model;  ///< Carried whole, so that a job needs no library to be read.

    friend bool operator==(const SwapType&, const SwapType&) = default;
};

/// The new part takes the net of the named pin; that pin moves to a new net between the two.
/// A diode points the same way round as the part it joins unless `reversed`.
struct AddInSeries {
    PartId part;
    int pin = 1;  ///< 0-based pin of `part`.
    NewPart fitted;
    bool reversed = false;

    friend bool operator==(const AddInSeries&, const AddInSeries&) = default;
};

/// The new part joins the two nets of pins `pinA` and `pinB`; its pin 1 at `pinA` unless `reversed`.
struct AddAcross {
    PartId part;
    int pinA = 0;
    int pinB = 1;
    NewPart fitted;
    bool reversed = false;

    friend bool operator==(const AddAcross&, const AddAcross&) = default;
};

/// One leg out of its pad; the part stays on the board. A net that only this leg held to a voltage is open too.
struct Lift {
    PartId part;
    int pin = 0;

    friend bool operator==(const Lift&, const Lift&) = default;
};

/// Two pins of a part joined by solder or wire (1 mΩ).
struct Bridge {
    PartId part;
    int pinA = 0;
    int pinB = 1;

    friend bool operator==(const Bridge&, const Bridge&) = default;
};

using Change = std::variant<SwapValue, SwapType, AddInSeries, AddAcross, Lift, Bridge>;

struct Mod {
    std::string id;      ///< Stable, unique in the plan; a fitted part takes it as its own id.
    std::string letter;  ///< "A": as shown in the revision triangle.
    std::string name;    ///< "Gain cap"
    Change change;
    bool on = true;

    friend bool operator==(const Mod&, const Mod&) = default;
};

/// In the order of fitting.
using Plan = std::vector<Mod>;

/// The part a change is made on.
const PartId& targetOf(const Change& change);

/// "56n → 120n", "1N4148 in series", "leg 1 lifted": the second line of the mods list.
std::string describeChange(const Circuit& stock, const Change& change);

/// "swap value", "add in series": for messages and menus.
std::string_view changeKind(const Change& change);

}  // namespace ohmwright

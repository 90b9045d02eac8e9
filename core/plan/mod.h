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
    PartId id;  ///< Empty: it takes the id of its mod. A mod that fits several gives each its own.

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

/// The part off the board. What only it held to a voltage is open on purpose.
struct RemovePart {
    PartId part;

    friend bool operator==(const RemovePart&, const RemovePart&) = default;
};

/// Another track or law in the same place.
struct ChangePot {
    PartId part;
    double ohms = 0.0;  ///< Whole track.
    Taper taper = Taper::linear;
    double shareAtHalf = 0.5;

    friend bool operator==(const ChangePot&, const ChangePot&) = default;
};

/// One leg from its pad to another net, which may be new.
struct MoveLeg {
    PartId part;
    int pin = 0;
    NetName net;

    friend bool operator==(const MoveLeg&, const MoveLeg&) = default;
};

/// A part of any kind with each leg at a net that is there or that begins with it.
struct AddPart {
    PartId part;  ///< Beside which it sits: the same stage.
    NewPart fitted;
    std::vector<NetName> nets;  ///< One a pin, in the kind's order.

    friend bool operator==(const AddPart&, const AddPart&) = default;
};

using SingleChange =
    std::variant<SwapValue, SwapType, AddInSeries, AddAcross, Lift, Bridge, RemovePart, ChangePot, MoveLeg, AddPart>;

/// Changes that make sense together only: both diodes of a pair, a capacitor and a resistor as one branch.
struct Combined {
    std::vector<SingleChange> changes;  ///< In the order of fitting; one at least.

    friend bool operator==(const Combined&, const Combined&) = default;
};

/// One position of a switch that a mod fits: what the board is then.
struct SwitchThrow {
    std::string name;                   ///< "LED"; names are unique in their switch.
    std::vector<SingleChange> changes;  ///< Empty for the throw that leaves the board as it is.

    friend bool operator==(const SwitchThrow&, const SwitchThrow&) = default;
};

/// A switch with all its throws, the centre-off one among them. Setting::throws says how it stands.
struct FitSwitch {
    PartId part;  ///< Beside which it sits.
    std::vector<SwitchThrow> throws;

    friend bool operator==(const FitSwitch&, const FitSwitch&) = default;
};

using Change = std::variant<SwapValue, SwapType, AddInSeries, AddAcross, Lift, Bridge, RemovePart, ChangePot, MoveLeg,
                            AddPart, Combined, FitSwitch>;

struct Mod {
    std::string id;      ///< Stable, unique in the plan; a fitted part without an id takes it as its own.
    std::string letter;  ///< "A": as shown in the revision triangle.
    std::string name;    ///< "Gain cap"
    Change change;
    bool on = true;

    friend bool operator==(const Mod&, const Mod&) = default;
};

/// In the order of fitting.
using Plan = std::vector<Mod>;

/// The part a change is made on; of several the first.
const PartId& targetOf(const Change& change);
const PartId& targetOf(const SingleChange& change);

/// The change as a list of single ones: itself, the parts of a combined one, or what the throw of a switch does.
/// @param throwName  of a switch; one that it does not have, or none, stands for its first.
std::vector<SingleChange> singleChanges(const Change& change, const std::string& throwName = {});

/// Every single change that it can make, a switch's in all its throws.
std::vector<SingleChange> everySingleChange(const Change& change);

/// "Mod C (Gain cap)": how sentences name one.
std::string nameOfMod(const Mod& mod);

/// Every new part that a change can bring, a switch's in all its throws; to be changed in place.
std::vector<NewPart*> newPartsOf(Change& change);
std::vector<const NewPart*> newPartsOf(const Change& change);

/// The id that a new part has on the board.
const PartId& idOf(const Mod& mod, const NewPart& fitted);

/// Whether the mod can bring a part of that id to the board.
bool fitsPart(const Mod& mod, const PartId& part);

/// The mod as mods of one single change each, with its id, letter and name: what a list of work walks through.
std::vector<Mod> asSingleMods(const Mod& mod, const std::string& throwName = {});

/// "56n → 120n", "1N4148 in series", "leg 1 lifted": the second line of the mods list.
std::string describeChange(const Circuit& stock, const Change& change);

/// "swap value", "add in series": for messages and menus.
std::string_view changeKind(const Change& change);

}  // namespace ohmwright

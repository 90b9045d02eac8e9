/// The drawer: parts in stock, lot by lot, with what accepted plans have reserved of them.
///
/// A plain value. Reading and writing it as JSON and CSV: files/drawer_file.h, files/drawer_csv.h.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// What was measured of one device out of a bag; only the figures that its kind has are there.
struct MeasuredDevice {
    std::string label;                        ///< What stands on its bag or its dot of paint: "7".
    std::optional<double> beta;               ///< Bipolar: collector over base current, a ratio.
    std::optional<double> saturationAmperes;  ///< JFET: drain current at Vgs = 0 (Idss) [A].
    std::optional<double> pinchOffVolts;      ///< JFET: Vgs where the drain current ends (Vp) [V]; negative of N types.

    friend bool operator==(const MeasuredDevice&, const MeasuredDevice&) = default;
};

/// Some parts of one kind, value and delivery.
struct DrawerLot {
    std::string id;  ///< Unique in the drawer: "R-3k9-a".
    PartKind kind = PartKind::resistor;
    double value = 0.0;                   ///< SI unit of the kind, as ordered; 0 for a part with a type.
    std::string type;                     ///< Name in the part library: "1N4148"; empty for a part with a value.
    std::string lot;                      ///< The supplier's or the shop's own name of the delivery.
    int quantity = 0;                     ///< In the drawer, reserved ones among them.
    std::string printed;                  ///< Marking on the body: "392", "orange-white-red-gold".
    std::optional<double> measured;       ///< What a meter says of a part of this lot [SI unit of the kind].
    double tolerance = 0.0;               ///< Fraction: 0.05 for 5 %; 0 when none is stated.
    double pitchMillimetres = 0.0;        ///< Distance of the holes; 0 when it can be bent to fit, or is not known.
    double ratedVolts = 0.0;              ///< 0 when not stated.
    std::string build;                    ///< "film", "carbon film, 0.25 W", "electrolytic"
    double price = 0.0;                   ///< Of one, in the shop's currency (plan/quote.h).
    std::vector<MeasuredDevice> devices;  ///< Those that were measured; no more than there are.
    std::map<std::string, int> reserved;  ///< Job -> how many an accepted plan of it will take.

    friend bool operator==(const DrawerLot&, const DrawerLot&) = default;
};

struct Drawer {
    std::string shop;  ///< "Tern & Tallow, Quay Street"
    std::vector<DrawerLot> lots;

    friend bool operator==(const Drawer&, const Drawer&) = default;
};

/// A wish for parts of one lot.
struct LotCount {
    std::string lot;  ///< DrawerLot::id
    int quantity = 0;

    friend bool operator==(const LotCount&, const LotCount&) = default;
};

const DrawerLot* findLot(const Drawer& drawer, std::string_view id);

/// What a circuit with this part in it is solved with: the measured value, else the one ordered.
double valueOf(const DrawerLot& lot);

/// How many of a lot a job can take: what is there less what other jobs have reserved; never under 0.
/// @param job  whose own reservation counts as free to it; empty for none.
int availableFor(const DrawerLot& lot, std::string_view job = {});

/// Lots of a kind of which the job can take at least one, in the drawer's order.
std::vector<const DrawerLot*> lotsOfKind(const Drawer& drawer, PartKind kind, std::string_view job = {});

/// Puts a job's reservation in place of the one that it has: what its plan needs now.
/// @param wanted  a lot may come more than once; quantities are added.
/// Errors: invalidInput naming a lot that is not there, or the first that has too few left, with how many are missing.
Result<Drawer> reserve(const Drawer& drawer, const std::string& job, const std::vector<LotCount>& wanted);
/// Gives back all that a job has reserved.
Drawer releaseReservation(const Drawer& drawer, std::string_view job);
/// The job's reserved parts leave the drawer: they are soldered in.
Drawer takeReserved(const Drawer& drawer, std::string_view job);

/// Everything wrong with a drawer, a sentence each that names the lot: an id twice or missing, a count under 0, more
/// reserved or measured than there is, a value that no part of its kind has, neither value nor type, a figure that its
/// kind does not have. Empty when nothing is.
std::vector<std::string> faultsOf(const Drawer& drawer);

/// The type with one device's own figures in place of the type's: BF of a bipolar; VTO = -|Vp| and BETA = Idss/Vp^2 of
/// a JFET (the square law at Vgs = 0, its slope by LAMBDA left out). Figures that were not measured stay the type's.
/// Source: square law of the JFET, W. Shockley, Proc. IRE 40 (1952) 1365, in the Berkeley form.
Model withMeasured(const Model& type, const MeasuredDevice& device);

/// "3k9 carbon film, lot 24-07", "1N4148": how lists name a lot.
std::string displayName(const DrawerLot& lot);

}  // namespace ohmwright

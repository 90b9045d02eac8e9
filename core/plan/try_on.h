/// Trying a value before any desoldering: what to clip across the old part, or to put in series with one leg lifted.
///
/// Across a part a resistance, a coil or a pot's track can only get smaller and a capacitance only larger. The other
/// way a leg must be lifted. The same answers leave the original part on the board for good, so that the mod can be
/// taken back.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"
#include "core/parts/combinations.h"
#include "core/plan/mod.h"

#include <cstddef>
#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

enum class TryOnWay { across, inSeries };

/// One part of the drawer on or beside the old one.
struct TryOnOffer {
    ValueOnHand fitted;
    double gives = 0.0;     ///< Of both together [SI].
    double shareOff = 0.0;  ///< gives/target - 1.
};

struct TryOn {
    PartId part;
    double present = 0.0;  ///< Value on the board; the measured one where it was measured.
    double target = 0.0;
    TryOnWay way = TryOnWay::across;
    double needed = 0.0;             ///< What would give the target exactly [SI].
    std::vector<TryOnOffer> offers;  ///< Nearest result first; empty when nothing on hand comes within a factor of 2.
    std::string sentence;            ///< "clip 9k1 across R5 (2k73)", "cannot be tried across: lift one leg and add
                                     ///< 820R in series (4k72)"
    std::string caution;             ///< What to see to before any clip touches the board.
};

/// @param circuit  as the board is now.
/// @param onHand   values of the part's kind (parts/combinations.h).
/// Errors: invalidInput when there is no such part, it has no value, it is a pot (its law would change with its track),
/// or the target is its value already or none that such a part has.
Result<TryOn> tryOnValue(const Circuit& circuit, const Setting& setting, const PartId& part, double target,
                         const std::vector<ValueOnHand>& onHand, std::size_t most = 5);

/// The change that an offer makes to the circuit, to be tried as a ghost or kept as a mod.
/// @param reference  of the new part.
Change changeOf(const TryOn& tryOn, const TryOnOffer& offer, PartKind kind, const std::string& reference);

/// Whether another type of diode can be tried by clipping it across the old one: it then conducts beside it, and only
/// where it alone carries the current is the trial the swap.
struct TypeTryOn {
    bool canBeTried = false;      ///< Level at the output within 0.5 dB of the real swap.
    double levelAcrossDbv = 0.0;  ///< RMS at the output, new one across the old one.
    double levelSwappedDbv = 0.0;
    std::string sentence;
    std::string caution;
};
/// Solved at the setting's tone and pick level.
/// Errors: invalidInput when the part is no diode, or the type is none; of the solver; cancelled.
Result<TypeTryOn> tryOnType(const Circuit& circuit, const Setting& setting, const PartId& part, const Model& type,
                            const std::stop_token& stop = {});

}  // namespace ohmwright

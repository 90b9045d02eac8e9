/// The two sides of the input jack and the output: what the unit shows to the guitar and to the next box.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"

#include <complex>
#include <optional>
#include <stop_token>

namespace ohmwright {

/// The circuit with pickup, guitar volume and cable taken away and the source at the jack: "jack-driven". What is taken
/// away are the other parts of the stage that ends at the jack; without one, what hangs on the source alone. The
/// circuit itself when it names no source or no jack.
Circuit drivenAtJack(const Circuit& circuit);

/// The same with nothing at the jack at all; the source drives nothing.
Circuit withOpenJack(const Circuit& circuit);

/// The setting without knobs that a circuit has not, as those before the jack.
Setting settingFor(const Circuit& circuit, Setting setting);

/// |v/i| at the jack with the source parts taken away [Ω].
/// Errors: as solve/impedance.h; unsolvable when the circuit names no jack.
Result<double> inputImpedanceOhms(const Circuit& circuit, const Setting& setting, double hertz,
                                  const std::stop_token& stop = {});

/// |v/i| at the output with the load taken away and the source silent [Ω]. Errors: as solve/impedance.h.
Result<double> outputImpedanceOhms(const Circuit& circuit, const Setting& setting, double hertz,
                                   const std::stop_token& stop = {});

/// A coupling capacitor with what it works into.
struct CouplingCorner {
    PartId capacitor;
    double ohms = 0.0;
    double hertz = 0.0;  ///< 1/(2 pi R C): a tag of the values.
};

/// Of the capacitor behind the jack: R is the impedance at its far end with nothing at the jack, at 1 kHz. Absent when
/// not exactly one capacitor leads away from the jack (past resistors), or none does.
Result<std::optional<CouplingCorner>> inputCorner(const Circuit& circuit, const Setting& setting,
                                                  const std::stop_token& stop = {});
/// Of the capacitor before the output: R is what it sees between its ends with itself taken out, the load in place, at
/// 1 kHz, jack-driven. Absent as above.
Result<std::optional<CouplingCorner>> outputCorner(const Circuit& circuit, const Setting& setting,
                                                   const std::stop_token& stop = {});

}  // namespace ohmwright

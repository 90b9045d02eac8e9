/// What a device's sheet, or its curve at the bias, says for a sum on paper.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/measure/solved_circuit.h"

namespace ohmwright {

/// √(4kTR) [V/√Hz].
double thermalNoiseVolts(double ohms, double kelvin);

struct DiodeSheet {
    double emission = 1.0;           ///< n
    double saturationAmperes = 0.0;  ///< Is
};
DiodeSheet diodeSheet(const Model& model);

struct OpampSheet {
    double gainBandwidthHz = 0.0;
    double noiseVolts = 0.0;    ///< en at the frequency asked [V/√Hz]; 0 where the type states none.
    double noiseAmperes = 0.0;  ///< in [A/√Hz]
};
OpampSheet opampSheet(const Model& model, double hertz);

struct JfetSheet {
    double pinchOffVolts = 0.0;  ///< |Vp|
    double fullAmperes = 0.0;    ///< Idss = BETA·Vp²
};
JfetSheet jfetSheet(const Model& model);

/// μ and ra, from the slopes of the valve's law at the bias. REQUIRES: a triode of the solved circuit.
struct ValveSlopes {
    double factor = 0.0;     ///< μ
    double anodeOhms = 0.0;  ///< ra
};
ValveSlopes valveSlopes(const Circuit& circuit, const SolvedCircuit& solved, const Part& valve);

}  // namespace ohmwright

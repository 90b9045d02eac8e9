/// The parts that the figures of the linearised circuit are made of; each is measured in one place.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/measure/figures.h"
#include "core/measure/solved_circuit.h"

#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

/// gain_leg_corner and plateau_gain: formulas of the parts that do the job, whatever they are called.
std::vector<Figure> tagFigures(const Circuit& circuit, const Setting& setting);

/// highest_gain, highest_gain_at, low_corner, high_corner of the clip stage; then stage_gain_82 and the others.
/// Errors: as solve/response.h; cancelled.
Result<std::vector<Figure>> stageFigures(const Circuit& circuit, const SolvedCircuit& solved,
                                         const std::stop_token& stop = {});

/// response_82 and the others. Errors: as solve/response.h.
Result<std::vector<Figure>> responseFigures(const Circuit& circuit, const SolvedCircuit& solved);

/// Gain of the clip stage between its border nets at one frequency [dB]; absent without such a stage.
Result<Figure> stageGainAt(const Circuit& circuit, const SolvedCircuit& solved, double hertz, const std::string& id);

/// supply_current: out of the battery [mA].
Figure supplyCurrent(const Circuit& circuit, const SolvedCircuit& solved);

}  // namespace ohmwright

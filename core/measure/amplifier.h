/// A transistor or valve as an amplifier: what its electrodes meet in the net around it, found with the device taken
/// out and everything else at its bias. What the sums on paper of its gain are worked from.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"
#include "core/measure/solved_circuit.h"

#include <optional>
#include <stop_token>
#include <vector>

namespace ohmwright {

/// Between a control electrode (base, gate, grid) and an output electrode (collector, drain, anode), with the common
/// one (emitter, source, cathode) at rest or on a resistance. Resistances are those that are left at `hertz`, where
/// the gain is highest: capacitors that couple and bypass are shorts there, or nearly so.
struct Amplifier {
    PartId device;
    NetName input;               ///< The border of its stage; the control electrode's net where that is no passive way.
    NetName output;              ///< The border of its stage; the output electrode's net where that is no passive way.
    double highestDb = 0.0;      ///< Solved, output over input.
    double hertz = 0.0;          ///< Where.
    double outputAmperes = 0.0;  ///< At rest, into the output electrode.
    double controlAmperes = 0.0;           ///< At rest, into the control electrode.
    std::optional<double> ownLoadOhms;     ///< Of the resistors at the output electrode, ground not counted.
    double loadOhms = 0.0;                 ///< All that the output current meets, seen at `output`.
    double commonOhms = 0.0;               ///< Under the common electrode.
    double sourceOhms = 0.0;               ///< In series between `input` and the control electrode.
    std::optional<double> inputShuntOhms;  ///< From the control electrode to rest, the device not counted.
};

/// Net of the electrode; REQUIRES a bipolar, JFET or triode.
const NetName& outputNet(const Part& device);
const NetName& controlNet(const Part& device);
const NetName& commonNet(const Part& device);

/// Every bipolar, JFET and triode that amplifies into its collector, drain or anode, in the circuit's order. One whose
/// output electrode meets almost nothing, as a follower's, is none. Errors: of the solver; cancelled.
Result<std::vector<Amplifier>> findAmplifiers(const Circuit& circuit, const Setting& setting,
                                              const SolvedCircuit& solved, const std::stop_token& stop = {});

/// The resistance under a common electrode, to ground, and the capacitance across it.
struct BypassedResistance {
    double ohms = 0.0;
    double farads = 0.0;
    double seriesOhms = 0.0;  ///< In series with the capacitor; 0 for none.
    std::vector<PartId> capacitors;
    std::vector<PartId> resistors;
};
/// Absent without a capacitor there, and when anything else hangs there than resistors to ground and capacitors to
/// ground, or one capacitor through one resistor.
std::optional<BypassedResistance> findBypassedResistance(const Circuit& circuit, const Part& device);

}  // namespace ohmwright

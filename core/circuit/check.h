/// What is wrong with a circuit before anything is solved, each fault at its place.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace ohmwright {

enum class Severity { doubtful, wrong };

struct Fault {
    Severity severity = Severity::wrong;
    std::string message;  ///< One sentence, what is wrong and what to do.
    PartId part;          ///< Part to mark; may be empty.
    NetName net;          ///< Net to mark; may be empty.

    friend bool operator==(const Fault&, const Fault&) = default;
};

/// What a part's value may be, both ends included [SI unit of the kind].
struct ValueLimits {
    double lowest = 0.0;
    double highest = 0.0;
    std::string_view words;  ///< "0.01 Ω to 100 GΩ"

    [[nodiscard]] bool hold(double value) const { return value >= lowest && value <= highest; }  // false for NaN
};

/// Which values are wrong: those that no part on a bench has, or only those that no equation can hold.
enum class ValueRule {
    bench,   ///< 0.01 Ω to 100 GΩ, 0.1 pF to 1 F, 1 nH to 10 kH
    solver,  ///< above zero and finite (1 µΩ to 1 EΩ, 1 yF to 1 MF, 1 aH to 1 GH), as a netlist may have them
};

/// Absent for kinds without a value of their own (hasValue).
std::optional<ValueLimits> valueLimits(PartKind kind, ValueRule rule = ValueRule::bench);

/// Everything wrong or doubtful, in the order of the parts; what concerns no part comes last.
///
/// wrong: an id twice; pins without nets; a value that is not finite or outside valueLimits; a type that is
/// not in the circuit's models, or whose figures make no law (model_limits.h); a net without a DC path to
/// ground (one fault for nets that float together); a loop of voltage sources and inductors; a voltage source shorted
/// by links; couplings that cannot be at once (couplings.h); ports, knobs or stages that name what is not there.
/// doubtful: a reference twice; a net with one pin and no sign; a supply sign that no source feeds; an op-amp without a
/// path from output to inverting pin, or with its output bridged to ground or a supply; a resistor of 1 to 10 mΩ, which
/// is a wire.
std::vector<Fault> checkCircuit(const Circuit& circuit, ValueRule values = ValueRule::bench);

/// Polarised capacitors whose plus (pin 1) is at the lower voltage at rest, by more than a tenth of a volt: doubtful.
/// @param biasVolts  of the circuit's nets; a net that is not there counts for nothing.
std::vector<Fault> polarityFaults(const Circuit& circuit, const std::vector<std::pair<NetName, double>>& biasVolts);

/// One net of each group that nothing ties to ground for direct current, in the order of the parts; open nets are
/// tied on purpose. REQUIRES: every part has its kind's number of nets.
std::vector<NetName> netsWithoutDcPath(const Circuit& circuit);

/// The part's value alone, by ValueRule::solver. Errors: unsolvable naming the part.
Result<void> requireSolvableValue(const Part& part);

/// The first wrong fault as an error (unsolvable), or success; values by ValueRule::solver.
Result<void> requireSolvable(const Circuit& circuit);

}  // namespace ohmwright

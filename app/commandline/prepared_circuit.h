/// A circuit with the call's ends, setting and names put in: what every verb works on, whatever file it came from.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/commandline/request.h"
#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"
#include "core/files/netlist.h"
#include "core/measure/solved_circuit.h"
#include "core/plan/job.h"

#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

/// The ends of a circuit that a verb cannot do without.
enum class Ends { none, input, output, both };

struct PreparedCircuit {
    Circuit circuit;                    ///< Ports as asked.
    Setting setting;                    ///< As asked.
    std::vector<NetName> nets;          ///< That the file names at its top, in its order, without ground.
    std::vector<SubcircuitCall> calls;  ///< Calls at the top of a netlist; parts to the reader, dissolved here.
    std::string title;                  ///< One line.
    std::vector<std::string> notes;     ///< What was assumed; sentences to stand beside an answer.
    std::optional<Job> job;  ///< Of a job file: setting, source and output as asked, mods on as the variant says.
};

/// A netlist with --input, --output and --temperature in force. Ends that the verb does not need may be missing, unless
/// the call names them.
/// Errors: invalidInput naming the option and the candidates; --set and --variant are of jobs alone.
Result<PreparedCircuit> prepareNetlist(Netlist netlist, const Request& request, Ends needed);

/// The setting with --temperature in force. Errors: invalidInput with the range.
Result<Setting> withTemperature(Setting setting, const Request& request);

/// A solve fails by the circuit's fault: invalidInput, which is the call's, becomes unsolvable.
Error asCircuitFault(Error error);

/// Compiled and biased, both ends there.
/// Errors: unsolvable (never invalidInput: the call is not at fault), noConvergence, cancelled.
Result<SolvedCircuit> solveBetweenEnds(const PreparedCircuit& prepared, const std::stop_token& stop);

/// Compiled and biased, whatever its ends. Errors: as solveBetweenEnds.
Result<SolvedCircuit> solveAtRest(const PreparedCircuit& prepared, const std::stop_token& stop);

/// Small signals go by the slopes of laws at the bias; where one rises without bound there is no answer.
/// Errors: unsolvable naming the source and the function of its formula.
Result<void> requireFiniteSlopes(const PreparedCircuit& prepared, const SolvedCircuit& solved);

/// The output's index among the unknowns. Errors: unsolvable when the circuit has no such net off ground.
Result<int> outputUnknown(const PreparedCircuit& prepared, const SolvedCircuit& solved);

/// The input source, or null.
const Part* inputSource(const PreparedCircuit& prepared);

/// "VIN" of a netlist, "R5" of a job, the id where two parts have the same reference: one a part in the circuit's
/// order.
std::vector<std::string> uniqueNames(const Circuit& circuit);

/// No signal reaches the output: an error, since no level can be given for nothing.
Error silentOutput(const PreparedCircuit& prepared, const std::string& where);

}  // namespace ohmwright

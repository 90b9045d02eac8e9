// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/frequency_grid.h"
#include "app/commandline/verbs.h"
#include "core/base/decibels.h"
#include "core/base/value_text.h"
#include "core/solve/impedance.h"
#include "core/solve/influence.h"
#include "core/solve/noise.h"
#include "core/solve/poles.h"
#include "core/solve/response.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <span>

namespace ohmwright {

namespace {

constexpr double degreesPerRadian = 180.0 / std::numbers::pi;
/// Noise is kept by part and frequency: so many figures at a time are 32 MB.
constexpr std::size_t mostNoiseFigures = 4'000'000;

std::string atFrequency(double hertz) {
    return " at " + formatQuantity({hertz, Unit::hertz});
}

/// True for a gain or impedance that has a level and a phase.
bool hasLevel(std::complex<double> figure) {
    const double magnitude = std::abs(figure);
    return magnitude > 0.0 && std::isfinite(magnitude);
}

/// -180..180 with the sign of a plain 0 where the figure is real and positive.
double phaseDegrees(std::complex<double> figure) {
    return figure == 0.0 ? 0.0 : std::arg(figure) * degreesPerRadian;
}

bool isCurrentSource(const Part* source) {
    return source != nullptr && source->kind == PartKind::currentSource;
}

/// The columns speak of volts, whatever the source is.
void noteCurrentInput(const PreparedCircuit& prepared, const char* what, Answer& answer) {
    const Part* source = inputSource(prepared);
    if (isCurrentSource(source))
        answer.notes.push_back("The input " + displayName(*source) + " is a current source: " + what + ".");
}

/// Where nothing of the input reaches the output its noise is still there; what it would be at the input is left empty.
/// False when there is such a row.
bool appendNoise(const NoiseCurve& curve, Table& table) {
    bool reaches = true;
    for (std::size_t k = 0; k < curve.hertz.size(); ++k) {
        const double referred = curve.inputReferred(k);
        Cell cell;
        if (curve.gain[k] > 0.0 && std::isfinite(referred)) cell = referred;
        reaches = reaches && std::holds_alternative<double>(cell);
        table.rows.push_back({curve.hertz[k], curve.output[k], cell});
    }
    return reaches;
}

Result<std::vector<std::complex<double>>> impedanceOf(const PreparedCircuit& prepared, const SolvedCircuit& solved,
                                                      const Request& request, const std::vector<double>& frequencies,
                                                      const std::stop_token& stop) {
    if (request.side == "in") return inputImpedance(*solved.equations, *solved.bias, frequencies, stop);
    const Result<int> output = outputUnknown(prepared, solved);
    if (!output) return output.error();
    return nodeImpedance(*solved.equations, *solved.bias, *output, frequencies, stop);
}

Result<SolvedCircuit> withFiniteSlopes(const PreparedCircuit& prepared, Result<SolvedCircuit> solved) {
    if (!solved) return solved;
    if (const Result<void> finite = requireFiniteSlopes(prepared, *solved); !finite) return finite.error();
    return solved;
}

Result<double> singleFrequency(const Request& request) {
    const Result<std::vector<double>> listed = frequenciesOf(request);
    if (!listed) return listed.error();
    if (listed->size() != 1) return refuseOption("--at", "give one frequency, as in --at 1k.");
    return listed->front();
}

void appendRoots(const char* kind, const std::vector<std::complex<double>>& roots, Table& table) {
    for (const std::complex<double>& root : roots) table.rows.push_back({std::string(kind), root.real(), root.imag()});
}

}  // namespace

Result<Answer> answerResponse(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    const Result<std::vector<double>> frequencies = frequenciesOf(request);
    if (!frequencies) return frequencies.error();
    const Result<SolvedCircuit> solved = withFiniteSlopes(prepared, solveBetweenEnds(prepared, stop));
    if (!solved) return solved.error();
    const auto gains =
        frequencyResponse(*solved->equations, *solved->bias, {prepared.circuit.ports.output}, *frequencies, stop);
    if (!gains) return asCircuitFault(gains.error());
    Answer answer{{{{"frequency_hz", "magnitude_db", "phase_deg"}, {}}}, {}};
    for (std::size_t k = 0; k < frequencies->size(); ++k) {
        const std::complex<double> gain = gains->front()[k];
        if (!hasLevel(gain)) return silentOutput(prepared, atFrequency((*frequencies)[k]));
        answer.tables.front().rows.push_back({(*frequencies)[k], amplitudeDb(std::abs(gain)), phaseDegrees(gain)});
    }
    noteCurrentInput(prepared, "0 dB is one volt at the output for one ampere", answer);
    return answer;
}

Result<Answer> answerNoise(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    const Result<std::vector<double>> frequencies = frequenciesOf(request);
    if (!frequencies) return frequencies.error();
    const Result<SolvedCircuit> solved = withFiniteSlopes(prepared, solveBetweenEnds(prepared, stop));
    if (!solved) return solved.error();
    const Result<int> output = outputUnknown(prepared, *solved);
    if (!output) return output.error();
    Answer answer{{{{"frequency_hz", "output_v_per_rthz", "input_referred_v_per_rthz"}, {}}}, {}};
    bool reaches = true;
    const std::size_t atOnce = std::max<std::size_t>(1, mostNoiseFigures / (prepared.circuit.parts.size() + 1));
    for (std::size_t begin = 0; begin < frequencies->size(); begin += atOnce) {
        const auto some = std::span(*frequencies).subspan(begin, std::min(atOnce, frequencies->size() - begin));
        const Result<NoiseCurve> curve = solveNoise(*solved->equations, *solved->bias, *output, some, stop);
        if (!curve) return asCircuitFault(curve.error());
        reaches = appendNoise(*curve, answer.tables.front()) && reaches;
    }
    if (!reaches)
        answer.notes.push_back("No signal of the input reaches net " + prepared.circuit.ports.output +
                               " at some frequencies: the input-referred density is left empty there.");
    noteCurrentInput(prepared, "the input-referred density is in amperes per root hertz", answer);
    return answer;
}

Result<Answer> answerImpedance(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    if (request.side != "in" && request.side != "out") return refuseOption("--side", "choose in or out.");
    const Result<std::vector<double>> frequencies = frequenciesOf(request);
    if (!frequencies) return frequencies.error();
    const Result<SolvedCircuit> solved = withFiniteSlopes(prepared, solveAtRest(prepared, stop));
    if (!solved) return solved.error();
    const auto ohms = impedanceOf(prepared, *solved, request, *frequencies, stop);
    if (!ohms) return asCircuitFault(ohms.error());
    Table table{{"frequency_hz", "magnitude_ohm", "phase_deg"}, {}};
    for (std::size_t k = 0; k < frequencies->size(); ++k) {
        const std::complex<double> impedance = (*ohms)[k];
        if (!std::isfinite(std::abs(impedance)))
            return Error{ErrorCode::unsolvable,
                         "No current flows" + atFrequency((*frequencies)[k]) +
                             ", so there is no impedance to give: look for an open path.",
                         ""};
        table.rows.push_back({(*frequencies)[k], std::abs(impedance), phaseDegrees(impedance)});
    }
    return Answer{{std::move(table)}, {}};
}

Result<Answer> answerInfluence(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    const Result<double> hertz = singleFrequency(request);
    if (!hertz) return hertz.error();
    const Result<SolvedCircuit> solved = withFiniteSlopes(prepared, solveBetweenEnds(prepared, stop));
    if (!solved) return solved.error();
    const Result<int> output = outputUnknown(prepared, *solved);
    if (!output) return output.error();
    const auto curves = solveInfluence(*solved->equations, *solved->bias, *output, std::span(&*hertz, 1), stop);
    if (!curves) return asCircuitFault(curves.error());
    const std::vector<std::string> names = uniqueNames(prepared.circuit);
    Table table{{"part", "db_per_ten_percent"}, {}};
    for (const bool insideCalls : {false, true})
        for (std::size_t k = 0; k < names.size(); ++k) {
            const std::vector<double>& curve = curves->dbPerTenPercent[k];
            if (curve.empty() || prepared.circuit.parts[k].call.empty() == insideCalls) continue;
            if (!std::isfinite(curve.front())) return silentOutput(prepared, atFrequency(*hertz));
            table.rows.push_back({names[k], curve.front()});
        }
    return Answer{{std::move(table)}, {}};
}

Result<Answer> answerPoles(const PreparedCircuit& prepared, const Request&, const std::stop_token& stop) {
    const Result<SolvedCircuit> solved = withFiniteSlopes(prepared, solveBetweenEnds(prepared, stop));
    if (!solved) return solved.error();
    const Result<int> output = outputUnknown(prepared, *solved);
    if (!output) return output.error();
    const Result<PolesAndZeros> found = findPolesAndZeros(*solved->equations, *solved->bias, *output, stop);
    if (!found) return asCircuitFault(found.error());
    Answer answer{{{{"kind", "real_hz", "imag_hz"}, {}}}, {}};
    appendRoots("pole", found->poles, answer.tables.front());
    appendRoots("zero", found->zeros, answer.tables.front());
    if (!found->closed)
        answer.notes.push_back("The response that these poles and zeros make differs from the circuit's by up to " +
                               formatQuantity({found->checkErrorDb, Unit::decibel}) +
                               ": some of them are missing or not exact.");
    return answer;
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/verbs.h"
#include "core/base/decibels.h"
#include "core/measure/solved_circuit.h"
#include "core/solve/response.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

namespace ohmwright {

namespace {

constexpr double lowestHz = 20.0;
constexpr double highestHz = 20000.0;
constexpr int pointsPerDecade = 100;
constexpr int mostPointsPerDecade = 10000;
/// A second or two of solving and some megabytes of text.
constexpr double mostPoints = 200000.0;
constexpr double degreesPerRadian = 180.0 / std::numbers::pi;

Error refuse(const std::string& option, const std::string& sentence) {
    return {ErrorCode::invalidInput, option + ": " + sentence, option};
}

Result<std::vector<double>> frequenciesOf(const Request& request) {
    if (!request.at.empty()) return readFigureList("--at", request.at, Unit::hertz);
    const Result<double> from = readFigureOr("--from", request.from, Unit::hertz, lowestHz);
    if (!from) return from.error();
    const Result<double> to = readFigureOr("--to", request.to, Unit::hertz, highestHz);
    if (!to) return to.error();
    const Result<int> density = readCountOr("--per-decade", request.perDecade, 1, mostPointsPerDecade, pointsPerDecade);
    if (!density) return density.error();
    if (!(*from > 0.0) || !(*to >= *from))
        return refuse("--from", "the lowest frequency must be above 0 and not above --to.");
    if (std::log10(*to / *from) * *density > mostPoints)
        return refuse("--per-decade", "that is more than 200000 points: ask for fewer.");
    return logarithmicGrid(*from, *to, *density);
}

std::string uniqueName(const Circuit& circuit, const Part& part) {
    const auto same = std::count_if(circuit.parts.begin(), circuit.parts.end(),
                                    [&part](const Part& other) { return other.reference == part.reference; });
    return same == 1 && !part.reference.empty() ? part.reference : part.id;
}

}  // namespace

Result<Answer> answerResponse(const PreparedJob& prepared, const Request& request, const std::stop_token& stop) {
    const Result<std::vector<double>> frequencies = frequenciesOf(request);
    if (!frequencies) return frequencies.error();
    for (double hz : *frequencies)
        if (!(hz > 0.0)) return refuse("--at", "a frequency must be above 0 Hz.");
    const Result<SolvedCircuit> solved = solveCircuit(prepared.circuit, prepared.job.setting, stop);
    if (!solved) return solved.error();
    const auto gains =
        frequencyResponse(*solved->equations, *solved->bias, {prepared.circuit.ports.output}, *frequencies, stop);
    if (!gains) return gains.error();
    Table table{{"frequency_hz", "magnitude_db", "phase_deg"}, {}};
    for (std::size_t k = 0; k < frequencies->size(); ++k) {
        const std::complex<double> gain = gains->front()[k];
        table.rows.push_back({(*frequencies)[k], amplitudeDb(std::abs(gain)), std::arg(gain) * degreesPerRadian});
    }
    return Answer{{table}, {}};
}

Result<Answer> answerBias(const PreparedJob& prepared, const Request&, const std::stop_token& stop) {
    const Result<SolvedCircuit> solved = solveCircuit(prepared.circuit, prepared.job.setting, stop);
    if (!solved) return solved.error();
    Table voltages{{"node", "voltage_v"}, {}};
    for (const NetName& net : solved->equations->nets()) voltages.rows.push_back({net, solved->biasVolts(net)});
    Table currents{{"part", "terminal", "current_a"}, {}};
    for (const Part& part : prepared.circuit.parts) {
        const std::vector<double> amperes = solved->equations->terminalCurrents(part, solved->bias->x);
        for (std::size_t pin = 0; pin < amperes.size(); ++pin)
            currents.rows.push_back({uniqueName(prepared.circuit, part),
                                     std::string(pinName(part.kind, static_cast<int>(pin))), amperes[pin]});
    }
    return Answer{{voltages, currents}, {}};
}

}  // namespace ohmwright

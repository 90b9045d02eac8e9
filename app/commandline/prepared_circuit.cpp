// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/prepared_circuit.h"

#include "core/expression/expression.h"

#include <algorithm>
#include <memory>
#include <string_view>
#include <unordered_map>
#include <utility>

namespace ohmwright {

namespace {

constexpr double zeroCelsiusKelvin = 273.15;
/// What checkSetting holds to; the laws' figures are no use beyond.
constexpr FigureRange temperatureRange{-50.0, 125.0, "−50 to 125 (degrees Celsius)"};

bool isIndependentSource(const Part& part) {
    return part.kind == PartKind::voltageSource || part.kind == PartKind::currentSource;
}

const Part* firstTopSource(const Circuit& circuit) {
    const auto found = std::find_if(circuit.parts.begin(), circuit.parts.end(),
                                    [](const Part& part) { return isIndependentSource(part) && part.call.empty(); });
    return found == circuit.parts.end() ? nullptr : &*found;
}

bool needsInput(Ends ends) {
    return ends == Ends::input || ends == Ends::both;
}

bool needsOutput(Ends ends) {
    return ends == Ends::output || ends == Ends::both;
}

bool anySourceIsDriven(const Circuit& circuit) {
    return std::any_of(circuit.parts.begin(), circuit.parts.end(),
                       [](const Part& part) { return isIndependentSource(part) && part.acAmplitude != 0.0; });
}

/// choosePorts wants both ends; one that is neither needed nor named is filled in for it and taken out again.
Result<void> chooseNeededPorts(Netlist& netlist, const Request& request, Ends needed) {
    const bool wantsInput = needsInput(needed) || !request.input.empty();
    const bool wantsOutput = needsOutput(needed) || !request.output.empty();
    if (!wantsInput && !wantsOutput) return {};
    std::string input = request.input;
    std::string output = request.output;
    if (!wantsInput) {
        const Part* any = firstTopSource(netlist.circuit);
        if (any != nullptr) input = any->reference;
    }
    if (!wantsOutput && !netlist.topNets.empty()) output = netlist.topNets.front();
    const Result<void> chosen = choosePorts(netlist, input, output);
    if (!chosen) return chosen.error();
    if (!wantsInput) netlist.circuit.ports.source.clear();
    if (!wantsOutput) netlist.circuit.ports.output.clear();
    return {};
}

/// What a law reads, at the bias.
std::vector<double> biasOf(const Expression& law, const SolvedCircuit& solved) {
    const auto at = [&solved](int index) { return index < 0 ? 0.0 : solved.bias->x[static_cast<std::size_t>(index)]; };
    std::vector<double> values;
    for (const LawVariable& variable : law.variables()) {
        if (variable.what == LawVariable::What::current)
            values.push_back(at(solved.equations->branchOf(variable.first)));
        else
            values.push_back(at(solved.equations->indexOfNet(variable.first)) -
                             at(solved.equations->indexOfNet(variable.second)));
    }
    return values;
}

}  // namespace

Error asCircuitFault(Error error) {
    if (error.code == ErrorCode::invalidInput) error.code = ErrorCode::unsolvable;
    return error;
}

Result<Setting> withTemperature(Setting setting, const Request& request) {
    if (request.temperature.empty()) return setting;
    const Result<double> celsius = readFigure("--temperature", request.temperature, Unit::none);
    if (!celsius) return celsius.error();
    const Result<double> inside = requireInside("--temperature", *celsius, temperatureRange);
    if (!inside) return inside.error();
    setting.temperatureKelvin = *celsius + zeroCelsiusKelvin;
    return setting;
}

Result<PreparedCircuit> prepareNetlist(Netlist netlist, const Request& request, Ends needed) {
    if (!request.settings.empty())
        return refuseOption("--set", "a netlist has no knobs or settings: change the values in its text instead.");
    if (!request.variant.empty())
        return refuseOption("--variant", "a netlist has no plan of mods, so it has no variants: leave the option out.");
    Result<Setting> setting = withTemperature(Setting(), request);
    if (!setting) return setting.error();
    const bool isGuess = request.input.empty() && !anySourceIsDriven(netlist.circuit);
    const Result<void> ports = chooseNeededPorts(netlist, request, needed);
    if (!ports) return ports.error();
    PreparedCircuit prepared;
    if (isGuess && !netlist.circuit.ports.source.empty())
        prepared.notes.push_back("No source has an AC value: " + netlist.circuit.ports.source +
                                 " is taken as the input; say it with --input or write AC 1 on its card.");
    prepared.circuit = std::move(netlist.circuit);
    prepared.setting = *std::move(setting);
    prepared.nets = std::move(netlist.topNets);
    prepared.calls = std::move(netlist.calls);
    prepared.title = std::move(netlist.title);
    return prepared;
}

Result<SolvedCircuit> solveAtRest(const PreparedCircuit& prepared, const std::stop_token& stop) {
    Result<Equations> equations = Equations::compile(prepared.circuit, prepared.setting);
    if (!equations) return asCircuitFault(equations.error());
    SolvedCircuit solved{std::make_unique<const Equations>(*std::move(equations)), nullptr};
    Result<OperatingPoint> bias = solveBias(*solved.equations, nullptr, stop);
    if (!bias) return asCircuitFault(bias.error());
    solved.bias = std::make_unique<const OperatingPoint>(*std::move(bias));
    return solved;
}

Result<SolvedCircuit> solveBetweenEnds(const PreparedCircuit& prepared, const std::stop_token& stop) {
    Result<SolvedCircuit> solved = solveCircuit(prepared.circuit, prepared.setting, stop);
    if (!solved) return asCircuitFault(solved.error());
    return solved;
}

Result<void> requireFiniteSlopes(const PreparedCircuit& prepared, const SolvedCircuit& solved) {
    for (const Part& part : prepared.circuit.parts) {
        if (part.law.empty()) continue;
        const Result<Expression> law = Expression::parse(part.law);
        if (!law) continue;  // No equations are made of such a part.
        const std::string_view steep = law->steepFunctionAt(biasOf(*law, solved));
        if (!steep.empty())
            return Error{ErrorCode::unsolvable,
                         displayName(part) + " has the slope of a wall at the bias, where " + std::string(steep) +
                             "(...) of its formula stands at 0, so small signals have no answer: give what it reads a "
                             "DC value, or see large signals with waveform.",
                         displayName(part)};
    }
    return {};
}

Result<int> outputUnknown(const PreparedCircuit& prepared, const SolvedCircuit& solved) {
    const NetName& net = prepared.circuit.ports.output;
    const int output = solved.equations->indexOfNet(net);
    if (output >= 0 && output < solved.equations->size()) return output;
    return Error{ErrorCode::unsolvable,
                 net.empty() ? "The circuit names no output: name a net with --output."
                             : "The output net “" + net + "” is not in the circuit: name another with --output.",
                 net};
}

const Part* inputSource(const PreparedCircuit& prepared) {
    return findPart(prepared.circuit, prepared.circuit.ports.source);
}

std::vector<std::string> uniqueNames(const Circuit& circuit) {
    std::unordered_map<std::string_view, int> carriers;
    for (const Part& part : circuit.parts) ++carriers[part.reference];
    std::vector<std::string> names;
    names.reserve(circuit.parts.size());
    for (const Part& part : circuit.parts) {
        const bool isUnique = !part.reference.empty() && carriers.at(part.reference) == 1;
        names.push_back(isUnique ? part.reference : part.id);
    }
    return names;
}

Error silentOutput(const PreparedCircuit& prepared, const std::string& where) {
    const Part* source = inputSource(prepared);
    return {ErrorCode::unsolvable,
            "No signal of " + (source == nullptr ? "the input" : displayName(*source)) + " reaches net " +
                prepared.circuit.ports.output + where +
                ", so there is no level to give: look for an open or shorted path, or name other ends with --input and "
                "--output.",
            prepared.circuit.ports.output};
}

}  // namespace ohmwright

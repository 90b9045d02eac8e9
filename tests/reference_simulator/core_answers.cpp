// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/reference_simulator/core_answers.h"

#include "core/files/netlist.h"
#include "core/measure/settled_wave.h"
#include "core/solve/cold_wave.h"
#include "core/solve/noise.h"
#include "core/solve/response.h"
#include "core/solve/settled.h"
#include "core/solve/transfer.h"
#include "tests/reference_simulator/reference_answers.h"

#include <algorithm>
#include <cctype>
#include <stdexcept>
#include <utility>

namespace ohmwright::reference {

namespace {

constexpr double kelvinAtZeroCelsius = 273.15;

template <class T>
T taken(Result<T> result, const std::string& what) {
    if (!result) {
        throw std::runtime_error("core has no " + what + ": " + result.error().message);
    }
    return std::move(result).value();
}

std::string lowered(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(), [](unsigned char c) { return char(std::tolower(c)); });
    return text;
}

bool isAtTop(const std::string& name) {
    return name.find('.') == std::string::npos && name.find('#') == std::string::npos;
}

// Ports where the comparison needs them: a bias needs none.
void choose(Netlist& netlist, const Comparison& comparison) {
    if (comparison.kind == "bias") {
        return;
    }
    if (const auto chosen = choosePorts(netlist, comparison.input, comparison.output); !chosen) {
        throw std::runtime_error("core chooses no ports: " + chosen.error().message);
    }
}

}  // namespace

CoreAnswers::CoreAnswers(const SuiteNetlist& netlist, const Comparison& comparison) {
    Netlist read = taken(readNetlist(netlist.text), "netlist");
    choose(read, comparison);
    m_circuit = std::move(read.circuit);
    Setting setting;
    setting.temperatureKelvin = kelvinAtZeroCelsius + netlist.celsius;
    m_solved.equations = std::make_unique<const Equations>(taken(Equations::compile(m_circuit, setting), "equations"));
    m_solved.bias = std::make_unique<const OperatingPoint>(taken(solveBias(*m_solved.equations), "bias"));
    if (comparison.kind != "bias") {
        m_output = m_solved.equations->indexOfNet(m_circuit.ports.output);
        m_inputAtRest = findPart(m_circuit, m_circuit.ports.source)->value;
    }
}

std::map<std::string, double> CoreAnswers::volts() const {
    std::map<std::string, double> volts;
    for (const NetName& net : m_solved.equations->nets()) {
        if (isAtTop(net)) {
            volts[lowered(net)] = m_solved.biasVolts(net);
        }
    }
    return volts;
}

std::map<std::string, double> CoreAnswers::sourceAmperes() const {
    std::map<std::string, double> amperes;
    for (const Part& part : m_circuit.parts) {
        if (part.kind == PartKind::voltageSource && isAtTop(part.id)) {
            amperes[lowered(part.id)] = m_solved.equations->terminalCurrents(part, m_solved.bias->x).at(0);
        }
    }
    return amperes;
}

std::vector<std::complex<double>> CoreAnswers::response(const std::vector<double>& hertz) const {
    return taken(frequencyResponse(*m_solved.equations, *m_solved.bias, {m_circuit.ports.output}, hertz), "response")
        .at(0);
}

CoreAnswers::Noise CoreAnswers::noise(const std::vector<double>& hertz) const {
    const NoiseCurve curve = taken(solveNoise(*m_solved.equations, *m_solved.bias, m_output, hertz), "noise");
    Noise noise{curve.output, {}};
    for (std::size_t k = 0; k < hertz.size(); ++k) {
        noise.input.push_back(curve.inputReferred(k));
    }
    return noise;
}

std::vector<double> CoreAnswers::transfer(const std::vector<double>& inputs) const {
    return taken(dcTransfer(*m_solved.equations, *m_solved.bias, m_inputAtRest, m_output, inputs), "transfer");
}

PolesAndZeros CoreAnswers::polesAndZeros() const {
    return taken(findPolesAndZeros(*m_solved.equations, *m_solved.bias, m_output), "poles");
}

std::vector<double> CoreAnswers::settledPeriod(double hertz, double peak) const {
    const SettledTone tone{.toneHz = hertz, .voltsPeak = peak, .shape = {}};
    constexpr std::size_t firstSteps = 257;
    constexpr int harmonics = 9;
    return taken(settleWithin(m_solved, tone, m_output, firstSteps, harmonics), "settled state").wave(m_output);
}

TwoToneSpectrum CoreAnswers::twoTone(double firstHz, double secondHz, double peak, int order) const {
    return taken(measureTwoTone(m_solved, m_output, firstHz, secondHz, peak, order), "two-tone spectrum");
}

std::vector<double> CoreAnswers::coldWave(double hertz, double peak, const std::vector<double>& seconds) const {
    const double rate = double(samplesPerPeriod) * hertz;
    const ColdWave wave = taken(ohmwright::coldWave(*m_solved.equations, *m_solved.bias, hertz, peak,
                                                    seconds.back() + 1.0 / rate, rate, m_output),
                                "wave");
    return interpolated(wave.seconds, wave.outputVolts, seconds);
}

}  // namespace ohmwright::reference

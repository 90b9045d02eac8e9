// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/reference_simulator/reference_answers.h"

#include <algorithm>
#include <cmath>
#include <iomanip>
#include <numbers>
#include <sstream>
#include <stdexcept>

namespace ohmwright::reference {

namespace {

SimulatorOptions optionsFor(const SuiteNetlist& netlist) {
    return {.celsius = netlist.celsius};
}

template <class... Words>
std::string sentence(const Words&... words) {
    std::ostringstream stream;
    stream << std::setprecision(15);
    (stream << ... << words);
    return stream.str();
}

std::string frequencyGrid(const Comparison& comparison) {
    return sentence("dec ", comparison.numbers.at(2), ' ', comparison.numbers.at(0), ' ', comparison.numbers.at(1));
}

std::vector<double> evenTimes(double start, double step, std::size_t count) {
    std::vector<double> times(count);
    for (std::size_t k = 0; k < count; ++k) {
        times[k] = start + step * double(k);
    }
    return times;
}

// The output from `from` to `to`, every step of the reference at most 1 / stepsPerPeriod of a period.
struct Run {
    std::vector<double> seconds, volts;
};
Run runDriven(const SuiteNetlist& netlist, const std::string& driven, const std::string& output, double hertz,
              double from, double to) {
    SharedSimulator& simulator = SharedSimulator::only();
    const double step = 1.0 / (hertz * stepsPerPeriod);
    const std::string analysis = sentence("tran ", step, ' ', to, ' ', from, ' ', step);
    SimulatorOptions options = optionsFor(netlist);
    try {
        simulator.load(driven, options);
        simulator.run(analysis);
    } catch (const std::runtime_error&) {
        // "Timestep too small" at hard corners: the library steps through them at ten times the tolerance.
        options.reltol = 1e-5;
        options.vntol = 1e-7;
        simulator.load(driven, options);
        simulator.run(analysis);
    }
    return {simulator.real("time"), simulator.real(output)};
}

Run runInTime(const SuiteNetlist& netlist, const Comparison& comparison, double hertz, double peak, double from,
              double to) {
    const DrivenSource source = drivenSource(netlist, comparison.input);
    return runDriven(netlist, withSine(netlist, source, hertz, peak), comparison.output, hertz, from, to);
}

double meanSquare(const std::vector<double>& values) {
    double sum = 0.0;
    for (const double value : values) {
        sum += value * value;
    }
    return sum / double(values.size());
}

}  // namespace

ReferenceBias referenceBias(const SuiteNetlist& netlist) {
    SharedSimulator& simulator = SharedSimulator::only();
    simulator.load(netlist.text, optionsFor(netlist));
    simulator.run("op");
    ReferenceBias bias;
    for (const std::string& name : simulator.vectorNames()) {
        const bool atTop = name.find('.') == std::string::npos;
        const std::size_t branch = name.find("#branch");
        if (atTop && branch == std::string::npos && name.find('#') == std::string::npos) {
            bias.volts[name] = simulator.real(name).at(0);
        } else if (atTop && branch != std::string::npos && name[0] == 'v') {
            bias.sourceAmperes[name.substr(0, branch)] = simulator.real(name).at(0);
        }
    }
    return bias;
}

ReferenceResponse referenceResponse(const SuiteNetlist& netlist, const Comparison& comparison) {
    SharedSimulator& simulator = SharedSimulator::only();
    const DrivenSource source = drivenSource(netlist, comparison.input);
    simulator.load(netlist.text, optionsFor(netlist));
    simulator.run("ac " + frequencyGrid(comparison));
    ReferenceResponse response{simulator.real("frequency"), simulator.complex(comparison.output)};
    const auto phasor = std::polar(source.acAmplitude, source.acDegrees * std::numbers::pi / 180.0);
    for (auto& gain : response.gain) {
        gain /= phasor;
    }
    return response;
}

ReferenceNoise referenceNoise(const SuiteNetlist& netlist, const Comparison& comparison) {
    SharedSimulator& simulator = SharedSimulator::only();
    const DrivenSource source = drivenSource(netlist, comparison.input);
    simulator.load(netlist.text, optionsFor(netlist));
    simulator.run("noise v(" + comparison.output + ") " + source.name + ' ' + frequencyGrid(comparison));
    return {simulator.real("frequency"), simulator.real("onoise_spectrum"), simulator.real("inoise_spectrum")};
}

ReferenceTransfer referenceTransfer(const SuiteNetlist& netlist, const Comparison& comparison) {
    SharedSimulator& simulator = SharedSimulator::only();
    const DrivenSource source = drivenSource(netlist, comparison.input);
    simulator.load(netlist.text, optionsFor(netlist));
    const double from = comparison.numbers.at(0);
    const double to = comparison.numbers.at(1);
    const double step = (to - from) / (comparison.numbers.at(2) - 1.0);
    // Half a step beyond, so that rounding does not lose the last point.
    simulator.run(sentence("dc ", source.name, ' ', from, ' ', to + 0.5 * step, ' ', step));
    ReferenceTransfer transfer;
    transfer.output = simulator.real(comparison.output);
    transfer.input = evenTimes(from, step, transfer.output.size());
    return transfer;
}

ReferencePeriod referencePeriod(const SuiteNetlist& netlist, const Comparison& comparison, double hertz, double peak) {
    const double period = 1.0 / hertz;
    const double end = comparison.first("periods") * period;
    const Run run = runInTime(netlist, comparison, hertz, peak, end - 2.1 * period, end + 0.02 * period);
    const double step = period / samplesPerPeriod;
    const auto last = interpolated(run.seconds, run.volts, evenTimes(end - period, step, samplesPerPeriod));
    const auto before = interpolated(run.seconds, run.volts, evenTimes(end - 2.0 * period, step, samplesPerPeriod));
    double mean = 0.0;
    for (const double volts : last) {
        mean += volts / samplesPerPeriod;
    }
    std::vector<double> alternating = last;
    std::vector<double> change = last;
    for (std::size_t k = 0; k < last.size(); ++k) {
        alternating[k] -= mean;
        change[k] -= before[k];
    }
    return {last, std::sqrt(meanSquare(change) / meanSquare(alternating))};
}

std::vector<double> referenceColdWave(const SuiteNetlist& netlist, const Comparison& comparison) {
    const double hertz = comparison.first("tone");
    const double periods = comparison.first("periods");
    const Run run = runInTime(netlist, comparison, hertz, comparison.first("level"), 0.0, periods / hertz);
    const auto count = std::size_t(std::lround(periods * samplesPerPeriod)) + 1;
    return interpolated(run.seconds, run.volts, evenTimes(0.0, 1.0 / (hertz * samplesPerPeriod), count));
}

std::vector<double> referenceTwoTone(const SuiteNetlist& netlist, const Comparison& comparison, double commonHz,
                                     int highest) {
    const double first = comparison.lists.at("tone").at(0);
    const double second = comparison.lists.at("tone").at(1);
    const double faster = std::max(first, second);
    const DrivenSource source = drivenSource(netlist, comparison.input);
    const std::string driven = withTwoSines(netlist, source, first, second, comparison.first("level"));
    const double end = comparison.first("periods") / commonHz;
    const Run run = runDriven(netlist, driven, comparison.output, faster, end - 1.1 / commonHz, end + 0.02 / commonHz);
    const auto samples = std::size_t(std::lround(samplesPerPeriod * faster / commonHz));
    const double step = 1.0 / (commonHz * double(samples));
    const auto last = interpolated(run.seconds, run.volts, evenTimes(end - 1.0 / commonHz, step, samples));
    return harmonicAmplitudes(last, highest);
}

std::vector<double> harmonicAmplitudes(const std::vector<double>& period, int count) {
    std::vector<double> amplitudes;
    const auto samples = double(period.size());
    for (int harmonic = 0; harmonic <= count; ++harmonic) {
        std::complex<double> sum;
        for (std::size_t k = 0; k < period.size(); ++k) {
            sum += std::polar(period[k], -2.0 * std::numbers::pi * harmonic * double(k) / samples);
        }
        amplitudes.push_back(std::abs(sum) * (harmonic == 0 ? 1.0 : 2.0) / samples);
    }
    return amplitudes;
}

std::vector<double> interpolated(const std::vector<double>& times, const std::vector<double>& values,
                                 const std::vector<double>& wanted) {
    std::vector<double> result;
    result.reserve(wanted.size());
    for (const double time : wanted) {
        const auto above = std::lower_bound(times.begin(), times.end(), time) - times.begin();
        const auto last = std::max<std::ptrdiff_t>(0, std::ptrdiff_t(times.size()) - 4);
        const auto first = std::size_t(std::clamp<std::ptrdiff_t>(above - 2, 0, last));
        const std::size_t end = std::min(first + 4, times.size());
        const double held = std::clamp(time, times.front(), times.back());
        double sum = 0.0;
        for (std::size_t i = first; i < end; ++i) {
            double weight = 1.0;
            for (std::size_t j = first; j < end; ++j) {
                weight *= i == j ? 1.0 : (held - times[j]) / (times[i] - times[j]);
            }
            sum += weight * values[i];
        }
        result.push_back(sum);
    }
    return result;
}

}  // namespace ohmwright::reference

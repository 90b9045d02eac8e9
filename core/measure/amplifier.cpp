// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/amplifier.h"

#include "core/measure/stage_sweep.h"
#include "core/solve/response.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <limits>
#include <string>
#include <utility>

namespace ohmwright {

namespace {

using Complex = std::complex<double>;

/// An output electrode that meets less than this share of what stands under the common one, or next to nothing,
/// belongs to a follower: its current does no work there.
constexpr double leastGain = 0.1;
constexpr double leastLoadOhms = 10.0;
/// A passive way weakens; the rest is arithmetic.
constexpr double passiveShare = 1.001;
constexpr const char* probeId = "(probe)";

bool amplifies(PartKind kind) {
    return kind == PartKind::bipolar || kind == PartKind::jfet || kind == PartKind::triode;
}

/// The circuit without a device: its currents at rest flow on, out of sources that no signal moves.
Circuit withoutDevice(const Circuit& circuit, const Part& device, const std::vector<double>& amperes) {
    Circuit rest = circuit;
    std::erase_if(rest.parts, [&device](const Part& part) { return part.id == device.id; });
    for (Stage& stage : rest.stages) {
        std::erase(stage.parts, device.id);
    }
    for (std::size_t pin = 0; pin < device.nets.size(); ++pin) {
        if (device.nets[pin] == groundNet) {
            continue;
        }
        Part source;
        source.id = device.id + " rest " + std::to_string(pin);
        source.reference = source.id;
        source.kind = PartKind::currentSource;
        source.value = amperes[pin];
        source.nets = {device.nets[pin], NetName(groundNet)};
        rest.parts.push_back(std::move(source));
    }
    return rest;
}

/// Volts of all nets a volt of the circuit's source, or an ampere into a net.
class Probes {
public:
    Probes(Circuit circuit, const Setting& setting, double hertz, const std::stop_token& stop)
        : m_circuit(std::move(circuit)), m_setting(setting), m_hertz(hertz), m_stop(stop) {
        Part probe;
        probe.id = probe.reference = probeId;
        probe.kind = PartKind::currentSource;
        probe.nets = {NetName(groundNet), NetName(groundNet)};
        m_circuit.parts.push_back(std::move(probe));
    }

    /// @param into  ground for the circuit's own source.
    /// @return volts at `nets`, in their order.
    Result<std::vector<Complex>> volts(const NetName& into, const std::vector<NetName>& nets) const {
        Circuit circuit = m_circuit;
        if (into != groundNet) {
            circuit.ports.source = probeId;
            circuit.parts.back().nets.back() = into;
        }
        const auto solved = solveCircuit(circuit, m_setting, m_stop);
        if (!solved) {
            return solved.error();
        }
        SmallSignal signal(*solved->equations, *solved->bias);
        const auto solution = signal.at(m_hertz);
        if (!solution) {
            return solution.error();
        }
        std::vector<Complex> volts;
        volts.reserve(nets.size());
        for (const NetName& net : nets) {
            volts.push_back(net == groundNet ? 0.0 : (*solution)[std::size_t(solved->equations->indexOfNet(net))]);
        }
        return volts;
    }

private:
    Circuit m_circuit;
    const Setting& m_setting;
    double m_hertz;
    const std::stop_token& m_stop;
};

/// One device, looked at step by step.
class Look {
public:
    Look(const Circuit& circuit, const Setting& setting, const SolvedCircuit& solved, const Part& device,
         const std::stop_token& stop)
        : m_circuit(circuit),
          m_setting(setting),
          m_solved(solved),
          m_device(device),
          m_stop(stop),
          m_amperes(solved.equations->terminalCurrents(device, solved.bias->x)) {}

    /// Between the borders of its stage where the ways from and to them are passive, else between its own electrodes.
    Result<std::optional<Amplifier>> amplifier() {
        if (controlNet(m_device) == groundNet || outputNet(m_device) == groundNet) {
            return std::optional<Amplifier>();
        }
        auto found = between(controlNet(m_device), outputNet(m_device));
        if (!found) {
            return found.error();
        }
        const bool works = found->loadOhms > std::max(leastGain * found->commonOhms, leastLoadOhms);
        if (!works || !std::isfinite(found->highestDb)) {
            return std::optional<Amplifier>();
        }
        const Stage* stage = stageOfPart(m_circuit, m_device.id);
        if (stage != nullptr && !stage->input.empty() && !stage->output.empty()) {
            const auto wider = between(stage->input, stage->output);
            if (!wider) {
                return wider.error();
            }
            if (m_isPassive) {
                return std::optional(*wider);
            }
        }
        return std::optional(*found);
    }

private:
    /// Of the resistors at the output electrode that lead to no ground, across each other.
    [[nodiscard]] std::optional<double> ownLoad() const {
        double siemens = 0.0;
        for (const Part& part : m_circuit.parts) {
            const bool isAtOutput = part.kind == PartKind::resistor && part.nets[0] != part.nets[1] &&
                                    (part.nets[0] == outputNet(m_device) || part.nets[1] == outputNet(m_device));
            if (isAtOutput && part.nets[0] != groundNet && part.nets[1] != groundNet) {
                siemens += 1.0 / part.value;
            }
        }
        return siemens > 0.0 ? std::optional(1.0 / siemens) : std::nullopt;
    }

    Result<Amplifier> between(const NetName& input, const NetName& output) {
        Amplifier found{m_device.id, input, output};
        found.outputAmperes = std::abs(m_amperes[0]);
        found.controlAmperes = std::abs(m_amperes[1]);
        found.ownLoadOhms = ownLoad();
        Stage borders;
        borders.input = input;
        borders.output = output;
        const auto highest = findHighest(m_solved, borders, m_stop);
        if (!highest) {
            return highest.error();
        }
        found.highestDb = highest->highestDb;
        found.hertz = highest->highestHz;
        const Probes probes(withoutDevice(m_circuit, m_device, m_amperes), m_setting, found.hertz, m_stop);
        if (auto seen = seeOutput(probes, found); !seen) {
            return seen.error();
        }
        if (auto seen = seeInput(probes, found); !seen) {
            return seen.error();
        }
        return found;
    }

    /// What the output current meets, and what stands under the common electrode.
    Result<void> seeOutput(const Probes& probes, Amplifier& found) {
        const NetName& own = outputNet(m_device);
        const auto load = probes.volts(own, {found.output, own});
        if (!load) {
            return load.error();
        }
        found.loadOhms = 1.0 / (1.0 / load->front()).real();
        m_isPassive = std::abs(load->front()) <= passiveShare * std::abs(load->back());
        if (commonNet(m_device) == groundNet) {
            return {};
        }
        const auto common = probes.volts(commonNet(m_device), {commonNet(m_device)});
        if (!common) {
            return common.error();
        }
        found.commonOhms = std::max(common->front().real(), 0.0);
        return {};
    }

    /// What drives the control electrode, as one resistance in series and one to rest.
    Result<void> seeInput(const Probes& probes, Amplifier& found) {
        const NetName& control = controlNet(m_device);
        if (found.input == control) {
            return {};
        }
        const auto driven = probes.volts(NetName(groundNet), {control, found.input});
        const auto own = probes.volts(control, {control, found.input});
        if (!driven || !own) {
            return driven ? own.error() : driven.error();
        }
        const Complex share = driven->front() / driven->back();
        m_isPassive = m_isPassive && std::abs(share) <= passiveShare;
        // Thevenin's resistance with the input held still, and from it the two of Norton.
        const Complex behind = own->front() - share * own->back();
        found.sourceOhms = std::max((behind / share).real(), 0.0);
        const double shuntSiemens = ((1.0 - share) / behind).real();
        if (shuntSiemens > 0.0 && std::isfinite(shuntSiemens)) {
            found.inputShuntOhms = 1.0 / shuntSiemens;
        }
        return {};
    }

    const Circuit& m_circuit;
    const Setting& m_setting;
    const SolvedCircuit& m_solved;
    const Part& m_device;
    const std::stop_token& m_stop;
    std::vector<double> m_amperes;
    bool m_isPassive = true;  ///< Of the ways to and from the last pair of nets.
};

bool touches(const Part& part, const NetName& net) {
    return std::find(part.nets.begin(), part.nets.end(), net) != part.nets.end();
}

const NetName& otherEnd(const Part& part, const NetName& net) {
    return part.nets[0] == net ? part.nets[1] : part.nets[0];
}

/// The resistor to ground that is all a net has beside `capacitor`.
const Part* onlyResistorBehind(const Circuit& circuit, const NetName& net, const Part& capacitor) {
    const Part* only = nullptr;
    for (const Part& part : circuit.parts) {
        if (!touches(part, net) || part.id == capacitor.id) {
            continue;
        }
        if (only != nullptr || part.kind != PartKind::resistor || otherEnd(part, net) != groundNet) {
            return nullptr;
        }
        only = &part;
    }
    return only;
}

}  // namespace

const NetName& outputNet(const Part& device) {
    return device.nets[0];
}
const NetName& controlNet(const Part& device) {
    return device.nets[1];
}
const NetName& commonNet(const Part& device) {
    return device.nets[2];
}

Result<std::vector<Amplifier>> findAmplifiers(const Circuit& circuit, const Setting& setting,
                                              const SolvedCircuit& solved, const std::stop_token& stop) {
    std::vector<Amplifier> found;
    for (const Part& part : circuit.parts) {
        if (!amplifies(part.kind)) {
            continue;
        }
        auto one = Look(circuit, setting, solved, part, stop).amplifier();
        if (!one) {
            return one.error();
        }
        if (*one) {
            found.push_back(**one);
        }
    }
    return found;
}

std::optional<BypassedResistance> findBypassedResistance(const Circuit& circuit, const Part& device) {
    const NetName& net = commonNet(device);
    if (net == groundNet) {
        return std::nullopt;
    }
    BypassedResistance found;
    double siemens = 0.0;
    for (const Part& part : circuit.parts) {
        if (!touches(part, net) || part.id == device.id) {
            continue;
        }
        if (part.kind == PartKind::resistor && otherEnd(part, net) == groundNet) {
            siemens += 1.0 / part.value;
            found.resistors.push_back(part.id);
            continue;
        }
        if (part.kind != PartKind::capacitor || found.seriesOhms > 0.0) {
            return std::nullopt;
        }
        const NetName& far = otherEnd(part, net);
        if (far != groundNet) {
            const Part* series = onlyResistorBehind(circuit, far, part);
            if (series == nullptr || !found.capacitors.empty()) {
                return std::nullopt;
            }
            found.seriesOhms = series->value;
            found.resistors.push_back(series->id);
        }
        found.farads += part.value;
        found.capacitors.push_back(part.id);
    }
    if (found.capacitors.empty() || siemens == 0.0) {
        return std::nullopt;
    }
    found.ohms = 1.0 / siemens;
    return found;
}

}  // namespace ohmwright

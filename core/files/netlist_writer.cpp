// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/text.h"
#include "core/circuit/model_limits.h"
#include "core/circuit/setting.h"
#include "core/devices/model_parameters.h"
#include "core/expression/expression.h"
#include "core/files/netlist.h"
#include "core/files/netlist_laws.h"
#include "core/files/netlist_names.h"

#include <algorithm>
#include <unordered_map>
#include <unordered_set>
#include <vector>

namespace ohmwright {

namespace {

char letterOf(PartKind kind) {
    switch (kind) {
        case PartKind::resistor:
        case PartKind::potentiometer:
        case PartKind::link:
        case PartKind::switchContact:
            return 'R';
        case PartKind::capacitor:
            return 'C';
        case PartKind::inductor:
            return 'L';
        case PartKind::coupling:
            return 'K';
        case PartKind::diode:
            return 'D';
        case PartKind::bipolar:
            return 'Q';
        case PartKind::jfet:
            return 'J';
        case PartKind::mosfet:
            return 'M';
        case PartKind::opamp:
        case PartKind::triode:
        case PartKind::pentode:
            return 'X';
        case PartKind::voltageSource:
            return 'V';
        case PartKind::currentSource:
            return 'I';
        case PartKind::voltageControlledVoltage:
            return 'E';
        case PartKind::voltageControlledCurrent:
            return 'G';
        case PartKind::currentControlledCurrent:
            return 'F';
        case PartKind::currentControlledVoltage:
            return 'H';
        case PartKind::behaviouralVoltage:
        case PartKind::behaviouralCurrent:
            return 'B';
    }
    return 'R';
}

std::string modelType(const Model& model, PartKind kind) {
    const bool turned = polarityOf(model) < 0.0;
    switch (kind) {
        case PartKind::bipolar:
            return turned ? "PNP" : "NPN";
        case PartKind::jfet:
            return turned ? "PJF" : "NJF";
        case PartKind::mosfet:
            return turned ? "PMOS" : "NMOS";
        default:
            return "D";
    }
}

bool isSubcircuit(PartKind kind) {
    return kind == PartKind::opamp || kind == PartKind::triode || kind == PartKind::pentode;
}

/// A name that a card may state of a type: IS, MJE.
bool isParameterName(const std::string& name) {
    return !name.empty() && std::all_of(name.begin(), name.end(), [](char c) {
        return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
    });
}

class NetlistWriter {
public:
    NetlistWriter(const Circuit& circuit, const Setting& setting)
        : m_circuit(withEnds(circuit, setting)), m_setting(setting) {
        for (const Model& model : m_circuit.models) {
            m_modelOf.try_emplace(model.name, &model);
        }
        nameNets();
        nameParts();
        nameModels();
    }

    std::string write(std::string_view title) {
        const std::string line = oneLine(title);
        m_text = line.find_first_not_of(' ') == std::string::npos ? "Netlist\n" : line + "\n";
        writeSetting();
        writeParts();
        writeOpenNets();
        writeModels();
        m_text += ".end\n";
        return m_text;
    }

private:
    // --- names ---

    /// The output is "out", which is what is looked for first; ground is 0 and nothing else has its other name.
    void nameNets() {
        m_nets.reserve("0");
        m_nets.reserve("gnd");
        const NetName& output = m_circuit.ports.output;
        if (!output.empty() && output != groundNet) {
            m_nets.nameFor(output, "out");
        }
        for (const Part& part : m_circuit.parts) {
            for (const NetName& net : part.nets) {
                if (net != groundNet) {
                    m_nets.nameFor(net, net);
                }
            }
        }
    }

    void nameParts() {
        for (const Part& part : m_circuit.parts) {
            const std::string& label = part.reference.empty() ? part.id : part.reference;
            const std::string& name = m_parts.nameFor(part.id, label, letterOf(part.kind));
            if (part.kind == PartKind::potentiometer) {
                m_parts.nameFor(halfKey(part, "A"), name + "A");
                m_parts.nameFor(halfKey(part, "B"), name + "B");
            }
        }
    }

    /// One name a type and kind of device; a valve's also counts its devices in parallel.
    void nameModels() {
        m_models.reserve("KOREN_TRIODE");
        m_models.reserve("KOREN_PENTODE");
        for (const Part& part : m_circuit.parts) {
            if (!part.model.empty()) {
                m_models.nameFor(modelKey(part), part.model);
            }
        }
    }

    const Model* modelOf(const Part& part) const {
        const auto found = m_modelOf.find(part.model);
        return found == m_modelOf.end() || part.model.empty() ? nullptr : found->second;
    }

    static PartId halfKey(const Part& part, const char* half) { return part.id + "\n" + half; }

    static double devicesOf(const Part& part) {
        const auto stated = part.parameters.find("M");
        return isSubcircuit(part.kind) && stated != part.parameters.end() ? stated->second : 1.0;
    }

    static std::string modelKey(const Part& part) {
        return part.model + "\n" + std::to_string(int(part.kind)) + "\n" + netlistNumber(devicesOf(part));
    }

    std::string net(const NetName& name) const { return name == groundNet ? "0" : std::string(m_nets.known(name)); }

    std::string partName(const PartId& id) const {
        const std::string_view known = m_parts.known(id);
        return known.empty() ? id : std::string(known);
    }

    // --- lines ---

    void writeSetting() {
        constexpr double freezingKelvin = 273.15;
        std::string knobs;
        for (const Knob& knob : m_circuit.knobs) {
            knobs += knobs.empty() ? "* knobs: " : ", ";
            knobs += oneLine(knob.name.empty() ? knob.id : knob.name) + " " +
                     netlistNumber(knobPosition(m_setting, knob.id));
        }
        m_text += knobs.empty() ? "" : knobs + "\n";
        std::string ends;
        if (findPart(m_circuit, m_circuit.ports.battery) != nullptr) {
            ends += "battery " + netlistNumber(m_setting.batteryVolts) + " V, ";
        }
        if (findPart(m_circuit, m_circuit.ports.load) != nullptr) {
            ends += "next box " + netlistNumber(m_setting.loadOhms) + "ohm, ";
        }
        const double celsius =
            m_setting.temperatureKelvin == nominalKelvin ? 27.0 : m_setting.temperatureKelvin - freezingKelvin;
        m_text += "* " + ends + "temperature " + netlistNumber(celsius) + " C\n";
    }

    void writeParts() {
        std::vector<char> written(m_circuit.parts.size(), 0);
        int number = 0;
        for (const Stage& stage : m_circuit.stages) {
            m_text += "* --- stage " + std::to_string(++number) + ": " + oneLine(stage.name) + "\n";
            for (std::size_t k = 0; k < m_circuit.parts.size(); ++k) {
                const bool belongs = stageOfPart(m_circuit, m_circuit.parts[k].id) == &stage;
                if (belongs && written[k] == 0) {
                    written[k] = 1;
                    writePart(m_circuit.parts[k]);
                }
            }
        }
        bool headed = m_circuit.stages.empty();
        for (std::size_t k = 0; k < m_circuit.parts.size(); ++k) {
            if (written[k] == 0) {
                m_text += headed ? "" : "* --- supply and what belongs to no stage\n";
                headed = true;
                writePart(m_circuit.parts[k]);
            }
        }
    }

    void line(const Part& part, const std::string& rest) { m_text += head(part) + " " + rest + "\n"; }

    /// Name and nets.
    std::string head(const Part& part) const {
        std::string text = partName(part.id);
        for (const NetName& name : part.nets) {
            text += " " + net(name);
        }
        return text;
    }

    void writePart(const Part& part) {
        switch (part.kind) {
            case PartKind::resistor:
            case PartKind::capacitor:
            case PartKind::inductor:
            case PartKind::voltageControlledVoltage:
            case PartKind::voltageControlledCurrent:
                line(part, netlistNumber(part.value));
                break;
            case PartKind::potentiometer:
                writePot(part);
                break;
            case PartKind::link:
                writeContact(part, linkOhms);
                break;
            case PartKind::switchContact:
                writeContact(part, part.value != 0.0 ? linkOhms : openLegOhms);
                break;
            case PartKind::coupling:
            case PartKind::currentControlledCurrent:
            case PartKind::currentControlledVoltage:
                line(part, controlsOf(part) + netlistNumber(part.value));
                break;
            case PartKind::voltageSource:
            case PartKind::currentSource:
                line(part, sourceText(part));
                break;
            case PartKind::behaviouralVoltage:
                line(part, "V=" + lawText(part));
                break;
            case PartKind::behaviouralCurrent:
                line(part, "I=" + lawText(part));
                break;
            case PartKind::diode:
            case PartKind::bipolar:
            case PartKind::jfet:
            case PartKind::mosfet:
            case PartKind::opamp:
            case PartKind::triode:
            case PartKind::pentode:
                line(part, deviceText(part));
                break;
        }
    }

    /// A half whose ends are one net (a rheostat's) is no part; what is left goes by the pot's own name.
    void writePot(const Part& pot) {
        const Knob* knob = knobOf(m_circuit, pot.id);
        const PotHalves halves = potHalves(pot, knob == nullptr ? 5.0 : knobPosition(m_setting, knob->id));
        const bool hasUpper = pot.nets[0] != pot.nets[1];
        const bool hasLower = pot.nets[1] != pot.nets[2];
        const auto write = [&](bool both, const char* half, std::size_t pin, double ohms) {
            const std::string name = both ? partName(halfKey(pot, half)) : partName(pot.id);
            m_text += name + " " + net(pot.nets[pin]) + " " + net(pot.nets[pin + 1]) + " " + netlistNumber(ohms) + "\n";
        };
        if (hasUpper) {
            write(hasLower, "A", 0, halves.topToWiper);
        }
        if (hasLower) {
            write(hasUpper, "B", 1, halves.wiperToBottom);
        }
    }

    /// Between the two ends of one net there is nothing to write.
    void writeContact(const Part& part, double ohms) {
        if (part.nets[0] != part.nets[1]) {
            line(part, netlistNumber(ohms));
        }
    }

    std::string controlsOf(const Part& part) const {
        std::string text;
        for (const PartId& id : part.controls) {
            text += partName(id) + " ";
        }
        return text;
    }

    std::string sourceText(const Part& source) const {
        std::string text = "DC " + netlistNumber(source.value);
        const PartId& input = m_circuit.ports.source;
        const bool isInput = !input.empty() && source.id == input;
        // With an input named, nothing else drives the small signal; and the input always does.
        const double amplitude = isInput && source.acAmplitude == 0.0 ? 1.0 : source.acAmplitude;
        if (amplitude != 0.0 && (isInput || input.empty())) {
            text += " AC " + netlistNumber(amplitude);
            text += source.acDegrees == 0.0 ? "" : " " + netlistNumber(source.acDegrees);
        }
        return source.wave ? text + " " + waveText(*source.wave) : text;
    }

    static std::string waveText(const SourceWave& wave) {
        std::vector<double> figures{wave.low, wave.high};
        const bool isSine = wave.shape == SourceWave::Shape::sine;
        if (isSine) {
            figures.insert(figures.end(), {wave.hertz, wave.delay, wave.damping, wave.degrees});
        } else {
            figures.insert(figures.end(), {wave.delay, wave.rise, wave.fall, wave.width});
            if (wave.period > 0.0) {
                figures.push_back(wave.period);
            }
        }
        std::string text = isSine ? "SIN(" : "PULSE(";
        for (std::size_t k = 0; k < figures.size(); ++k) {
            text += (k == 0 ? "" : " ") + netlistNumber(figures[k]);
        }
        return text + ")";
    }

    std::string lawText(const Part& part) const {
        const Result<Expression> law = Expression::parse(part.law);
        if (!law) {
            return oneLine(part.law);  // No circuit that can be solved has it; the reader will say what is wrong.
        }
        return law->text([this](const LawVariable& own) {
            LawVariable named = own;
            if (own.what == LawVariable::What::current) {
                named.first = partName(own.first);
            } else {
                named.first = lawNet(own.first);
                named.second = lawNet(own.second);
            }
            return named;
        });
    }

    std::string lawNet(const NetName& name) const {
        const std::string known = net(name);
        return known.empty() ? name : known;
    }

    std::string deviceText(const Part& part) const {
        std::string text(m_models.known(modelKey(part)));
        if (isSubcircuit(part.kind)) {
            return text;
        }
        for (const auto& [name, value] : part.parameters) {
            if (isDeviceParameter(part.kind, name)) {
                text += " " + name + "=" + netlistNumber(value);
            }
        }
        return text;
    }

    /// Nets left open on purpose keep the leak that they have in the program.
    void writeOpenNets() {
        NetlistNames& names = m_parts;
        for (const NetName& open : m_circuit.openNets) {
            if (open != groundNet && !m_nets.known(open).empty()) {
                m_text += names.nameFor("\nopen " + open, "ROPEN_" + open) + " " + net(open) + " 0 " +
                          netlistNumber(openLegOhms) + "\n";
            }
        }
    }

    void writeModels() {
        std::unordered_set<std::string> done;
        for (const Part& part : m_circuit.parts) {
            const Model* model = modelOf(part);
            const std::string key = modelKey(part);
            if (model == nullptr || !done.insert(key).second) {
                continue;
            }
            const std::string name(m_models.known(key));
            if (isSubcircuit(part.kind)) {
                writeSubcircuit(part, *model, name);
            } else {
                writeModel(part.kind, *model, name);
            }
        }
    }

    void writeSubcircuit(const Part& part, const Model& model, const std::string& name) {
        SubcircuitOptions options;
        options.name = name;
        options.helperName = m_models.nameFor("\nhelper " + name, "D" + name);
        options.kelvin = m_setting.temperatureKelvin;
        options.devices = devicesOf(part);
        switch (part.kind) {
            case PartKind::triode:
                m_text += triodeSubcircuit(model, options);
                break;
            case PartKind::pentode:
                m_text += pentodeSubcircuit(model, options);
                break;
            default:
                m_text += opampSubcircuit(model, options);
        }
    }

    void writeModel(PartKind kind, const Model& model, const std::string& name) {
        constexpr std::size_t longestLine = 110;
        std::string card = ".model " + name + " " + modelType(model, kind) + "(";
        bool first = true;
        for (const auto& [parameter, value] : model.parameters) {
            if (parameter == "POLARITY" || !isParameterName(parameter)) {
                continue;
            }
            const std::string figure = parameter + "=" + netlistNumber(value);
            const std::size_t lineStart = card.rfind('\n') == std::string::npos ? 0 : card.rfind('\n') + 1;
            const bool full = card.size() - lineStart + figure.size() > longestLine;
            card += full ? "\n+ " : first ? "" : " ";
            card += figure;
            first = false;
        }
        m_text += card + ")\n";
    }

    Circuit m_circuit;
    const Setting& m_setting;
    std::unordered_map<std::string_view, const Model*> m_modelOf;  ///< By name.
    NetlistNames m_nets;
    NetlistNames m_parts;
    NetlistNames m_models;
    std::string m_text;
};

}  // namespace

std::string writeNetlist(const Circuit& circuit, const Setting& setting, std::string_view title) {
    return NetlistWriter(circuit, setting).write(title);
}

}  // namespace ohmwright

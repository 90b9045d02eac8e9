// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/side_readings.h"

#include "core/base/decibels.h"
#include "core/base/said.h"
#include "core/circuit/gain_leg.h"
#include "core/measure/clip_onset.h"
#include "core/measure/device_limits.h"
#include "core/measure/settled_wave.h"
#include "core/measure/solved_circuit.h"
#include "core/measure/source_side.h"
#include "core/measure/wave.h"
#include "core/solve/noise.h"
#include "core/solve/response.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <numbers>
#include <set>

namespace ohmwright {

namespace {

constexpr double impedanceHz = 1000.0;
constexpr double fullSwingHz = 20e3;
constexpr std::size_t settledSteps = 257;
constexpr int settledHarmonics = 10;
constexpr double settledShare = 1e-5;
/// Batteries above this are no blocks that go flat.
constexpr double largestBatteryVolts = 24.0;

/// Volts or watts as a build tells them: "film, 5 mm, 63 V".
std::optional<double> figureBefore(std::string_view text, char unit) {
    for (std::size_t at = text.find(unit); at != std::string_view::npos; at = text.find(unit, at + 1)) {
        const bool endsWord =
            at + 1 == text.size() || text[at + 1] == ',' || text[at + 1] == ' ' || text[at + 1] == ';';
        std::size_t end = at;
        while (end > 0 && text[end - 1] == ' ') {
            --end;
        }
        std::size_t begin = end;
        while (begin > 0 && ((text[begin - 1] >= '0' && text[begin - 1] <= '9') || text[begin - 1] == '.')) {
            --begin;
        }
        if (endsWord && begin < end) {
            double figure = 0.0;
            std::from_chars(text.data() + begin, text.data() + end, figure);
            return figure > 0.0 ? std::optional(figure) : std::nullopt;
        }
    }
    return std::nullopt;
}

/// The largest of something over the parts, and where.
struct Worst {
    std::optional<double> value;
    PartId part;

    void offer(double candidate, const PartId& at) {
        if (!value || candidate > *value) {
            value = candidate;
            part = at;
        }
    }
};

/// Takes every reading of one circuit.
class Reader {
public:
    Reader(const Circuit& circuit, const Setting& setting, const SideEffectOptions& options,
           const std::stop_token& stop)
        : m_circuit(circuit), m_setting(setting), m_options(options), m_stop(stop) {}

    Result<SideReadings> run() {
        auto solved = solveCircuit(m_circuit, m_setting, m_stop);
        if (!solved) {
            return solved.error();
        }
        m_solved = *std::move(solved);
        findSourceSide();
        for (const auto step : {&Reader::readSettled, &Reader::readSpeed, &Reader::readCorners, &Reader::readImpedances,
                                &Reader::readPickupPeak, &Reader::readNoise, &Reader::readBiasCorners,
                                &Reader::readFlatBattery, &Reader::readOnsets}) {
            if (m_stop.stop_requested()) {
                return Error{ErrorCode::cancelled, said("The solve was overtaken by a newer one."), ""};
            }
            (this->*step)();
        }
        if (m_cancelled) {
            return Error{ErrorCode::cancelled, said("The solve was overtaken by a newer one."), ""};
        }
        return std::move(m_readings);
    }

private:
    void add(const std::string& id, std::optional<double> value, const PartId& part = {}) {
        m_readings.readings.push_back({id, value, part, ""});
    }
    void addTrouble(const std::string& id, const Error& error) {
        m_cancelled = m_cancelled || error.code == ErrorCode::cancelled;
        m_readings.readings.push_back({id, {}, "", error.message});
    }
    /// A reading that may fail; absent ones are left out.
    template <class Value, class Use>
    void take(const std::string& id, const Result<Value>& result, Use use) {
        if (result) {
            use(*result);
        } else {
            addTrouble(id, result.error());
        }
    }

    /// Parts that are of the guitar, not of the unit.
    void findSourceSide() {
        const Circuit driven = drivenAtJack(m_circuit);
        for (const Part& part : m_circuit.parts) {
            if (findPart(driven, part.id) == nullptr || part.id == m_circuit.ports.source) {
                m_outside.insert(part.id);
            }
        }
        m_outside.insert(m_circuit.ports.load);
        m_outside.insert(m_circuit.ports.battery);
    }
    [[nodiscard]] bool isOfUnit(const Part& part) const { return !m_outside.contains(part.id); }

    void readSettled() {
        const int output = m_solved.equations->indexOfNet(m_circuit.ports.output);
        const auto settled = settleWithin(m_solved, {m_setting.toneHz, m_setting.pickVoltsPeak, {}}, output,
                                          settledSteps, settledHarmonics, m_stop, settledShare);
        if (!settled) {
            addTrouble("next_stage_peak", settled.error());
            return;
        }
        if (const auto room = leastRailRoom(m_circuit, m_solved, *settled)) {
            add("rail_room", room->volts, room->part);
        }
        if (const auto room = leastDeviceRoom(m_circuit, m_solved, *settled)) {
            add("device_room", room->volts, room->part);
        }
        const Peaks peaks = peaksOf(settled->wave(output));
        const double rest = m_solved.biasVolts(m_circuit.ports.output);
        add("next_stage_peak", std::max(peaks.highest - rest, rest - peaks.lowest));
        add("load", m_setting.loadOhms);
    }

    /// Gain 1 + Zf/Zg at the knob positions that make it largest; of the op-amp with a gain leg.
    void readSpeed() {
        const auto limits = opampLimits(m_circuit, m_solved);
        Worst slew;
        double able = 0.0;
        for (const OpampLimits& one : limits) {
            const double swing = (one.highestVolts - one.lowestVolts) / 2.0;
            const double needed = 2.0 * std::numbers::pi * fullSwingHz * swing * 1e-6;
            if (swing > 0.0 && (!slew.value || needed / one.slewVoltsPerSecond > *slew.value / able)) {
                slew = {needed, one.part};
                able = one.slewVoltsPerSecond;
            }
        }
        if (slew.value) {
            add("slew", slew.value, slew.part);
            add("slew_able", able * 1e-6, slew.part);
        }
        std::optional<double> gain;
        PartId part;
        for (const double position : {0.0, 10.0}) {
            for (const Knob& knob : m_circuit.knobs) {
                Setting turned = m_setting;
                turned.knobs[knob.id] = position;
                for (const auto& [opamp, value] : formulaGains(turned)) {
                    if (!gain || value > *gain) {
                        gain = value;
                        part = opamp;
                    }
                }
            }
        }
        for (const OpampLimits& one : limits) {
            if (gain && one.part == part) {
                add("bandwidth", one.gainBandwidthHz / *gain, part);
            }
        }
    }
    [[nodiscard]] std::vector<std::pair<PartId, double>> formulaGains(const Setting& setting) const {
        const PotOhms pots = potOhmsAt(m_circuit, setting);
        std::vector<std::pair<PartId, double>> gains;
        for (const Part& part : m_circuit.parts) {
            if (part.kind != PartKind::opamp) {
                continue;
            }
            const auto leg = findGainLeg(m_circuit, part.nets[2], pots);
            const auto feedback = findFeedbackResistance(m_circuit, part.id, pots);
            if (leg && feedback) {
                gains.emplace_back(part.id, 1.0 + feedback->ohms / leg->ohms);
            }
        }
        return gains;
    }

    void readCorners() {
        take("input_corner", inputCorner(m_circuit, m_setting, m_stop), [this](const auto& corner) {
            if (corner) {
                add("input_corner", corner->hertz, corner->capacitor);
            }
        });
        take("output_corner", outputCorner(m_circuit, m_setting, m_stop), [this](const auto& corner) {
            if (corner) {
                add("output_corner", corner->hertz, corner->capacitor);
            }
        });
    }

    void readImpedances() {
        if (!m_circuit.ports.jack.empty()) {
            take("input_impedance", inputImpedanceOhms(m_circuit, m_setting, impedanceHz, m_stop),
                 [this](double ohms) { add("input_impedance", ohms); });
        }
        take("output_impedance", outputImpedanceOhms(m_circuit, m_setting, impedanceHz, m_stop),
             [this](double ohms) { add("output_impedance", ohms); });
    }

    /// Highest gain from the pickup to the jack over 20 Hz to 20 kHz.
    void readPickupPeak() {
        const NetName& jack = m_circuit.ports.jack;
        const Part* source = findPart(m_circuit, m_circuit.ports.source);
        if (jack.empty() || source == nullptr || source->nets.front() == jack) {
            return;
        }
        const std::vector<double> grid = logarithmicGrid(20.0, 20000.0, 100);
        take("pickup_peak", frequencyResponse(*m_solved.equations, *m_solved.bias, {jack}, grid, m_stop),
             [this](const auto& gains) {
                 double highest = 0.0;
                 for (const std::complex<double> gain : gains.front()) {
                     highest = std::max(highest, std::abs(gain));
                 }
                 add("pickup_peak", amplitudeDb(highest));
             });
    }

    void readNoise() {
        const std::vector<double> grid = logarithmicGrid(20.0, 20000.0, 100);
        take("noise_out",
             solveNoise(*m_solved.equations, *m_solved.bias, m_solved.equations->indexOfNet(m_circuit.ports.output),
                        grid, m_stop),
             [this](const NoiseCurve& noise) { add("noise_out", 1e6 * noiseVoltsRms(noise, 20.0, 20000.0)); });
    }

    /// What DC does at all knob ends and at a fresh battery: pots, ratings, current.
    void readBiasCorners() {
        Worst pot, resistor, device, capacitor;
        for (const Setting& corner : biasCorners()) {
            const auto solved = solveCircuitLike(m_solved, m_circuit, corner, m_stop);
            if (!solved) {
                m_cancelled = m_cancelled || solved.error().code == ErrorCode::cancelled;
                continue;  // A corner without a bias is reported by the effects at the setting itself.
            }
            for (const Part& part : m_circuit.parts) {
                if (isOfUnit(part)) {
                    readPart(*solved, part, pot, resistor, device, capacitor);
                }
            }
        }
        const auto addWorst = [this](const char* id, const Worst& worst) {
            if (worst.value) {
                add(id, worst.value, worst.part);
            }
        };
        addWorst("pot_dc", pot);
        addWorst("resistor_load", resistor);
        addWorst("device_load", device);
        addWorst("capacitor_load", capacitor);
        if (const Part* battery = findPart(m_circuit, m_circuit.ports.battery)) {
            add("supply_current", -1e3 * m_solved.equations->terminalCurrents(*battery, m_solved.bias->x)[0]);
        }
    }
    void readPart(const SolvedCircuit& solved, const Part& part, Worst& pot, Worst& resistor, Worst& device,
                  Worst& capacitor) const {
        switch (part.kind) {
            case PartKind::potentiometer:
                for (std::size_t a = 0; a < 3; ++a) {
                    for (std::size_t b = a + 1; b < 3; ++b) {
                        pot.offer(1e3 * std::abs(solved.biasVolts(part.nets[a]) - solved.biasVolts(part.nets[b])),
                                  part.id);
                    }
                }
                break;
            case PartKind::resistor: {
                const double volts = solved.biasVolts(part.nets[0]) - solved.biasVolts(part.nets[1]);
                const double rated = ratedWatts(part).value_or(m_options.limits.defaultResistorWatts.value);
                resistor.offer(100.0 * volts * volts / part.value / rated, part.id);
                break;
            }
            case PartKind::capacitor:
                if (const auto rated = ratedVolts(part)) {
                    const double volts = std::abs(solved.biasVolts(part.nets[0]) - solved.biasVolts(part.nets[1]));
                    capacitor.offer(100.0 * volts / *rated, part.id);
                }
                break;
            case PartKind::bipolar:
            case PartKind::jfet:
            case PartKind::mosfet:
            case PartKind::diode:
                device.offer(1e3 * dissipationWatts(solved, part), part.id);
                break;
            default:
                break;
        }
    }
    /// The setting itself, each knob at its ends, and all that with a fresh battery.
    [[nodiscard]] std::vector<Setting> biasCorners() const {
        std::vector<Setting> corners{m_setting};
        for (const Knob& knob : m_circuit.knobs) {
            for (const double position : {0.0, 10.0}) {
                corners.push_back(m_setting);
                corners.back().knobs[knob.id] = position;
            }
        }
        if (isBattery()) {
            corners.push_back(m_setting);
            corners.back().batteryVolts *= m_options.limits.freshBatteryShare.value;
        }
        return corners;
    }
    [[nodiscard]] bool isBattery() const {
        return findPart(m_circuit, m_circuit.ports.battery) != nullptr && m_setting.batteryVolts <= largestBatteryVolts;
    }

    /// How far the output device's DC lies off half the supply with a flat battery, of the supply.
    void readFlatBattery() {
        const Part* device = outputDevice();
        if (!isBattery() || device == nullptr) {
            return;
        }
        Setting flat = m_setting;
        flat.batteryVolts *= m_options.limits.batteryShare.value;
        take("flat_battery_bias", solveCircuitLike(m_solved, m_circuit, flat, m_stop),
             [&](const SolvedCircuit& solved) {
                 const double volts = solved.biasVolts(device->nets[outputPinOf(device->kind)]);
                 add("flat_battery_bias", 100.0 * std::abs(volts / flat.batteryVolts - 0.5), device->id);
             });
    }
    static std::size_t outputPinOf(PartKind kind) { return kind == PartKind::opamp ? 2 : 0; }
    /// The device whose output is at the clip node, or nearest to it past resistors and capacitors.
    [[nodiscard]] const Part* outputDevice() const {
        std::set<NetName> reached{m_circuit.ports.clipNode};
        for (int step = 0; step < 4; ++step) {
            for (const Part& part : m_circuit.parts) {
                const bool isDevice = part.kind == PartKind::opamp || part.kind == PartKind::bipolar ||
                                      part.kind == PartKind::jfet || part.kind == PartKind::mosfet;
                if (isDevice && reached.contains(part.nets[outputPinOf(part.kind)])) {
                    return &part;
                }
            }
            std::set<NetName> next = reached;
            for (const Part& part : m_circuit.parts) {
                const bool isPath = part.kind == PartKind::resistor || part.kind == PartKind::capacitor;
                if (isPath && (reached.contains(part.nets[0]) || reached.contains(part.nets[1]))) {
                    for (const NetName& net : part.nets) {
                        if (net != groundNet) {
                            next.insert(net);
                        }
                    }
                }
            }
            reached = std::move(next);
        }
        return nullptr;
    }

    void readOnsets() {
        if (!m_options.withOnsets) {
            return;
        }
        const NetName& node = m_circuit.ports.clipNode.empty() ? m_circuit.ports.output : m_circuit.ports.clipNode;
        for (const OpenString& string : openStrings) {
            const std::string id = std::string("clip_onset_") + string.word;
            take(id, measureClipOnset(m_solved, node, string.hertz, m_stop),
                 [&](const std::optional<double>& volts) { add(id, volts ? std::optional(1e3 * *volts) : volts); });
        }
    }

    const Circuit& m_circuit;
    const Setting& m_setting;
    const SideEffectOptions& m_options;
    std::stop_token m_stop;
    SolvedCircuit m_solved;
    std::set<PartId> m_outside;
    SideReadings m_readings;
    bool m_cancelled = false;
};

}  // namespace

const SideReading* SideReadings::find(std::string_view id) const {
    const auto found =
        std::find_if(readings.begin(), readings.end(), [id](const SideReading& reading) { return reading.id == id; });
    return found == readings.end() ? nullptr : &*found;
}

Result<SideReadings> readSides(const Circuit& circuit, const Setting& setting, const SideEffectOptions& options,
                               const std::stop_token& stop) {
    return Reader(circuit, setting, options, stop).run();
}

std::optional<double> ratedWatts(const Part& part) {
    return figureBefore(part.build, 'W');
}

std::optional<double> ratedVolts(const Part& part) {
    return figureBefore(part.build, 'V');
}

}  // namespace ohmwright

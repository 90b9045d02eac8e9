// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/meter.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/base/value_text.h"
#include "core/bench/capacitor_charging.h"
#include "core/measure/spread.h"
#include "core/solve/bias.h"
#include "core/solve/equations.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

namespace ohmwright {

namespace {

/// What a part is taken to differ by where nothing is stated. Source: definitions of the demos, spread band.
constexpr double resistorShare = 0.05, capacitorShare = 0.10, potShare = 0.20;

/// What leaks from a net between junctions [Ω]: a net that two reversed diodes hold by picoamperes has a voltage then,
/// and no reading under the highest range moves by more than 0.2 %. Real diodes leak more. Common practice, no source.
constexpr double junctionLeakOhms = 1e10;

bool isJunction(PartKind kind) {
    return kind == PartKind::diode || kind == PartKind::bipolar || kind == PartKind::jfet || kind == PartKind::mosfet;
}

/// Volts behind a resistance, joined to the red probe; black is ground.
class Probes {
public:
    Probes(const ProbedIsland& island, const Setting& setting)
        : m_parts(island.circuit.parts), m_circuit(island.circuit), m_setting(boardSetting(island.circuit, setting)) {
        addLeaks(island);
        Part volts;
        volts.id = "meter volts";
        volts.reference = volts.id;
        volts.kind = PartKind::voltageSource;
        volts.nets = {"meter", NetName(groundNet)};
        Part ohms;
        ohms.id = "meter ohms";
        ohms.reference = ohms.id;
        ohms.kind = PartKind::resistor;
        ohms.nets = {"meter", island.red};
        m_circuit.parts.push_back(std::move(volts));
        m_circuit.parts.push_back(std::move(ohms));
        m_red = island.red;
    }

    [[nodiscard]] const Circuit& circuit() const { return m_circuit; }
    [[nodiscard]] const Setting& setting() const { return m_setting; }

    void scaleResistances(double sign) {
        for (std::size_t k = 0; k < m_parts.size(); ++k) {
            const Part& part = m_parts[k];
            if (part.kind == PartKind::resistor || part.kind == PartKind::potentiometer) {
                m_circuit.parts[k].value = valueOnBench(part) * (1.0 + sign * shareOfTolerance(part));
            }
        }
    }
    void drive(double volts, double ohms) {
        m_circuit.parts[m_circuit.parts.size() - 2].value = volts;
        m_circuit.parts.back().value = ohms;
    }
    /// Volts at the red probe. Errors: of the solver.
    Result<double> solve(const std::stop_token& stop) {
        Result<Equations> equations = m_equations ? Equations::compileLike(*m_equations, m_circuit, m_setting)
                                                  : Equations::compile(m_circuit, m_setting);
        if (!equations) {
            return equations.error();
        }
        m_equations = *std::move(equations);
        Result<OperatingPoint> point = solveBias(*m_equations, m_point ? &*m_point : nullptr, stop);
        if (!point) {
            return point.error();
        }
        m_point = *std::move(point);
        return m_point->x[static_cast<std::size_t>(m_equations->indexOfNet(m_red))];
    }

private:
    void addLeaks(const ProbedIsland& island) {
        std::set<NetName> done{NetName(groundNet), island.red};
        for (const Part& part : m_parts) {
            for (const NetName& net : isJunction(part.kind) ? part.nets : std::vector<NetName>{}) {
                if (done.insert(net).second) {
                    Part leak;
                    leak.id = "leak at " + net;
                    leak.reference = leak.id;
                    leak.kind = PartKind::resistor;
                    leak.value = junctionLeakOhms;
                    leak.nets = {net, NetName(groundNet)};
                    m_circuit.parts.push_back(std::move(leak));
                }
            }
        }
    }

    std::vector<Part> m_parts;  ///< As they are on the board.
    Circuit m_circuit;
    Setting m_setting;
    NetName m_red;
    std::optional<Equations> m_equations;
    std::optional<OperatingPoint> m_point;
};

/// Ohms by the range that fits, from 200 Ω up.
Result<std::optional<double>> autoRange(Probes& probes, const MeterModel& meter, const std::stop_token& stop) {
    const auto decades =
        static_cast<int>(std::floor(std::log10(meter.highestRangeOhms / meter.lowestRangeOhms) + 1e-9));
    double reading = 0.0;
    for (int decade = 0; decade <= decades; ++decade) {
        const double range = meter.lowestRangeOhms * std::pow(10.0, decade);
        if (reading > range) {
            continue;  // A range below said so already; junctions only conduct less in a higher one.
        }
        probes.drive(meter.ohmsOpenVolts, range);
        const Result<double> volts = probes.solve(stop);
        if (!volts) {
            return volts.error();
        }
        const double left = meter.ohmsOpenVolts - *volts;
        // Less than rounding leaves of it: nothing flows.
        constexpr double leastShare = 1e-6;
        if (left > leastShare * meter.ohmsOpenVolts) {
            reading = *volts / left * range;
            if (reading <= range) {
                return std::optional(reading);
            }
        }
    }
    return std::optional<double>();
}

/// Volts in the diode range; absent where the compliance does not drive the test current.
Result<std::optional<double>> diodeReading(Probes& probes, const MeterModel& meter, const std::stop_token& stop) {
    // The test current as volts behind a resistance, so that it is exact at the voltage assumed; first at the
    // compliance, where less flows than asked for when the way needs more.
    constexpr double sourceOhms = 10e3;
    double volts = meter.diodeOpenVolts;
    constexpr int passes = 3;  // the third moves nanovolts
    for (int pass = 0; pass < passes; ++pass) {
        probes.drive(meter.diodeAmperes * sourceOhms + volts, sourceOhms);
        const Result<double> solved = probes.solve(stop);
        if (!solved) {
            return solved.error();
        }
        if (pass == 0 && *solved > meter.diodeOpenVolts) {
            return std::optional<double>();
        }
        volts = *solved;
    }
    return std::optional(volts);
}

}  // namespace

double shareOfTolerance(const Part& part) {
    if (const double share = spreadShare(part); share > 0.0) {
        return share;
    }
    switch (part.kind) {
        case PartKind::resistor:
            return resistorShare;
        case PartKind::capacitor:
            return capacitorShare;
        case PartKind::potentiometer:
            return potShare;
        default:
            return 0.0;
    }
}

double valueOnBench(const Part& part) {
    return part.knowledge == Knowledge::measured && part.measured ? *part.measured : part.value;
}

ProbedBoard::ProbedBoard(const Circuit& circuit, const Setting& setting, SupplyEnd supply, const MeterModel& meter)
    : m_powered(circuit), m_board(unpoweredBoard(circuit, supply)), m_setting(setting), m_meter(meter) {}

bool ProbedBoard::hasNet(const NetName& net) const {
    return net == groundNet || std::any_of(m_powered.parts.begin(), m_powered.parts.end(), [&](const Part& part) {
               return std::find(part.nets.begin(), part.nets.end(), net) != part.nets.end();
           });
}

Result<void> ProbedBoard::requireNets(const NetName& red, const NetName& black) const {
    for (const NetName& net : {red, black}) {
        if (!hasNet(net)) {
            return Error{ErrorCode::invalidInput, said("There is no net \"%1\" to put a probe on.", net), net};
        }
    }
    return {};
}

ProbedIsland ProbedBoard::island(const NetName& red, const NetName& black) const {
    return probedIsland(m_powered, m_board, red, black);
}

std::set<NetName> ProbedBoard::reach(const NetName& red, const NetName& black) const {
    return reachedNets(m_board, red, black);
}

Result<MeterReading> ProbedBoard::ohmsOf(const ProbedIsland& island, const std::stop_token& stop) const {
    MeterReading reading{std::nullopt, island.hasChip, island.hasJunction};
    if (!island.isJoined) {
        return reading;
    }
    Probes probes(island, m_setting);
    probes.scaleResistances(0.0);
    Result<std::optional<double>> ohms = autoRange(probes, m_meter, stop);
    if (!ohms) {
        return ohms.error();
    }
    reading.value = *ohms;
    return reading;
}

Result<MeterReading> ProbedBoard::ohms(const NetName& red, const NetName& black, const std::stop_token& stop) const {
    if (const Result<void> nets = requireNets(red, black); !nets) {
        return nets.error();
    }
    if (red == black) {
        return MeterReading{0.0, false, false};
    }
    return ohmsOf(island(red, black), stop);
}

Result<MeterReading> ProbedBoard::diodeVolts(const NetName& red, const NetName& black,
                                             const std::stop_token& stop) const {
    if (const Result<void> nets = requireNets(red, black); !nets) {
        return nets.error();
    }
    if (red == black) {
        return MeterReading{0.0, false, false};
    }
    const ProbedIsland own = island(red, black);
    MeterReading reading{std::nullopt, own.hasChip, own.hasJunction};
    if (!own.isJoined) {
        return reading;
    }
    Probes probes(own, m_setting);
    probes.scaleResistances(0.0);
    Result<std::optional<double>> volts = diodeReading(probes, m_meter, stop);
    if (!volts) {
        return volts.error();
    }
    reading.value = *volts;
    return reading;
}

Result<MeterBand> ProbedBoard::ohmsBand(const NetName& red, const NetName& black, const std::stop_token& stop) const {
    const Result<MeterReading> nominal = ohms(red, black, stop);
    if (!nominal) {
        return nominal.error();
    }
    MeterBand band{*nominal, std::nullopt, std::nullopt};
    if (red == black) {
        band.low = 0.0;
        band.high = m_meter.leadOhms;
        return band;
    }
    const ProbedIsland own = island(red, black);
    if (!own.isJoined) {
        return band;
    }
    Probes probes(own, m_setting);
    for (const double sign : {-1.0, 1.0}) {
        probes.scaleResistances(sign);
        Result<std::optional<double>> end = autoRange(probes, m_meter, stop);
        if (!end) {
            return end.error();
        }
        if (!end->has_value()) {
            continue;
        }
        const double ownShare = 1.0 + sign * m_meter.ohmsShare;
        (sign < 0.0 ? band.low : band.high) = **end * ownShare + (sign > 0.0 ? m_meter.leadOhms : 0.0);
    }
    return band;
}

Result<MeterBand> ProbedBoard::diodeBand(const NetName& red, const NetName& black, const std::stop_token& stop) const {
    const Result<MeterReading> nominal = diodeVolts(red, black, stop);
    if (!nominal) {
        return nominal.error();
    }
    MeterBand band{*nominal, std::nullopt, std::nullopt};
    if (nominal->value) {
        band.low = std::max(0.0, *nominal->value - m_meter.diodeVolts);
        band.high = *nominal->value + m_meter.diodeVolts;
    }
    return band;
}

Result<bool> ProbedBoard::beeps(const NetName& red, const NetName& black, const std::stop_token& stop) const {
    const Result<MeterReading> reading = ohms(red, black, stop);
    if (!reading) {
        return reading.error();
    }
    return reading->value.has_value() && *reading->value < m_meter.beepOhms;
}

Result<double> ProbedBoard::settleSeconds(const NetName& red, const NetName& black, const std::stop_token& stop) const {
    const Result<MeterReading> end = ohms(red, black, stop);
    if (!end) {
        return end.error();
    }
    if (red == black) {
        return 0.0;
    }
    // The whole board: capacitors join what direct current does not. Black becomes ground as in an island.
    ProbedIsland whole;
    whole.circuit = m_board;
    const auto renamed = [&](const NetName& net) {
        return net == black ? NetName(groundNet) : net == groundNet ? NetName("former ground") : net;
    };
    whole.red = renamed(red);
    bool hasCapacitor = false;
    for (Part& part : whole.circuit.parts) {
        hasCapacitor = hasCapacitor || part.kind == PartKind::capacitor;
        for (NetName& net : part.nets) {
            net = renamed(net);
        }
    }
    if (!hasCapacitor) {
        return 0.0;
    }
    double range = m_meter.lowestRangeOhms;
    constexpr double nextRange = 10.0;
    while (range < m_meter.highestRangeOhms && (!end->value || *end->value > range)) {
        range *= nextRange;
    }
    Probes probes(whole, m_setting);
    probes.scaleResistances(0.0);
    probes.drive(m_meter.ohmsOpenVolts, range);
    double settled = 0.0, last = 0.0, lastError = 0.0;
    const ChargingSpan span;
    const Result<void> followed = followCharging(
        probes.circuit(), probes.setting(), {}, span,
        [&](double seconds, const std::map<NetName, double>& volts) {
            const auto at = volts.find(whole.red);
            const double own = at == volts.end() ? m_meter.ohmsOpenVolts : at->second;
            const double left = std::max(m_meter.ohmsOpenVolts - own, 1e-12);
            const double reading = own / left * range;
            // How far from settled, above 1 when it is not.
            const double error =
                end->value ? std::abs(reading / std::max(*end->value, m_meter.leadOhms) - 1.0) / m_meter.settledShare
                           : m_meter.highestRangeOhms / std::max(reading, 1e-9);
            if (error > 1.0) {
                settled = seconds;
            } else if (last == settled && last > 0.0) {
                // Between the two steps, by the logarithm of the error.
                const double share = std::log(lastError) / std::log(lastError / std::max(error, 1e-9));
                settled = last * std::pow(seconds / last, std::clamp(share, 0.0, 1.0));
            }
            last = seconds;
            lastError = error;
            // Nothing slower by thirty times has shown: it has ended.
            constexpr double patience = 30.0, soonest = 1e-2;
            return error > 1.0 || seconds < std::max(soonest, patience * settled);
        },
        stop);
    if (!followed) {
        return followed.error();
    }
    return settled;
}

std::string readingWords(const std::optional<double>& value, Unit unit) {
    if (!value) {
        return said("no reading");
    }
    constexpr double leastOhms = 0.1;
    if (unit == Unit::ohm && *value < leastOhms) {
        return said("under %1", formatFixed(leastOhms, 1) + " Ω");
    }
    if (unit == Unit::volt) {
        return formatFixed(*value, 2) + " V";
    }
    return formatQuantity({*value, unit});
}

}  // namespace ohmwright

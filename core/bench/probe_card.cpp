// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/probe_card.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/bench/net_words.h"
#include "core/measure/spread.h"
#include "core/solve/bias.h"
#include "core/solve/equations.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace ohmwright {

namespace {

/// What is read: volts of the lines, and the supply's current at the end where there is a supply.
using Readings = std::vector<double>;

/// Solves one topology again and again.
class PinReader {
public:
    PinReader(const std::vector<ProbeLine>& lines, const PartId& supply, const std::stop_token& stop)
        : m_lines(lines), m_supply(supply), m_stop(stop) {}

    Result<Readings> read(const Circuit& circuit, const Setting& setting) {
        Result<Equations> equations =
            m_equations ? Equations::compileLike(*m_equations, circuit, setting) : Equations::compile(circuit, setting);
        if (!equations) {
            return equations.error();
        }
        m_equations = *std::move(equations);
        Result<OperatingPoint> point = solveBias(*m_equations, m_start ? &*m_start : nullptr, m_stop);
        if (!point) {
            return point.error();
        }
        Readings readings;
        for (const ProbeLine& line : m_lines) {
            readings.push_back(point->x[static_cast<std::size_t>(m_equations->indexOfNet(line.net))]);
        }
        if (const int branch = m_equations->branchOf(m_supply); branch >= 0) {
            readings.push_back(-point->x[static_cast<std::size_t>(branch)]);
        }
        if (!m_start) {
            m_start = *std::move(point);
        }
        return readings;
    }

private:
    const std::vector<ProbeLine>& m_lines;
    PartId m_supply;
    std::stop_token m_stop;
    std::optional<Equations> m_equations;
    std::optional<OperatingPoint> m_start;  ///< The nominal one, from which all others start.
};

std::vector<ProbeLine> linesOf(const Circuit& circuit) {
    std::vector<ProbeLine> lines;
    std::set<NetName> known{NetName(groundNet)};
    for (const Part& part : circuit.parts) {
        if (part.kind != PartKind::opamp && !isAmplifying(part.kind)) {
            continue;
        }
        for (std::size_t leg = 0; leg < part.nets.size(); ++leg) {
            if (known.insert(part.nets[leg]).second) {
                ProbeLine line;
                line.part = part.id;
                line.leg = static_cast<int>(leg);
                line.net = part.nets[leg];
                line.place = deviceLegWords(part, line.leg);
                lines.push_back(std::move(line));
            }
        }
    }
    return lines;
}

struct Ends {
    Readings low, high;

    explicit Ends(const Readings& first) : low(first), high(first) {}
    void hold(const Readings& readings) {
        for (std::size_t k = 0; k < readings.size(); ++k) {
            low[k] = std::min(low[k], readings[k]);
            high[k] = std::max(high[k], readings[k]);
        }
    }
};

bool movesBias(const Part& part) {
    return part.kind == PartKind::resistor || part.kind == PartKind::potentiometer;
}

/// Half the band of 95 % of units, by the rule of squares.
Result<Readings> toleranceBand(PinReader& reader, const Circuit& circuit, const Setting& setting,
                               const Readings& nominal) {
    Readings squares(nominal.size(), 0.0);
    Circuit other = circuit;
    for (std::size_t k = 0; k < circuit.parts.size(); ++k) {
        const Part& part = circuit.parts[k];
        const double share = spreadShare(part);
        if (!movesBias(part) || share <= 0.0) {
            continue;
        }
        other.parts[k].value = part.value * (1.0 + share);
        const Result<Readings> moved = reader.read(other, setting);
        other.parts[k].value = part.value;
        if (!moved) {
            if (moved.error().code == ErrorCode::cancelled) {
                return moved.error();
            }
            continue;
        }
        for (std::size_t n = 0; n < nominal.size(); ++n) {
            squares[n] += ((*moved)[n] - nominal[n]) * ((*moved)[n] - nominal[n]);
        }
    }
    constexpr double deviations = 1.96, uniform = 3.0;
    for (double& square : squares) {
        square = deviations * std::sqrt(square / uniform);
    }
    return squares;
}

std::string wordsOf(const Circuit& circuit, const ProbeOptions& options) {
    std::string held = said("the meter and the supply");
    if (options.withTolerances) {
        held += ", " + said("resistances inside their tolerance");
    }
    held += options.devices.empty() && deviceSpreads(circuit).empty()
                ? " " + said("(how far copies of the devices differ is not in it)")
                : ", " + said("copies of the devices");
    if (options.lowSupplyVolts || options.highSupplyVolts) {
        held += ", " + said("the supply's ends");
    }
    return said("No signal, against ground; the band holds %1.", held);
}

}  // namespace

Result<ProbeCard> probeCard(const Circuit& circuit, const Setting& setting, const ProbeOptions& options,
                            const std::stop_token& stop) {
    ProbeCard card;
    card.lines = linesOf(circuit);
    card.supplyVolts = setting.batteryVolts;
    card.words = wordsOf(circuit, options);
    const Circuit unit = asMeasured(circuit);
    PinReader reader(card.lines, unit.ports.battery, stop);
    const Result<Readings> nominal = reader.read(unit, setting);
    if (!nominal) {
        return nominal.error();
    }

    std::vector<Setting> settings{setting};
    for (const std::optional<double>& volts : {options.lowSupplyVolts, options.highSupplyVolts}) {
        if (volts) {
            settings.push_back(setting);
            settings.back().batteryVolts = *volts;
        }
    }
    const std::vector<DeviceSpread> spreads = options.devices.empty() ? deviceSpreads(unit) : options.devices;
    const std::vector<Circuit> devices = deviceCorners(unit, spreads);
    Ends all(*nominal), byDevices(*nominal);
    for (std::size_t s = 0; s < settings.size(); ++s) {
        for (const Circuit& corner : devices) {
            const Result<Readings> readings = reader.read(corner, settings[s]);
            if (!readings) {
                if (readings.error().code == ErrorCode::cancelled) {
                    return readings.error();
                }
                continue;
            }
            all.hold(*readings);
            if (s == 0) {
                byDevices.hold(*readings);
            }
        }
    }
    Readings half(nominal->size(), 0.0);
    if (options.withTolerances) {
        const Result<Readings> band = toleranceBand(reader, unit, setting, *nominal);
        if (!band) {
            return band.error();
        }
        half = *band;
    }
    for (std::size_t k = 0; k < card.lines.size(); ++k) {
        ProbeLine& line = card.lines[k];
        line.nominal = (*nominal)[k];
        line.lowByDevices = byDevices.low[k];
        line.highByDevices = byDevices.high[k];
        const double meter = std::max(options.leastVolts, options.supplyShare * std::abs(line.nominal));
        line.low = all.low[k] - half[k] - meter;
        line.high = all.high[k] + half[k] + meter;
    }
    if (nominal->size() > card.lines.size()) {
        const double share = options.supplyShare * std::abs(nominal->back());
        card.supply = ProbeCard::Current{all.low.back() - half.back() - share, nominal->back(),
                                         all.high.back() + half.back() + share};
    }
    return card;
}

}  // namespace ohmwright

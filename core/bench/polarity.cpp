// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/polarity.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/bench/meter.h"
#include "core/bench/net_words.h"
#include "core/bench/unpowered_board.h"
#include "core/circuit/check.h"
#include "core/circuit/supply_volts.h"
#include "core/solve/bias.h"
#include "core/solve/equations.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>
#include <set>

namespace ohmwright {

namespace {

/// Under this a plus does not matter. Common practice, no source.
constexpr double leastVolts = 0.1;
constexpr double reserve = 1.25;
constexpr std::size_t mostKnobs = 6;
constexpr double knobEnd = 10.0;

/// "film, 5 mm, 63 V" with "V" is 63; "carbon film, 0.25 W" with "W" is 0.25.
std::optional<double> ratingIn(const std::string& text, char unit) {
    for (std::size_t at = text.find(unit); at != std::string::npos; at = text.find(unit, at + 1)) {
        const bool isUnit = at + 1 == text.size() || text[at + 1] == ',' || text[at + 1] == ' ' || text[at + 1] == ';';
        std::size_t end = at;
        while (end > 0 && text[end - 1] == ' ') {
            --end;
        }
        std::size_t begin = end;
        while (begin > 0 &&
               (std::isdigit(static_cast<unsigned char>(text[begin - 1])) != 0 || text[begin - 1] == '.')) {
            --begin;
        }
        if (isUnit && begin < end) {
            const double rating = std::strtod(text.substr(begin, end - begin).c_str(), nullptr);
            if (rating > 0.0) {
                return rating;
            }
        }
    }
    return std::nullopt;
}

std::optional<double> ratingOf(const Part& part, char unit) {
    const std::optional<double> built = ratingIn(part.build, unit);
    return built ? built : ratingIn(part.printed, unit);
}

/// What amplifies is off: valves cold, transistors and chips as if they were not there.
Circuit withDevicesOff(const Circuit& circuit) {
    Circuit off = circuit;
    off.parts.erase(
        std::remove_if(off.parts.begin(), off.parts.end(),
                       [](const Part& part) { return part.kind == PartKind::opamp || isAmplifying(part.kind); }),
        off.parts.end());
    for (NetName& net : netsWithoutDcPath(off)) {
        off.openNets.push_back(std::move(net));
    }
    return off;
}

std::vector<Setting> settingsAtEnds(const Circuit& circuit, const Setting& setting, const CornerOptions& options) {
    constexpr double highestBattery = 30.0, flat = 7.2 / 9.0, fresh = 9.6 / 9.0, mains = 0.1;
    const bool isBattery = highestSupplyVolts(circuit, setting) <= highestBattery;
    const double set = setting.batteryVolts;
    const double low = options.lowSupplyVolts.value_or(set * (isBattery ? flat : 1.0 - mains));
    const double high = options.highSupplyVolts.value_or(set * (isBattery ? fresh : 1.0 + mains));
    std::vector<Setting> settings;
    const std::size_t knobs = std::min(circuit.knobs.size(), mostKnobs);
    for (std::size_t ends = 0; ends < (std::size_t(1) << knobs); ++ends) {
        Setting corner = setting;
        for (std::size_t k = 0; k < knobs; ++k) {
            corner.knobs[circuit.knobs[k].id] = (ends >> k) % 2 == 1 ? knobEnd : 0.0;
        }
        for (const double volts : {low, high}) {
            corner.batteryVolts = volts;
            settings.push_back(corner);
        }
    }
    return settings;
}

class Duties {
public:
    explicit Duties(const std::stop_token& stop) : m_stop(stop) {}

    /// Errors: of the solver.
    Result<void> solve(const Circuit& circuit, const Setting& setting, bool isAsSet) {
        const bool isLike = m_equations && m_of == &circuit;
        Result<Equations> equations =
            isLike ? Equations::compileLike(*m_equations, circuit, setting) : Equations::compile(circuit, setting);
        if (!equations) {
            return equations.error();
        }
        m_equations = *std::move(equations);
        m_of = &circuit;
        Result<OperatingPoint> point = solveBias(*m_equations, isLike && m_point ? &*m_point : nullptr, m_stop);
        if (!point) {
            m_point.reset();
            return point.error();
        }
        m_point = *std::move(point);
        for (const Part& part : circuit.parts) {
            if (part.kind == PartKind::capacitor) {
                hold(part, isAsSet);
            } else if (part.kind == PartKind::resistor) {
                const double volts = across(part);
                double& watts = m_watts[part.id];
                watts = std::max(watts, volts * volts / part.value);
            }
        }
        return {};
    }

    [[nodiscard]] const std::map<PartId, CapacitorDuty>& capacitors() const { return m_capacitors; }
    [[nodiscard]] const std::map<PartId, double>& watts() const { return m_watts; }

private:
    [[nodiscard]] double at(const NetName& net) const {
        return m_point->x[static_cast<std::size_t>(m_equations->indexOfNet(net))];
    }
    [[nodiscard]] double across(const Part& part) const { return at(part.nets[0]) - at(part.nets[1]); }

    void hold(const Part& part, bool isAsSet) {
        const double volts = across(part);
        CapacitorDuty& duty = m_capacitors.try_emplace(part.id).first->second;
        if (duty.part.empty()) {
            duty.part = part.id;
            duty.low = duty.high = volts;
        }
        if (isAsSet) {
            duty.atSetting = volts;
        }
        duty.low = std::min(duty.low, volts);
        duty.high = std::max(duty.high, volts);
    }

    std::stop_token m_stop;
    std::optional<Equations> m_equations;
    const Circuit* m_of = nullptr;
    std::optional<OperatingPoint> m_point;
    std::map<PartId, CapacitorDuty> m_capacitors;
    std::map<PartId, double> m_watts;
};

Polarity polarityOf(const CapacitorDuty& duty) {
    const bool isAbove = duty.high > leastVolts;
    const bool isBelow = duty.low < -leastVolts;
    if (isAbove && isBelow) {
        return Polarity::nonPolar;
    }
    return isAbove ? Polarity::plusAtFirst : isBelow ? Polarity::plusAtSecond : Polarity::noVolts;
}

std::string sentenceOf(const Circuit& circuit, const Part& part, const CapacitorDuty& duty) {
    const std::string rating = said("a part of %1 V or more (%2 V at most)", formatFigure(duty.neededRating),
                                    formatFixed(duty.largestVolts, 1));
    switch (duty.polarity) {
        case Polarity::nonPolar:
            return said("the voltage changes its sign between %1 and %2 V: non-polar only, %3",
                        formatFixed(duty.low, 2), formatFixed(duty.high, 2), rating);
        case Polarity::noVolts:
            return said("no steady voltage across it: without plus, or non-polar; %1", rating);
        default:
            break;
    }
    const NetName& plus = part.nets[duty.polarity == Polarity::plusAtFirst ? 0 : 1];
    return said("plus to %1, %2 V more there; %3", placeWords(circuit, plus, part.id),
                formatFixed(std::abs(duty.atSetting), 2), rating);
}

/// At the ends of every knob and of the supply, also with each device out of work; counts what was solved.
Result<void> solveCorners(Duties& duties, DutyTable& table, const Circuit& circuit, const Setting& setting,
                          const CornerOptions& options) {
    std::vector<Circuit> states{circuit};
    if (options.withDevicesOff) {
        states.push_back(withDevicesOff(circuit));
    }
    for (const Circuit& state : states) {
        for (const Setting& corner : settingsAtEnds(circuit, setting, options)) {
            const Result<void> solved = duties.solve(state, corner, false);
            if (!solved && solved.error().code == ErrorCode::cancelled) {
                return solved.error();
            }
            ++(solved ? table.corners : table.unsolved);
        }
    }
    return {};
}

/// With what follows from the volts that were found.
CapacitorDuty finished(CapacitorDuty duty, const Circuit& circuit, const Part& part) {
    duty.polarity = polarityOf(duty);
    duty.largestVolts = std::max(std::abs(duty.low), std::abs(duty.high));
    duty.neededRating = nextVoltageRating(duty.largestVolts);
    duty.rating = ratingOf(part, 'V');
    duty.sentence = sentenceOf(circuit, part, duty);
    return duty;
}

}  // namespace

double nextVoltageRating(double volts) {
    constexpr double ratings[] = {6.3,   10.0,  16.0,  25.0,  35.0,  50.0,  63.0,  100.0,
                                  160.0, 200.0, 250.0, 400.0, 450.0, 630.0, 1000.0};
    const double needed = reserve * std::abs(volts);
    for (const double rating : ratings) {
        if (rating >= needed) {
            return rating;
        }
    }
    return needed;
}

Result<DutyTable> dutiesOf(const std::vector<Circuit>& circuits, const Setting& setting, const CornerOptions& options,
                           const std::stop_token& stop) {
    if (circuits.empty()) {
        return Error{ErrorCode::invalidInput, said("There is no circuit to work out duties of."), {}};
    }
    DutyTable table;
    Duties duties(stop);
    if (const Result<void> asSet = duties.solve(circuits.front(), setting, true); !asSet) {
        return asSet.error();
    }
    for (const Circuit& circuit : circuits) {
        if (const Result<void> solved = solveCorners(duties, table, circuit, setting, options); !solved) {
            return solved.error();
        }
    }
    std::set<PartId> done;
    for (const Circuit& circuit : circuits) {
        const Circuit board = unpoweredBoard(circuit);
        for (const Part& part : circuit.parts) {
            if (findPart(board, part.id) == nullptr || !done.insert(part.id).second) {
                continue;
            }
            if (part.kind == PartKind::capacitor) {
                table.capacitors.push_back(finished(duties.capacitors().at(part.id), circuit, part));
            } else if (part.kind == PartKind::resistor) {
                table.resistors.push_back({part.id, duties.watts().at(part.id), ratingOf(part, 'W')});
            }
        }
    }
    return table;
}

const CapacitorDuty* findDuty(const DutyTable& table, const PartId& capacitor) {
    const auto found = std::find_if(table.capacitors.begin(), table.capacitors.end(),
                                    [&](const CapacitorDuty& duty) { return duty.part == capacitor; });
    return found == table.capacitors.end() ? nullptr : &*found;
}

}  // namespace ohmwright

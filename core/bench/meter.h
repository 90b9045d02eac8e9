/// What a hand meter shows between two places of the unpowered board: the value of a part is not the reading.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/bench/unpowered_board.h"

#include <optional>
#include <set>
#include <stop_token>
#include <string>

namespace ohmwright {

/// The meter as a value. Common practice of low-volt digital meters, no source.
struct MeterModel {
    double ohmsOpenVolts = 0.2;      ///< Across open probes in the ohms ranges: too low to open a silicon junction.
    double lowestRangeOhms = 200.0;  ///< Ranges go up by 10; each drives open volts / full scale: 1 mA in the lowest.
    double highestRangeOhms = 20e6;  ///< Above it: no reading.
    double ohmsShare = 0.01;         ///< Of the reading that is the meter's own error.
    double leadOhms = 0.2;           ///< Of the leads, added to every reading's band.
    double diodeAmperes = 1e-3;      ///< Driven in the diode range.
    double diodeOpenVolts = 3.0;     ///< Compliance there: a way that needs more gives no reading.
    double diodeVolts = 0.05;        ///< Half the band of a diode reading: copies, heat, a chip beside it.
    double beepOhms = 30.0;          ///< The beeper sounds under this.
    double settledShare = 0.01;      ///< A reading has settled when it stays this near to its end.

    friend bool operator==(const MeterModel&, const MeterModel&) = default;
};

/// One reading. `value` is absent where the meter shows none ("OL"): an open way, or one that needs too many volts.
struct MeterReading {
    std::optional<double> value;  ///< [Ω] or [V], red against black.
    bool hasChip = false;         ///< A chip that is not modelled unpowered sits on the way: lift one leg to be sure.
    bool hasJunction = false;     ///< A diode or transistor is on the way: the other polarity may read otherwise.

    friend bool operator==(const MeterReading&, const MeterReading&) = default;
};

/// A reading with what parts inside their tolerance and the meter make of it.
struct MeterBand {
    MeterReading nominal;
    std::optional<double> low, high;  ///< Absent where there is no reading at that end.
};

/// Half of what the parts of the trade differ by where a part states no tolerance: R 5 %, C 10 %, pots 20 %; 0 for
/// other kinds. What is stated or measured counts as in measure/spread.h. Source: definitions of the demos, spread
/// band.
double shareOfTolerance(const Part& part);
/// The measured value where there is one, else the drawn one.
double valueOnBench(const Part& part);

/// The board of one circuit under the probes. Keeps the unpowered board; each reading solves its own few parts.
class ProbedBoard {
public:
    ProbedBoard(const Circuit& circuit, const Setting& setting, SupplyEnd supply = SupplyEnd::out,
                const MeterModel& meter = {});

    /// Ohms range: open-circuit volts behind the full-scale resistance of the range that fits; junctions by their laws.
    /// Errors: invalidInput when a net is not of the circuit; of the solver.
    [[nodiscard]] Result<MeterReading> ohms(const NetName& red, const NetName& black,
                                            const std::stop_token& stop = {}) const;
    /// Diode range: 1 mA, no reading where that needs more than the compliance. Errors: as ohms.
    [[nodiscard]] Result<MeterReading> diodeVolts(const NetName& red, const NetName& black,
                                                  const std::stop_token& stop = {}) const;
    /// Ohms with every resistance at its low and at its high end together (a resistance between two places never falls
    /// when one of its parts rises), the meter's share and the leads added. Errors: as ohms.
    [[nodiscard]] Result<MeterBand> ohmsBand(const NetName& red, const NetName& black,
                                             const std::stop_token& stop = {}) const;
    /// Diode volts +- the meter's diodeVolts. Errors: as ohms.
    [[nodiscard]] Result<MeterBand> diodeBand(const NetName& red, const NetName& black,
                                              const std::stop_token& stop = {}) const;
    /// Whether the beeper sounds. Errors: as ohms.
    [[nodiscard]] Result<bool> beeps(const NetName& red, const NetName& black, const std::stop_token& stop = {}) const;

    /// How long until the ohms reading stays within 1 % of its end, capacitors charging from nothing [s]; where the end
    /// is no reading, until the display says so. Errors: as ohms.
    [[nodiscard]] Result<double> settleSeconds(const NetName& red, const NetName& black,
                                               const std::stop_token& stop = {}) const;

    /// What carries the current between two places; two boards with the same island read the same.
    [[nodiscard]] ProbedIsland island(const NetName& red, const NetName& black) const;
    /// The nets that a reading hangs on: a change that touches none of them leaves it as it is.
    [[nodiscard]] std::set<NetName> reach(const NetName& red, const NetName& black) const;
    [[nodiscard]] bool hasNet(const NetName& net) const;
    [[nodiscard]] const MeterModel& meter() const { return m_meter; }

private:
    [[nodiscard]] Result<void> requireNets(const NetName& red, const NetName& black) const;
    [[nodiscard]] Result<MeterReading> ohmsOf(const ProbedIsland& island, const std::stop_token& stop) const;

    Circuit m_powered;
    Circuit m_board;
    Setting m_setting;
    MeterModel m_meter;
};

/// "2.70k", "no reading", "0.58 V": a reading as the house writes it.
std::string readingWords(const std::optional<double>& value, Unit unit);

}  // namespace ohmwright

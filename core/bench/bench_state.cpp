// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/bench_state.h"

#include "core/base/decibels.h"
#include "core/base/said.h"
#include "core/measure/solved_circuit.h"
#include "core/measure/spread.h"
#include "core/solve/response.h"

#include <cmath>
#include <map>
#include <optional>

namespace ohmwright {

struct BenchState::Inside {
    Circuit circuit;
    Setting setting;
    ProbedBoard board;
    std::optional<Result<SolvedCircuit>> solved;
    std::map<double, Result<double>> gains;

    Inside(const Circuit& own, const Setting& at, const MeterModel& meter)
        : circuit(asMeasured(own)), setting(at), board(circuit, at, SupplyEnd::out, meter) {}

    const Result<SolvedCircuit>& powered(const std::stop_token& stop) {
        if (!solved) {
            solved = solveCircuit(circuit, setting, stop);
        }
        return *solved;
    }

    Result<double> gainDb(double hertz, const std::stop_token& stop) {
        if (const auto known = gains.find(hertz); known != gains.end()) {
            return known->second;
        }
        const Result<SolvedCircuit>& rest = powered(stop);
        if (!rest) {
            return rest.error();
        }
        const double one[] = {hertz};
        const auto response = frequencyResponse(*rest->equations, *rest->bias, {circuit.ports.output}, one, stop);
        Result<double> gain =
            response ? Result<double>(amplitudeDb(std::abs(response->front().front()))) : response.error();
        gains.emplace(hertz, gain);
        return gain;
    }

    /// Where a probe lies on this board.
    Result<std::vector<NetName>> netsOf(const Probe& probe) const {
        if (probe.part.empty()) {
            return std::vector<NetName>{probe.net};
        }
        const Part* part = findPart(circuit, probe.part);
        if (part == nullptr) {
            return Error{ErrorCode::invalidInput, said("There is no part for the probe at %1.", probe.words),
                         probe.part};
        }
        if (probe.leg == Probe::eitherLeg) {
            return part->nets;
        }
        return std::vector<NetName>{part->nets[static_cast<std::size_t>(probe.leg)]};
    }

    /// Whether a meter beeps from one of the places to one of the others.
    Result<bool> anyBeeps(const std::vector<NetName>& reds, const std::vector<NetName>& blacks,
                          const std::stop_token& stop) {
        for (const NetName& red : reds) {
            for (const NetName& black : blacks) {
                Result<bool> beeps = board.beeps(red, black, stop);
                if (!beeps || *beeps) {
                    return beeps;
                }
            }
        }
        return false;
    }
};

BenchState::BenchState(const Circuit& circuit, const Setting& setting, const MeterModel& meter)
    : m_inside(std::make_unique<Inside>(circuit, setting, meter)) {}
BenchState::BenchState(BenchState&&) noexcept = default;
BenchState& BenchState::operator=(BenchState&&) noexcept = default;
BenchState::~BenchState() = default;

const Circuit& BenchState::circuit() const {
    return m_inside->circuit;
}

const ProbedBoard& BenchState::board() const {
    return m_inside->board;
}

Result<CheckReading> BenchState::read(const Check& check, const std::stop_token& stop) {
    Inside& own = *m_inside;
    if (check.kind == CheckKind::tone) {
        const Result<double> gain = own.gainDb(check.toneHz, stop);
        return gain ? Result<CheckReading>(CheckReading(*gain)) : gain.error();
    }
    const Result<std::vector<NetName>> reds = own.netsOf(check.red);
    if (!reds) {
        return reds.error();
    }
    if (check.kind == CheckKind::volts) {
        const Result<SolvedCircuit>& rest = own.powered(stop);
        if (!rest) {
            return rest.error();
        }
        if (reds->front() != groundNet && rest->equations->indexOfNet(reds->front()) < 0) {
            return Error{ErrorCode::invalidInput, said("There is no net at %1.", check.red.words), reds->front()};
        }
        return CheckReading(rest->biasVolts(reds->front()));
    }
    const Result<std::vector<NetName>> blacks = own.netsOf(check.black);
    if (!blacks) {
        return blacks.error();
    }
    if (isBeeper(check.kind)) {
        const Result<bool> beeps = own.anyBeeps(*reds, *blacks, stop);
        return beeps ? Result<CheckReading>(CheckReading(*beeps ? 1.0 : 0.0)) : beeps.error();
    }
    const Result<MeterReading> reading = check.kind == CheckKind::ohms
                                             ? own.board.ohms(reds->front(), blacks->front(), stop)
                                             : own.board.diodeVolts(reds->front(), blacks->front(), stop);
    return reading ? Result<CheckReading>(reading->value) : reading.error();
}

}  // namespace ohmwright

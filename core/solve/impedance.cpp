// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/impedance.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/solve/adjoint.h"

#include <algorithm>

namespace ohmwright {

namespace {

using Complex = std::complex<double>;

/// What a reading answers to a unit at the same place, at every frequency.
Result<std::vector<Complex>> readingsOf(Adjoint& adjoint, Control place, std::span<const double> hertz,
                                        const std::stop_token& stop) {
    std::vector<Complex> readings;
    readings.reserve(hertz.size());
    for (std::size_t at = 0; at < hertz.size(); at += Adjoint::lanes) {
        if (stop.stop_requested()) {
            return Error{ErrorCode::cancelled, said("The solve was overtaken by a newer one."), ""};
        }
        const auto batch = hertz.subspan(at, std::min(Adjoint::lanes, hertz.size() - at));
        if (auto solved = adjoint.solveAt(batch, false); !solved) {
            return solved.error();
        }
        for (std::size_t k = 0; k < batch.size(); ++k) {
            readings.push_back(adjoint.adjoint()[std::size_t(place.plus)].lane(k) -
                               adjoint.adjoint()[std::size_t(place.minus)].lane(k));
        }
    }
    return readings;
}

}  // namespace

Result<std::vector<Complex>> inputImpedance(const Equations& equations, const OperatingPoint& bias,
                                            std::span<const double> hertz, const std::stop_token& stop) {
    const Equations::DriveRows drive = equations.driveRows();
    if (drive.plus == equations.size() && drive.minus == equations.size()) {
        return Error{ErrorCode::unsolvable, said("The circuit has no input: name the source that drives it."), ""};
    }
    // A unit of the drive is 1 V in the branch of a voltage source, whose current flows into its plus, or 1 A out of
    // one node and into the other.
    const bool isVoltage = drive.minus < equations.size() && !equations.isNode(drive.minus);
    const Control place{drive.minus, drive.plus};
    Adjoint adjoint(equations, bias, place);
    auto readings = readingsOf(adjoint, place, hertz, stop);
    if (!readings || !isVoltage) {
        return readings;
    }
    for (std::size_t k = 0; k < readings->size(); ++k) {
        Complex& reading = (*readings)[k];
        if (reading == 0.0) {
            return Error{
                ErrorCode::unsolvable,
                said("The input drives no current at %1: its impedance has no end.", formatFrequency(hertz[k])), ""};
        }
        reading = -1.0 / reading;
    }
    return readings;
}

Result<std::vector<Complex>> nodeImpedance(const Equations& equations, const OperatingPoint& bias, int node,
                                           std::span<const double> hertz, const std::stop_token& stop) {
    return impedanceBetween(equations, bias, {node, equations.size()}, hertz, stop);
}

Result<std::vector<Complex>> impedanceBetween(const Equations& equations, const OperatingPoint& bias, Control nodes,
                                              std::span<const double> hertz, const std::stop_token& stop) {
    Adjoint adjoint(equations, bias, nodes);
    return readingsOf(adjoint, nodes, hertz, stop);
}

}  // namespace ohmwright

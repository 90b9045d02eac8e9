// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/influence.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/solve/adjoint.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

namespace ohmwright {

namespace {

constexpr std::size_t lanes = Adjoint::lanes;
using Lanes = RealLanes;

/// Step of a control for the curvature of the device laws [V]: far below kT/q, far above rounding.
constexpr double curvatureStep = 10e-6;
/// dB for +10 %: 0.1 * 20 / ln 10.
constexpr double tenPercentDb = 2.0 / std::numbers::ln10;

/// A part's share of the equations: coefficient * (x[controlPlus] - x[controlMinus]) leaves row `plus` and enters row
/// `minus`.
struct Link {
    int plus, minus, controlPlus, controlMinus;
    double coefficient;  ///< By the logarithm of the part's value [S or F, or V/V in a branch's row].
};

struct SourceRow {
    int row;
    double value;
};

/// Everything that follows one part's value.
struct PartLinks {
    std::vector<Link> conductances, charges;
    std::vector<SourceRow> sources;
    std::vector<double> amperesAtRest;  ///< Of each conductance, at the bias.
};

/// How a device's slope bends when the bias moves.
struct Curvature {
    struct ByControl {
        Control control;
        double derivative;
    };
    bool isCharge;
    Link slope;  ///< Its place in the equations, with a coefficient of 1.
    std::vector<ByControl> byControl;
};

/// The four entries of a branch between two nodes as one; what is left over stands alone.
std::vector<Link> joinEntries(const SparsePattern& pattern, const std::vector<ValueStamp>& stamps) {
    const int ground = pattern.size();
    std::vector<ValueStamp> entries;
    for (const ValueStamp& stamp : stamps) {
        if (stamp.where == ValueStamp::Where::conductance) {
            entries.push_back(stamp);
        }
    }
    const auto row = [&](std::size_t k) { return pattern.rowOf(std::size_t(entries[k].place)); };
    const auto column = [&](std::size_t k) { return pattern.columnOf(std::size_t(entries[k].place)); };
    std::vector<Link> links;
    for (std::size_t k = 0; k < entries.size();) {
        const double value = entries[k].value;
        if (k + 3 < entries.size() && row(k + 1) == row(k) && row(k + 3) == row(k + 2) && column(k + 2) == column(k) &&
            column(k + 3) == column(k + 1) && entries[k + 1].value == -value && entries[k + 2].value == -value &&
            entries[k + 3].value == value) {
            links.push_back({row(k), row(k + 2), column(k), column(k + 1), value});
            k += 4;
        } else if (k + 1 < entries.size() && row(k + 1) == row(k) && entries[k + 1].value == -value) {
            links.push_back({row(k), ground, column(k), column(k + 1), value});
            k += 2;
        } else {
            links.push_back({row(k), ground, column(k), ground, value});
            ++k;
        }
    }
    return links;
}

Link chargeLink(const Equations& equations, std::size_t slope, double coefficient) {
    const ChargeSlope& of = equations.chargeSlopes()[slope];
    const ChargeBranch& branch = equations.chargeBranches()[std::size_t(of.charge)];
    return {branch.plus, branch.minus, of.controlPlus, of.controlMinus, coefficient};
}

Link currentLink(const Equations& equations, std::size_t slope, double coefficient) {
    const CurrentSlope& of = equations.currentSlopes()[slope];
    const CurrentBranch& branch = equations.currentBranches()[std::size_t(of.current)];
    const Control& control = equations.controls()[std::size_t(of.control)];
    return {branch.plus, branch.minus, control.plus, control.minus, coefficient};
}

std::vector<PartLinks> linksOfParts(const Equations& equations, const std::vector<double>& x) {
    const auto stamps = equations.valueStamps();
    std::vector<PartLinks> parts(stamps.size());
    for (std::size_t part = 0; part < stamps.size(); ++part) {
        parts[part].conductances = joinEntries(equations.pattern(), stamps[part]);
        for (const Link& link : parts[part].conductances) {
            parts[part].amperesAtRest.push_back(link.coefficient *
                                                (x[std::size_t(link.controlPlus)] - x[std::size_t(link.controlMinus)]));
        }
        for (const ValueStamp& stamp : stamps[part]) {
            if (stamp.where == ValueStamp::Where::chargeSlope) {
                parts[part].charges.push_back(chargeLink(equations, std::size_t(stamp.place), stamp.value));
            } else if (stamp.where == ValueStamp::Where::source && stamp.place < equations.size()) {
                parts[part].sources.push_back({stamp.place, stamp.value});
            }
        }
    }
    return parts;
}

/// Central differences of all devices' slopes, one control of every device at a time, at two step sizes; Richardson's
/// combination leaves the fourth order of the step.
class CurvatureSearch {
public:
    CurvatureSearch(const Equations& equations, const OperatingPoint& bias)
        : m_equations(equations), m_places(equations.devicePlaces()) {
        const auto& controls = equations.controls();
        const int rest = int(controls.size());
        for (int k = 0; k < rest; ++k) {
            const Control& control = controls[std::size_t(k)];
            m_volts.push_back(bias.x[std::size_t(control.plus)] - bias.x[std::size_t(control.minus)]);
            m_own.push_back({k, rest});
        }
        m_volts.push_back(0.0);
        // Past the last device the lists end, or linear charges follow, whose slopes do not move.
        m_end.control = rest;
        m_end.slope = int(equations.currentSlopes().size());
        m_end.chargeSlope = int(equations.chargeSlopes().size());
        for (Evaluation& state : m_states) {
            equations.prepare(state);
        }
    }

    std::vector<Curvature> find() {
        int most = 0;
        for (std::size_t device = 0; device < m_places.size(); ++device) {
            most = std::max(most, next(device).control - m_places[device].control);
        }
        m_ofCurrents.resize(std::size_t(m_end.slope));
        m_ofCharges.resize(std::size_t(m_end.chargeSlope));
        for (int nth = 0; nth < most; ++nth) {
            static constexpr std::array<double, 4> steps{-2.0, -1.0, 1.0, 2.0};
            for (std::size_t k = 0; k < steps.size(); ++k) {
                evaluateMoved(nth, steps[k] * curvatureStep, m_states[k]);
            }
            for (std::size_t device = 0; device < m_places.size(); ++device) {
                const int control = m_places[device].control + nth;
                if (control < next(device).control) {
                    collect(device, control);
                }
            }
        }
        std::vector<Curvature> curvatures;
        for (std::size_t k = 0; k < m_ofCurrents.size(); ++k) {
            if (!m_ofCurrents[k].empty()) {
                curvatures.push_back({false, currentLink(m_equations, k, 1.0), std::move(m_ofCurrents[k])});
            }
        }
        for (std::size_t k = 0; k < m_ofCharges.size(); ++k) {
            if (!m_ofCharges[k].empty()) {
                curvatures.push_back({true, chargeLink(m_equations, k, 1.0), std::move(m_ofCharges[k])});
            }
        }
        return curvatures;
    }

private:
    [[nodiscard]] const DevicePlaces& next(std::size_t device) const {
        return device + 1 < m_places.size() ? m_places[device + 1] : m_end;
    }

    void evaluateMoved(int nth, double step, Evaluation& state) {
        std::vector<double> volts = m_volts;
        for (std::size_t device = 0; device < m_places.size(); ++device) {
            const int control = m_places[device].control + nth;
            if (control < next(device).control) {
                volts[std::size_t(control)] += step;
            }
        }
        m_equations.evaluateDevices(volts.data(), m_own, Junctions::smallSignal, state);
    }

    void collect(std::size_t device, int control) {
        const Control& by = m_equations.controls()[std::size_t(control)];
        for (int k = m_places[device].slope; k < next(device).slope; ++k) {
            add(&Evaluation::currentSlopes, std::size_t(k), by, m_ofCurrents[std::size_t(k)]);
        }
        const auto& linear = m_equations.linearSlopes();
        for (int k = m_places[device].chargeSlope; k < next(device).chargeSlope; ++k) {
            if (std::isnan(linear[std::size_t(k)])) {
                add(&Evaluation::slopes, std::size_t(k), by, m_ofCharges[std::size_t(k)]);
            }
        }
    }

    void add(const std::vector<double> Evaluation::*slopes, std::size_t k, const Control& control,
             std::vector<Curvature::ByControl>& curvature) const {
        const auto at = [&](std::size_t state) { return (m_states[state].*slopes)[k]; };
        const double fine = (at(2) - at(1)) / (2.0 * curvatureStep);
        const double coarse = (at(3) - at(0)) / (4.0 * curvatureStep);
        const double derivative = (4.0 * fine - coarse) / 3.0;
        if (derivative != 0.0) {
            curvature.push_back({control, derivative});
        }
    }

    const Equations& m_equations;
    const std::vector<DevicePlaces>& m_places;
    DevicePlaces m_end;
    std::vector<double> m_volts;
    std::vector<Control> m_own;
    std::array<Evaluation, 4> m_states;
    std::vector<std::vector<Curvature::ByControl>> m_ofCurrents, m_ofCharges;  ///< By slope.
};

/// Transposed solves at the bias, eight right-hand sides at a time.
class AtRest {
public:
    AtRest(const Equations& equations, const OperatingPoint& bias, SparseLu<double> lu)
        : m_equations(equations),
          m_values(exactConductances(equations, bias)),
          m_lu(std::move(lu)),
          m_check(equations.pattern(), m_values, {}, Sense::transposed) {}

    Result<void> factor() {
        if (m_lu.factor(m_values)) {
            return {};
        }
        if (const int unknown = m_lu.analyse(m_equations.pattern(), m_values); unknown >= 0) {
            return singularAt(m_equations, unknown);
        }
        if (!m_lu.factor(m_values)) {
            return imbalance();
        }
        return {};
    }

    /// Replaces h (row by row, eight a row) by m of J^T m = h.
    Result<void> solve(std::vector<double>& sides) {
        m_right = sides;
        m_lu.solveTransposedMany(sides, lanes);
        m_missing = m_right;
        if (m_check.holdsAtRest(sides, m_missing)) {
            return {};
        }
        m_lu.solveTransposedMany(m_missing, lanes);
        for (std::size_t k = 0; k < sides.size(); ++k) {
            sides[k] += m_missing[k];
        }
        m_missing = m_right;
        if (m_check.holdsAtRest(sides, m_missing)) {
            return {};
        }
        return imbalance();
    }

private:
    /// The bias moves by the slopes of the laws themselves, also where small signals see others.
    static std::vector<double> exactConductances(const Equations& equations, const OperatingPoint& bias) {
        Evaluation state;
        equations.evaluate(bias.x, {.junctions = Junctions::exact}, state);
        return std::move(state.conductances);
    }

    static Error imbalance() {
        return {ErrorCode::noConvergence,
                said("How the bias moves could not be solved: look for parts whose values lie many decades apart."),
                ""};
    }

    const Equations& m_equations;
    std::vector<double> m_values;
    SparseLu<double> m_lu;
    BalanceCheck m_check;
    std::vector<double> m_right, m_missing;
};

/// What a unit of a link's coefficient adds to ln |T|: -Re((a[plus] - a[minus]) (x[controlPlus] - x[controlMinus]) /
/// T); of a charge, times j w.
class Pull {
public:
    /// @param shares  x / T
    Pull(const std::vector<ComplexLanes>& adjoint, const std::vector<ComplexLanes>& shares, const Lanes& omegas)
        : m_adjoint(adjoint.data()), m_shares(shares.data()), m_omegas(omegas) {}

    void addConductance(const Link& link, Lanes& sum) const {
        const ComplexLanes& p = m_adjoint[link.plus];
        const ComplexLanes& m = m_adjoint[link.minus];
        const ComplexLanes& cp = m_shares[link.controlPlus];
        const ComplexLanes& cm = m_shares[link.controlMinus];
        for (std::size_t k = 0; k < lanes; ++k) {
            const double real =
                (p.re[k] - m.re[k]) * (cp.re[k] - cm.re[k]) - (p.im[k] - m.im[k]) * (cp.im[k] - cm.im[k]);
            sum[k] -= link.coefficient * real;
        }
    }
    void addCharge(const Link& link, Lanes& sum) const {
        const ComplexLanes& p = m_adjoint[link.plus];
        const ComplexLanes& m = m_adjoint[link.minus];
        const ComplexLanes& cp = m_shares[link.controlPlus];
        const ComplexLanes& cm = m_shares[link.controlMinus];
        for (std::size_t k = 0; k < lanes; ++k) {
            const double imag =
                (p.re[k] - m.re[k]) * (cp.im[k] - cm.im[k]) + (p.im[k] - m.im[k]) * (cp.re[k] - cm.re[k]);
            sum[k] += link.coefficient * m_omegas[k] * imag;
        }
    }

private:
    const ComplexLanes* m_adjoint;
    const ComplexLanes* m_shares;
    const Lanes& m_omegas;
};

/// x / T.
OHMWRIGHT_FOR_WIDE_VECTORS
void divideAll(const std::vector<ComplexLanes>& unknowns, const ComplexLanes& inverse,
               std::vector<ComplexLanes>& shares) {
    for (std::size_t k = 0; k < unknowns.size(); ++k) {
        shares[k] = unknowns[k];
        shares[k] *= inverse;
    }
}

/// How much ln |T| answers to each control's voltage, unknown by unknown.
OHMWRIGHT_FOR_WIDE_VECTORS
void collectBends(const std::vector<Curvature>& curvatures, const Pull& pull, std::vector<double>& byUnknown) {
    std::fill(byUnknown.begin(), byUnknown.end(), 0.0);
    for (const Curvature& curvature : curvatures) {
        Lanes bySlope{};
        if (curvature.isCharge) {
            pull.addCharge(curvature.slope, bySlope);
        } else {
            pull.addConductance(curvature.slope, bySlope);
        }
        for (const Curvature::ByControl by : curvature.byControl) {  // by value: rows could hold it, for the compiler
            double* plus = byUnknown.data() + std::size_t(by.control.plus) * lanes;
            double* minus = byUnknown.data() + std::size_t(by.control.minus) * lanes;
            for (std::size_t k = 0; k < lanes; ++k) {
                plus[k] += by.derivative * bySlope[k];
            }
            for (std::size_t k = 0; k < lanes; ++k) {
                minus[k] -= by.derivative * bySlope[k];
            }
        }
    }
    std::fill(byUnknown.end() - std::ptrdiff_t(lanes), byUnknown.end(), 0.0);
}

/// dB for +10 % of each part at one batch of frequencies, which begins at `at`: by its place in the small-signal
/// equations, and by moving the bias, -m^T dF/d(ln p).
OHMWRIGHT_FOR_WIDE_VECTORS
void writeParts(const std::vector<PartLinks>& parts, const Pull& pull, const std::vector<double>& moved, std::size_t at,
                std::vector<std::vector<double>>& dbPerTenPercent) {
    for (std::size_t n = 0; n < parts.size(); ++n) {
        const PartLinks& part = parts[n];
        if (dbPerTenPercent[n].empty()) {
            continue;
        }
        Lanes sum{};
        for (std::size_t link = 0; link < part.conductances.size(); ++link) {
            pull.addConductance(part.conductances[link], sum);
            const double* plus = moved.data() + std::size_t(part.conductances[link].plus) * lanes;
            const double* minus = moved.data() + std::size_t(part.conductances[link].minus) * lanes;
            for (std::size_t k = 0; k < lanes; ++k) {
                sum[k] -= part.amperesAtRest[link] * (plus[k] - minus[k]);
            }
        }
        for (const Link& link : part.charges) {
            pull.addCharge(link, sum);
        }
        for (const SourceRow& source : part.sources) {
            const double* row = moved.data() + std::size_t(source.row) * lanes;
            for (std::size_t k = 0; k < lanes; ++k) {
                sum[k] += source.value * row[k];
            }
        }
        double* result = dbPerTenPercent[n].data() + at;
        for (std::size_t k = 0; k < lanes; ++k) {
            result[k] = tenPercentDb * sum[k];
        }
    }
}

}  // namespace

Result<InfluenceCurves> solveInfluence(const Equations& equations, const OperatingPoint& bias, int output,
                                       std::span<const double> hertz, const std::stop_token& stop) {
    const std::size_t length = std::size_t(equations.size()) + 1;
    const std::vector<PartLinks> parts = linksOfParts(equations, bias.x);
    InfluenceCurves curves;
    curves.hertz.assign(hertz.begin(), hertz.end());
    curves.gainDb.resize(hertz.size());
    curves.dbPerTenPercent.resize(parts.size());
    const std::size_t batches = (hertz.size() + lanes - 1) / lanes;
    for (std::size_t part = 0; part < parts.size(); ++part) {
        const PartLinks& links = parts[part];
        if (!links.conductances.empty() || !links.charges.empty() || !links.sources.empty()) {
            curves.dbPerTenPercent[part].resize(batches * lanes);  // whole ones until the end
        }
    }

    const std::vector<Curvature> curvatures = CurvatureSearch(equations, bias).find();
    auto kernel = kernelAtRest(equations);
    if (!kernel) {
        return kernel.error();
    }
    AtRest atRestSolver(equations, bias, std::move(*kernel));
    if (!curvatures.empty()) {
        if (auto factored = atRestSolver.factor(); !factored) {
            return factored.error();
        }
    }

    Adjoint adjoint(equations, bias, {output, equations.size()});
    std::vector<ComplexLanes> shares(length);
    std::vector<double> moved(length * lanes, 0.0);
    for (std::size_t at = 0; at < hertz.size(); at += lanes) {
        if (stop.stop_requested()) {
            return Error{ErrorCode::cancelled, said("The solve was overtaken by a newer one."), ""};
        }
        const auto batch = hertz.subspan(at, std::min(lanes, hertz.size() - at));
        if (auto solved = adjoint.solveAt(batch, true); !solved) {
            return solved.error();
        }
        ComplexLanes share(1.0);
        for (std::size_t k = 0; k < batch.size(); ++k) {
            const auto gain = adjoint.forward()[std::size_t(output)].lane(k);
            const double square = std::norm(gain);
            if (!(square > 0.0)) {
                return Error{ErrorCode::unsolvable,
                             said("Nothing of the input reaches the output at %1: no part has a share of it.",
                                  formatFrequency(batch[k])),
                             ""};
            }
            share.set(k, 1.0 / gain);
            curves.gainDb[at + k] = 10.0 * std::log10(square);
        }
        divideAll(adjoint.forward(), share, shares);
        const Pull pull(adjoint.adjoint(), shares, adjoint.omegas());
        if (!curvatures.empty()) {
            collectBends(curvatures, pull, moved);
            if (auto solved = atRestSolver.solve(moved); !solved) {
                return solved.error();
            }
        }
        writeParts(parts, pull, moved, at, curves.dbPerTenPercent);
    }
    for (std::vector<double>& row : curves.dbPerTenPercent) {
        row.resize(std::min(row.size(), hertz.size()));
    }
    return curves;
}

}  // namespace ohmwright

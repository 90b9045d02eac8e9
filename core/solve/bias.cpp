// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/bias.h"

#include "core/base/said.h"
#include "core/solve/pivot_orders.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

constexpr int mostIterations = 150;
/// A step this small in every unknown ends the iteration; Newton's last step squares the error once more.
constexpr double absoluteStep = 1e-10;
constexpr double relativeStep = 1e-9;
/// A net held by picoamperes behind an ohm trembles: the rounding of its voltage times the ratio of the conductances,
/// microvolts. Where every step has stayed this small so often, it is rounding and no iteration ends it.
constexpr double roundingStep = 2e-5;
constexpr double relativeRoundingStep = 1e-6;
constexpr int roundingIterations = 8;
/// What is accepted as Kirchhoff's law: amperes, or this share of the currents that meet at the node.
constexpr double residualAmperes = 1e-9;
constexpr double residualShare = 1e-6;
/// Beyond this no share excuses it: clamps driven against each other carry any current on paper.
constexpr double largestResidualAmperes = 1e-3;
/// No part on a bench carries this: op-amp clamps driven against each other by a missing supply balance beyond it.
constexpr double largestDeviceAmperes = 1e6;

Error cancelledError() {
    return {ErrorCode::cancelled, said("The solve was overtaken by a newer one."), ""};
}

/// Newton's iteration at fixed options. Leaves the best x in place even when it fails.
class NewtonIteration {
public:
    NewtonIteration(const Equations& equations, SparseLu<double>& lu, const std::stop_token& stop)
        : m_equations(equations), m_lu(lu), m_stop(stop) {}

    enum class End { converged, stalled, cancelled };

    End run(std::vector<double>& x, EvaluationOptions options, Evaluation& state) {
        const auto size = std::size_t(m_equations.size());
        options.junctions = state.controls.empty() ? Junctions::start : Junctions::limitedAtRest;
        int trembling = 0;
        for (int iteration = 0; iteration < mostIterations; ++iteration) {
            if (m_stop.stop_requested()) {
                return End::cancelled;
            }
            ++iterations;
            m_equations.evaluate(x, options, state);
            options.junctions = Junctions::limitedAtRest;
            if (!m_lu.factor(state.conductances)) {
                if (m_lu.analyse(m_equations.pattern(), state.conductances) >= 0 || !m_lu.factor(state.conductances)) {
                    return End::stalled;
                }
            }
            m_step = state.residual;
            m_lu.solve(m_step);
            bool small = !state.limited;
            bool trembles = small;
            for (std::size_t k = 0; k < size; ++k) {
                if (!std::isfinite(m_step[k])) {
                    return End::stalled;
                }
                x[k] -= m_step[k];
                const double moved = std::abs(m_step[k]);
                const double volts = std::abs(x[k]);
                small = small && moved <= absoluteStep + relativeStep * volts;
                trembles = trembles && moved <= roundingStep + relativeRoundingStep * volts;
            }
            trembling = trembles ? trembling + 1 : 0;
            if (small || trembling >= roundingIterations) {
                return End::converged;
            }
        }
        return End::stalled;
    }

    int iterations = 0;

private:
    const Equations& m_equations;
    SparseLu<double>& m_lu;
    const std::stop_token& m_stop;
    std::vector<double> m_step;
};

/// Largest Kirchhoff sum, unlimited, and whether it may pass.
bool kirchhoffHolds(const Equations& equations, double drive, const std::vector<double>& x, Evaluation& state,
                    SolveReport& report) {
    equations.evaluate(x, {.drive = drive, .junctions = Junctions::smallSignal}, state);
    report.stopped.clear();
    if (const PartId* part = equations.partWithoutValue(x)) {
        report.worstNode = *part;
        report.stopped =
            said("the law of %1 has no value there, as the logarithm or root of a negative or a division by 0", *part);
        return false;
    }
    if (const auto largest = equations.largestDeviceCurrent(state); !(largest.amperes <= largestDeviceAmperes)) {
        report.stopped = said("the current of %1 is beyond any part", equations.partIds()[std::size_t(largest.part)]);
        report.worstResidualAmperes = largest.amperes;
        report.worstNode = equations.partIds()[std::size_t(largest.part)];
        return false;
    }
    const SparsePattern& pattern = equations.pattern();
    bool holds = true;
    int worst = -1;
    report.worstResidualAmperes = 0.0;
    for (int row = 0; row < equations.size(); ++row) {
        const double sum = std::abs(state.residual[std::size_t(row)]);
        if (equations.isNode(row) && !(sum <= report.worstResidualAmperes)) {  // a sum that is no number is the worst
            report.worstResidualAmperes = sum;
            worst = row;
        }
        double scale = 0.0;
        for (const int slot : pattern.slotsOfRow(row)) {
            const auto column = std::size_t(pattern.columnOf(std::size_t(slot)));
            scale = std::max(scale, std::abs(state.conductances[std::size_t(slot)] * x[column]));
        }
        holds = holds && sum <= std::clamp(residualShare * scale, residualAmperes, largestResidualAmperes);
    }
    if (worst >= 0) {
        report.worstNode = equations.unknownName(worst);
    }
    return holds;
}

}  // namespace

Error singularAt(const Equations& equations, int unknown) {
    const std::string name = equations.unknownName(unknown);
    return {
        ErrorCode::unsolvable,
        said("No definite value exists for %1: look for a net without a DC path to ground or a loop of sources there.",
             name),
        name};
}

Result<SparseLu<double>> kernelAtRest(const Equations& equations) {
    Equations::Orders& orders = equations.orders();
    const std::scoped_lock lock(orders.mutex);
    SparseLu<double> lu;
    if (orders.rest == nullptr) {
        Evaluation state;
        const std::vector<double> zero(std::size_t(equations.size()) + 1, 0.0);
        equations.evaluate(zero, {.junctions = Junctions::off}, state);
        if (lu.analyse(equations.pattern(), state.conductances) >= 0) {
            // A formula may be all that ties a net down.
            equations.evaluate(zero, {.junctions = Junctions::exact}, state);
            if (const int unknown = lu.analyse(equations.pattern(), state.conductances); unknown >= 0) {
                return singularAt(equations, unknown);
            }
        }
        orders.rest = lu.order();
    }
    lu.adopt(orders.rest);
    return lu;
}

Result<OperatingPoint> solveBias(const Equations& equations, const OperatingPoint* seed, const std::stop_token& stop,
                                 double drive) {
    auto kernel = kernelAtRest(equations);
    if (!kernel) {
        return kernel.error();
    }
    SparseLu<double> lu = std::move(*kernel);
    NewtonIteration newton(equations, lu, stop);
    using End = NewtonIteration::End;

    OperatingPoint point;
    const std::vector<double> zero(std::size_t(equations.size()) + 1, 0.0);
    point.x = zero;
    if (seed != nullptr && seed->x.size() == zero.size()) {
        point.x = seed->x;
        point.state = seed->state;
    }
    const auto finish = [&](const char* method) -> bool {
        point.report.method = method;
        point.report.iterations = newton.iterations;
        return kirchhoffHolds(equations, drive, point.x, point.state, point.report);
    };

    // 1. Plain Newton.
    End end = newton.run(point.x, {.drive = drive}, point.state);
    if (end == End::cancelled) {
        return cancelledError();
    }
    if (end == End::converged && finish("Newton")) {
        return point;
    }

    // 2. A conductance from every node to ground, stepped down to nothing.
    point.x = zero;
    point.state = {};
    end = End::converged;
    for (double nodeGmin = 1e-2; end == End::converged && nodeGmin > 1e-14; nodeGmin /= 10.0) {
        end = newton.run(point.x, {.drive = drive, .nodeGmin = nodeGmin}, point.state);
    }
    if (end == End::converged) {
        end = newton.run(point.x, {.drive = drive}, point.state);
    }
    if (end == End::cancelled) {
        return cancelledError();
    }
    if (end == End::converged && finish("gmin stepping")) {
        return point;
    }

    // 3. All sources together from nothing; a step that fails is halved.
    std::vector<double> good = zero;
    Evaluation goodState;
    double scale = 0.0;
    double stepSize = 0.1;
    while (scale < 1.0 && stepSize > 1e-4) {
        point.x = good;
        point.state = goodState;
        const double next = std::min(1.0, scale + stepSize);
        end = newton.run(point.x, {.drive = drive * next, .sourceScale = next}, point.state);
        if (end == End::cancelled) {
            return cancelledError();
        }
        if (end == End::converged) {
            scale = next;
            good = point.x;
            goodState = point.state;
            stepSize *= 1.5;
        } else {
            stepSize /= 2.0;
        }
    }
    if (scale >= 1.0 && finish("source stepping")) {
        return point;
    }

    // The matrix had its pivots with every junction off, so what stalled is the iteration, at the worst node.
    kirchhoffHolds(equations, drive, point.x, point.state, point.report);
    const std::string where = point.report.worstNode.empty() ? said("the sources") : point.report.worstNode;
    const std::string why =
        point.report.stopped.empty() ? said("the currents do not balance at %1", where) : point.report.stopped;
    return Error{
        ErrorCode::noConvergence,
        said("No bias was found; %1. Tried Newton, gmin stepping and source stepping: check the parts there.", why),
        point.report.worstNode};
}

}  // namespace ohmwright

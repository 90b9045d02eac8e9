// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/charge_pencil.h"

#include "core/base/said.h"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace ohmwright {

namespace {

using Complex = std::complex<double>;

/// Real shifts [Hz]; each finds what lies within two decades of it to twelve digits. No round numbers, so that none
/// falls on a root.
constexpr std::array<double, 4> shiftHertz{0.1173, 1.0931e3, 1.1417e7, 1.0377e11};
/// How far a border between two shifts may move to where no roots are.
constexpr double borderReach = 30.0;
constexpr int mostShiftTrials = 4;
constexpr double shiftTrial = 1.37;

double rateOf(const NaturalRoot& root) {
    return std::abs(root.value);
}

bool isSlower(const NaturalRoot& a, const NaturalRoot& b) {
    return rateOf(a) < rateOf(b);
}

/// Powers of two that make rows and columns of like size.
/// Source: B. N. Parlett, C. Reinsch, Numer. Math. 13 (1969) 293.
void balance(Eigen::MatrixXd& matrix) {
    const Eigen::Index size = matrix.rows();
    for (bool changed = true; changed;) {
        changed = false;
        for (Eigen::Index k = 0; k < size; ++k) {
            const double diagonal = std::abs(matrix(k, k));
            double column = matrix.col(k).lpNorm<1>() - diagonal;
            const double row = matrix.row(k).lpNorm<1>() - diagonal;
            if (!(column > 0.0) || !(row > 0.0)) {
                continue;
            }
            const double before = column + row;
            double factor = 1.0;
            while (column < row / 2.0) {
                column *= 4.0;
                factor *= 2.0;
            }
            while (column > row * 2.0) {
                column /= 4.0;
                factor /= 2.0;
            }
            if ((column + row) / factor < 0.95 * before) {
                matrix.row(k) /= factor;
                matrix.col(k) *= factor;
                changed = true;
            }
        }
    }
}

/// Unknowns whose row or column is empty beside the diagonal have it as their eigenvalue; the others are left in
/// `rest`.
std::vector<double> splitOff(const Eigen::MatrixXd& matrix, std::vector<Eigen::Index>& rest) {
    std::vector<double> eigenvalues;
    for (Eigen::Index k = 0; k < matrix.rows(); ++k) {
        rest.push_back(k);
    }
    for (bool found = true; found;) {
        found = false;
        for (auto at = rest.begin(); at != rest.end(); ++at) {
            const auto isEmpty = [&](auto entry) {
                return std::all_of(rest.begin(), rest.end(),
                                   [&](Eigen::Index k) { return k == *at || entry(k) == 0.0; });
            };
            if (isEmpty([&](Eigen::Index k) { return matrix(*at, k); }) ||
                isEmpty([&](Eigen::Index k) { return matrix(k, *at); })) {
                eigenvalues.push_back(matrix(*at, *at));
                rest.erase(at);
                found = true;
                break;
            }
        }
    }
    return eigenvalues;
}

/// s = shift - 1 / mu, for those that are not beyond every rate.
void addRoot(Complex mu, double shift, std::vector<NaturalRoot>& roots) {
    if (mu == 0.0 || mu.imag() < 0.0) {
        return;
    }
    const Complex root = shift - 1.0 / mu;
    if (std::abs(root) < ChargePencil::largestRate) {
        roots.push_back({root});
    }
}

/// Where the list of the slower shift ends and that of the faster begins: in the widest gap about the middle.
double borderBetween(const std::vector<NaturalRoot>& slow, double slowShift, double fastShift) {
    const double middle = std::sqrt(slowShift * fastShift);
    std::vector<double> rates{middle / borderReach, middle * borderReach};
    for (const NaturalRoot& root : slow) {
        if (rateOf(root) > rates[0] && rateOf(root) < rates[1]) {
            rates.push_back(rateOf(root));
        }
    }
    std::sort(rates.begin(), rates.end());
    double border = middle;
    double widest = 0.0;
    for (std::size_t k = 0; k + 1 < rates.size(); ++k) {
        if (rates[k + 1] / rates[k] > widest) {
            widest = rates[k + 1] / rates[k];
            border = std::sqrt(rates[k] * rates[k + 1]);
        }
    }
    return border;
}

/// A forest over the rows: which injections are sums of others.
class InjectionForest {
public:
    explicit InjectionForest(std::size_t nodes) : m_edges(nodes) {}

    /// @return false when the two are joined already.
    bool join(int a, int b, int direction) {
        if (reaches(a, b)) {
            return false;
        }
        m_edges[std::size_t(a)].push_back({b, direction, 1.0});
        m_edges[std::size_t(b)].push_back({a, direction, -1.0});
        return true;
    }

    struct Step {
        int direction;  ///< -1 where a source of voltage absorbs the current.
        double sign;
    };
    /// The injections that make one from a to b.
    [[nodiscard]] std::vector<Step> path(int a, int b) const {
        std::vector<Step> steps;
        walk(a, b, -1, steps);
        return steps;
    }

private:
    struct Edge {
        int to;
        int direction;
        double sign;
    };

    [[nodiscard]] bool reaches(int a, int b) const {
        std::vector<Step> steps;
        return a == b || walk(a, b, -1, steps);
    }
    bool walk(int at, int to, int from, std::vector<Step>& steps) const {
        if (at == to) {
            return true;
        }
        for (const Edge& edge : m_edges[std::size_t(at)]) {
            if (edge.to == from) {
                continue;
            }
            steps.push_back({edge.direction, edge.sign});
            if (walk(edge.to, to, at, steps)) {
                return true;
            }
            steps.pop_back();
        }
        return false;
    }

    std::vector<std::vector<Edge>> m_edges;
};

}  // namespace

ChargePencil::ChargePencil(const Equations& equations, const OperatingPoint& bias) {
    read(equations, bias, equations.size());
    reduce();
}

ChargePencil ChargePencil::bordered(const Equations& equations, const OperatingPoint& bias, int output) {
    ChargePencil pencil;
    const int input = equations.size();
    pencil.read(equations, bias, input + 1);
    const Equations::DriveRows drive = equations.driveRows();
    const auto row = [&](int index) { return index == input ? input + 1 : index; };
    pencil.addEntry(row(drive.plus), input, 1.0);
    pencil.addEntry(row(drive.minus), input, -1.0);
    pencil.addEntry(input, output, 1.0);
    pencil.reduce();
    return pencil;
}

void ChargePencil::read(const Equations& equations, const OperatingPoint& bias, int size) {
    const int ground = equations.size();
    const auto moved = [&](int index) { return index == ground ? size : index; };
    m_pattern = SparsePattern(size);
    const SparsePattern& pattern = equations.pattern();
    m_conductances.assign(1, 0.0);
    for (std::size_t slot = 1; slot < pattern.valueCount(); ++slot) {
        m_pattern.slot(pattern.rowOf(slot), pattern.columnOf(slot));
        m_conductances.push_back(bias.state.conductances[slot]);
    }
    m_capacitances.assign(m_conductances.size(), 0.0);
    equations.addCharges(bias.state, 1.0, m_capacitances);

    for (const ChargeBranch& branch : equations.chargeBranches()) {
        m_charges.push_back({moved(branch.plus), moved(branch.minus), {}});
    }
    for (std::size_t k = 0; k < equations.chargeSlopes().size(); ++k) {
        const ChargeSlope& slope = equations.chargeSlopes()[k];
        if (bias.state.slopes[k] != 0.0 && slope.controlPlus != slope.controlMinus) {
            m_charges[std::size_t(slope.charge)].slopes.push_back(
                {moved(slope.controlPlus), moved(slope.controlMinus), bias.state.slopes[k]});
        }
    }
    std::erase_if(m_charges,
                  [](const PencilCharge& charge) { return charge.slopes.empty() || charge.plus == charge.minus; });
}

void ChargePencil::addEntry(int row, int column, double siemens) {
    const auto slot = std::size_t(m_pattern.slot(row, column));
    m_conductances.resize(m_pattern.valueCount(), 0.0);
    m_capacitances.resize(m_pattern.valueCount(), 0.0);
    if (slot > 0) {
        m_conductances[slot] += siemens;
    }
}

/// Whether an unknown takes up any current between two rows alone: its column is +1 and -1 there and no charge follows
/// it. What is injected there moves no charge.
bool ChargePencil::absorbs(int column) const {
    return std::none_of(m_charges.begin(), m_charges.end(), [&](const PencilCharge& charge) {
        return std::any_of(charge.slopes.begin(), charge.slopes.end(), [&](const PencilCharge::Slope& slope) {
            return slope.controlPlus == column || slope.controlMinus == column;
        });
    });
}

void ChargePencil::reduce() {
    const int ground = size();
    InjectionForest forest(std::size_t(ground) + 1);
    std::vector<std::vector<std::size_t>> slotsOfColumn(std::size_t(ground) + 1);
    for (std::size_t slot = 1; slot < m_pattern.valueCount(); ++slot) {
        if (m_conductances[slot] != 0.0) {
            slotsOfColumn[std::size_t(m_pattern.columnOf(slot))].push_back(slot);
        }
    }
    for (int column = 0; column < ground; ++column) {
        const auto& slots = slotsOfColumn[std::size_t(column)];
        const bool areUnits = std::all_of(slots.begin(), slots.end(),
                                          [&](std::size_t slot) { return std::abs(m_conductances[slot]) == 1.0; });
        if (!areUnits || slots.empty() || slots.size() > 2 || !absorbs(column)) {
            continue;
        }
        if (slots.size() == 2 && m_conductances[slots[0]] + m_conductances[slots[1]] != 0.0) {
            continue;
        }
        forest.join(m_pattern.rowOf(slots[0]), slots.size() == 2 ? m_pattern.rowOf(slots[1]) : ground, -1);
    }
    for (const PencilCharge& charge : m_charges) {
        if (forest.join(charge.plus, charge.minus, int(m_injections.size()))) {
            m_injections.push_back({charge.plus, charge.minus});
        }
    }
    for (const PencilCharge& charge : m_charges) {
        for (const auto& step : forest.path(charge.plus, charge.minus)) {
            if (step.direction >= 0) {
                for (const PencilCharge::Slope& slope : charge.slopes) {
                    m_shares.push_back(
                        {std::size_t(step.direction), slope.controlPlus, slope.controlMinus, step.sign * slope.farads});
                }
            }
        }
    }
}

Result<std::vector<NaturalRoot>> ChargePencil::approximateRoots(const std::stop_token& stop) {
    std::vector<NaturalRoot> all;
    if (m_injections.empty()) {
        return all;
    }
    std::vector<std::vector<NaturalRoot>> lists;
    std::vector<double> shifts;
    std::optional<Error> singular;
    for (const double hertz : shiftHertz) {
        if (stop.stop_requested()) {
            return Error{ErrorCode::cancelled, said("The solve was overtaken by a newer one."), ""};
        }
        auto roots = rootsAround(2.0 * std::numbers::pi * hertz);
        if (!roots && roots.error().code != ErrorCode::unsolvable) {
            return roots.error();
        }
        if (!roots) {
            singular = roots.error();  // next to a root of high order: the neighbours answer for it
            continue;
        }
        std::sort(roots->begin(), roots->end(), isSlower);
        lists.push_back(std::move(*roots));
        shifts.push_back(2.0 * std::numbers::pi * hertz);
    }
    if (lists.empty()) {
        return *singular;
    }
    double from = -1.0;
    for (std::size_t k = 0; k < lists.size(); ++k) {
        const double to = k + 1 < lists.size() ? borderBetween(lists[k], shifts[k], shifts[k + 1]) : largestRate;
        for (const NaturalRoot& root : lists[k]) {
            if (rateOf(root) > from && rateOf(root) <= to) {
                all.push_back(root);
            }
        }
        from = to;
    }
    return all;
}

Result<std::vector<NaturalRoot>> ChargePencil::rootsAround(double shift) {
    SparseLu<double> lu;
    std::vector<double> values(m_conductances.size());
    bool sound = false;
    for (int trial = 0; trial < mostShiftTrials && !sound; ++trial) {
        shift *= trial > 0 ? shiftTrial : 1.0;
        for (std::size_t slot = 0; slot < values.size(); ++slot) {
            values[slot] = m_conductances[slot] + shift * m_capacitances[slot];
        }
        sound = lu.analyse(m_pattern, values) < 0 && lu.factor(values);
    }
    if (!sound) {
        return Error{ErrorCode::unsolvable,
                     said("The natural frequencies have no definite values: look for a net that only capacitors hold."),
                     ""};
    }
    const std::size_t count = m_injections.size();
    std::vector<double> moved((std::size_t(size()) + 1) * count, 0.0);
    for (std::size_t k = 0; k < count; ++k) {
        moved[std::size_t(m_injections[k].plus) * count + k] += 1.0;
        moved[std::size_t(m_injections[k].minus) * count + k] -= 1.0;
    }
    lu.solveMany(moved, count);
    Eigen::MatrixXd matrix = Eigen::MatrixXd::Zero(Eigen::Index(count), Eigen::Index(count));
    for (const Share& share : m_shares) {
        const double* plus = moved.data() + std::size_t(share.controlPlus) * count;
        const double* minus = moved.data() + std::size_t(share.controlMinus) * count;
        for (std::size_t k = 0; k < count; ++k) {
            matrix(Eigen::Index(share.direction), Eigen::Index(k)) += shift * share.farads * (plus[k] - minus[k]);
        }
    }
    std::vector<NaturalRoot> roots;
    std::vector<Eigen::Index> rest;
    for (const double mu : splitOff(matrix, rest)) {
        addRoot(mu / shift, shift, roots);
    }
    if (!rest.empty()) {
        Eigen::MatrixXd core = matrix(rest, rest);
        balance(core);
        const Eigen::EigenSolver<Eigen::MatrixXd> solver(core, false);
        if (solver.info() != Eigen::Success) {
            return Error{ErrorCode::noConvergence,
                         said("The natural frequencies were not found: the iteration did not end."), ""};
        }
        for (const Complex& mu : solver.eigenvalues()) {
            addRoot(mu / shift, shift, roots);
        }
    }
    return roots;
}

bool ChargePencil::factorAt(std::complex<double> s) {
    m_values.resize(m_conductances.size());
    for (std::size_t slot = 0; slot < m_values.size(); ++slot) {
        m_values[slot] = m_conductances[slot] + s * m_capacitances[slot];
    }
    return m_lu.factor(m_values) || (m_lu.analyse(m_pattern, m_values) < 0 && m_lu.factor(m_values));
}

std::optional<std::complex<double>> ChargePencil::logDerivative(std::complex<double> s) {
    if (!factorAt(s)) {
        return std::nullopt;
    }
    const std::size_t count = m_injections.size();
    m_work.assign((std::size_t(size()) + 1) * count, 0.0);
    for (std::size_t k = 0; k < count; ++k) {
        m_work[std::size_t(m_injections[k].plus) * count + k] += 1.0;
        m_work[std::size_t(m_injections[k].minus) * count + k] -= 1.0;
    }
    m_lu.solveMany(m_work, count);
    Complex trace = 0.0;
    for (const Share& share : m_shares) {
        trace += share.farads * (m_work[std::size_t(share.controlPlus) * count + share.direction] -
                                 m_work[std::size_t(share.controlMinus) * count + share.direction]);
    }
    return std::isfinite(std::abs(trace)) ? std::optional(trace) : std::nullopt;
}

std::optional<ChargePencil::Transfer> ChargePencil::transferAt(std::complex<double> s, Equations::DriveRows drive,
                                                               int output) {
    if (!factorAt(s)) {
        return std::nullopt;
    }
    const std::size_t length = std::size_t(size()) + 1;
    std::vector<Complex> x(length, 0.0), a(length, 0.0);
    x[std::size_t(drive.minus)] += 1.0;
    x[std::size_t(drive.plus)] -= 1.0;
    a[std::size_t(output)] += 1.0;
    m_lu.solve(x);
    m_lu.solveTransposed(a);
    Complex bend = 0.0;
    for (const PencilCharge& charge : m_charges) {
        const Complex answer = a[std::size_t(charge.plus)] - a[std::size_t(charge.minus)];
        for (const PencilCharge::Slope& slope : charge.slopes) {
            bend -= answer * slope.farads * (x[std::size_t(slope.controlPlus)] - x[std::size_t(slope.controlMinus)]);
        }
    }
    const Complex value = x[std::size_t(output)];
    return Transfer{value, bend / value};
}

}  // namespace ohmwright

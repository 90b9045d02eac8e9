// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/natural_roots.h"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ohmwright {

namespace {

using Complex = std::complex<double>;

/// How far beside a root its step is evaluated: near enough to outweigh the others, far enough from singular.
constexpr double nudge = 1e-6;
constexpr int mostPasses = 8;
constexpr double settledStep = 1e-13;
/// Larger steps than this share of the root are not of this root.
constexpr double largestStep = 0.2;
/// Roots nearer to each other than this share of their size are looked at together ...
constexpr double groupShare = 0.02;
/// ... unless they are so many that moments cannot tell them apart.
constexpr std::size_t largestGroup = 12;
constexpr std::size_t circlePoints = 48;
/// Coefficients of a group's polynomial below this are rounding: one multiple root.
constexpr double multipleRoot = 1e-11;

using Group = std::vector<std::size_t>;

bool isNear(const NaturalRoot& a, const NaturalRoot& b) {
    const double reach = groupShare * std::max(std::abs(a.value), std::abs(b.value));
    return std::abs(a.value - b.value) < reach;
}

/// Single linkage; roots at 0 belong to no group.
std::vector<Group> groupsOf(const std::vector<NaturalRoot>& roots) {
    std::vector<int> groupOf(roots.size(), -1);
    std::vector<Group> groups;
    for (std::size_t seed = 0; seed < roots.size(); ++seed) {
        if (groupOf[seed] >= 0 || roots[seed].value == 0.0) {
            continue;
        }
        Group group{seed};
        groupOf[seed] = int(groups.size());
        for (std::size_t at = 0; at < group.size(); ++at) {
            for (std::size_t k = 0; k < roots.size(); ++k) {
                if (groupOf[k] < 0 && roots[k].value != 0.0 && isNear(roots[group[at]], roots[k])) {
                    groupOf[k] = int(groups.size());
                    group.push_back(k);
                }
            }
        }
        groups.push_back(std::move(group));
    }
    return groups;
}

std::size_t countIn(const std::vector<NaturalRoot>& roots, const Group& group) {
    std::size_t count = 0;
    for (const std::size_t k : group) {
        count += roots[k].count();
    }
    return count;
}

/// A group that holds its own mirror image.
bool isOnAxis(const std::vector<NaturalRoot>& roots, const Group& group) {
    return std::any_of(group.begin(), group.end(), [&](std::size_t k) {
        return !roots[k].isPair() || 2.0 * roots[k].value.imag() < groupShare * std::abs(roots[k].value);
    });
}

/// One root's step. @return how far it went, as a share of its size.
double step(std::vector<NaturalRoot>& roots, std::size_t at, const LogDerivative& logDerivative) {
    NaturalRoot& root = roots[at];
    const Complex s = root.value * (1.0 + nudge);
    const auto sum = logDerivative(s);
    if (!sum) {
        return 0.0;
    }
    const Complex others = reciprocalSum(roots, s) - 1.0 / (s - root.value);
    Complex next = s - 1.0 / (*sum - others);
    if (!root.isPair()) {
        next.imag(0.0);
    }
    const double share = std::abs(next - root.value) / std::abs(root.value);
    if (!(share < largestStep) || (root.isPair() && !(next.imag() > 0.0))) {
        return 0.0;
    }
    root.value = next;
    return share;
}

/// Sums of the powers of (root - centre) / radius over the roots inside a circle, all others taken out.
std::optional<std::vector<Complex>> momentsOf(Complex centre, double radius, std::size_t count,
                                              const std::vector<NaturalRoot>& others,
                                              const LogDerivative& logDerivative) {
    std::vector<Complex> moments(count + 1, 0.0);
    for (std::size_t k = 0; k < circlePoints; ++k) {
        const Complex turn = std::polar(1.0, 2.0 * std::numbers::pi * (double(k) + 0.5) / double(circlePoints));
        const Complex s = centre + radius * turn;
        const auto sum = logDerivative(s);
        if (!sum) {
            return std::nullopt;
        }
        Complex term = (*sum - reciprocalSum(others, s)) * radius * turn / double(circlePoints);
        for (Complex& moment : moments) {
            moment += term;
            term *= turn;
        }
    }
    return moments;
}

/// The same about another centre.
std::vector<Complex> shifted(const std::vector<Complex>& moments, Complex by) {
    std::vector<Complex> result(moments.size(), 0.0);
    for (std::size_t k = 0; k < moments.size(); ++k) {
        double binomial = 1.0;
        for (std::size_t i = 0; i <= k; ++i) {
            result[k] += binomial * moments[i] * std::pow(-by, double(k - i));
            binomial = binomial * double(k - i) / double(i + 1);
        }
    }
    return result;
}

/// Newton's identities: z^m - e1 z^(m-1) + e2 z^(m-2) - ...
std::vector<Complex> symmetricFunctions(const std::vector<Complex>& moments) {
    std::vector<Complex> e(moments.size(), 0.0);
    e[0] = 1.0;
    for (std::size_t k = 1; k < e.size(); ++k) {
        double sign = 1.0;
        for (std::size_t i = 1; i <= k; ++i) {
            e[k] += sign * e[k - i] * moments[i];
            sign = -sign;
        }
        e[k] /= double(k);
    }
    return e;
}

std::vector<Complex> polynomialRoots(const std::vector<Complex>& e, bool isReal) {
    const auto degree = Eigen::Index(e.size()) - 1;
    Eigen::MatrixXcd companion = Eigen::MatrixXcd::Zero(degree, degree);
    double sign = 1.0;
    for (Eigen::Index k = 0; k < degree; ++k) {
        companion(0, k) = sign * e[std::size_t(k) + 1];
        sign = -sign;
        if (k > 0) {
            companion(k, k - 1) = 1.0;
        }
    }
    std::vector<Complex> roots;
    if (isReal) {
        const Eigen::MatrixXd real = companion.real();
        const Eigen::EigenSolver<Eigen::MatrixXd> solver(real, false);
        if (solver.info() == Eigen::Success) {
            roots.assign(solver.eigenvalues().begin(), solver.eigenvalues().end());
        }
    } else {
        const Eigen::ComplexEigenSolver<Eigen::MatrixXcd> solver(companion, false);
        if (solver.info() == Eigen::Success) {
            roots.assign(solver.eigenvalues().begin(), solver.eigenvalues().end());
        }
    }
    return roots;
}

/// Where a group lies: its middle, how far its members are from it, and how near the next root is.
struct Surroundings {
    Complex centre;
    double reach = 0.0;
    double nearest = 0.0;
    std::vector<NaturalRoot> others;
};

Surroundings surroundingsOf(const std::vector<NaturalRoot>& roots, const Group& group, bool onAxis) {
    Surroundings around;
    const auto isMember = [&](std::size_t k) { return std::find(group.begin(), group.end(), k) != group.end(); };
    double count = 0.0;
    for (const std::size_t k : group) {
        const double weight = onAxis ? double(roots[k].count()) : 1.0;
        around.centre += weight * (onAxis ? Complex(roots[k].value.real()) : roots[k].value);
        count += weight;
    }
    around.centre /= count;
    around.nearest = std::abs(around.centre);
    if (!onAxis) {
        around.nearest = std::min(around.nearest, 2.0 * around.centre.imag());
    }
    for (std::size_t k = 0; k < roots.size(); ++k) {
        const double distance = std::abs(roots[k].value - around.centre);
        if (isMember(k)) {
            around.reach = std::max(around.reach, distance);
        } else {
            around.others.push_back(roots[k]);
            around.nearest = std::min(around.nearest, distance);
        }
    }
    return around;
}

void refineGroup(std::vector<NaturalRoot>& roots, const Group& group, const LogDerivative& logDerivative) {
    const bool onAxis = isOnAxis(roots, group);
    const std::size_t count = onAxis ? countIn(roots, group) : group.size();
    const Surroundings around = surroundingsOf(roots, group, onAxis);
    const double radius = std::min(std::max(4.0 * around.reach, 1e-3 * std::abs(around.centre)), 0.7 * around.nearest);
    if (!(radius > 1.5 * around.reach)) {
        return;
    }
    const LogDerivative outside = [&](Complex s) {
        auto sum = logDerivative(s);
        if (sum && !onAxis) {
            // The mirror image of the group is no member of it.
            for (const std::size_t k : group) {
                *sum -= 1.0 / (s - std::conj(roots[k].value));
            }
        }
        return sum;
    };
    const auto moments = momentsOf(around.centre, radius, count, around.others, outside);
    if (!moments || !(std::abs((*moments)[0] - double(count)) < 1e-3)) {
        return;
    }
    Complex mean = (*moments)[1] / double(count);
    if (onAxis) {
        mean.imag(0.0);
    }
    const std::vector<Complex> e = symmetricFunctions(shifted(*moments, mean));
    const bool isMultiple =
        std::all_of(e.begin() + 2, e.end(), [](const Complex& value) { return std::abs(value) < multipleRoot; });
    std::vector<Complex> found(count, 0.0);
    if (!isMultiple) {
        found = polynomialRoots(e, onAxis);
        if (found.size() != count) {
            return;
        }
    }
    std::vector<NaturalRoot> refined;
    for (const Complex& root : found) {
        if (!onAxis || root.imag() >= 0.0) {
            refined.push_back({around.centre + radius * (root + mean)});
        }
    }
    if (countOf(refined) != countIn(roots, group)) {
        return;
    }
    // A pair that met on the axis becomes two, and the other way round: the list changes its length.
    std::vector<NaturalRoot> all = around.others;
    all.insert(all.end(), refined.begin(), refined.end());
    roots = std::move(all);
}

/// Until none of `which` moves any more.
void stepAll(std::vector<NaturalRoot>& roots, const std::vector<std::size_t>& which, const LogDerivative& logDerivative,
             const std::stop_token& stop) {
    for (int pass = 0; pass < mostPasses; ++pass) {
        double furthest = 0.0;
        for (const std::size_t k : which) {
            if (stop.stop_requested()) {
                return;
            }
            furthest = std::max(furthest, step(roots, k, logDerivative));
        }
        if (furthest < settledStep) {
            return;
        }
    }
}

/// Where the members of a group stand in a list that has changed since.
Group groupOf(const std::vector<NaturalRoot>& members, const std::vector<NaturalRoot>& roots) {
    Group group;
    for (std::size_t k = 0; k < roots.size(); ++k) {
        if (std::any_of(members.begin(), members.end(),
                        [&](const NaturalRoot& member) { return member.value == roots[k].value; })) {
            group.push_back(k);
        }
    }
    return group;
}

}  // namespace

std::size_t countOf(const std::vector<NaturalRoot>& roots) {
    std::size_t count = 0;
    for (const NaturalRoot& root : roots) {
        count += root.count();
    }
    return count;
}

std::complex<double> reciprocalSum(const std::vector<NaturalRoot>& roots, std::complex<double> s) {
    Complex sum = 0.0;
    for (const NaturalRoot& root : roots) {
        sum += 1.0 / (s - root.value);
        if (root.isPair()) {
            sum += 1.0 / (s - std::conj(root.value));
        }
    }
    return sum;
}

std::vector<std::complex<double>> expanded(std::vector<NaturalRoot> roots) {
    std::stable_sort(roots.begin(), roots.end(),
                     [](const NaturalRoot& a, const NaturalRoot& b) { return std::abs(a.value) < std::abs(b.value); });
    std::vector<Complex> all;
    for (const NaturalRoot& root : roots) {
        all.push_back(root.value);
        if (root.isPair()) {
            all.push_back(std::conj(root.value));
        }
    }
    return all;
}

void refineRoots(std::vector<NaturalRoot>& roots, const LogDerivative& logDerivative, const std::stop_token& stop) {
    std::vector<std::size_t> single;
    std::vector<std::vector<NaturalRoot>> close;
    for (const Group& group : groupsOf(roots)) {
        const bool alone = isOnAxis(roots, group) ? countIn(roots, group) == 1 : group.size() == 1;
        if (alone || countIn(roots, group) > largestGroup) {
            single.insert(single.end(), group.begin(), group.end());
        } else {
            std::vector<NaturalRoot>& members = close.emplace_back();
            for (const std::size_t k : group) {
                members.push_back(roots[k]);
            }
        }
    }
    stepAll(roots, single, logDerivative, stop);
    for (const auto& members : close) {
        if (stop.stop_requested()) {
            return;
        }
        refineGroup(roots, groupOf(members, roots), logDerivative);
    }
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/sparse_lu.h"

#include "core/solve/sparse_kernels.h"

#include <gtest/gtest.h>
#include <Eigen/LU>
#include <Eigen/SparseLU>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <random>
#include <type_traits>

namespace ohmwright {
namespace {

using Complex = std::complex<double>;
template <class Scalar>
using Dense = Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic>;
template <class Scalar>
using Column = Eigen::Matrix<Scalar, Eigen::Dynamic, 1>;

/// Backward error allowed, of the largest entry times the largest unknown: pivots of a thousandth cost three digits.
constexpr double residualShare = 1e-11;

struct RandomMatrix {
    SparsePattern pattern;
    std::vector<double> values;
    std::vector<double> slopes;  ///< The imaginary part at w = 1.
};

/// Conductances as a circuit stamps them, and a few voltage-defined branches without a diagonal entry.
RandomMatrix randomMatrix(int size, std::mt19937& random) {
    std::uniform_int_distribution<int> place(0, size - 1);
    std::uniform_real_distribution<double> exponent(-6.0, 2.0);
    RandomMatrix matrix{SparsePattern(size), {0.0}, {0.0}};
    const auto set = [&](int row, int column, double value, double slope) {
        const auto slot = std::size_t(matrix.pattern.slot(row, column));
        matrix.values.resize(matrix.pattern.valueCount(), 0.0);
        matrix.slopes.resize(matrix.pattern.valueCount(), 0.0);
        matrix.values[slot] = value;
        matrix.slopes[slot] = slope;
    };
    // Drawn one by one: the order in which arguments are evaluated is the compiler's.
    const auto setRandom = [&](int row, int column, double sign) {
        const double value = sign * std::pow(10.0, exponent(random));
        const double slope = sign * std::pow(10.0, exponent(random));
        set(row, column, value, slope);
    };
    for (int k = 0; k < size; ++k) {
        setRandom(k, k, 1.0);
    }
    for (int k = 0; k < 2 * size; ++k) {
        const int row = place(random);
        const int column = place(random);
        setRandom(row, column, -1.0);
    }
    for (int k = 0; k + 1 < size; k += 7) {
        set(k, k, 0.0, 0.0);
        set(k, k + 1, 1.0, 0.0);
        set(k + 1, k, 1.0, 0.0);
    }
    return matrix;
}

std::vector<Complex> atOmega(const RandomMatrix& matrix, double omega) {
    std::vector<Complex> values;
    for (std::size_t slot = 0; slot < matrix.values.size(); ++slot) {
        values.emplace_back(matrix.values[slot], omega * matrix.slopes[slot]);
    }
    return values;
}

template <class Scalar>
Dense<Scalar> dense(const SparsePattern& pattern, const std::vector<Scalar>& values) {
    Dense<Scalar> matrix = Dense<Scalar>::Zero(pattern.size(), pattern.size());
    for (std::size_t slot = 1; slot < values.size(); ++slot) {
        matrix(pattern.rowOf(slot), pattern.columnOf(slot)) = values[slot];
    }
    return matrix;
}

/// A right-hand side and ground's entry, which must not matter.
template <class Scalar>
std::vector<Scalar> randomSide(std::size_t count, std::mt19937& random) {
    std::uniform_real_distribution<double> number(-1.0, 1.0);
    std::vector<Scalar> side(count);
    for (Scalar& each : side) {
        if constexpr (std::is_same_v<Scalar, double>) {
            each = number(random);
        } else {
            const double real = number(random);
            each = Scalar(real, number(random));
        }
    }
    return side;
}

template <class Scalar>
double backwardError(const Dense<Scalar>& matrix, const Column<Scalar>& x, const Column<Scalar>& b) {
    const double scale = matrix.cwiseAbs().maxCoeff() * x.cwiseAbs().maxCoeff() + b.cwiseAbs().maxCoeff();
    return (matrix * x - b).cwiseAbs().maxCoeff() / scale;
}

template <class Scalar>
Column<Scalar> column(const std::vector<Scalar>& numbers, Eigen::Index size) {
    return Eigen::Map<const Column<Scalar>>(numbers.data(), size);
}

/// Solves random systems with the matrix and with its transpose. @return how many were sound.
template <class Scalar>
int compareWithDense(int trials, std::mt19937& random) {
    int compared = 0;
    for (int trial = 0; trial < trials; ++trial) {
        const int size = 3 + trial % 40;
        const RandomMatrix made = randomMatrix(size, random);
        std::vector<Scalar> values;
        if constexpr (std::is_same_v<Scalar, double>) {
            values = made.values;
        } else {
            values = atOmega(made, 1.0);
        }
        const Dense<Scalar> matrix = dense(made.pattern, values);
        const Eigen::FullPivLU<Dense<Scalar>> library(matrix);
        if (library.rank() < size) {
            continue;
        }
        ++compared;
        SparseLu<Scalar> lu;
        EXPECT_EQ(lu.analyse(made.pattern, values), -1);
        EXPECT_TRUE(lu.factor(values));
        const std::vector<Scalar> side = randomSide<Scalar>(std::size_t(size) + 1, random);
        const Column<Scalar> b = column(side, size);
        std::vector<Scalar> x = side;
        lu.solve(x);
        EXPECT_LT(backwardError<Scalar>(matrix, column(x, size), b), residualShare) << "trial " << trial;
        EXPECT_EQ(x.back(), Scalar{});
        std::vector<Scalar> y = side;
        lu.solveTransposed(y);
        EXPECT_LT(backwardError<Scalar>(matrix.transpose(), column(y, size), b), residualShare) << "trial " << trial;
        // Where the matrix is well behaved the unknowns themselves agree.
        if (library.rcond() > 1e-6) {
            const Column<Scalar> expected = library.solve(b);
            EXPECT_LT((column(x, size) - expected).norm(), 1e-7 * expected.norm()) << "trial " << trial;
        }
    }
    return compared;
}

TEST(SparseLu, AgreesWithADenseLibraryOnRealMatrices) {
    std::mt19937 random(20261124);
    EXPECT_GT(compareWithDense<double>(1600, random), 1200);
}

TEST(SparseLu, AgreesWithADenseLibraryOnComplexMatrices) {
    std::mt19937 random(20261125);
    EXPECT_GT(compareWithDense<Complex>(800, random), 700);
}

TEST(SparseLu, LanesAreComplexSolutionsSideBySide) {
    std::mt19937 random(20261126);
    constexpr std::size_t count = ComplexLanes::count;
    const std::array<double, count> omegas{0.1, 0.3, 1.0, 2.5, 7.0, 20.0, 80.0, 200.0};
    int compared = 0;
    for (int trial = 0; trial < 400; ++trial) {
        const int size = 3 + trial % 40;
        const RandomMatrix made = randomMatrix(size, random);
        SparseLu<Complex> middle;
        if (middle.analyse(made.pattern, atOmega(made, 1.0)) >= 0) {
            continue;
        }
        SparseLu<ComplexLanes> lanes;
        lanes.adopt(middle.order());
        std::vector<ComplexLanes> values(made.values.size());
        for (std::size_t k = 0; k < count; ++k) {
            const auto one = atOmega(made, omegas[k]);
            for (std::size_t slot = 0; slot < one.size(); ++slot) {
                values[slot].set(k, one[slot]);
            }
        }
        bool sound = true;
        std::array<SparseLu<Complex>, count> singles;
        for (std::size_t k = 0; k < count; ++k) {
            singles[k].adopt(middle.order());
            sound = singles[k].factor(atOmega(made, omegas[k])) && sound;
        }
        ASSERT_EQ(lanes.factor(values), sound);
        ASSERT_EQ(lanes.factorAt(made.values, made.slopes, omegas), sound);
        if (!sound) {
            continue;
        }
        ++compared;
        for (const bool transposed : {false, true}) {
            const auto side = randomSide<Complex>(std::size_t(size) + 1, random);
            std::vector<ComplexLanes> x;
            for (const Complex& each : side) {
                x.emplace_back(each);
            }
            transposed ? lanes.solveTransposed(x) : lanes.solve(x);
            for (std::size_t k = 0; k < count; ++k) {
                const Dense<Complex> matrix = dense(made.pattern, atOmega(made, omegas[k]));
                Column<Complex> ours(size);
                for (Eigen::Index row = 0; row < size; ++row) {
                    ours[row] = x[std::size_t(row)].lane(k);
                }
                // The order was made for another frequency, so multipliers may have been larger.
                const double error = transposed ? backwardError<Complex>(matrix.transpose(), ours, column(side, size))
                                                : backwardError<Complex>(matrix, ours, column(side, size));
                EXPECT_LT(error, 1e-9) << "trial " << trial << " lane " << k;
            }
        }
    }
    EXPECT_GT(compared, 300);
}

TEST(SparseLu, LanesComputeAsComplexNumbersDo) {
    const Complex a(1.5, -2.0), b(-0.25, 3.0);
    ComplexLanes lanes(a);
    lanes.set(2, b);
    const ComplexLanes other(b);
    const Complex inverse = 1.0 / b;
    EXPECT_EQ((lanes + other).lane(0), a + b);
    EXPECT_EQ((lanes - other).lane(2), Complex{});
    EXPECT_EQ((lanes * other).lane(1), a * b);
    EXPECT_NEAR(std::abs(reciprocal(lanes).lane(2) - inverse), 0.0, 1e-16);
}

TEST(SparseLu, SeveralRightHandSidesAreSolvedAsOne) {
    std::mt19937 random(7);
    const RandomMatrix matrix = randomMatrix(20, random);
    SparseLu<double> real;
    SparseLu<Complex> complex;
    ASSERT_EQ(real.analyse(matrix.pattern, matrix.values), -1);
    complex.adopt(real.order());
    ASSERT_TRUE(real.factor(matrix.values));
    ASSERT_TRUE(complex.factor(atOmega(matrix, 0.0)));
    const auto compare = [&]<class Scalar>(SparseLu<Scalar>& lu, std::size_t count, bool transposed) {
        std::vector<Scalar> many = randomSide<Scalar>(21 * count, random);
        std::vector<std::vector<Scalar>> each(count, std::vector<Scalar>(21));
        for (std::size_t k = 0; k < count; ++k) {
            for (std::size_t row = 0; row < 21; ++row) {
                each[k][row] = many[row * count + k];
            }
            transposed ? lu.solveTransposed(each[k]) : lu.solve(each[k]);
        }
        transposed ? lu.solveTransposedMany(many, count) : lu.solveMany(many, count);
        for (std::size_t k = 0; k < count; ++k) {
            const double scale = column(each[k], 20).cwiseAbs().maxCoeff();
            for (std::size_t row = 0; row < 21; ++row) {
                EXPECT_LT(std::abs(many[row * count + k] - each[k][row]), 1e-12 * scale) << count << " sides";
            }
        }
    };
    // Every remainder of the blocks they are taken in.
    for (std::size_t count = 1; count <= 40; ++count) {
        for (const bool transposed : {false, true}) {
            compare(real, count, transposed);
            compare(complex, count, transposed);
        }
    }
}

/// What the early part leaves, against A_LL - A_LE inverse(A_EE) A_EL.
/// @return false when the dense library finds A_EE too near to singular to say.
bool compareReducedMatrix(const SparseLu<double>& lu, const RandomMatrix& made, int trial, std::mt19937& random) {
    const Dense<double> ordered = dense(made.pattern, made.values)(lu.order()->rowOfStep, lu.order()->columnOfStep);
    const auto early = Eigen::Index(lu.earlyCount());
    const auto rest = Eigen::Index(lu.lateCount());
    const Eigen::FullPivLU<Dense<double>> library(ordered.topLeftCorner(early, early));
    if (library.rank() < early || library.rcond() < 1e-8) {
        return false;
    }
    const Dense<double> reduced =
        ordered.bottomRightCorner(rest, rest) -
        ordered.bottomLeftCorner(rest, early) * library.solve(ordered.topRightCorner(early, rest));
    const auto x = randomSide<double>(std::size_t(rest), random);
    std::vector<double> product(std::size_t(rest), 0.0);
    lu.subtractLateProduct(x, product);
    const Column<double> expected = -reduced * column(x, rest);
    EXPECT_LT((column(product, rest) - expected).norm(), 1e-7 * (1.0 + reduced.norm())) << "trial " << trial;
    return true;
}

/// As a stepper in time uses it, against the whole matrix at once.
TEST(SparseLu, InTwoPartsAsInOne) {
    std::mt19937 random(99);
    std::uniform_real_distribution<double> exponent(-6.0, 1.0);
    int compared = 0;
    int reducedCompared = 0;
    for (int trial = 0; trial < 400; ++trial) {
        const int size = 4 + trial % 40;
        const RandomMatrix made = randomMatrix(size, random);
        std::vector<char> late(std::size_t(size), 0);
        for (char& each : late) {
            each = random() % 3 == 0 ? 1 : 0;
        }
        SparseLu<double> lu;
        if (Eigen::FullPivLU<Dense<double>>(dense(made.pattern, made.values)).rank() < size) {
            continue;
        }
        ASSERT_EQ(lu.analyse(made.pattern, made.values, late, late), -1);
        const auto marked = std::size_t(std::count(late.begin(), late.end(), char(1)));
        ASSERT_GE(lu.lateCount(), marked);
        ASSERT_EQ(lu.earlyCount() + lu.lateCount(), std::size_t(size));
        std::vector<char> lateRow(std::size_t(size), 0), lateColumn(std::size_t(size), 0);
        for (std::size_t k = 0; k < lu.lateCount(); ++k) {
            lateRow[std::size_t(lu.lateRow(k))] = 1;
            lateColumn[std::size_t(lu.lateColumn(k))] = 1;
        }
        for (std::size_t k = 0; k < late.size(); ++k) {
            ASSERT_GE(lateRow[k], late[k]);
            ASSERT_GE(lateColumn[k], late[k]);
        }
        ASSERT_TRUE(lu.factorEarly(made.values));

        const auto early = Eigen::Index(lu.earlyCount());
        if (early > 0 && lu.lateCount() > 0 && compareReducedMatrix(lu, made, trial, random)) {
            ++reducedCompared;
        }

        for (int round = 0; round < 3; ++round) {
            std::vector<int> slots{0};
            std::vector<double> additions{123.0};  // ground's: of no effect
            std::vector<double> whole = made.values;
            for (std::size_t slot = 1; slot < made.values.size(); ++slot) {
                if (late[std::size_t(made.pattern.rowOf(slot))] != 0 &&
                    late[std::size_t(made.pattern.columnOf(slot))] != 0) {
                    slots.push_back(int(slot));
                    additions.push_back(std::pow(10.0, exponent(random)));
                    whole[slot] += additions.back();
                }
            }
            SparseLu<double> once;
            once.adopt(lu.order());
            const bool sound = once.factor(whole);
            ASSERT_EQ(lu.factorLate(slots, additions), sound);
            if (!sound) {
                continue;
            }
            ++compared;
            const auto side = randomSide<double>(std::size_t(size) + 1, random);
            std::vector<double> work(std::size_t(size), 0.0), parts(side.size()), together = side, again = side;
            lu.permuteIn(side, work);
            lu.forwardEarly(work);
            const std::vector<double> before(work.begin(), work.begin() + early);
            lu.forwardLate(work);
            lu.backLate(work);
            EXPECT_EQ(std::vector<double>(work.begin(), work.begin() + early), before);
            lu.backEarly(work);
            lu.permuteOut(work, parts);
            lu.solve(together);
            once.solve(again);
            const double scale = column(together, size).cwiseAbs().maxCoeff();
            for (std::size_t k = 0; k < side.size(); ++k) {
                EXPECT_NEAR(parts[k], together[k], 1e-12 * scale);
                EXPECT_NEAR(parts[k], again[k], 1e-9 * scale);
            }
            EXPECT_LT(backwardError<double>(dense(made.pattern, whole), column(parts, size), column(side, size)), 1e-9);
        }
    }
    EXPECT_GT(compared, 800);
    EXPECT_GT(reducedCompared, 150);
}

TEST(SparseLu, NothingLateIsAllEarly) {
    std::mt19937 random(5);
    const RandomMatrix matrix = randomMatrix(12, random);
    SparseLu<double> lu;
    ASSERT_EQ(lu.analyse(matrix.pattern, matrix.values), -1);
    EXPECT_EQ(lu.lateCount(), 0U);
    EXPECT_TRUE(lu.factorEarly(matrix.values));
    EXPECT_TRUE(lu.factorLate({}, {}));
    // And all late: nothing can be done before.
    const std::vector<char> all(12, 1);
    ASSERT_EQ(lu.analyse(matrix.pattern, matrix.values, all, all), -1);
    EXPECT_EQ(lu.earlyCount(), 0U);
    ASSERT_TRUE(lu.factorEarly(matrix.values));
    EXPECT_TRUE(lu.factorLate({}, {}));
}

TEST(SparseLu, AnOrderServesOtherValuesAndCopies) {
    std::mt19937 random(31);
    std::uniform_real_distribution<double> turn(0.2, 5.0);
    const RandomMatrix made = randomMatrix(33, random);
    SparseLu<double> original;
    ASSERT_EQ(original.analyse(made.pattern, made.values), -1);
    for (int round = 0; round < 200; ++round) {
        std::vector<double> values = made.values;
        for (double& value : values) {
            value *= turn(random);
        }
        SparseLu<double> copy = original;
        EXPECT_EQ(copy.order(), original.order());
        ASSERT_TRUE(copy.factor(values));
        const auto side = randomSide<double>(34, random);
        std::vector<double> x = side;
        copy.solve(x);
        EXPECT_LT(backwardError<double>(dense(made.pattern, values), column(x, 33), column(side, 33)), 1e-10);
    }
}

TEST(SparseLu, EveryProcessorsLoopsAgree) {
    std::mt19937 random(17);
    const std::array<double, ComplexLanes::count> omegas{0.1, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 10.0};
    for (int trial = 0; trial < 50; ++trial) {
        const RandomMatrix made = randomMatrix(30, random);
        const ChosenOrder chosen = chooseOrder(made.pattern, made.values);
        if (chosen.singularColumn >= 0) {
            continue;
        }
        const EliminationLists lists = listsOf(*chosen.order);
        const std::size_t positions = chosen.order->positionCount();
        const auto realWith = [&](const KernelSet& kernels, std::vector<double>& factors) {
            return kernels.real.factor(lists, {0, 30}, made.values.data(), factors.data());
        };
        const auto lanesWith = [&](const KernelSet& kernels, std::vector<ComplexLanes>& factors) {
            return kernels.factorFrequencies(lists, made.values.data(), made.slopes.data(), omegas.data(),
                                             reinterpret_cast<double*>(factors.data()));
        };
        std::vector<double> plain(positions), other(positions);
        std::vector<ComplexLanes> plainLanes(positions), otherLanes(positions);
        const bool sound = realWith(plainKernels(), plain);
        const bool soundLanes = lanesWith(plainKernels(), plainLanes);
        double largest = 0.0;
        for (const double each : plain) {
            largest = std::max(largest, std::abs(each));
        }
        std::array<double, ComplexLanes::count> largestOfLane{};
        for (const ComplexLanes& each : plainLanes) {
            for (std::size_t lane = 0; lane < omegas.size(); ++lane) {
                largestOfLane[lane] = std::max(largestOfLane[lane], std::abs(each.lane(lane)));
            }
        }
        for (const KernelSet* kernels : usableKernels()) {
            ASSERT_EQ(realWith(*kernels, other), sound);
            ASSERT_EQ(lanesWith(*kernels, otherLanes), soundLanes);
            for (std::size_t k = 0; k < positions; ++k) {
                EXPECT_NEAR(plain[k], other[k], 1e-9 * std::abs(plain[k]) + 1e-14 * largest);
            }
            for (std::size_t lane = 0; soundLanes && lane < omegas.size(); ++lane) {
                for (std::size_t k = 0; k < positions; ++k) {
                    const Complex expected = plainLanes[k].lane(lane);
                    EXPECT_LE(std::abs(expected - otherLanes[k].lane(lane)),
                              1e-9 * std::abs(expected) + 1e-14 * largestOfLane[lane]);
                }
            }
        }
    }
}

TEST(SparseLu, ASingularMatrixNamesTheUnknownWithoutPivot) {
    // Unknown 2 stands in no equation: an all-zero column.
    SparsePattern pattern(3);
    pattern.slot(0, 0);
    pattern.slot(1, 1);
    pattern.slot(2, 0);
    SparseLu<double> lu;
    EXPECT_EQ(lu.analyse(pattern, {0.0, 1.0, 1.0, 1.0}), 2);
    EXPECT_FALSE(lu.isAnalysed());
    EXPECT_FALSE(lu.factor({0.0, 1.0, 1.0, 1.0}));
}

TEST(SparseLu, TwoEqualEquationsAreSingular) {
    SparsePattern pattern(2);
    std::vector<double> values{0.0};
    for (int row = 0; row < 2; ++row) {
        for (int column = 0; column < 2; ++column) {
            pattern.slot(row, column);
            values.push_back(column == 0 ? 0.1 : 0.3);
        }
    }
    SparseLu<double> lu;
    EXPECT_GE(lu.analyse(pattern, values), 0);
}

struct Conductances {
    explicit Conductances(int size) : pattern(size), values{0.0} {}

    void add(int row, int column, double value) {
        const auto slot = std::size_t(pattern.slot(row, column));
        values.resize(pattern.valueCount(), 0.0);
        values[slot] += value;
    }
    void join(int a, int b, double siemens) {
        add(a, a, siemens);
        add(b, b, siemens);
        add(a, b, -siemens);
        add(b, a, -siemens);
    }

    SparsePattern pattern;
    std::vector<double> values;
};

/// Sections of a series and a shunt conductance, driven by a voltage source whose current is the last unknown.
Conductances ladder(int nodes) {
    Conductances made(nodes + 1);
    for (int k = 0; k < nodes; ++k) {
        made.add(k, k, 1e-5 * (1 + k % 5));
        if (k > 0) {
            made.join(k - 1, k, 1e-3 * (1 + k % 7));
        }
    }
    made.add(0, nodes, 1.0);
    made.add(nodes, 0, 1.0);
    return made;
}

TEST(SparseLu, AnIslandWithoutGroundIsNamed) {
    // Nodes 4, 5 and 6 are joined to each other alone; the rest is a ladder to ground.
    for (const bool late : {false, true}) {
        Conductances made(9);
        for (int k = 0; k < 9; ++k) {
            if (k < 4 || k > 6) {
                made.add(k, k, 1e-4);
            }
        }
        made.join(0, 1, 1e-3);
        made.join(2, 3, 3e-3);
        made.join(7, 8, 7e-5);
        made.join(4, 5, 1e-3 / 3.0);
        made.join(5, 6, 0.7e-3);
        made.join(4, 6, 1e-2 / 7.0);
        std::vector<char> lateLines(9, 0);
        lateLines[5] = late ? 1 : 0;
        SparseLu<double> lu;
        const int named = lu.analyse(made.pattern, made.values, lateLines, lateLines);
        EXPECT_GE(named, 4);
        EXPECT_LE(named, 6);
    }
}

TEST(SparseLu, ALiftedLegIsSmallNotSingular) {
    // A node that hangs on 1e-15 S alone, beside ones of 10 S: small throughout its row and column, and sound.
    Conductances made(3);
    made.join(0, 1, 10.0);
    made.add(0, 0, 1e-3);
    made.add(2, 2, 1e-15);
    SparseLu<double> lu;
    ASSERT_EQ(lu.analyse(made.pattern, made.values), -1);
    ASSERT_TRUE(lu.factor(made.values));
    std::vector<double> x{0.0, 0.0, 1e-15, 0.0};
    lu.solve(x);
    EXPECT_DOUBLE_EQ(x[2], 1.0);
}

TEST(SparseLu, AnOrderThatNoLongerSuitsIsRefused) {
    // The pivot of the order vanishes at the new values; the matrix itself is sound.
    SparsePattern pattern(2);
    for (int row = 0; row < 2; ++row) {
        for (int column = 0; column < 2; ++column) {
            pattern.slot(row, column);
        }
    }
    SparseLu<double> lu;
    ASSERT_EQ(lu.analyse(pattern, {0.0, 5.0, 0.0, 0.0, 1.0}), -1);
    EXPECT_FALSE(lu.factor({0.0, 0.0, 1.0, 1.0, 0.0}));
    ASSERT_EQ(lu.analyse(pattern, {0.0, 0.0, 1.0, 1.0, 0.0}), -1);
    EXPECT_TRUE(lu.factor({0.0, 0.0, 1.0, 1.0, 0.0}));
}

TEST(SparseLu, WhatIsNoNumberIsRefusedInEveryKind) {
    std::mt19937 random(3);
    const RandomMatrix made = randomMatrix(10, random);
    SparseLu<double> real;
    ASSERT_EQ(real.analyse(made.pattern, made.values), -1);
    SparseLu<Complex> complex;
    complex.adopt(real.order());
    SparseLu<ComplexLanes> lanes;
    lanes.adopt(real.order());
    const auto pivotSlot = std::size_t(real.order()->slotOfPosition[0]);
    for (const double bad : {0.0, std::numeric_limits<double>::quiet_NaN()}) {
        std::vector<double> values = made.values;
        values[pivotSlot] = bad;
        std::vector<Complex> complexValues(values.begin(), values.end());
        EXPECT_FALSE(real.factor(values));
        EXPECT_FALSE(complex.factor(complexValues));
        for (std::size_t k = 0; k < 4; ++k) {
            std::vector<ComplexLanes> laneValues;
            for (const double value : made.values) {
                laneValues.emplace_back(Complex(value));
            }
            EXPECT_TRUE(lanes.factor(laneValues));
            laneValues[pivotSlot].set(k, bad);
            EXPECT_FALSE(lanes.factor(laneValues)) << "lane " << k;
        }
    }
}

TEST(SparseLu, AnImaginaryMultiplierCountsAsMuchAsARealOne) {
    SparsePattern pattern(2);
    for (int row = 0; row < 2; ++row) {
        for (int column = 0; column < 2; ++column) {
            pattern.slot(row, column);
        }
    }
    SparseLu<Complex> lu;
    const std::vector<Complex> mild{0.0, 1.0, 0.5, 0.5, 2.0};
    ASSERT_EQ(lu.analyse(pattern, mild), -1);
    ASSERT_TRUE(lu.factor(mild));
    const Complex tiny(0.0, 1e-9);
    EXPECT_FALSE(lu.factor({0.0, tiny, 1.0, 1.0, tiny}));
}

TEST(SparseLu, TheWorkOfALadderGrowsWithItsNodes) {
    std::vector<double> operations;
    for (const int nodes : {500, 2000, 20000}) {
        const Conductances made = ladder(nodes);
        SparseLu<double> lu;
        ASSERT_EQ(lu.analyse(made.pattern, made.values), -1);
        operations.push_back(double(lu.order()->factorOperations() + lu.order()->solveOperations()));
        ASSERT_TRUE(lu.factor(made.values));
        std::vector<double> x(std::size_t(nodes) + 2, 0.0);
        x[std::size_t(nodes)] = 1.0;
        lu.solve(x);

        std::vector<Eigen::Triplet<double>> entries;
        for (std::size_t slot = 1; slot < made.values.size(); ++slot) {
            entries.emplace_back(made.pattern.rowOf(slot), made.pattern.columnOf(slot), made.values[slot]);
        }
        Eigen::SparseMatrix<double> matrix(nodes + 1, nodes + 1);
        matrix.setFromTriplets(entries.begin(), entries.end());
        Eigen::SparseLU<Eigen::SparseMatrix<double>> library(matrix);
        Eigen::VectorXd b = Eigen::VectorXd::Zero(nodes + 1);
        b[nodes] = 1.0;
        const Eigen::VectorXd expected = library.solve(b);
        EXPECT_LT((column(x, nodes + 1) - expected).cwiseAbs().maxCoeff(), 1e-12);
    }
    // An elimination of a chain from its ends: two entries and one product a node.
    const double exponent = std::log(operations[2] / operations[0]) / std::log(20000.0 / 500.0);
    EXPECT_LT(exponent, 1.05);
    EXPECT_LT(operations[2], 4.0 * 20000.0);
}

TEST(SparseLu, ASupplyNetOfThousandsOfPartsStaysSparse) {
    // Every part hangs between the supply and a node of its own; the supply is a source with 1 ohm inside.
    constexpr int parts = 5000;
    Conductances made(parts + 2);
    for (int k = 0; k < parts; ++k) {
        made.join(k, parts, 1e-4 * (1 + k % 3));
        made.add(k, k, 1e-4);
        EXPECT_EQ(made.pattern.slot(parts, k), made.pattern.slot(parts, k));
    }
    made.join(parts, parts + 1, 1.0);
    made.add(parts + 1, parts + 1, 1e3);
    EXPECT_EQ(made.pattern.slot(parts + 2, 0), 0);
    EXPECT_EQ(made.pattern.slotsOfRow(parts).size(), std::size_t(parts) + 2);
    SparseLu<double> lu;
    ASSERT_EQ(lu.analyse(made.pattern, made.values), -1);
    EXPECT_EQ(lu.order()->positionCount(), made.pattern.valueCount() - 1) << "fill in a star";
    ASSERT_TRUE(lu.factor(made.values));
    std::vector<double> x(parts + 3, 0.0);
    x[parts + 1] = 1e3 * 9.0;
    lu.solve(x);
    // Each part and its leak divide the supply: 1/2, 2/3, 3/4 by turns.
    EXPECT_NEAR(x[1] / x[parts], 2.0 / 3.0, 1e-12);
    EXPECT_NEAR(x[2] / x[parts], 3.0 / 4.0, 1e-12);
}

}  // namespace
}  // namespace ohmwright

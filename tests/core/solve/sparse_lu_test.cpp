// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/sparse_lu.h"

#include <gtest/gtest.h>
#include <Eigen/LU>

#include <random>

namespace ohmwright {
namespace {

struct RandomMatrix {
    SparsePattern pattern;
    std::vector<double> values;
    Eigen::MatrixXd dense;
};

RandomMatrix randomMatrix(int size, std::mt19937& random) {
    std::uniform_int_distribution<int> place(0, size - 1);
    std::uniform_real_distribution<double> exponent(-6.0, 2.0);
    RandomMatrix matrix{SparsePattern(size), {0.0}, Eigen::MatrixXd::Zero(size, size)};
    const auto set = [&](int row, int column, double value) {
        const auto slot = std::size_t(matrix.pattern.slot(row, column));
        matrix.values.resize(matrix.pattern.valueCount(), 0.0);
        matrix.values[slot] = value;
        matrix.dense(row, column) = value;
    };
    // Conductances as a circuit stamps them, and a few voltage-defined branches without a diagonal entry.
    for (int k = 0; k < size; ++k) {
        set(k, k, std::pow(10.0, exponent(random)));
    }
    for (int k = 0; k < 2 * size; ++k) {
        set(place(random), place(random), -std::pow(10.0, exponent(random)));
    }
    for (int k = 0; k + 1 < size; k += 7) {
        set(k, k, 0.0);
        set(k, k + 1, 1.0);
        set(k + 1, k, 1.0);
    }
    return matrix;
}

TEST(SparseLu, AgreesWithADenseLibraryOnRandomMatrices) {
    std::mt19937 random(20261124);
    for (int trial = 0; trial < 200; ++trial) {
        const int size = 3 + trial % 40;
        const RandomMatrix matrix = randomMatrix(size, random);
        SparseLu<double> lu;
        const Eigen::FullPivLU<Eigen::MatrixXd> dense(matrix.dense);
        if (dense.rank() < size) {
            continue;
        }
        ASSERT_EQ(lu.analyse(matrix.pattern, matrix.values), -1);
        ASSERT_TRUE(lu.factor(matrix.values));
        const Eigen::VectorXd b = Eigen::VectorXd::Random(size);
        std::vector<double> x(b.data(), b.data() + size);
        x.push_back(0.0);
        lu.solve(x);
        const Eigen::VectorXd ours = Eigen::Map<Eigen::VectorXd>(x.data(), size);
        const double scale = matrix.dense.cwiseAbs().maxCoeff() * ours.cwiseAbs().maxCoeff();
        EXPECT_LT((matrix.dense * ours - b).cwiseAbs().maxCoeff(), 1e-9 * scale + 1e-12) << "trial " << trial;
    }
}

TEST(SparseLu, SeveralRightHandSidesAreSolvedAsOne) {
    std::mt19937 random(7);
    const RandomMatrix matrix = randomMatrix(20, random);
    SparseLu<double> lu;
    ASSERT_EQ(lu.analyse(matrix.pattern, matrix.values), -1);
    ASSERT_TRUE(lu.factor(matrix.values));
    constexpr std::size_t count = 5;
    std::vector<double> many(21 * count);
    for (std::size_t k = 0; k < 20 * count; ++k) {
        many[k] = std::sin(double(k));
    }
    std::vector<double> one(21);
    for (std::size_t row = 0; row < 20; ++row) {
        one[row] = many[row * count + 3];
    }
    lu.solveMany(many, count);
    lu.solve(one);
    for (std::size_t row = 0; row < 20; ++row) {
        EXPECT_DOUBLE_EQ(many[row * count + 3], one[row]);
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

}  // namespace
}  // namespace ohmwright

/// Pivot orders of one topology, found once for each kind of analysis and shared by all its circuits.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/solve/equations.h"
#include "core/solve/sparse_order.h"

#include <memory>
#include <mutex>

namespace ohmwright {

/// An order serves any values of its topology; where the values make it unsound, the analysis takes one of its own and
/// leaves this one as it is, so that the same values always give the same digits.
struct Equations::Orders {
    std::mutex mutex;
    std::shared_ptr<const EliminationOrder> rest;      ///< Bias: no charges.
    std::shared_ptr<const EliminationOrder> steps;     ///< Steps in time, what devices touch last.
    std::shared_ptr<const EliminationOrder> response;  ///< Small signals.
};

}  // namespace ohmwright

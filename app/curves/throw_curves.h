/// The other throws of the switches that a plan fits: curves beside now, which is the throw that stands.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/consequences.h"

#include <QString>

#include <vector>

namespace ohmwright {

struct ThrowCurve {
    QString name;  ///< "LED"; with two switches and more "D LED".
    ResponseCurve response;
};

/// In the order of switches and throws, without those that stand.
std::vector<ThrowCurve> otherThrows(const std::vector<SwitchAnswer>& switches, const Plan& plan);
/// "silicon" of the throws that stand, one a switch; empty without a switch.
QString standingThrows(const std::vector<SwitchAnswer>& switches, const Plan& plan);

}  // namespace ohmwright

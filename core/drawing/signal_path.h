/// Which way the signal goes: from net to net, through series of parts and through devices.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/branches.h"

#include <functional>
#include <optional>

namespace ohmwright {

/// A way from one net to another.
struct SignalStep {
    enum class Through {
        branch,  ///< index into the branches
        device,  ///< index into Circuit::parts
        law,     ///< no drawn connection: a coupling, or a source that names what it follows; index of that part
    };
    NetName from, to;
    Through through = Through::branch;
    std::size_t index = 0;
    double length = 1.0;  ///< Short where the signal goes on, long where it comes back.
};

/// All steps between nets that are no rails. A device leads from its input to its outputs; backwards only by a detour.
std::vector<SignalStep> signalSteps(const Circuit& circuit, const Rails& rails, const std::vector<Branch>& branches);

/// The shortest way from `from` to a net that `isGoal`; where there is none, to the net that is farthest off.
/// Steps that are not `allowed` are passed over. Empty when no step leads away.
std::vector<SignalStep> shortestWay(const std::vector<SignalStep>& steps, const NetName& from,
                                    const std::function<bool(const NetName&)>& isGoal,
                                    const std::function<bool(const SignalStep&)>& allowed);

}  // namespace ohmwright

/// What of a job names nets of its stock circuit: it follows when the drawing gives them other names.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/job.h"

#include <map>

namespace ohmwright {

/// Plan, readings and corrections name nets by the name that they have now: a rename, or a net that went up into
/// another one. Departures stay as they left.
/// @param goneInto  old name to new one; Edited::goneInto.
void followNets(Job& job, const std::map<NetName, NetName>& goneInto);

/// `net` under the name that it has now.
NetName followed(const NetName& net, const std::map<NetName, NetName>& goneInto);

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/verbs.h"
#include "core/base/text.h"
#include "core/files/netlist.h"

namespace ohmwright {

std::string exportNetlist(const PreparedCircuit& prepared, const Request& request) {
    std::string title = oneLine(prepared.title);
    if (prepared.job) {
        const std::string variant = request.variant.empty() ? "stock" : oneLine(request.variant);
        title += (title.empty() ? "" : ", ") + variant;
    }
    return writeNetlist(prepared.circuit, prepared.setting, title);
}

}  // namespace ohmwright

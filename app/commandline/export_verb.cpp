// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/verbs.h"
#include "core/files/netlist.h"

namespace ohmwright {

namespace {

std::string withoutLineEnds(std::string text) {
    for (char& c : text)
        if (static_cast<unsigned char>(c) < 0x20) c = ' ';
    return text;
}

}  // namespace

std::string exportNetlist(const PreparedCircuit& prepared, const Request& request) {
    std::string title = withoutLineEnds(prepared.title);
    if (prepared.job) {
        const std::string variant = request.variant.empty() ? "stock" : withoutLineEnds(request.variant);
        title += (title.empty() ? "" : ", ") + variant;
    }
    return writeNetlist(prepared.circuit, prepared.setting, title);
}

}  // namespace ohmwright

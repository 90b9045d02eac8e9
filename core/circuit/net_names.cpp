// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/net_names.h"

#include "core/base/said.h"

#include <algorithm>

namespace ohmwright {

std::string netNameFault(const NetName& name) {
    const bool isWord = !name.empty() && name.find_first_of(" \t\n()=,;*{}\"'") == std::string::npos;
    return isWord ? std::string() : said("A net's name is one word of letters, digits and signs such as _ or -.");
}

std::string newNetFault(const Circuit& circuit, const NetName& name) {
    const bool isThere = std::any_of(circuit.parts.begin(), circuit.parts.end(), [&name](const Part& part) {
        return std::find(part.nets.begin(), part.nets.end(), name) != part.nets.end();
    });
    return isThere && !name.empty() ? std::string() : netNameFault(name);
}

}  // namespace ohmwright

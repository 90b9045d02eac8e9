// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/device_corners.h"

#include <algorithm>
#include <cstddef>

namespace ohmwright {

namespace {

constexpr std::size_t mostApart = 4;

void set(Circuit& circuit, const std::string& name, const std::map<std::string, double>& parameters) {
    for (Model& model : circuit.models) {
        if (model.name == name) {
            for (const auto& [parameter, value] : parameters) {
                model.parameters[parameter] = value;
            }
        }
    }
}

bool isUsed(const Circuit& circuit, const std::string& model) {
    return std::any_of(circuit.parts.begin(), circuit.parts.end(),
                       [&](const Part& part) { return part.model == model; });
}

}  // namespace

std::vector<DeviceSpread> deviceSpreads(const Circuit& circuit) {
    std::vector<DeviceSpread> spreads;
    for (const Model& model : circuit.models) {
        if (model.corners.empty()) {
            continue;
        }
        DeviceSpread spread{model.name, {}};
        for (const ModelCorner& corner : model.corners) {
            spread.ends.push_back(corner.parameters);
        }
        spreads.push_back(std::move(spread));
    }
    return spreads;
}

std::vector<Circuit> deviceCorners(const Circuit& circuit, const std::vector<DeviceSpread>& spreads) {
    std::vector<Circuit> circuits{circuit};
    std::size_t apart = 0;
    for (const DeviceSpread& spread : spreads) {
        if (spread.ends.empty() || !isUsed(circuit, spread.model)) {
            continue;
        }
        if (++apart > mostApart) {
            for (std::size_t n = 1; n < circuits.size(); ++n) {
                set(circuits[n], spread.model, spread.ends[n % spread.ends.size()]);
            }
            continue;
        }
        const std::size_t known = circuits.size();
        for (const auto& end : spread.ends) {
            for (std::size_t n = 0; n < known; ++n) {
                circuits.push_back(circuits[n]);
                set(circuits.back(), spread.model, end);
            }
        }
    }
    return circuits;
}

}  // namespace ohmwright

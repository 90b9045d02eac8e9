// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/probes.h"

#include "core/base/number_text.h"
#include "core/base/said.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

constexpr int decimals = 2;  // volts as the meter shows them

bool isDevice(PartKind kind) {
    switch (kind) {
        case PartKind::bipolar:
        case PartKind::opamp:
        case PartKind::jfet:
        case PartKind::mosfet:
        case PartKind::triode:
        case PartKind::pentode:
            return true;
        default:
            return false;
    }
}

bool isReadFirst(const Circuit& circuit, const NetName& net) {
    const auto isAt = [&net](const Part& part) {
        return std::find(part.nets.begin(), part.nets.end(), net) != part.nets.end();
    };
    const bool isAtPin = std::any_of(circuit.parts.begin(), circuit.parts.end(), [&](const Part& part) {
        return (isDevice(part.kind) || part.id == circuit.ports.battery) && isAt(part);
    });
    return isAtPin || std::any_of(circuit.drawing.flags.begin(), circuit.drawing.flags.end(), [&net](const Flag& flag) {
               return flag.kind == FlagKind::supply && flag.net == net;
           });
}

std::optional<double> voltsAt(const std::vector<std::pair<NetName, double>>& volts, const NetName& net) {
    const auto found = std::find_if(volts.begin(), volts.end(), [&net](const auto& each) { return each.first == net; });
    return found == volts.end() || !std::isfinite(found->second) ? std::nullopt : std::optional(found->second);
}

}  // namespace

bool NetVolts::differs() const {
    return stockVolts && nowVolts && formatFixed(*stockVolts, decimals) != formatFixed(*nowVolts, decimals);
}

NetVolts probeAt(const Circuit& stock, const std::vector<std::pair<NetName, double>>& stockVolts,
                 const std::vector<std::pair<NetName, double>>& nowVolts, const NetName& net) {
    return {net, voltsAt(stockVolts, net), voltsAt(nowVolts, net), isReadFirst(stock, net)};
}

std::vector<NetVolts> probesOf(const Circuit& stock, const std::vector<std::pair<NetName, double>>& stockVolts,
                               const std::vector<std::pair<NetName, double>>& nowVolts) {
    std::vector<NetName> nets;
    for (const Part& part : stock.parts) {
        for (const NetName& net : part.nets) {
            if (net != groundNet && std::find(nets.begin(), nets.end(), net) == nets.end()) {
                nets.push_back(net);
            }
        }
    }
    std::vector<NetVolts> probes;
    for (const NetName& net : nets) {
        NetVolts probe = probeAt(stock, stockVolts, nowVolts, net);
        if (probe.stockVolts || probe.nowVolts) {
            probes.push_back(std::move(probe));
        }
    }
    std::stable_partition(probes.begin(), probes.end(), [](const NetVolts& probe) { return probe.isDevicePin; });
    return probes;
}

std::string probeText(const NetVolts& probe) {
    if (!probe.stockVolts && !probe.nowVolts) {
        return said("none");
    }
    std::string text;
    if (probe.differs()) {
        text.append(formatFixed(*probe.stockVolts, decimals)).append(" → ");
    }
    return text.append(formatFixed(probe.nowVolts ? *probe.nowVolts : *probe.stockVolts, decimals)).append(" V");
}

}  // namespace ohmwright

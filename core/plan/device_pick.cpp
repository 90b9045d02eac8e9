// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/device_pick.h"

#include "core/base/decibels.h"
#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/base/value_text.h"
#include "core/measure/solved_circuit.h"
#include "core/solve/response.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <span>

namespace ohmwright {

namespace {

constexpr double gainHertz = 1000.0;
constexpr double smallestLoad = 10.0;
constexpr double largestLoad = 10e6;
constexpr double loadShare = 1e-7;

enum Pin : std::size_t { outputPin = 0, controlPin = 1, commonPin = 2 };

Error wrong(const std::string& sentence, const PartId& part) {
    return {ErrorCode::invalidInput, sentence, part};
}

/// Drop over the load over the drop over the device.
double balanceOf(const SolvedCircuit& solved, const Part& load, const Part& device) {
    const double overLoad = std::abs(solved.biasVolts(load.nets[0]) - solved.biasVolts(load.nets[1]));
    const double overDevice =
        std::abs(solved.biasVolts(device.nets[outputPin]) - solved.biasVolts(device.nets[commonPin]));
    return overLoad / overDevice;
}

Result<double> stageGainDb(const Circuit& circuit, const SolvedCircuit& solved, const PartId& part,
                           const std::stop_token& stop) {
    const Stage* stage = stageOfPart(circuit, part);
    if (stage == nullptr || stage->input.empty() || stage->output.empty()) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    const auto gains = frequencyResponse(*solved.equations, *solved.bias, {stage->output, stage->input},
                                         std::span(&gainHertz, 1), stop);
    if (!gains) {
        return gains.error();
    }
    return amplitudeDb(std::abs((*gains)[0][0] / (*gains)[1][0]));
}

/// The circuit with a model of its own for one part.
Circuit withDevice(const Circuit& circuit, const PartId& part, Model model) {
    Circuit fitted = circuit;
    model.name += " of the bag";
    findPart(fitted, part)->model = model.name;
    fitted.models.push_back(std::move(model));
    return fitted;
}

Result<DevicePick> solvePick(const Circuit& circuit, const Setting& setting, const PartId& part, DevicePick pick,
                             const std::stop_token& stop) {
    Circuit fitted = withDevice(circuit, part, pick.model);
    const Part& device = *findPart(fitted, part);
    const auto solved = solveCircuit(fitted, setting, stop);
    if (!solved) {
        return solved.error();
    }
    const auto gain = stageGainDb(fitted, *solved, part, stop);
    if (!gain) {
        return gain.error();
    }
    pick.outputVolts = solved->biasVolts(device.nets[outputPin]);
    pick.stageGainDb = *gain;
    pick.trimmedGainDb = std::numeric_limits<double>::quiet_NaN();
    pick.sentence = said("device %1: %2 %3 V, %4 dB", pick.label, said(pinName(device.kind, outputPin)),
                         formatFixed(pick.outputVolts, 2), formatFixed(pick.stageGainDb, 1));
    const PartId load = loadResistorOf(fitted, part);
    if (load.empty()) {
        return pick;
    }
    pick.balance = balanceOf(*solved, *findPart(fitted, load), device);
    const auto trimmed = trimmedLoadOhms(fitted, setting, part, stop);
    if (!trimmed) {
        return trimmed.error().code == ErrorCode::cancelled ? Result<DevicePick>(trimmed.error()) : pick;
    }
    pick.trimmedOhms = *trimmed;
    findPart(fitted, load)->value = *trimmed;
    const auto solvedTrimmed = solveCircuit(fitted, setting, stop);
    if (!solvedTrimmed) {
        return solvedTrimmed.error();
    }
    const auto trimmedGain = stageGainDb(fitted, *solvedTrimmed, part, stop);
    if (!trimmedGain) {
        return trimmedGain.error();
    }
    pick.trimmedGainDb = *trimmedGain;
    const double step = std::pow(10.0, std::floor(std::log10(*trimmed)) - 2.0);
    pick.sentence = said("%1; %2 dB with %3 as %4", pick.sentence, formatFixed(pick.trimmedGainDb, 1),
                         formatPartValue(ohms(std::round(*trimmed / step) * step)), findPart(fitted, load)->reference);
    return pick;
}

double missOf(const DevicePick& pick, const PickWish& wish) {
    if (!wish.outputVolts && !wish.stageGainDb) {
        return pick.balance > 0.0 ? std::abs(std::log(pick.balance)) : std::numeric_limits<double>::infinity();
    }
    const double volts = wish.outputVolts ? pick.outputVolts - *wish.outputVolts : 0.0;
    const double gain = wish.stageGainDb ? pick.stageGainDb - *wish.stageGainDb : 0.0;
    return std::hypot(volts, gain);
}

}  // namespace

PartId loadResistorOf(const Circuit& circuit, const PartId& id) {
    const Part* device = findPart(circuit, id);
    if (device == nullptr || device->nets.empty()) {
        return {};
    }
    const NetName& output = device->nets[outputPin];
    PartId load;
    for (const Part& part : circuit.parts) {
        const bool isAtOutput = part.kind == PartKind::resistor && (part.nets[0] == output || part.nets[1] == output);
        if (!isAtOutput) {
            continue;
        }
        const NetName& other = part.nets[0] == output ? part.nets[1] : part.nets[0];
        const bool isOwn = std::find(device->nets.begin(), device->nets.end(), other) != device->nets.end();
        if (isOwn || other == groundNet) {
            continue;
        }
        if (!load.empty()) {
            return {};
        }
        load = part.id;
    }
    return load;
}

Result<double> trimmedLoadOhms(const Circuit& circuit, const Setting& setting, const PartId& device,
                               const std::stop_token& stop) {
    Circuit trimmed = circuit;
    const PartId load = loadResistorOf(circuit, device);
    if (load.empty()) {
        return wrong(said("There is no single resistor that feeds the output of %1, so none can be trimmed.",
                          findPart(circuit, device) == nullptr ? device : displayName(*findPart(circuit, device))),
                     device);
    }
    Part& resistor = *findPart(trimmed, load);
    const Part& part = *findPart(trimmed, device);
    auto last = solveCircuit(trimmed, setting, stop);
    if (!last) {
        return last.error();
    }
    const auto balanceAt = [&](double value) -> Result<double> {
        resistor.value = value;
        auto solved = solveCircuitLike(*last, trimmed, setting, stop);
        if (!solved) {
            return solved.error();
        }
        *last = *std::move(solved);
        return balanceOf(*last, resistor, part);
    };
    double under = smallestLoad;
    double over = largestLoad;
    const auto atLowest = balanceAt(under);
    const auto atHighest = balanceAt(over);
    if (!atLowest || !atHighest) {
        return atLowest ? atHighest.error() : atLowest.error();
    }
    if (*atLowest > 1.0 || *atHighest < 1.0) {
        return Error{ErrorCode::noConvergence,
                     said("No value of %1 puts %2 half way.", displayName(resistor), displayName(part)), load};
    }
    while (over / under > 1.0 + loadShare) {
        const double middle = std::sqrt(under * over);
        const auto balance = balanceAt(middle);
        if (!balance) {
            return balance.error();
        }
        (*balance < 1.0 ? under : over) = middle;
    }
    return std::sqrt(under * over);
}

Result<std::vector<DevicePick>> pickDevices(const Circuit& circuit, const Setting& setting, const PartId& id,
                                            const Drawer& drawer, const PickWish& wish, const std::string& lotId,
                                            const std::stop_token& stop) {
    const Part* part = findPart(circuit, id);
    if (part == nullptr || (part->kind != PartKind::jfet && part->kind != PartKind::bipolar)) {
        return wrong(said("Only transistors and JFETs are picked out of a bag: choose one."), id);
    }
    const Model* type = findModel(circuit, part->model);
    if (type == nullptr) {
        return wrong(said("%1 has no type in the circuit.", displayName(*part)), id);
    }
    std::vector<DevicePick> picks;
    for (const DrawerLot& lot : drawer.lots) {
        const bool isWanted = lotId.empty() ? lot.kind == part->kind : lot.id == lotId;
        if (!isWanted || lot.kind != part->kind) {
            continue;
        }
        for (const MeasuredDevice& device : lot.devices) {
            DevicePick pick;
            pick.lot = lot.id;
            pick.label = device.label;
            pick.model = withMeasured(*type, device);
            auto solved = solvePick(circuit, setting, id, std::move(pick), stop);
            if (!solved) {
                return solved.error();
            }
            picks.push_back(*std::move(solved));
        }
    }
    if (picks.empty()) {
        return wrong(part->kind == PartKind::jfet
                         ? said("The drawer holds no measured JFET: measure some and write their figures beside them.")
                         : said("The drawer holds no measured transistor: measure some and write their figures beside "
                                "them."),
                     id);
    }
    std::stable_sort(picks.begin(), picks.end(),
                     [&wish](const DevicePick& a, const DevicePick& b) { return missOf(a, wish) < missOf(b, wish); });
    return picks;
}

}  // namespace ohmwright

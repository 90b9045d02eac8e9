// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/high_voltage.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/base/value_text.h"
#include "core/bench/capacitor_charging.h"
#include "core/bench/polarity.h"
#include "core/bench/unpowered_board.h"
#include "core/circuit/supply_volts.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace ohmwright {

namespace {

constexpr double waitStep = 10.0;
constexpr double longestWaitSeconds = 1e4;

bool isTubeOrHigh(const Circuit& circuit, double supply) {
    return supply > highVolts || std::any_of(circuit.parts.begin(), circuit.parts.end(), [](const Part& part) {
               return part.kind == PartKind::triode || part.kind == PartKind::pentode;
           });
}

/// When the capacitor has fallen to the volts; absent when it has not by the longest wait.
Result<std::optional<double>> fallTime(const Circuit& board, const Setting& setting,
                                       const std::map<PartId, double>& start, const Part& capacitor, double toVolts,
                                       const std::stop_token& stop) {
    std::optional<double> reached;
    double lastSeconds = 0.0;
    double lastVolts = std::abs(start.at(capacitor.id));
    const Result<void> followed = followCharging(
        board, setting, start, {1e-4, longestWaitSeconds, 1.1},
        [&](double seconds, const std::map<NetName, double>& volts) {
            const double across = std::abs(volts.at(capacitor.nets[0]) - volts.at(capacitor.nets[1]));
            if (across <= toVolts) {
                // Between two steps it falls as an exponential does.
                const double share =
                    std::log(lastVolts / toVolts) / std::log(lastVolts / std::max(across, 1e-3 * toVolts));
                reached = lastSeconds + std::clamp(share, 0.0, 1.0) * (seconds - lastSeconds);
                return false;
            }
            lastSeconds = seconds;
            lastVolts = across;
            return true;
        },
        stop);
    if (!followed) {
        return followed.error();
    }
    return reached;
}

Circuit withTool(const Circuit& board, const Part& capacitor, double ohms) {
    Circuit clipped = board;
    Part tool;
    tool.id = "discharge tool";
    tool.reference = tool.id;
    tool.kind = PartKind::resistor;
    tool.value = ohms;
    tool.nets = capacitor.nets;
    clipped.parts.push_back(std::move(tool));
    return clipped;
}

std::string resistanceWords(double ohms) {
    constexpr double kilo = 1e3;
    return formatFixed(ohms / kilo, 0) + " kΩ";
}

std::string secondsText(double seconds) {
    return formatFixed(seconds, seconds < 10.0 ? 1 : 0) + " s";
}

std::string sentenceOf(const Circuit& circuit, const Discharge& discharge) {
    if (discharge.capacitors.empty()) {
        return said("No capacitor holds more than %1 V; measure all the same.", formatFigure(discharge.toVolts));
    }
    const DischargeTime& first = discharge.capacitors.front();
    const Part& part = *findPart(circuit, first.part);
    const std::string name = displayName(part) + " " + formatPartValue({part.value, Unit::farad});
    const std::string from = formatFigure(first.fromVolts);
    const std::string to = formatFigure(discharge.toVolts);
    const std::string time = secondsText(first.withToolSeconds);
    const std::string tool = resistanceWords(discharge.toolOhms);
    const std::string wait = formatFixed(discharge.waitSeconds, 0);
    return first.byItselfSeconds
               ? said("%1: %2 V, under %3 V after %4 through %5 (%6 by itself). Wait %7 s, then measure.", name, from,
                      to, time, tool, secondsText(*first.byItselfSeconds), wait)
               : said(
                     "%1: %2 V, under %3 V after %4 through %5 (by itself it stays charged). Wait %6 s, then "
                     "measure.",
                     name, from, to, time, tool, wait);
}

}  // namespace

double toolWatts(double ohms, double supplyVolts) {
    constexpr double margin = 2.0;
    constexpr double mainsHigh = 1.1;
    constexpr std::array ratings{0.25, 0.5, 1.0, 2.0, 3.0, 5.0, 7.0, 10.0, 15.0, 20.0, 25.0, 50.0, 100.0};
    const double volts = mainsHigh * supplyVolts;
    const double needed = margin * volts * volts / ohms;
    const auto* rating = std::lower_bound(ratings.begin(), ratings.end(), needed);
    return rating != ratings.end() ? *rating : std::ceil(needed);
}

std::string toolWords(double ohms, double supplyVolts) {
    const std::string resistance = resistanceWords(ohms);
    return supplyVolts > highVolts ? said("%1, %2 W or more, its clips insulated for that voltage,", resistance,
                                          formatFixed(toolWatts(ohms, supplyVolts), 0))
                                   : resistance;
}

std::string highVoltageWords(const Circuit& circuit, const Setting& setting,
                             const std::vector<std::pair<NetName, double>>& biasVolts) {
    const double supply = highestSupplyVolts(circuit, setting);
    const std::string most = said("up to %1 V", formatFixed(supply, 0));
    const Part* holder = nullptr;
    double held = 0.0;
    for (const Part& part : circuit.parts) {
        const bool isGrounded = std::find(part.nets.begin(), part.nets.end(), groundNet) != part.nets.end();
        if (part.kind != PartKind::capacitor || !isGrounded) {
            continue;
        }
        for (const auto& [net, volts] : biasVolts) {
            const bool isAtPart = std::find(part.nets.begin(), part.nets.end(), net) != part.nets.end();
            if (isAtPart && std::abs(volts) > held) {
                held = std::abs(volts);
                holder = &part;
            }
        }
    }
    const bool isLower = holder != nullptr && held > highVolts && std::lround(held) < std::lround(supply);
    return isLower ? said("%1, %2 V on %3 in use", most, formatFixed(held, 0), holder->reference) : most;
}

Result<Discharge> dischargeOf(const Circuit& circuit, const Setting& setting, const std::stop_token& stop) {
    Discharge discharge;
    discharge.supplyVolts = highestSupplyVolts(circuit, setting);
    discharge.isHighVoltage = isTubeOrHigh(circuit, discharge.supplyVolts);
    discharge.toolOhms = discharge.isHighVoltage ? highVoltageToolOhms : batteryToolOhms;
    discharge.toVolts = discharge.isHighVoltage ? touchVolts : meterVolts;

    const Result<DutyTable> duties = dutiesOf({circuit}, setting, {}, stop);
    if (!duties) {
        return duties.error();
    }
    std::map<PartId, double> start;
    for (const CapacitorDuty& duty : duties->capacitors) {
        start[duty.part] = std::abs(duty.high) > std::abs(duty.low) ? duty.high : duty.low;
    }
    const Circuit board = unpoweredBoard(circuit);
    const Setting own = boardSetting(board, setting);

    // Those that hold the supply: the largest energy, and what comes near it.
    std::vector<std::pair<double, const Part*>> holders;
    for (const Part& part : board.parts) {
        if (part.kind == PartKind::capacitor && std::abs(start[part.id]) > discharge.toVolts) {
            holders.emplace_back(0.5 * part.value * start[part.id] * start[part.id], &part);
        }
    }
    std::stable_sort(holders.begin(), holders.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    constexpr double worthNaming = 0.05;
    constexpr std::size_t mostNamed = 3;
    for (const auto& [joules, part] : holders) {
        if (discharge.capacitors.size() >= mostNamed || joules < worthNaming * holders.front().first) {
            break;
        }
        const auto withTheTool =
            fallTime(withTool(board, *part, discharge.toolOhms), own, start, *part, discharge.toVolts, stop);
        if (!withTheTool) {
            return withTheTool.error();
        }
        const auto byItself = fallTime(board, own, start, *part, discharge.toVolts, stop);
        if (!byItself) {
            return byItself.error();
        }
        discharge.capacitors.push_back({part->id, std::abs(start[part->id]), discharge.toVolts,
                                        withTheTool->value_or(longestWaitSeconds), *byItself});
        discharge.waitSeconds =
            std::max(discharge.waitSeconds, waitStep * std::ceil(withTheTool->value_or(longestWaitSeconds) / waitStep));
    }
    discharge.waitSeconds = std::max(discharge.waitSeconds, waitStep);
    discharge.sentence = sentenceOf(circuit, discharge);
    return discharge;
}

std::vector<Caution> cautionsOf(const Circuit& circuit, const Setting& setting) {
    std::vector<Caution> cautions;
    const double supply = highestSupplyVolts(circuit, setting);
    if (isTubeOrHigh(circuit, supply)) {
        cautions.push_back({said("High voltage:"),
                            said("%1 V can kill: plug out, discharge, measure before every touch; one hand, nobody "
                                 "alone; only trained or licensed people.",
                                 formatFixed(supply, 0))});
    }
    const std::string tool = toolWords(isTubeOrHigh(circuit, supply) ? highVoltageToolOhms : batteryToolOhms, supply);
    cautions.push_back(
        {said("Before the iron:"),
         supply > highVolts
             ? said("plug and leads out; capacitors hold their charge: discharge through %1 then measure.", tool)
             : said("leads and supply out; capacitors hold their charge: discharge through %1, then measure.", tool)});
    cautions.push_back({said("Fumes:"), said("ventilate; do not breathe flux smoke.")});
    cautions.push_back({said("Lead solder:"), said("wash hands before food or smoke.")});
    cautions.push_back({said("Eyes:"), said("glasses on when cutting leads or soldering.")});
    cautions.push_back({said("Hot iron:"), said("into its stand; joints stay hot.")});
    cautions.push_back({said("ESD:"), said("wrist strap on before touching a chip.")});
    cautions.push_back({said("Old parts:"), said("into the customer's bag.")});
    cautions.push_back(
        {said("Law:"),
         said("mains or valve voltages only by licensed or suitably trained people; follow local codes.")});
    return cautions;
}

}  // namespace ohmwright

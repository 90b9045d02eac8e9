// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/ceiling_sums.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/measure/device_sheet.h"
#include "core/measure/diode_ceiling.h"
#include "core/solve/impedance.h"
#include "core/solve/response.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace ohmwright {

namespace {

using Diodes = std::vector<const Part*>;

/// Of the volts that drive a node: to a millionth of a millionth.
constexpr int halvings = 40;

bool touches(const Part& part, const NetName& net) {
    return std::find(part.nets.begin(), part.nets.end(), net) != part.nets.end();
}

/// The diode that goes on from a joint of two diodes and nothing else.
const Part* nextDiode(const Circuit& circuit, const Part& diode, bool isForward) {
    const NetName& joint = diode.nets[isForward ? 1 : 0];
    const Part* next = nullptr;
    for (const Part& part : circuit.parts) {
        if (!touches(part, joint) || part.id == diode.id) {
            continue;
        }
        if (next != nullptr || part.kind != PartKind::diode || part.nets[isForward ? 0 : 1] != joint) {
            return nullptr;
        }
        next = &part;
    }
    return next;
}

/// Chains of diodes from a net that carry current away from it (forward) or towards it.
std::vector<Diodes> chainsFrom(const Circuit& circuit, const NetName& net, bool isForward) {
    std::vector<Diodes> chains;
    for (const Part& part : circuit.parts) {
        if (part.kind != PartKind::diode || part.nets[isForward ? 0 : 1] != net) {
            continue;
        }
        chains.push_back({&part});
        while (chains.back().size() <= circuit.parts.size()) {
            const Part* next = nextDiode(circuit, *chains.back().back(), isForward);
            if (next == nullptr) {
                break;
            }
            chains.back().push_back(next);
        }
    }
    return chains;
}

const NetName& farEnd(const Diodes& chain, bool isForward) {
    return chain.back()->nets[isForward ? 1 : 0];
}

double ceilingVolts(const SumBench& bench, const Diodes& chain, double amperes) {
    double volts = 0.0;
    for (const Part* diode : chain) {
        volts +=
            diodeCeilingVolts(*findModel(bench.circuit(), diode->model), amperes, bench.setting().temperatureKelvin);
    }
    return volts;
}

/// Down to attoamperes, as light-emitting diodes have them.
std::string saturationText(double amperes) {
    if (amperes >= 1e-12) {
        return amperesText(amperes);
    }
    const bool isFemto = amperes >= 1e-15;
    return formatFigure(amperes * (isFemto ? 1e15 : 1e18)) + (isFemto ? " fA" : " aA");
}

/// "1.75·25.9 mV·ln(6.91 µA/2.52 nA)", a term a diode.
std::string ceilingText(const SumBench& bench, const Diodes& chain, double amperes) {
    const double thermal = thermalVoltsAt(bench.setting().temperatureKelvin);
    std::string terms;
    for (const Part* diode : chain) {
        const DiodeSheet sheet = diodeSheet(*findModel(bench.circuit(), diode->model));
        terms += (terms.empty() ? "" : " + ") + formatFigure(sheet.emission) + "·" + formatFigure(1e3 * thermal) +
                 " mV·ln(" + amperesText(amperes) + "/" + saturationText(sheet.saturationAmperes) + ")";
    }
    return terms;
}

Result<void> addCeiling(SumBench& bench, bool isPositive, const Diodes& chain, double amperes,
                        const std::string& current, const std::string& currentText, const std::string& why) {
    Sum sum = emptySum(isPositive ? "clip_level_positive" : "clip_level_negative",
                       isPositive ? said("diode ceiling, + half-wave") : said("diode ceiling, − half-wave"),
                       "n·Vt·ln(i/Is), i = " + current, "V");
    sum.withValues = ceilingText(bench, chain, amperes) + ", i = " + currentText;
    sum.result = (isPositive ? 1.0 : -1.0) * ceilingVolts(bench, chain, amperes);
    for (const Part* diode : chain) {
        sum.parts.push_back(diode->id);
    }
    const auto solved = bench.figure(isPositive ? "peak_positive" : "peak_negative");
    if (!solved) {
        return solved.error();
    }
    setSolved(sum, *solved);
    sum.approximation = why;
    bench.add(sum);
    return {};
}

/// Diodes across the feedback carry what the gain leg draws: i = Vin/|Zg|.
Result<bool> ceilingsOfFeedback(SumBench& bench) {
    const auto leg =
        findGainLeg(bench.circuit(), bench.circuit().ports.clipNode, potOhmsAt(bench.circuit(), bench.setting()));
    if (!leg) {
        return false;
    }
    const Part& opamp = *findPart(bench.circuit(), leg->opamp);
    SmallSignal signal(*bench.solved().equations, *bench.solved().bias);
    const auto solution = signal.at(bench.setting().toneHz);
    if (!solution) {
        return solution.error();
    }
    const int input = bench.solved().equations->indexOfNet(opamp.nets[0]);
    const double volts = bench.setting().pickVoltsPeak * std::abs((*solution)[std::size_t(input)]);
    const double ohms = std::abs(legImpedance(*leg, bench.setting().toneHz));
    if (!(volts > 0.0)) {
        return false;
    }
    bool hasAny = false;
    for (const bool isPositive : {true, false}) {
        for (const Diodes& chain : chainsFrom(bench.circuit(), opamp.nets[2], isPositive)) {
            if (farEnd(chain, isPositive) != opamp.nets[1]) {
                continue;
            }
            const std::string text = formatFigure(1e3 * volts) + " mV/" + workedOhmsText(ohms);
            if (auto added = addCeiling(bench, isPositive, chain, volts / ohms, "Vin/|Zg|", text,
                                        said("An approximation: the clean input that rides on top and the share of the "
                                             "current that the feedback resistance takes are left out."));
                !added) {
                return added.error();
            }
            hasAny = true;
            break;
        }
    }
    return hasAny;
}

/// What drives the clip node with its diodes taken out, at the setting's tone and pick level.
struct OpenClipNode {
    double volts = 0.0;  ///< Peak.
    double ohms = 0.0;
};

Result<OpenClipNode> openClipNode(const SumBench& bench, const NetName& node) {
    std::vector<PartId> taken;
    for (const bool isForward : {true, false}) {
        for (const Diodes& chain : chainsFrom(bench.circuit(), node, isForward)) {
            std::transform(chain.begin(), chain.end(), std::back_inserter(taken),
                           [](const Part* part) { return part->id; });
        }
    }
    const Circuit without = withoutParts(bench.circuit(), taken);
    const auto solved = solveCircuit(without, bench.setting(), bench.stop());
    if (!solved) {
        return solved.error();
    }
    const int index = solved->equations->indexOfNet(node);
    const std::array<double, 1> hertz{bench.setting().toneHz};
    SmallSignal signal(*solved->equations, *solved->bias);
    const auto solution = signal.at(hertz.front());
    const auto ohms = nodeImpedance(*solved->equations, *solved->bias, index, hertz, bench.stop());
    if (!solution || !ohms) {
        return solution ? ohms.error() : solution.error();
    }
    return OpenClipNode{bench.setting().pickVoltsPeak * std::abs((*solution)[std::size_t(index)]),
                        std::abs(ohms->front())};
}

/// The volts at which a chain holds the node: where its own law at (Vo − V)/Z gives V; found by halving, since the one
/// falls while the other rises.
double heldVolts(const SumBench& bench, const Diodes& chain, const OpenClipNode& open) {
    double low = 0.0;
    double high = open.volts;
    for (int round = 0; round < halvings; ++round) {
        const double volts = (low + high) / 2.0;
        (ceilingVolts(bench, chain, (open.volts - volts) / open.ohms) > volts ? low : high) = volts;
    }
    return (low + high) / 2.0;
}

/// Diodes from the clip node to rest carry what is left of the drive: i = (Vo − V)/Z.
Result<void> ceilingsAtNode(SumBench& bench) {
    const NetName& node = bench.circuit().ports.clipNode;
    std::optional<OpenClipNode> open;
    for (const bool isPositive : {true, false}) {
        const auto chains = chainsFrom(bench.circuit(), node, isPositive);
        if (chains.empty()) {
            continue;
        }
        if (!open) {
            const auto found = openClipNode(bench, node);
            if (!found) {
                return found.error();
            }
            open = *found;
        }
        // Of several chains the one that flattens first.
        const Diodes& chain = *std::min_element(chains.begin(), chains.end(), [&](const Diodes& a, const Diodes& b) {
            return heldVolts(bench, a, *open) < heldVolts(bench, b, *open);
        });
        const double volts = heldVolts(bench, chain, *open);
        const double amperes = (open->volts - volts) / open->ohms;
        if (!(amperes > 0.0) || !(ceilingVolts(bench, chain, amperes) > 0.0)) {
            continue;  // no drive
        }
        const std::string text =
            "(" + formatFigure(open->volts) + " V − " + formatFigure(volts) + " V)/" + workedOhmsText(open->ohms);
        if (auto added =
                addCeiling(bench, isPositive, chain, amperes, "(Vo − V)/Z", text,
                           said("An approximation: Vo and Z drive the node with its diodes out, at this tone and pick "
                                "level; rails, and the capacitance at the node on the way up, are left out."));
            !added) {
            return added.error();
        }
    }
    return {};
}

}  // namespace

Result<void> addCeilingSums(SumBench& bench) {
    if (bench.circuit().ports.clipNode.empty()) {
        return {};
    }
    const auto ofFeedback = ceilingsOfFeedback(bench);
    if (!ofFeedback) {
        return ofFeedback.error();
    }
    return *ofFeedback ? Result<void>() : ceilingsAtNode(bench);
}

}  // namespace ohmwright

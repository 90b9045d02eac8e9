/// Which source is the input of a netlist, and which net its output.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_log.h"

#include "core/base/said.h"

#include <algorithm>

namespace ohmwright {

namespace {

bool isSource(const Part& part) {
    return part.kind == PartKind::voltageSource || part.kind == PartKind::currentSource;
}

std::vector<Part*> sourcesWhere(Circuit& circuit, bool (*holds)(const Part&)) {
    std::vector<Part*> sources;
    for (Part& part : circuit.parts) {
        if (isSource(part) && holds(part)) {
            sources.push_back(&part);
        }
    }
    return sources;
}

std::vector<std::string> namesOf(const std::vector<Part*>& parts) {
    std::vector<std::string> names;
    std::transform(parts.begin(), parts.end(), std::back_inserter(names), [](const Part* part) { return part->id; });
    return names;
}

/// A battery: it stands still, and not at 0.
bool mayBeInput(const Part& part) {
    return part.call.empty() && (part.wave.has_value() || part.value == 0.0);
}

Result<Part*> namedInput(Circuit& circuit, std::string_view input) {
    const std::vector<Part*> all = sourcesWhere(circuit, [](const Part&) { return true; });
    const std::string wanted = inLowerCase(input);
    const auto found =
        std::find_if(all.begin(), all.end(), [&wanted](const Part* part) { return inLowerCase(part->id) == wanted; });
    if (found == all.end()) {
        return Error{
            ErrorCode::invalidInput,
            said("There is no source %1 to be the input: name one of %2.", inQuotes(input), listed(namesOf(all))),
            std::string(input)};
    }
    return *found;
}

/// The only source with an AC value, or else the only one that is no supply.
Result<Part*> likelyInput(Circuit& circuit) {
    const std::vector<Part*> driven = sourcesWhere(circuit, [](const Part& part) { return part.acAmplitude != 0.0; });
    if (driven.size() == 1) {
        return driven.front();
    }
    if (driven.size() > 1) {
        return Error{ErrorCode::invalidInput,
                     said("Several sources have an AC value: %1. Say with --input which one is the input.",
                          listed(namesOf(driven))),
                     driven[1]->id};
    }
    const std::vector<Part*> still = sourcesWhere(circuit, mayBeInput);
    if (still.size() == 1) {
        return still.front();
    }
    const std::vector<Part*> all = sourcesWhere(circuit, [](const Part&) { return true; });
    if (all.size() == 1 && all.front()->call.empty()) {
        return all.front();
    }
    return Error{
        ErrorCode::invalidInput,
        said(
            "No source has an AC value, so the input is not known: say it with --input (%1) or write AC 1 on its card.",
            listed(namesOf(all))),
        {}};
}

/// The net as the circuit spells it; every net that a part has, inner ones too.
Result<NetName> namedOutput(const Netlist& netlist, std::string_view output) {
    const std::string wanted = inLowerCase(output.empty() ? std::string_view("out") : output);
    for (const Part& part : netlist.circuit.parts) {
        for (const NetName& net : part.nets) {
            if (inLowerCase(net) == wanted && net != groundNet) {
                return net;
            }
        }
    }
    if (wanted == groundNet || wanted == "gnd") {
        return Error{ErrorCode::invalidInput, said("Ground cannot be the output: name another net with --output."),
                     std::string(output)};
    }
    return Error{ErrorCode::invalidInput,
                 said("There is no net %1 to be the output: name one with --output, such as %2.",
                      inQuotes(wanted == "out" ? "out" : output), listed(netlist.topNets)),
                 wanted};
}

}  // namespace

Result<void> choosePorts(Netlist& netlist, std::string_view input, std::string_view output) {
    Result<Part*> source = input.empty() ? likelyInput(netlist.circuit) : namedInput(netlist.circuit, input);
    if (!source) {
        return source.error();
    }
    const Result<NetName> net = namedOutput(netlist, output);
    if (!net) {
        return net.error();
    }
    if ((*source)->acAmplitude == 0.0) {
        (*source)->acAmplitude = 1.0;
    }
    netlist.circuit.ports.source = (*source)->id;
    netlist.circuit.ports.output = *net;
    return {};
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/model_notes.h"

#include "core/base/said.h"

#include <algorithm>
#include <initializer_list>

namespace ohmwright {

namespace {

bool hasAny(const Circuit& circuit, std::initializer_list<PartKind> kinds) {
    return std::any_of(circuit.parts.begin(), circuit.parts.end(), [kinds](const Part& part) {
        return std::find(kinds.begin(), kinds.end(), part.kind) != kinds.end();
    });
}

bool isOfLargeSignals(CurveKind kind) {
    return kind == CurveKind::clip || kind == CurveKind::ladder || kind == CurveKind::harmonics ||
           kind == CurveKind::wave;
}

}  // namespace

std::string modelNotes(CurveKind kind, const Circuit& stock, const Circuit& now) {
    const auto has = [&](std::initializer_list<PartKind> kinds) { return hasAny(stock, kinds) || hasAny(now, kinds); };
    std::string notes;
    const auto add = [&notes](const std::string& sentence) { notes.append(notes.empty() ? "" : " ").append(sentence); };
    if (isOfLargeSignals(kind) && has({PartKind::opamp})) {
        add(said("The op-amp's model knows no crossover and no common-mode limit."));
    }
    if (isOfLargeSignals(kind) && has({PartKind::triode, PartKind::pentode})) {
        add(said("A valve's grid current is approximate."));
    }
    if (kind == CurveKind::noise && has({PartKind::diode, PartKind::bipolar, PartKind::jfet, PartKind::mosfet,
                                         PartKind::triode, PartKind::pentode, PartKind::opamp})) {
        add(said("The models have no flicker noise."));
    }
    return notes;
}

}  // namespace ohmwright

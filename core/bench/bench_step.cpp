// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/bench_step.h"

namespace ohmwright {

std::string_view stepWords(StepKind kind) {
    switch (kind) {
        case StepKind::photograph:
            return "photograph";
        case StepKind::discharge:
            return "discharge";
        case StepKind::takeOut:
            return "take out";
        case StepKind::moveLeg:
            return "move leg";
        case StepKind::fit:
            return "fit";
        case StepKind::reading:
            return "reading";
        case StepKind::stop:
            return "stop";
        case StepKind::powerUp:
            return "power up";
        case StepKind::probe:
            return "probe";
        case StepKind::tone:
            return "tone";
    }
    return {};
}

bool isBeeper(const BenchStep& step) {
    return step.check && isBeeper(step.check->kind);
}

}  // namespace ohmwright

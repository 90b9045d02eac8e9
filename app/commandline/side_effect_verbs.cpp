// Verbs about what a plan upsets.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/verbs.h"
#include "core/plan/side_effects.h"

namespace ohmwright {

namespace {

Cell cellOf(const std::optional<double>& value) {
    return value ? Cell(*value) : Cell();
}

}  // namespace

Result<Answer> answerSideEffects(const PreparedCircuit& prepared, const Request&, const std::stop_token& stop) {
    const auto effects = findSideEffects(*prepared.job, {}, stop);
    if (!effects) return effects.error();
    Table table{{"effect", "stock", "now", "limit", "margin", "unit", "state", "sentence"}, {}};
    for (const SideEffect& effect : *effects)
        table.rows.push_back({effect.id, cellOf(effect.stock), cellOf(effect.now), cellOf(effect.limit),
                              cellOf(effect.margin), effect.unit, std::string(effectStateWord(effect.state)),
                              effect.sentence});
    return Answer{{table}, {}, {}};
}

}  // namespace ohmwright

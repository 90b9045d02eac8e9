// Verbs about what a plan upsets.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/job_drawer.h"
#include "app/commandline/verbs.h"
#include "core/plan/side_effects.h"
#include "core/plan/throws.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

Cell cellOf(const std::optional<double>& value) {
    return value ? Cell(*value) : Cell();
}

Cell figureCell(const std::vector<Figure>& figures, std::string_view id) {
    const Figure* figure = findFigure(figures, id);
    return figure == nullptr ? Cell() : cellOf(figure->value);
}

/// What makes the loudest throw as loud as the quietest; empty where no resistor does.
std::string trimNote(const std::vector<ThrowCircuit>& throws, const ThrowTable& table, const Setting& setting,
                     const std::stop_token& stop) {
    std::size_t loud = 0;
    std::size_t quiet = 0;
    for (std::size_t k = 0; k < table.throws.size(); ++k) {
        loud = table.throws[k].jumpDb > table.throws[loud].jumpDb ? k : loud;
        quiet = table.throws[k].jumpDb < table.throws[quiet].jumpDb ? k : quiet;
    }
    const auto trim = trimLevel(throws[loud], throws[quiet], setting, stop);
    return trim ? trim->sentence : "";
}

}  // namespace

Result<Answer> answerSideEffects(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    const Result<Shop> shop = readCallShop(request);
    if (!shop) return shop.error();
    SideEffectOptions options;
    options.limits = shop->limits;
    const auto effects = findSideEffects(*prepared.job, options, stop);
    if (!effects) return effects.error();
    Table table{{"effect", "stock", "now", "limit", "margin", "unit", "state", "sentence"}, {}};
    for (const SideEffect& effect : *effects)
        table.rows.push_back({effect.id, cellOf(effect.stock), cellOf(effect.now), cellOf(effect.limit),
                              cellOf(effect.margin), effect.unit, std::string(effectStateWord(effect.state)),
                              effect.sentence});
    return Answer{{table}, {}, {}};
}

Result<Answer> answerThrows(const PreparedCircuit& prepared, const Request&, const std::stop_token& stop) {
    const auto throws = throwCircuits(*prepared.job);
    if (!throws) return throws.error();
    const auto table = readThrows(*throws, prepared.setting, stop);
    if (!table) return table.error();
    Table levels{{"throw", "level_dbv", "jump_db", "peak_positive_v", "peak_negative_v", "thd_percent"}, {}};
    for (const ThrowReading& one : table->throws)
        levels.rows.push_back({one.name, figureCell(one.figures, "level"),
                               std::isfinite(one.jumpDb) ? Cell(one.jumpDb) : Cell(),
                               figureCell(one.figures, "peak_positive"), figureCell(one.figures, "peak_negative"),
                               figureCell(one.figures, "thd")});
    Table steps{{"from", "to", "part", "step_v"}, {}};
    for (const ContactStep& step : table->steps) steps.rows.push_back({step.from, step.to, step.part, step.volts});
    Answer answer{{levels, steps}, {}, {}};
    for (const ContactStep& step : table->steps) answer.notes.push_back(step.sentence);
    if (const std::string note = trimNote(*throws, *table, prepared.setting, stop); !note.empty())
        answer.notes.push_back(note);
    return answer;
}

}  // namespace ohmwright

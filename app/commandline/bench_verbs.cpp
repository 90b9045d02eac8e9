// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/verbs.h"
#include "core/bench/order_of_work.h"
#include "core/bench/probe_card.h"

#include <string_view>
#include <utility>

namespace ohmwright {

namespace {

Cell cellOf(const std::optional<double>& value) {
    return value ? Cell(*value) : Cell();
}

std::string unitName(Unit unit) {
    return unit == Unit::ohm ? "ohm" : unitSymbol(unit);
}

/// "fit", and of a reading its check: "must beep", "ohms", "diode range".
std::string kindOf(const BenchStep& step) {
    return std::string(step.check && step.kind == StepKind::reading ? checkWords(step.check->kind)
                                                                    : stepWords(step.kind));
}

std::vector<Cell> rowOf(std::size_t number, const BenchStep& step) {
    const auto place = [&](const Probe& probe) {
        return step.check && step.check->kind != CheckKind::tone ? Cell(probe.words) : Cell();
    };
    return {static_cast<double>(number),
            step.letter,
            kindOf(step),
            step.check ? place(step.check->red) : Cell(),
            step.check ? place(step.check->black) : Cell(),
            isBeeper(step) ? Cell() : cellOf(step.low),
            isBeeper(step) ? Cell() : cellOf(step.high),
            unitName(step.unit)};
}

}  // namespace

Result<Answer> answerSteps(const PreparedCircuit& prepared, const Request&, const std::stop_token& stop) {
    Result<WorkPlan> work = orderOfWork(*prepared.job, stop);
    if (!work) return work.error();
    Table table{{"step", "mod", "kind", "red", "black", "expect_low", "expect_high", "unit"}, {}};
    std::size_t number = 0;
    for (const BenchStep& step : work->steps) table.rows.push_back(rowOf(++number, step));
    Answer answer{{std::move(table)}, {}, {}};
    for (const Caution& caution : work->cautions) answer.notes.push_back(caution.head + " " + caution.text);
    answer.notes.insert(answer.notes.end(), work->notes.begin(), work->notes.end());
    return answer;
}

Result<Answer> answerProbes(const PreparedCircuit& prepared, const Request&, const std::stop_token& stop) {
    const Result<ProbeCard> card = probeCard(prepared.circuit, prepared.job->setting, {}, stop);
    if (!card) return card.error();
    Table table{{"place", "what", "low", "nominal", "high", "unit"}, {}};
    for (const ProbeLine& line : card->lines)
        table.rows.push_back({line.place, "dc against ground", line.low, line.nominal, line.high, "V"});
    if (card->supply)
        table.rows.push_back({"supply", "current", card->supply->low, card->supply->nominal, card->supply->high, "A"});
    return Answer{{std::move(table)}, {}, {card->words}};
}

}  // namespace ohmwright

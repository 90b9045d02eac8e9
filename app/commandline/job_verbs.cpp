// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/verbs.h"
#include "core/measure/figures.h"
#include "core/plan/compare.h"

#include <algorithm>
#include <optional>

namespace ohmwright {

namespace {

Cell figureCell(const Figure& figure) {
    return figure.value ? Cell(*figure.value) : Cell();
}

std::string unitOfFigure(const std::string& id) {
    for (const FigureKind& kind : figureKinds())
        if (kind.id == id) return std::string(kind.unit);
    return {};
}

}  // namespace

Result<Answer> answerFigures(const PreparedCircuit& prepared, const Request&, const std::stop_token& stop) {
    const Result<std::vector<ComparedFigure>> figures = compareFigures(*prepared.job, stop);
    if (!figures) return figures.error();
    Table table{{"figure", "unit", "stock", "now", "change"}, {}};
    for (const ComparedFigure& figure : *figures) {
        const std::optional<double> change = changeOf(figure.stock, figure.now);
        table.rows.push_back({figure.id, unitOfFigure(figure.id), figureCell(figure.stock), figureCell(figure.now),
                              change ? Cell(*change) : Cell()});
    }
    Answer answer{{table}, {}};
    const bool hasGaps = std::any_of(figures->begin(), figures->end(), [](const ComparedFigure& figure) {
        return figure.stock.absence == notSettled || figure.now.absence == notSettled;
    });
    if (hasGaps)
        answer.notes.emplace_back(
            "Some figures are empty: the wave at their level did not settle, or a formula has no value in it. Try "
            "another level or tone.");
    return answer;
}

}  // namespace ohmwright

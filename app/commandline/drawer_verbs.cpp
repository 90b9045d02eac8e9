// Verbs that look into the drawer: what can be tried across a part, and which parts give the wanted figures.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/job_drawer.h"
#include "app/commandline/verbs.h"
#include "core/plan/pick_list.h"
#include "core/plan/targets.h"
#include "core/plan/try_on.h"

#include <algorithm>

namespace ohmwright {

namespace {

const Model* modelNamed(const Job& job, std::string_view name) {
    if (const Model* model = findModel(job.stock, name)) return model;
    for (const Mod& mod : job.plan) {
        if (const auto* swap = std::get_if<SwapType>(&mod.change); swap != nullptr && swap->model.name == name)
            return &swap->model;
        for (const NewPart* fitted : newPartsOf(mod.change))
            if (fitted->model.name == name) return &fitted->model;
    }
    return nullptr;
}

Result<Answer> tryTypeOn(const PreparedCircuit& prepared, const Part& part, const std::string& type,
                         const std::stop_token& stop) {
    const Model* model = modelNamed(*prepared.job, type);
    if (model == nullptr)
        return refuseOption("--value", "“" + type + "” is no type of this job, neither on the board nor in the plan.");
    const auto tryOn = tryOnType(prepared.circuit, prepared.setting, part.id, *model, stop);
    if (!tryOn) return tryOn.error();
    Table table{{"clip_across", "can_be_tried", "level_across_dbv", "level_swapped_dbv"}, {}};
    table.rows.push_back(
        {type, std::string(tryOn->canBeTried ? "yes" : "no"), tryOn->levelAcrossDbv, tryOn->levelSwappedDbv});
    return Answer{{table}, {}, {tryOn->sentence + ".", tryOn->caution}};
}

std::string partsText(const Circuit& circuit, const TargetAnswer& answer) {
    std::string text;
    for (const PartChoice& choice : answer.choices) {
        if (choice.stays) continue;
        const Part& part = *findPart(circuit, choice.part);
        text += (text.empty() ? "" : "; ") + part.reference + "=" + describeCombination(part.kind, choice.combination);
    }
    return text;
}

Cell figureCell(const Figure& figure) {
    return figure.value ? Cell(*figure.value) : Cell();
}

}  // namespace

Result<Answer> answerTryOn(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    const auto part = partNamed(prepared.circuit, "--part", request.part);
    if (!part) return part.error();
    if ((*part)->kind == PartKind::diode) return tryTypeOn(prepared, **part, request.value, stop);
    const auto value = readFigure("--value", request.value, unitOf((*part)->kind));
    if (!value) return value.error();
    const auto onHand = readJobDrawer(request);
    if (!onHand) return onHand.error();
    const auto tryOn = tryOnValue(prepared.circuit, prepared.setting, (*part)->id, *value,
                                  valuesFor(*onHand, (*part)->kind, *prepared.job));
    if (!tryOn) return tryOn.error();
    Table table{{tryOn->way == TryOnWay::across ? "clip_across" : "in_series", "gives"}, {}};
    for (const TryOnOffer& offer : tryOn->offers) table.rows.push_back({offer.fitted.value, offer.gives});
    Answer answer{{table}, {}, {tryOn->sentence + ".", tryOn->caution}};
    if (onHand->isAssumed()) answer.notes.push_back(onHand->note());
    return answer;
}

Result<Answer> answerTargets(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    TargetRequest target;
    for (const std::string& word : splitAtCommas(request.want)) {
        auto want = readWant(word);
        if (!want) return refuseOption("--want", want.error().message);
        target.wants.push_back(*std::move(want));
    }
    for (const std::string& name : splitAtCommas(request.parts)) {
        const auto part = partNamed(prepared.circuit, "--parts", name);
        if (!part) return part.error();
        target.parts.push_back((*part)->id);
    }
    const auto onHand = readJobDrawer(request);
    if (!onHand) return onHand.error();
    target.drawer = onHand->drawer;
    target.forJob = reservationName(*prepared.job);
    const auto list = findTargets(*prepared.job, target, stop);
    if (!list) return list.error();

    Table table{{"rank", "parts"}, {}};
    for (const Want& want : target.wants) table.columns.push_back(want.figure.id);
    table.columns.insert(table.columns.end(), {"swaps", "in_stock"});
    double rank = 0.0;
    for (const TargetAnswer& answer : list->answers) {
        std::vector<Cell> row{++rank, partsText(prepared.circuit, answer)};
        for (const Figure& figure : answer.figures) row.push_back(figureCell(figure));
        row.emplace_back(double(answer.swaps));
        row.emplace_back(std::string(answer.isInStock ? "yes" : "assumed"));
        table.rows.push_back(std::move(row));
    }
    Answer answer{{table}, {}, {}};
    if (onHand->isAssumed()) answer.notes.push_back(onHand->note());
    return answer;
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/recipe.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/base/value_text.h"
#include "core/measure/spread.h"
#include "core/plan/apply.h"
#include "core/plan/compare.h"
#include "core/plan/device_pick.h"
#include "core/plan/recipe_readings.h"

#include <algorithm>
#include <charconv>

namespace ohmwright {

namespace {

Error wrong(const std::string& sentence) {
    return {ErrorCode::invalidInput, sentence};
}

/// The device whose load resistor the part is; empty when there is none.
PartId deviceFedBy(const Circuit& circuit, const PartId& resistor) {
    for (const Part& part : circuit.parts) {
        const bool isDevice = part.kind == PartKind::jfet || part.kind == PartKind::bipolar;
        if (isDevice && loadResistorOf(circuit, part.id) == resistor) {
            return part.id;
        }
    }
    return {};
}

/// What belongs to the one unit and not to the circuit.
Circuit freedFromUnit(const Circuit& circuit) {
    Circuit freed = circuit;
    freed.drawing = {};
    for (Part& part : freed.parts) {
        part.printed.clear();
        part.boardNote.clear();
        part.knowledge = Knowledge::drawn;
        part.measured.reset();
        part.placement.reset();
    }
    return freed;
}

std::string nameOf(const Job& job) {
    std::string letters;
    for (const Mod& mod : job.plan) {
        if (mod.on) {
            letters += (letters.empty() ? "" : "+") + mod.letter;
        }
    }
    return job.unit.name.empty() ? letters : job.unit.name + " " + letters;
}

}  // namespace

Result<Trim> readTrim(const Job& job, std::string_view modLetter, std::string_view rule) {
    const auto mod = std::find_if(job.plan.begin(), job.plan.end(),
                                  [&](const Mod& each) { return each.on && each.letter == modLetter; });
    if (mod == job.plan.end()) {
        return wrong(said("No mod “%1” is on: only what is fitted can be trimmed.", modLetter));
    }
    const auto* swap = std::get_if<SwapValue>(&mod->change);
    if (swap == nullptr) {
        return wrong(said("Mod %1 swaps no value, so there is nothing to trim in it.", mod->letter));
    }
    Trim trim;
    trim.mod = mod->id;
    if (rule.find('=') != std::string_view::npos) {
        const Result<Want> want = readWant(rule);
        if (!want) {
            return want.error();
        }
        trim.wants.push_back(*want);
        return trim;
    }
    trim.device = deviceFedBy(job.stock, swap->part);
    const Part* part = findPart(job.stock, swap->part);
    if (trim.device.empty()) {
        return wrong(said("%1 feeds no transistor's or JFET's output: trim it by a figure, as in gain_leg_corner=590.",
                          part != nullptr ? displayName(*part) : swap->part));
    }
    if (rule == "half-way") {
        return trim;
    }
    double volts = 0.0;
    const auto read = std::from_chars(rule.data(), rule.data() + rule.size(), volts);
    const std::string_view rest(read.ptr, static_cast<std::size_t>(rule.data() + rule.size() - read.ptr));
    if (read.ec != std::errc() || !(rest.empty() || rest == "V" || rest == " V")) {
        return wrong(
            said("“%1” is no rule for a trim: write half-way, volts as in 4.9, or a figure as in gain_leg_corner=590.",
                 rule));
    }
    trim.outputVolts = volts;
    return trim;
}

std::string trimWords(const Circuit& circuit, const Trim& trim) {
    std::string words;
    for (const Want& want : trim.wants) {
        words += (words.empty() ? "" : ", ") + want.figure.id + " " + formatFigure(want.value) +
                 (want.figure.unit.empty() ? "" : " " + said(want.figure.unit));
    }
    const Part* device = findPart(circuit, trim.device);
    if (device == nullptr) {
        return words;
    }
    const std::string output = device->reference + " " + said(pinName(device->kind, 0));
    return trim.outputVolts ? said("%1 at %2 V", output, formatFixed(*trim.outputVolts, 2))
                            : said("%1 half way: as much drops over the part as over %2", output, device->reference);
}

Result<Recipe> takeRecipe(const Job& job, const RecipeOptions& options, const std::stop_token& stop) {
    Recipe recipe;
    recipe.name = options.name.empty() ? nameOf(job) : options.name;
    recipe.taken = options.day;
    recipe.from = job.unit;
    recipe.hash = stateHash(job);
    recipe.complaint = job.visit.complaint;
    recipe.words = job.visit.words;
    recipe.circuit = freedFromUnit(job.stock);
    std::copy_if(job.plan.begin(), job.plan.end(), std::back_inserter(recipe.plan),
                 [](const Mod& mod) { return mod.on; });
    if (recipe.plan.empty()) {
        return wrong(said("No mod is on: there is nothing to take a recipe of. Switch on what was fitted."));
    }
    recipe.setting = job.setting;
    recipe.trims = options.trims;

    Job measured = job;
    measured.stock = asMeasured(job.stock);
    const auto figures = compareFigures(measured, stop);
    if (!figures) {
        return figures.error();
    }
    for (const ComparedFigure& figure : *figures) {
        if (figure.stock.value || figure.now.value) {
            recipe.figures.push_back({figure.id, figure.stock.value, figure.now.value});
        }
    }
    auto readings = restReadings(measured, stop);
    if (!readings) {
        return readings.error();
    }
    recipe.readings = *std::move(readings);
    return recipe;
}

}  // namespace ohmwright

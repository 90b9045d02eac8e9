// Verbs of recipes: taken from a job, held against another unit, put into its plan.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/job_drawer.h"
#include "app/commandline/verbs.h"
#include "core/bench/settling_reading.h"
#include "core/files/job_file.h"
#include "core/files/recipe_file.h"
#include "core/plan/pick_list.h"
#include "core/plan/recipe.h"

namespace ohmwright {

namespace {

Cell cellOf(const std::optional<double>& value) {
    return value ? Cell(*value) : Cell();
}

/// Of another file than the one that the call is about: it names itself.
Result<Recipe> readCallRecipe(const Request& request) {
    Result<Recipe> recipe = loadRecipe(request.recipe);
    if (!recipe) return Error{ErrorCode::fileUnreadable, recipe.error().message, request.recipe};
    return recipe;
}

Result<RecipeFit> fitOf(const Recipe& recipe, const Job& job, const Request& request, const std::stop_token& stop) {
    const auto drawer = readJobDrawer(request);
    if (!drawer) return drawer.error();
    return fitRecipe(recipe, job, {drawer->drawer, reservationName(job)}, stop);
}

/// What is not as it was meant, in sentences.
std::vector<std::string> warningsOf(const RecipeFit& fit, const std::vector<SettlingReading>& settling) {
    std::vector<std::string> warnings;
    for (const RecipeMod& mod : fit.mods)
        if (mod.applied.empty()) warnings.push_back(mod.sentence);
    for (const RecipePart& part : fit.parts)
        if (part.match.certainty == MatchCertainty::likely)
            warnings.push_back("Likely, not sure: " + part.match.sentence + ".");
    for (const SettlingReading& reading : settling) warnings.push_back(reading.sentence + ".");
    return warnings;
}

}  // namespace

Result<Answer> answerRecipeCompare(const PreparedCircuit& prepared, const Request& request,
                                   const std::stop_token& stop) {
    const auto recipe = readCallRecipe(request);
    if (!recipe) return recipe.error();
    const auto fit = fitOf(*recipe, *prepared.job, request, stop);
    if (!fit) return fit.error();
    const auto settling = settlingReadings(*recipe, *fit, stop);
    if (!settling) return settling.error();
    Table parts{{"known_part", "here", "certainty", "role"}, {}};
    for (const RecipePart& part : fit->parts)
        parts.rows.push_back({part.known, part.here, std::string(certaintyWord(part.match.certainty)), part.role});
    Table mods{{"mod", "applied", "how_sure", "change"}, {}};
    for (const RecipeMod& mod : fit->mods)
        mods.rows.push_back({mod.letter, mod.applied,
                             std::string(certaintyWord(mod.applied.empty() ? MatchCertainty::none : mod.certainty)),
                             mod.sentence});
    Table differences{{"difference", "what", "unit", "there", "here_now", "sentence"}, {}};
    for (const RecipeDifference& each : fit->differences)
        differences.rows.push_back({std::string(differenceWord(each.kind)), each.what, each.unit, cellOf(each.there),
                                    cellOf(each.here), each.sentence});
    Table readings{{"red", "black", "reading_unit", "as_drawn", "as_in_recipe"}, {}};
    for (const SettlingReading& reading : *settling)
        if (!reading.red.empty())
            readings.rows.push_back({reading.red, reading.black, std::string(reading.unit == Unit::ohm ? "ohm" : "V"),
                                     cellOf(reading.asDrawn), cellOf(reading.asInRecipe)});
    return Answer{{parts, mods, differences, readings}, {}, warningsOf(*fit, *settling)};
}

Result<WrittenFile> writeRecipeTaken(const Job& job, const Request& request, const std::stop_token& stop) {
    RecipeOptions options{request.name, request.when.empty() ? dayOfToday() : request.when, {}};
    for (const std::string& text : request.trims) {
        const std::size_t sign = text.find('=');
        if (sign == std::string::npos)
            return refuseOption("--trim", "“" + text + "” has no \"=\": write MOD=RULE, as in A=half-way.");
        const auto trim = readTrim(job, text.substr(0, sign), text.substr(sign + 1));
        if (!trim) return refuseOption("--trim", trim.error().message);
        options.trims.push_back(*trim);
    }
    const auto recipe = takeRecipe(job, options, stop);
    if (!recipe) return recipe.error();
    WrittenFile file{writeRecipe(*recipe), {}};
    for (const Trim& trim : recipe->trims)
        file.notes.push_back("Solved anew for every unit: " + trimWords(recipe->circuit, trim) + ".");
    return file;
}

Result<WrittenFile> writeRecipeApplied(const Job& job, const Request& request, const std::stop_token& stop) {
    const auto recipe = readCallRecipe(request);
    if (!recipe) return recipe.error();
    const auto fit = fitOf(*recipe, job, request, stop);
    if (!fit) return fit.error();
    const auto settling = settlingReadings(*recipe, *fit, stop);
    if (!settling) return settling.error();
    return WrittenFile{writeJob(fit->job), warningsOf(*fit, *settling)};
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/recipe_file.h"

#include "core/base/said.h"
#include "core/files/circuit_format.h"
#include "core/files/file_head.h"
#include "core/files/file_stem.h"
#include "core/files/format_lists.h"
#include "core/files/named_file.h"
#include "core/files/visit_format.h"

#include <algorithm>
#include <system_error>

namespace ohmwright {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view recipeFormat = "ohmwright-recipe";

JsonNode writeWant(const Want& want) {
    JsonNode node = JsonNode::object();
    node.add("figure", JsonNode::ofText(want.figure.id));
    node.add("value", JsonNode::ofNumber(want.value));
    return node;
}

Want readWantNode(JsonReader& reader) {
    Want want;
    const std::string id = reader.text("figure");
    want.value = reader.number("value");
    if (!reader.failed()) {
        if (const Result<FigureName> figure = findFigureName(id)) {
            want.figure = *figure;
        } else {
            reader.fail(figure.error().message);
        }
    }
    reader.refuseUnknown();
    return want;
}

JsonNode writeTrim(const Trim& trim) {
    JsonNode node = JsonNode::object();
    node.add("mod", JsonNode::ofText(trim.mod));
    if (!trim.device.empty()) {
        node.add("device", JsonNode::ofText(trim.device));
    }
    if (trim.outputVolts) {
        node.add("outputVolts", JsonNode::ofNumber(*trim.outputVolts));
    }
    if (!trim.wants.empty()) {
        node.add("wants", writeList(trim.wants, writeWant));
    }
    return node;
}

Trim readTrimNode(JsonReader& reader) {
    Trim trim;
    trim.mod = reader.text("mod");
    trim.device = reader.text("device", {});
    trim.outputVolts = reader.numberIfThere("outputVolts");
    if (auto wants = reader.memberIfThere("wants")) {
        trim.wants = readList<Want>(*wants, [](JsonReader& entry, auto&) { return readWantNode(entry); });
    }
    if (!reader.failed() && trim.device.empty() == trim.wants.empty()) {
        reader.fail(said("a trim holds either a device's output or figures. Name a device or wants."));
    }
    reader.refuseUnknown();
    return trim;
}

JsonNode writeFigure(const RecipeFigure& figure) {
    JsonNode node = JsonNode::object();
    node.add("id", JsonNode::ofText(figure.id));
    if (figure.stock) {
        node.add("stock", JsonNode::ofNumber(*figure.stock));
    }
    if (figure.now) {
        node.add("now", JsonNode::ofNumber(*figure.now));
    }
    return node;
}

RecipeFigure readFigureNode(JsonReader& reader) {
    RecipeFigure figure;
    figure.id = reader.text("id");
    figure.stock = reader.numberIfThere("stock");
    figure.now = reader.numberIfThere("now");
    reader.refuseUnknown();
    return figure;
}

void requireTrimsOfMods(JsonReader& reader, const Recipe& recipe) {
    for (const Trim& trim : recipe.trims) {
        const bool isThere =
            std::any_of(recipe.plan.begin(), recipe.plan.end(), [&trim](const Mod& mod) { return mod.id == trim.mod; });
        if (!isThere && !reader.failed()) {
            reader.fail(said("a trim is of a mod \"%1\" that the recipe does not have.", trim.mod));
        }
    }
}

Recipe readMembers(JsonReader& reader) {
    Recipe recipe;
    recipe.name = reader.text("name");
    recipe.taken = reader.text("taken");
    recipe.from = readUnitNode(reader.member("from"));
    recipe.hash = reader.text("hash");
    recipe.complaint = reader.text("complaint");
    recipe.words = reader.texts("words");
    recipe.circuit = readCircuitNode(reader.member("circuit"));
    recipe.plan = readPlanNode(reader.member("plan"));
    recipe.setting = readSettingNode(reader.member("setting"));
    if (auto trims = reader.memberIfThere("trims")) {
        recipe.trims = readList<Trim>(*trims, [](JsonReader& entry, auto&) { return readTrimNode(entry); });
    }
    recipe.figures = readList<RecipeFigure>(reader.member("figures"),
                                            [](JsonReader& entry, auto&) { return readFigureNode(entry); });
    recipe.readings = readReadings(reader);
    requireTrimsOfMods(reader, recipe);
    reader.refuseUnknown();
    return recipe;
}

}  // namespace

std::string writeRecipe(const Recipe& recipe) {
    JsonNode root = writeHead(recipeFormat, recipeFileVersion);
    root.add("name", JsonNode::ofText(recipe.name));
    root.add("taken", JsonNode::ofText(recipe.taken));
    root.add("from", writeUnitNode(recipe.from));
    root.add("hash", JsonNode::ofText(recipe.hash));
    root.add("complaint", JsonNode::ofText(recipe.complaint));
    root.add("words", writeTexts(recipe.words));
    root.add("circuit", writeCircuitNode(recipe.circuit));
    root.add("plan", writePlanNode(recipe.plan));
    root.add("setting", writeSettingNode(recipe.setting));
    if (!recipe.trims.empty()) {
        root.add("trims", writeList(recipe.trims, writeTrim));
    }
    root.add("figures", writeList(recipe.figures, writeFigure));
    addReadings(root, recipe.readings);
    return printJson(root);
}

Result<Recipe> readRecipe(std::string_view text) {
    return readOfKind(text, recipeFormat, recipeFileVersion, readMembers, UnknownKeys::refused);
}

Result<Recipe> loadRecipe(const fs::path& path) {
    return loadBy(path, readRecipe);
}

Result<fs::path> saveRecipe(const Recipe& recipe, const fs::path& shopFolder) {
    if (shopFolder.empty()) {
        return Error{ErrorCode::invalidInput,
                     said("There is no shop folder yet: choose one, and recipes are kept there.")};
    }
    if (recipe.name.empty()) {
        return Error{ErrorCode::invalidInput, said("The recipe has no name: give it one.")};
    }
    return keepByName(shopFolder / recipesFolderName, fileStem(recipe.name, "recipe"), writeRecipe(recipe),
                      [&recipe](const fs::path& path) {
                          const Result<Recipe> there = loadRecipe(path);
                          return there && there->name == recipe.name;
                      });
}

std::vector<ShopRecipe> readShopRecipes(const fs::path& shopFolder, const std::stop_token& stop) {
    std::vector<fs::path> paths;
    std::error_code trouble;
    for (fs::directory_iterator entry(shopFolder / recipesFolderName, trouble), end; !trouble && entry != end;
         entry.increment(trouble)) {
        std::error_code none;
        if (entry->path().extension() == ".json" && entry->is_regular_file(none)) {
            paths.push_back(entry->path());
        }
    }
    std::sort(paths.begin(), paths.end());
    std::vector<ShopRecipe> recipes;
    for (const fs::path& path : paths) {
        if (stop.stop_requested()) {
            break;
        }
        Result<Recipe> recipe = loadRecipe(path);
        recipes.push_back({path, {}, {}});
        if (recipe) {
            recipes.back().recipe = *std::move(recipe);
        } else {
            recipes.back().fault = recipe.error().message;
        }
    }
    return recipes;
}

}  // namespace ohmwright

/// Recipes as files in the shop folder's `recipes/`: bytes to a Recipe and back. The format is described in
/// resources/recipe-file-format.md.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/recipe.h"

#include <filesystem>
#include <optional>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

inline constexpr int recipeFileVersion = 1;
/// Of the shop folder.
inline constexpr std::string_view recipesFolderName = "recipes";

/// The canonical text: UTF-8, two spaces, keys in a fixed order, numbers that read back exactly.
/// `readRecipe(writeRecipe(recipe))` gives a recipe equal to `recipe`.
std::string writeRecipe(const Recipe& recipe);

/// Errors: fileDamaged naming line and key (an unknown key, a figure that there is not, a trim of no mod); fileNewer
/// when `version` is above recipeFileVersion.
Result<Recipe> readRecipe(std::string_view text);

/// Errors: fileUnreadable naming the path and the system's reason; as readRecipe with the path in the message.
Result<Recipe> loadRecipe(const std::filesystem::path& path);

/// Writes into the shop's folder under the recipe's own name; one of that name that is there is kept as an earlier
/// version, another recipe's file is left alone. Makes the folder when it is not there.
/// @return the file.
/// Errors: invalidInput without a shop folder or a name; fileUnreadable of the system.
Result<std::filesystem::path> saveRecipe(const Recipe& recipe, const std::filesystem::path& shopFolder);

/// A recipe file of the shop.
struct ShopRecipe {
    std::filesystem::path path;
    std::optional<Recipe> recipe;  ///< Absent when the file cannot be read.
    std::string fault;             ///< Then: why.
};
/// All of them, by path.
std::vector<ShopRecipe> readShopRecipes(const std::filesystem::path& shopFolder, const std::stop_token& stop = {});

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/parts/part_library.h"

#include <algorithm>
#include <cctype>
#include <iterator>

namespace ohmwright {

namespace {

bool isSameLetter(char a, char b) {
    return std::toupper(static_cast<unsigned char>(a)) == std::toupper(static_cast<unsigned char>(b));
}

}  // namespace

const Model* findModel(const PartLibrary& library, std::string_view name) {
    const auto found = std::find_if(library.models.begin(), library.models.end(), [name](const Model& model) {
        return std::equal(model.name.begin(), model.name.end(), name.begin(), name.end(), isSameLetter);
    });
    return found == library.models.end() ? nullptr : &*found;
}

std::vector<Model> modelsOfKind(const PartLibrary& library, PartKind kind) {
    std::vector<Model> models;
    std::copy_if(library.models.begin(), library.models.end(), std::back_inserter(models),
                 [kind](const Model& model) { return model.kind == kind; });
    return models;
}

}  // namespace ohmwright

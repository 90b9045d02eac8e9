/// The device types that a part can be swapped for, each with the source of its figures.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <string_view>
#include <vector>

namespace ohmwright {

/// Types in the order in which they are offered. Names are unique. Filled from resources/part-data (files/part_data.h).
struct PartLibrary {
    std::vector<Model> models;

    friend bool operator==(const PartLibrary&, const PartLibrary&) = default;
};

/// The type with that name, or null. Upper and lower case are alike, as on a drawer's label.
const Model* findModel(const PartLibrary& library, std::string_view name);

/// What can stand for a part of that kind, in the library's order.
std::vector<Model> modelsOfKind(const PartLibrary& library, PartKind kind);

}  // namespace ohmwright

/// The unit's card, its visits and departures as they stand in a job file; see resources/job-file-format.md.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/json_reader.h"
#include "core/plan/job.h"

#include <vector>

namespace ohmwright {

JsonNode writeUnitNode(const UnitCard& unit);
UnitCard readUnitNode(JsonReader reader);

/// Under "readings"; nothing where there is none.
void addReadings(JsonNode& node, const std::vector<UnitReading>& readings);
std::vector<UnitReading> readReadings(JsonReader& reader);

JsonNode writeVisitNode(const Visit& visit);
Visit readVisitNode(JsonReader reader);

JsonNode writeDeparturesNode(const std::vector<Departure>& departures);
/// Fails at one that does not come after the one before it, by visit number.
std::vector<Departure> readDeparturesNode(JsonReader reader);

}  // namespace ohmwright

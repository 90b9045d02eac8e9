/// Circuits, models and plans as they stand in a job file; see resources/job-file-format.md.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/said.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"
#include "core/files/json_reader.h"
#include "core/plan/mod.h"

namespace ohmwright {

JsonNode writeCircuitNode(const Circuit& circuit);
Circuit readCircuitNode(JsonReader reader);

JsonNode writeModelNode(const Model& model);
Model readModelNode(JsonReader reader);

JsonNode writePartNode(const Part& part);
Part readPartNode(JsonReader reader);

JsonNode writeKnobNode(const Knob& knob);
Knob readKnobNode(JsonReader reader);

JsonNode writePlanNode(const Plan& plan);
Plan readPlanNode(JsonReader reader);

JsonNode writeSettingNode(const Setting& setting);
Setting readSettingNode(JsonReader reader);

/// Fails at the second entry when two share an id.
template <class Entry>
void requireNewId(const std::vector<Entry>& earlier, const std::string& id, JsonReader& reader) {
    if (id.empty()) {
        reader.fail(said("the id is empty. Give the entry a word of its own."));
    }
    for (const Entry& entry : earlier) {
        if (entry.id == id) {
            reader.fail(said("the id \"%1\" is used twice. Give one of the two entries another.", id));
        }
    }
}

}  // namespace ohmwright

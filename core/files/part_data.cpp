// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/part_data.h"

#include "core/base/said.h"
#include "core/files/atomic_file.h"
#include "core/files/circuit_format.h"
#include "core/files/file_head.h"

namespace ohmwright {

namespace {

constexpr std::string_view modelsFormat = "ohmwright-models";

bool hasTypes(PartKind kind) {
    return kind == PartKind::diode || kind == PartKind::bipolar || kind == PartKind::opamp || kind == PartKind::jfet ||
           kind == PartKind::mosfet || kind == PartKind::triode || kind == PartKind::pentode;
}

Model readEntry(JsonReader& entry, const PartLibrary& earlier) {
    Model model = readModelNode(entry);
    if (findModel(earlier, model.name)) {
        entry.fail(said("the type \"%1\" is described twice. Remove one of the two.", model.name));
    }
    if (!hasTypes(model.kind)) {
        entry.fail(
            said("%1 has no types. Only diodes, transistors, op-amps and valves do.", said(kindAsOne(model.kind))));
    }
    if (model.source.empty()) {
        entry.fail(
            said("the type \"%1\" does not say where its figures come from. Write it under \"source\".", model.name));
    }
    if (model.parameters.empty()) {
        entry.fail(said("the type \"%1\" has no parameters. Write at least one.", model.name));
    }
    return model;
}

}  // namespace

Result<PartLibrary> readModels(std::string_view text) {
    const Result<JsonNode> root = parseJson(text);
    if (!root) {
        return root.error();
    }
    ReadingState state;
    JsonReader reader(*root, state);
    const Result<void> head = requireHead(reader, state, modelsFormat, partDataVersion);
    if (!head) {
        return head.error();
    }
    PartLibrary library;
    for (JsonReader& entry : reader.member("models").entries()) {
        library.models.push_back(readEntry(entry, library));
    }
    if (state.error) {
        return *state.error;
    }
    return library;
}

std::string writeModels(const PartLibrary& library) {
    JsonNode root = writeHead(modelsFormat, partDataVersion);
    JsonNode models = JsonNode::list();
    for (const Model& model : library.models) {
        models.append(writeModelNode(model));
    }
    root.add("models", std::move(models));
    return printJson(root);
}

Result<PartLibrary> loadModels(const std::filesystem::path& path) {
    const Result<std::string> text = readWholeFile(path);
    if (!text) {
        return text.error();
    }
    Result<PartLibrary> library = readModels(*text);
    if (!library) {
        return errorInFile(library.error(), path);
    }
    return library;
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/drawer_file.h"

#include "core/base/said.h"
#include "core/files/atomic_file.h"
#include "core/files/file_head.h"
#include "core/files/format_words.h"

namespace ohmwright {

namespace {

constexpr std::string_view drawerFormat = "ohmwright-drawer";
constexpr int mostParts = 10'000'000;

void addText(JsonNode& node, const char* key, const std::string& text) {
    if (!text.empty()) {
        node.add(key, JsonNode::ofText(text));
    }
}

void addNumber(JsonNode& node, const char* key, double number) {
    if (number != 0.0) {
        node.add(key, JsonNode::ofNumber(number));
    }
}

void addFigure(JsonNode& node, const char* key, const std::optional<double>& figure) {
    if (figure) {
        node.add(key, JsonNode::ofNumber(*figure));
    }
}

JsonNode writeDevice(const MeasuredDevice& device) {
    JsonNode node = JsonNode::object();
    node.add("label", JsonNode::ofText(device.label));
    addFigure(node, "beta", device.beta);
    addFigure(node, "idss", device.saturationAmperes);
    addFigure(node, "vp", device.pinchOffVolts);
    return node;
}

MeasuredDevice readDevice(JsonReader& reader) {
    MeasuredDevice device;
    device.label = reader.text("label");
    device.beta = reader.numberIfThere("beta");
    device.saturationAmperes = reader.numberIfThere("idss");
    device.pinchOffVolts = reader.numberIfThere("vp");
    return device;
}

JsonNode writeLot(const DrawerLot& lot) {
    JsonNode node = JsonNode::object();
    node.add("id", JsonNode::ofText(lot.id));
    node.add("kind", wordFor(lot.kind, partKindWords));
    addNumber(node, "value", lot.value);
    addText(node, "type", lot.type);
    addText(node, "lot", lot.lot);
    node.add("quantity", JsonNode::ofInteger(lot.quantity));
    addText(node, "printed", lot.printed);
    addFigure(node, "measured", lot.measured);
    addNumber(node, "tolerance", lot.tolerance);
    addNumber(node, "pitchMillimetres", lot.pitchMillimetres);
    addNumber(node, "ratedVolts", lot.ratedVolts);
    addText(node, "build", lot.build);
    addNumber(node, "price", lot.price);
    if (!lot.devices.empty()) {
        JsonNode devices = JsonNode::list();
        for (const MeasuredDevice& device : lot.devices) {
            devices.append(writeDevice(device));
        }
        node.add("devices", std::move(devices));
    }
    if (!lot.reserved.empty()) {
        JsonNode reserved = JsonNode::object();
        for (const auto& [job, quantity] : lot.reserved) {
            reserved.add(job, JsonNode::ofInteger(quantity));
        }
        node.add("reserved", std::move(reserved));
    }
    return node;
}

DrawerLot readLot(JsonReader& reader) {
    DrawerLot lot;
    lot.id = reader.text("id");
    lot.kind = reader.word("kind", partKindWords);
    lot.value = reader.number("value", 0.0);
    lot.type = reader.text("type", "");
    lot.lot = reader.text("lot", "");
    lot.quantity = reader.integer("quantity", 0, mostParts);
    lot.printed = reader.text("printed", "");
    lot.measured = reader.numberIfThere("measured");
    lot.tolerance = reader.number("tolerance", 0.0);
    lot.pitchMillimetres = reader.number("pitchMillimetres", 0.0);
    lot.ratedVolts = reader.number("ratedVolts", 0.0);
    lot.build = reader.text("build", "");
    lot.price = reader.number("price", 0.0);
    if (auto devices = reader.memberIfThere("devices")) {
        for (JsonReader& device : devices->entries()) {
            lot.devices.push_back(readDevice(device));
        }
    }
    if (auto reserved = reader.memberIfThere("reserved")) {
        for (auto& [job, quantity] : reserved->namedMembers()) {
            lot.reserved[job] = quantity.asInteger(1, mostParts);
        }
    }
    return lot;
}

}  // namespace

std::string writeDrawer(const Drawer& drawer) {
    JsonNode root = writeHead(drawerFormat, drawerFileVersion);
    root.add("shop", JsonNode::ofText(drawer.shop));
    JsonNode lots = JsonNode::list();
    for (const DrawerLot& lot : drawer.lots) {
        lots.append(writeLot(lot));
    }
    root.add("lots", std::move(lots));
    return printJson(root);
}

Result<Drawer> readDrawer(std::string_view text) {
    Result<Drawer> drawer = readOfKind(text, drawerFormat, drawerFileVersion, [](JsonReader& reader) {
        Drawer found;
        found.shop = reader.text("shop");
        for (JsonReader& entry : reader.member("lots").entries()) {
            found.lots.push_back(readLot(entry));
        }
        return found;
    });
    if (!drawer) {
        return drawer;
    }
    if (const std::vector<std::string> faults = faultsOf(*drawer); !faults.empty()) {
        return Error{ErrorCode::fileDamaged, faults.front(), "lots"};
    }
    return drawer;
}

Result<Drawer> loadDrawer(const std::filesystem::path& path) {
    const Result<std::string> text = readWholeFile(path);
    if (!text) {
        return text.error();
    }
    Result<Drawer> drawer = readDrawer(*text);
    if (!drawer) {
        return errorInFile(drawer.error(), path);
    }
    return drawer;
}

Result<void> saveDrawer(const Drawer& drawer, const std::filesystem::path& path) {
    if (const std::vector<std::string> faults = faultsOf(drawer); !faults.empty()) {
        return Error{ErrorCode::invalidInput,
                     said("The drawer cannot be saved as it is; the file on disk is as before. %1", faults.front()),
                     ""};
    }
    return replaceFile(path, writeDrawer(drawer));
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/said.h"
#include "core/files/circuit_format.h"
#include "core/files/format_lists.h"
#include "core/files/format_words.h"

#include <algorithm>
#include <utility>

namespace ohmwright {

namespace {

JsonNode writeNewPart(const NewPart& part) {
    JsonNode node = JsonNode::object();
    node.add("reference", JsonNode::ofText(part.reference));
    node.add("kind", wordFor(part.kind, partKindWords));
    if (unitOf(part.kind) != Unit::none || part.value != 0.0) {
        node.add("value", JsonNode::ofNumber(part.value));
    }
    if (hasModel(part.kind) || part.model != Model()) {
        node.add("model", writeModelNode(part.model));
    }
    if (hasValue(part.kind) || part.tolerance != 0.0) {
        node.add("tolerance", JsonNode::ofNumber(part.tolerance));
    }
    if (!part.id.empty()) {
        node.add("id", JsonNode::ofText(part.id));
    }
    return node;
}

NewPart readNewPart(JsonReader reader) {
    NewPart part;
    part.reference = reader.text("reference");
    part.kind = reader.word("kind", partKindWords);
    part.value = unitOf(part.kind) != Unit::none ? reader.number("value") : reader.number("value", 0.0);
    if (hasModel(part.kind) || reader.has("model")) {
        part.model = readModelNode(reader.member("model"));
    }
    part.tolerance = hasValue(part.kind) ? reader.number("tolerance") : reader.number("tolerance", 0.0);
    part.id = reader.text("id", std::string());
    reader.keepUnknown();
    return part;
}

constexpr int mostPins = 5;  // Of any kind; whether the part has the pin is for core/plan to say.

struct ChangeWriter {
    JsonNode& node;

    void operator()(const SwapValue& change) const { node.add("value", JsonNode::ofNumber(change.value)); }
    void operator()(const SwapType& change) const { node.add("model", writeModelNode(change.model)); }
    void operator()(const AddInSeries& change) const {
        node.add("pin", JsonNode::ofInteger(change.pin));
        node.add("fitted", writeNewPart(change.fitted));
        node.add("reversed", JsonNode::ofBoolean(change.reversed));
    }
    void operator()(const AddAcross& change) const {
        node.add("pinA", JsonNode::ofInteger(change.pinA));
        node.add("pinB", JsonNode::ofInteger(change.pinB));
        node.add("fitted", writeNewPart(change.fitted));
        node.add("reversed", JsonNode::ofBoolean(change.reversed));
    }
    void operator()(const Lift& change) const { node.add("pin", JsonNode::ofInteger(change.pin)); }
    void operator()(const Bridge& change) const {
        node.add("pinA", JsonNode::ofInteger(change.pinA));
        node.add("pinB", JsonNode::ofInteger(change.pinB));
    }
    void operator()(const RemovePart&) const {}
    void operator()(const ChangePot& change) const {
        node.add("value", JsonNode::ofNumber(change.ohms));
        node.add("taper", wordFor(change.taper, taperWords));
        node.add("shareAtHalf", JsonNode::ofNumber(change.shareAtHalf));
    }
    void operator()(const MoveLeg& change) const {
        node.add("pin", JsonNode::ofInteger(change.pin));
        node.add("net", JsonNode::ofText(change.net));
    }
    void operator()(const AddPart& change) const {
        node.add("fitted", writeNewPart(change.fitted));
        node.add("nets", writeTexts(change.nets));
    }
};

JsonNode writeSingle(const SingleChange& change) {
    JsonNode node = JsonNode::object();
    node.add("do", wordFor(static_cast<ChangeWord>(change.index()), changeWords));
    node.add("part", JsonNode::ofText(targetOf(change)));
    std::visit(ChangeWriter{node}, change);
    return node;
}

JsonNode writeThrow(const SwitchThrow& position) {
    JsonNode node = JsonNode::object();
    node.add("name", JsonNode::ofText(position.name));
    node.add("changes", writeList(position.changes, writeSingle));
    return node;
}

JsonNode writeChange(const Change& change) {
    JsonNode node = JsonNode::object();
    const ChangeWord word = static_cast<ChangeWord>(change.index());
    if (const auto* combined = std::get_if<Combined>(&change)) {
        node.add("do", wordFor(word, changeWords));
        node.add("changes", writeList(combined->changes, writeSingle));
        return node;
    }
    if (const auto* fitted = std::get_if<FitSwitch>(&change)) {
        node.add("do", wordFor(word, changeWords));
        node.add("part", JsonNode::ofText(fitted->part));
        node.add("throws", writeList(fitted->throws, writeThrow));
        return node;
    }
    return writeSingle(singleChanges(change).front());
}

int readPin(JsonReader& reader, std::string_view key) {
    return reader.integer(key, 0, mostPins - 1);
}

SingleChange readSingleMembers(ChangeWord word, JsonReader& reader) {
    const PartId part = reader.text("part");
    switch (word) {
        case ChangeWord::swapValue:
            return SwapValue{part, reader.number("value")};
        case ChangeWord::swapType:
            return SwapType{part, readModelNode(reader.member("model"))};
        case ChangeWord::addInSeries: {
            const int pin = readPin(reader, "pin");
            NewPart fitted = readNewPart(reader.member("fitted"));
            return AddInSeries{part, pin, std::move(fitted), reader.flag("reversed")};
        }
        case ChangeWord::addAcross: {
            const int pinA = readPin(reader, "pinA");
            const int pinB = readPin(reader, "pinB");
            NewPart fitted = readNewPart(reader.member("fitted"));
            return AddAcross{part, pinA, pinB, std::move(fitted), reader.flag("reversed")};
        }
        case ChangeWord::lift:
            return Lift{part, readPin(reader, "pin")};
        case ChangeWord::removePart:
            return RemovePart{part};
        case ChangeWord::changePot: {
            const double ohms = reader.number("value");
            const Taper taper = reader.word("taper", taperWords);
            return ChangePot{part, ohms, taper, reader.number("shareAtHalf")};
        }
        case ChangeWord::moveLeg: {
            const int pin = readPin(reader, "pin");
            return MoveLeg{part, pin, reader.text("net")};
        }
        case ChangeWord::addPart: {
            NewPart fitted = readNewPart(reader.member("fitted"));
            return AddPart{part, std::move(fitted), reader.texts("nets")};
        }
        case ChangeWord::combined:
        case ChangeWord::fitSwitch:
            reader.fail(said("a combined change or a switch cannot stand inside another. List its single changes."));
            return Lift{part, 0};
        case ChangeWord::bridge:
            break;
    }
    const int pinA = readPin(reader, "pinA");
    return Bridge{part, pinA, readPin(reader, "pinB")};
}

SingleChange readSingle(JsonReader reader) {
    const ChangeWord word = reader.word("do", changeWords);
    SingleChange change = readSingleMembers(word, reader);
    reader.keepUnknown();
    return change;
}

std::vector<SingleChange> readSingles(JsonReader reader) {
    return readList<SingleChange>(std::move(reader), [](auto& entry, auto&) { return readSingle(entry); });
}

SwitchThrow readThrow(JsonReader& reader, const std::vector<SwitchThrow>& earlier) {
    SwitchThrow position;
    position.name = reader.text("name");
    const bool isDouble = std::any_of(earlier.begin(), earlier.end(),
                                      [&position](const SwitchThrow& other) { return other.name == position.name; });
    if (isDouble || position.name.empty()) {
        reader.fail(said("a throw needs a name of its own. \"%1\" is empty or used twice.", position.name));
    }
    position.changes = readSingles(reader.member("changes"));
    reader.keepUnknown();
    return position;
}

Change readChange(JsonReader reader) {
    const ChangeWord word = reader.word("do", changeWords);
    if (word == ChangeWord::combined) {
        Combined combined{readSingles(reader.member("changes"))};
        if (combined.changes.empty() && !reader.failed()) {
            reader.fail(said("a combined change has no changes. Give it one, or remove the mod."));
        }
        reader.keepUnknown();
        return combined;
    }
    if (word == ChangeWord::fitSwitch) {
        FitSwitch fitted{reader.text("part"), readList<SwitchThrow>(reader.member("throws"), readThrow)};
        if (fitted.throws.size() < 2 && !reader.failed()) {
            reader.fail(said("a switch has fewer than two throws. Give it two or more."));
        }
        reader.keepUnknown();
        return fitted;
    }
    SingleChange single = readSingleMembers(word, reader);
    reader.keepUnknown();
    return std::visit([](auto& kind) -> Change { return std::move(kind); }, single);
}

JsonNode writeMod(const Mod& mod) {
    JsonNode node = JsonNode::object();
    node.add("id", JsonNode::ofText(mod.id));
    node.add("letter", JsonNode::ofText(mod.letter));
    node.add("name", JsonNode::ofText(mod.name));
    node.add("on", JsonNode::ofBoolean(mod.on));
    node.add("change", writeChange(mod.change));
    return node;
}

Mod readMod(JsonReader reader) {
    Mod mod;
    mod.id = reader.text("id");
    mod.letter = reader.text("letter");
    mod.name = reader.text("name");
    mod.on = reader.flag("on");
    mod.change = readChange(reader.member("change"));
    reader.keepUnknown();
    return mod;
}

}  // namespace

JsonNode writePlanNode(const Plan& plan) {
    return writeList(plan, writeMod);
}

Plan readPlanNode(JsonReader reader) {
    return readList<Mod>(std::move(reader), withNewId<Mod>(readMod));
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/correction_format.h"

#include "core/files/circuit_format.h"
#include "core/files/format_lists.h"
#include "core/files/format_words.h"

#include <optional>

namespace ohmwright {

namespace {

constexpr int mostVisits = 1000000;
constexpr int mostPins = 5;
constexpr int mostEntries = 10000;

void addText(JsonNode& node, const char* key, const std::string& text) {
    if (!text.empty()) {
        node.add(key, JsonNode::ofText(text));
    }
}

const std::array<Word<CorrectionReason>, 3> reasonWords{{
    {reasonWord(CorrectionReason::boardDiffers), CorrectionReason::boardDiffers},
    {reasonWord(CorrectionReason::earlierMod), CorrectionReason::earlierMod},
    {reasonWord(CorrectionReason::misread), CorrectionReason::misread},
}};

JsonNode writeSeat(const Seat& seat) {
    JsonNode node = JsonNode::object();
    node.add("stage", JsonNode::ofInteger(seat.stage));
    node.add("place", JsonNode::ofInteger(seat.place));
    addText(node, "previous", seat.previous);
    addText(node, "next", seat.next);
    return node;
}

Seat readSeat(JsonReader reader) {
    Seat seat;
    seat.stage = reader.integer("stage", 0, mostEntries);
    seat.place = reader.integer("place", 0, mostEntries);
    seat.previous = reader.text("previous", std::string());
    seat.next = reader.text("next", std::string());
    reader.keepUnknown();
    return seat;
}

// ---- One finding --------------------------------------------------------------------------------------------------

struct FindingWriter {
    JsonNode& node;

    void operator()(const ValueFound& found) const {
        node.add("value", JsonNode::ofNumber(found.value));
        addText(node, "printed", found.printed);
    }
    void operator()(const TypeFound& found) const {
        node.add("model", writeModelNode(found.model));
        addText(node, "printed", found.printed);
    }
    void operator()(const ToleranceFound& found) const { node.add("tolerance", JsonNode::ofNumber(found.tolerance)); }
    void operator()(const LawFound& found) const {
        node.add("taper", wordFor(found.taper, taperWords));
        node.add("shareAtHalf", JsonNode::ofNumber(found.shareAtHalf));
    }
    void operator()(const LegFound& found) const {
        node.add("pin", JsonNode::ofInteger(found.pin));
        node.add("net", JsonNode::ofText(found.net));
    }
    void operator()(const ReferenceFound& found) const { node.add("reference", JsonNode::ofText(found.reference)); }
    void operator()(const BoardNoteFound& found) const { node.add("boardNote", JsonNode::ofText(found.note)); }
    void operator()(const PresenceFound& found) const {
        if (!found.part) {
            return;
        }
        node.add("part", writePartNode(*found.part));
        addText(node, "beside", found.beside);
        if (!found.models.empty()) {
            node.add("models", writeList(found.models, writeModelNode));
        }
        if (found.index >= 0) {
            node.add("index", JsonNode::ofInteger(found.index));
        }
        if (!found.seats.empty()) {
            node.add("seats", writeList(found.seats, writeSeat));
        }
        if (found.knob) {
            node.add("knob", writeKnobNode(*found.knob));
            node.add("knobIndex", JsonNode::ofInteger(found.knobIndex));
            if (found.knobPosition) {
                node.add("knobPosition", JsonNode::ofNumber(*found.knobPosition));
            }
        }
    }
};

JsonNode writeFinding(const Finding& finding) {
    JsonNode node = JsonNode::object();
    std::visit(FindingWriter{node}, finding);
    return node;
}

PresenceFound readPresence(JsonReader& reader) {
    PresenceFound found;
    if (std::optional<JsonReader> part = reader.memberIfThere("part")) {
        found.part = readPartNode(*part);
    }
    found.beside = reader.text("beside", std::string());
    if (std::optional<JsonReader> models = reader.memberIfThere("models")) {
        found.models = readList<Model>(*models, [](JsonReader& entry, auto&) { return readModelNode(entry); });
    }
    found.index = reader.integer("index", -1, 0, mostEntries);
    if (std::optional<JsonReader> seats = reader.memberIfThere("seats")) {
        found.seats = readList<Seat>(*seats, [](JsonReader& entry, auto&) { return readSeat(entry); });
    }
    if (std::optional<JsonReader> knob = reader.memberIfThere("knob")) {
        found.knob = readKnobNode(*knob);
    }
    found.knobIndex = reader.integer("knobIndex", 0, 0, mostEntries);
    if (reader.has("knobPosition")) {
        found.knobPosition = reader.number("knobPosition");
    }
    return found;
}

Finding readFindingMembers(FindingWord word, JsonReader& reader) {
    switch (word) {
        case FindingWord::value: {
            const double value = reader.number("value");
            return ValueFound{value, reader.text("printed", std::string())};
        }
        case FindingWord::type: {
            Model model = readModelNode(reader.member("model"));
            return TypeFound{std::move(model), reader.text("printed", std::string())};
        }
        case FindingWord::tolerance:
            return ToleranceFound{reader.number("tolerance")};
        case FindingWord::law: {
            const Taper taper = reader.word("taper", taperWords);
            return LawFound{taper, reader.number("shareAtHalf")};
        }
        case FindingWord::leg: {
            const int pin = reader.integer("pin", 0, mostPins - 1);
            return LegFound{pin, reader.text("net")};
        }
        case FindingWord::reference:
            return ReferenceFound{reader.text("reference")};
        case FindingWord::boardNote:
            return BoardNoteFound{reader.text("boardNote")};
        case FindingWord::presence:
            break;
    }
    return readPresence(reader);
}

Finding readFinding(FindingWord word, JsonReader reader) {
    Finding finding = readFindingMembers(word, reader);
    reader.keepUnknown();
    return finding;
}

// ---- One correction -----------------------------------------------------------------------------------------------

JsonNode writeCorrection(const Correction& correction) {
    JsonNode node = JsonNode::object();
    node.add("part", JsonNode::ofText(correction.part));
    node.add("what", wordFor(static_cast<FindingWord>(correction.found.index()), findingWordsOfFile));
    node.add("drawn", writeFinding(correction.drawn));
    node.add("found", writeFinding(correction.found));
    node.add("reason", JsonNode::ofText(std::string(reasonWord(correction.reason))));
    addText(node, "note", correction.note);
    addText(node, "who", correction.who);
    node.add("when", JsonNode::ofText(correction.when));
    node.add("visit", JsonNode::ofInteger(correction.visit));
    if (!correction.opened.empty()) {
        node.add("opened", writeTexts(correction.opened));
    }
    addText(node, "broughtType", correction.broughtType);
    return node;
}

Correction readCorrection(JsonReader reader) {
    Correction correction;
    correction.part = reader.text("part");
    const FindingWord word = reader.word("what", findingWordsOfFile);
    correction.drawn = readFinding(word, reader.member("drawn"));
    correction.found = readFinding(word, reader.member("found"));
    correction.reason = reader.word("reason", reasonWords);
    correction.note = reader.text("note", std::string());
    correction.who = reader.text("who", std::string());
    correction.when = reader.text("when");
    correction.visit = reader.integer("visit", 0, mostVisits);
    if (reader.has("opened")) {
        correction.opened = reader.texts("opened");
    }
    correction.broughtType = reader.text("broughtType", std::string());
    reader.keepUnknown();
    return correction;
}

}  // namespace

void addCorrections(JsonNode& node, const std::vector<Correction>& corrections) {
    if (!corrections.empty()) {
        node.add("corrections", writeList(corrections, writeCorrection));
    }
}

std::vector<Correction> readCorrections(JsonReader& reader) {
    std::optional<JsonReader> list = reader.memberIfThere("corrections");
    return list ? readList<Correction>(*list, [](JsonReader& entry, auto&) { return readCorrection(entry); })
                : std::vector<Correction>();
}

}  // namespace ohmwright

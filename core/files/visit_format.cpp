// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/visit_format.h"

#include "core/base/said.h"
#include "core/files/circuit_format.h"
#include "core/files/correction_format.h"
#include "core/files/format_lists.h"
#include "core/files/format_words.h"

#include <algorithm>
#include <optional>
#include <utility>

namespace ohmwright {

namespace {

constexpr int mostVisits = 1000000;

JsonNode writeMark(const StepMark& mark) {
    JsonNode node = JsonNode::object();
    node.add("step", JsonNode::ofText(mark.step));
    node.add("result", wordFor(mark.result, stepResultWords));
    if (mark.reading) {
        node.add("reading", JsonNode::ofNumber(*mark.reading));
    }
    if (mark.unit != Unit::none) {
        node.add("unit", wordFor(mark.unit, unitWords));
    }
    for (const auto& [key, text] :
         {std::pair{"read", &mark.read}, std::pair{"allowed", &mark.allowed}, std::pair{"who", &mark.who}}) {
        if (!text->empty()) {
            node.add(key, JsonNode::ofText(*text));
        }
    }
    node.add("when", JsonNode::ofText(mark.when));
    return node;
}

StepMark readMark(JsonReader reader) {
    StepMark mark;
    mark.step = reader.text("step");
    mark.result = reader.word("result", stepResultWords);
    mark.reading = reader.numberIfThere("reading");
    mark.unit = reader.word("unit", unitWords, Unit::none);
    mark.read = reader.text("read", {});
    mark.allowed = reader.text("allowed", {});
    mark.who = reader.text("who", {});
    mark.when = reader.text("when");
    reader.keepUnknown();
    return mark;
}

JsonNode writePaper(const PrintedPaper& paper) {
    JsonNode node = JsonNode::object();
    node.add("kind", JsonNode::ofText(paper.kind));
    node.add("hash", JsonNode::ofText(paper.hash));
    node.add("when", JsonNode::ofText(paper.when));
    return node;
}

PrintedPaper readPaper(JsonReader reader) {
    PrintedPaper paper;
    paper.kind = reader.text("kind");
    paper.hash = reader.text("hash");
    paper.when = reader.text("when");
    reader.keepUnknown();
    return paper;
}

/// Absent where the list is empty.
template <class Entry, class Write>
void addList(JsonNode& node, const char* key, const std::vector<Entry>& entries, const Write& write) {
    if (!entries.empty()) {
        node.add(key, writeList(entries, write));
    }
}

/// Empty where the list is not there.
template <class Entry>
std::vector<Entry> readListIfThere(JsonReader& reader, const char* key, Entry (*read)(JsonReader)) {
    std::optional<JsonReader> list = reader.memberIfThere(key);
    return list ? readList<Entry>(*list, [read](JsonReader& entry, auto&) { return read(entry); })
                : std::vector<Entry>();
}

JsonNode writeReading(const UnitReading& reading) {
    JsonNode node = JsonNode::object();
    node.add("place", JsonNode::ofText(reading.place));
    if (!reading.net.empty()) {
        node.add("net", JsonNode::ofText(reading.net));
    }
    node.add("value", JsonNode::ofNumber(reading.value));
    node.add("unit", wordFor(reading.unit, unitWords));
    return node;
}

UnitReading readReading(JsonReader reader) {
    UnitReading reading;
    reading.place = reader.text("place");
    reading.net = reader.text("net", {});
    reading.value = reader.number("value");
    reading.unit = reader.word("unit", unitWords);
    reader.keepUnknown();
    return reading;
}

}  // namespace

JsonNode writeUnitNode(const UnitCard& unit) {
    JsonNode node = JsonNode::object();
    node.add("name", JsonNode::ofText(unit.name));
    node.add("serial", JsonNode::ofText(unit.serial));
    node.add("boardRevision", JsonNode::ofText(unit.boardRevision));
    node.add("kind", JsonNode::ofText(unit.kind));
    return node;
}

UnitCard readUnitNode(JsonReader reader) {
    UnitCard unit;
    unit.name = reader.text("name");
    unit.serial = reader.text("serial");
    unit.boardRevision = reader.text("boardRevision");
    unit.kind = reader.text("kind");
    reader.keepUnknown();
    return unit;
}

void addReadings(JsonNode& node, const std::vector<UnitReading>& readings) {
    addList(node, "readings", readings, writeReading);
}

std::vector<UnitReading> readReadings(JsonReader& reader) {
    return readListIfThere(reader, "readings", readReading);
}

JsonNode writeVisitNode(const Visit& visit) {
    JsonNode node = JsonNode::object();
    node.add("number", JsonNode::ofInteger(visit.number));
    node.add("state", wordFor(visit.state, visitStateWords));
    node.add("date", JsonNode::ofText(visit.date));
    node.add("complaint", JsonNode::ofText(visit.complaint));
    if (!visit.words.empty()) {
        node.add("words", writeTexts(visit.words));
    }
    node.add("agreed", JsonNode::ofText(visit.agreed));
    if (!visit.condition.empty()) {
        node.add("condition", JsonNode::ofText(visit.condition));
    }
    addReadings(node, visit.readings);
    addList(node, "marks", visit.marks, writeMark);
    addList(node, "papers", visit.papers, writePaper);
    return node;
}

namespace {

std::vector<std::string> readWords(JsonReader reader) {
    return readList<std::string>(std::move(reader), [](JsonReader& entry, const std::vector<std::string>& earlier) {
        std::string word = entry.asText();
        if (word.empty()) {
            entry.fail(said("the word is empty. Write what the customer said, or take it out."));
        }
        if (std::find(earlier.begin(), earlier.end(), word) != earlier.end()) {
            entry.fail(said("the word \"%1\" is there twice. Take one of them out.", word));
        }
        return word;
    });
}

}  // namespace

Visit readVisitNode(JsonReader reader) {
    Visit visit;
    visit.number = reader.integer("number", 0, mostVisits);
    visit.state = reader.word("state", visitStateWords);
    visit.date = reader.text("date");
    visit.complaint = reader.text("complaint");
    if (reader.has("words")) {
        visit.words = readWords(reader.member("words"));
    }
    visit.agreed = reader.text("agreed");
    visit.condition = reader.text("condition", {});
    visit.readings = readReadings(reader);
    visit.marks = readListIfThere(reader, "marks", readMark);
    visit.papers = readListIfThere(reader, "papers", readPaper);
    reader.keepUnknown();
    return visit;
}

namespace {

JsonNode writeDeparture(const Departure& departure) {
    JsonNode node = JsonNode::object();
    node.add("when", JsonNode::ofText(departure.when));
    node.add("visit", writeVisitNode(departure.visit));
    node.add("circuit", writeCircuitNode(departure.stock));
    addCorrections(node, departure.corrections);
    node.add("plan", writePlanNode(departure.plan));
    node.add("setting", writeSettingNode(departure.setting));
    addReadings(node, departure.readings);
    if (!departure.notes.empty()) {
        node.add("notes", writeTexts(departure.notes));
    }
    return node;
}

Departure readDeparture(JsonReader reader) {
    Departure departure;
    departure.when = reader.text("when");
    departure.visit = readVisitNode(reader.member("visit"));
    departure.stock = readCircuitNode(reader.member("circuit"));
    departure.corrections = readCorrections(reader);
    departure.plan = readPlanNode(reader.member("plan"));
    departure.setting = readSettingNode(reader.member("setting"));
    departure.readings = readReadings(reader);
    if (reader.has("notes")) {
        departure.notes = reader.texts("notes");
    }
    reader.keepUnknown();
    return departure;
}

}  // namespace

JsonNode writeDeparturesNode(const std::vector<Departure>& departures) {
    return writeList(departures, writeDeparture);
}

std::vector<Departure> readDeparturesNode(JsonReader reader) {
    return readList<Departure>(std::move(reader), [](JsonReader& entry, const std::vector<Departure>& earlier) {
        Departure departure = readDeparture(entry);
        if (!earlier.empty() && departure.visit.number <= earlier.back().visit.number) {
            entry.fail(said("visit %1 stands after visit %2. Departures stand in the order of their visits.",
                            departure.visit.number, earlier.back().visit.number));
        }
        return departure;
    });
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/job_file.h"

#include "core/files/atomic_file.h"
#include "core/files/circuit_format.h"
#include "core/files/file_head.h"
#include "core/files/format_lists.h"
#include "core/files/format_words.h"

#include <algorithm>

namespace ohmwright {

namespace {

constexpr std::string_view jobFormat = "ohmwright-job";
constexpr std::string_view circuitFormat = "ohmwright-circuit";
constexpr int mostVisits = 1000000;

JsonNode writeUnit(const UnitCard& unit) {
    JsonNode node = JsonNode::object();
    node.add("name", JsonNode::ofText(unit.name));
    node.add("serial", JsonNode::ofText(unit.serial));
    node.add("boardRevision", JsonNode::ofText(unit.boardRevision));
    node.add("kind", JsonNode::ofText(unit.kind));
    return node;
}

UnitCard readUnit(JsonReader reader) {
    UnitCard unit;
    unit.name = reader.text("name");
    unit.serial = reader.text("serial");
    unit.boardRevision = reader.text("boardRevision");
    unit.kind = reader.text("kind");
    reader.keepUnknown();
    return unit;
}

JsonNode writeCustomer(const Customer& customer) {
    JsonNode node = JsonNode::object();
    node.add("name", JsonNode::ofText(customer.name));
    node.add("contact", JsonNode::ofText(customer.contact));
    return node;
}

Customer readCustomer(JsonReader reader) {
    Customer customer;
    customer.name = reader.text("name");
    customer.contact = reader.text("contact");
    reader.keepUnknown();
    return customer;
}

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

template <class Entry>
void addList(JsonNode& node, const char* key, const std::vector<Entry>& entries, JsonNode (*write)(const Entry&)) {
    if (entries.empty()) {
        return;
    }
    JsonNode list = JsonNode::list();
    for (const Entry& entry : entries) {
        list.append(write(entry));
    }
    node.add(key, std::move(list));
}

template <class Entry>
std::vector<Entry> readList(JsonReader& reader, const char* key, Entry (*read)(JsonReader)) {
    std::vector<Entry> entries;
    if (std::optional<JsonReader> list = reader.memberIfThere(key)) {
        for (JsonReader& entry : list->entries()) {
            entries.push_back(read(entry));
        }
    }
    return entries;
}

JsonNode writeVisit(const Visit& visit) {
    JsonNode node = JsonNode::object();
    node.add("number", JsonNode::ofInteger(visit.number));
    node.add("state", wordFor(visit.state, visitStateWords));
    node.add("date", JsonNode::ofText(visit.date));
    node.add("complaint", JsonNode::ofText(visit.complaint));
    if (!visit.words.empty()) {
        node.add("words", writeTexts(visit.words));
    }
    node.add("agreed", JsonNode::ofText(visit.agreed));
    addList(node, "marks", visit.marks, writeMark);
    addList(node, "papers", visit.papers, writePaper);
    return node;
}

std::vector<std::string> readWords(JsonReader reader) {
    return readList<std::string>(reader, [](JsonReader& entry, const std::vector<std::string>& earlier) {
        std::string word = entry.asText();
        if (word.empty()) {
            entry.fail("the word is empty. Write what the customer said, or take it out.");
        }
        if (std::find(earlier.begin(), earlier.end(), word) != earlier.end()) {
            entry.fail("the word \"" + word + "\" is there twice. Take one of them out.");
        }
        return word;
    });
}

Visit readVisit(JsonReader reader) {
    Visit visit;
    visit.number = reader.integer("number", 0, mostVisits);
    visit.state = reader.word("state", visitStateWords);
    visit.date = reader.text("date");
    visit.complaint = reader.text("complaint");
    if (reader.has("words")) {
        visit.words = readWords(reader.member("words"));
    }
    visit.agreed = reader.text("agreed");
    visit.marks = readList(reader, "marks", readMark);
    visit.papers = readList(reader, "papers", readPaper);
    reader.keepUnknown();
    return visit;
}

Job readJobMembers(JsonReader& reader) {
    Job job;
    job.shop = reader.text("shop");
    job.unit = readUnit(reader.member("unit"));
    job.customer = readCustomer(reader.member("customer"));
    job.visit = readVisit(reader.member("visit"));
    job.stock = readCircuitNode(reader.member("circuit"));
    job.plan = readPlanNode(reader.member("plan"));
    job.setting = readSettingNode(reader.member("setting"));
    reader.keepUnknown();
    return job;
}

}  // namespace

std::string writeJob(const Job& job) {
    JsonNode root = writeHead(jobFormat, jobFileVersion);
    root.add("shop", JsonNode::ofText(job.shop));
    root.add("unit", writeUnit(job.unit));
    root.add("customer", writeCustomer(job.customer));
    root.add("visit", writeVisit(job.visit));
    root.add("circuit", writeCircuitNode(job.stock));
    root.add("plan", writePlanNode(job.plan));
    root.add("setting", writeSettingNode(job.setting));
    restoreUnknown(root, job.unknown);
    return printJson(root);
}

Result<Job> readJob(std::string_view text) {
    const Result<JsonNode> root = parseJson(text);
    if (!root) {
        return root.error();
    }
    ReadingState state;
    JsonReader reader(*root, state);
    const Result<void> head = requireHead(reader, state, jobFormat, jobFileVersion);
    if (!head) {
        return head.error();
    }
    Job job = readJobMembers(reader);
    if (state.error) {
        return *state.error;
    }
    job.unknown = std::move(state.unknown);
    return job;
}

Result<LoadedJob> loadJob(const std::filesystem::path& path) {
    Result<std::string> text = readWholeFile(path);
    if (!text) {
        return text.error();
    }
    Result<Job> job = readJob(*text);
    if (!job) {
        return errorInFile(job.error(), path);
    }
    return LoadedJob{*std::move(job), *std::move(text)};
}

Result<void> saveJob(const Job& job, const std::filesystem::path& path) {
    const std::string text = writeJob(job);
    // A job that could not be read back (a value that is no number) must not replace one that can.
    const Result<Job> readBack = readJob(text);
    if (!readBack) {
        return Error{readBack.error().code,
                     "The job cannot be saved as it is; the file on disk is as before. " + readBack.error().message,
                     readBack.error().where};
    }
    return replaceFile(path, text);
}

std::string writeCircuit(const Circuit& circuit) {
    JsonNode root = writeHead(circuitFormat, jobFileVersion);
    root.add("circuit", writeCircuitNode(circuit));
    return printJson(root);
}

Result<Circuit> readCircuit(std::string_view text) {
    const Result<JsonNode> root = parseJson(text);
    if (!root) {
        return root.error();
    }
    ReadingState state;
    JsonReader reader(*root, state);
    const Result<void> head = requireHead(reader, state, circuitFormat, jobFileVersion);
    if (!head) {
        return head.error();
    }
    Circuit circuit = readCircuitNode(reader.member("circuit"));
    if (state.error) {
        return *state.error;
    }
    return circuit;
}

}  // namespace ohmwright

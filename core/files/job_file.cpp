// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/job_file.h"

#include "core/base/said.h"
#include "core/files/atomic_file.h"
#include "core/files/board_format.h"
#include "core/files/circuit_format.h"
#include "core/files/correction_format.h"
#include "core/files/earlier_versions.h"
#include "core/files/file_head.h"
#include "core/files/format_lists.h"
#include "core/files/visit_format.h"
#include "core/plan/pinned.h"

#include <algorithm>
#include <optional>

namespace ohmwright {

namespace {

constexpr std::string_view jobFormat = "ohmwright-job";
constexpr std::string_view circuitFormat = "ohmwright-circuit";

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

JsonNode writePinned(const PinnedState& pinned) {
    JsonNode node = JsonNode::object();
    node.add("letter", JsonNode::ofText(pinned.letter));
    node.add("name", JsonNode::ofText(pinned.name));
    node.add("plan", writePlanNode(pinned.plan));
    node.add("setting", writeSettingNode(pinned.setting));
    return node;
}

/// Fails at a letter that is none of those, or one that stands there already.
PinnedState readPinned(JsonReader& reader, const std::vector<PinnedState>& earlier) {
    PinnedState pinned;
    pinned.letter = reader.text("letter");
    const bool isLetter = pinned.letter.size() == 1 && pinnedLetters.find(pinned.letter) != std::string_view::npos;
    if (!reader.failed() && !isLetter) {
        reader.member("letter").fail(said("a pinned state's letter is W, X, Y or Z."));
    }
    const bool isTaken = std::any_of(earlier.begin(), earlier.end(),
                                     [&pinned](const PinnedState& each) { return each.letter == pinned.letter; });
    if (!reader.failed() && isTaken) {
        reader.member("letter").fail(said("two pinned states have this letter: give one of them another."));
    }
    pinned.name = reader.text("name");
    pinned.plan = readPlanNode(reader.member("plan"));
    pinned.setting = readSettingNode(reader.member("setting"));
    reader.keepUnknown();
    return pinned;
}

Job readJobMembers(JsonReader& reader) {
    Job job;
    job.shop = reader.text("shop");
    job.unit = readUnitNode(reader.member("unit"));
    job.customer = readCustomer(reader.member("customer"));
    job.visit = readVisitNode(reader.member("visit"));
    job.stock = readCircuitNode(reader.member("circuit"));
    job.corrections = readCorrections(reader);
    job.plan = readPlanNode(reader.member("plan"));
    job.setting = readSettingNode(reader.member("setting"));
    if (std::optional<JsonReader> pinned = reader.memberIfThere("pinned")) {
        job.pinned = readList<PinnedState>(*pinned, readPinned);
    }
    job.board = readBoard(reader);
    if (std::optional<JsonReader> departures = reader.memberIfThere("departures")) {
        job.departures = readDeparturesNode(*departures);
    }
    reader.keepUnknown();
    return job;
}

}  // namespace

std::string writeJob(const Job& job) {
    JsonNode root = writeHead(jobFormat, jobFileVersion);
    root.add("shop", JsonNode::ofText(job.shop));
    root.add("unit", writeUnitNode(job.unit));
    root.add("customer", writeCustomer(job.customer));
    root.add("visit", writeVisitNode(job.visit));
    root.add("circuit", writeCircuitNode(job.stock));
    addCorrections(root, job.corrections);
    root.add("plan", writePlanNode(job.plan));
    root.add("setting", writeSettingNode(job.setting));
    if (!job.pinned.empty()) {
        root.add("pinned", writeList(job.pinned, writePinned));
    }
    addBoard(root, job.board);
    if (!job.departures.empty()) {
        root.add("departures", writeDeparturesNode(job.departures));
    }
    restoreUnknown(root, job.unknown);
    return printJson(root);
}

Result<Job> readJob(std::string_view text) {
    const Result<JsonNode> root = parseJson(text);
    return root ? readJobNode(*root) : root.error();
}

Result<Job> readJobNode(const JsonNode& root) {
    ReadingState state;
    JsonReader reader(root, state);
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
        return Error{
            readBack.error().code,
            said("The job cannot be saved as it is; the file on disk is as before. %1", readBack.error().message),
            readBack.error().where};
    }
    return replaceKeepingEarlier(path, text);
}

std::string writeCircuit(const Circuit& circuit) {
    JsonNode root = writeHead(circuitFormat, jobFileVersion);
    root.add("circuit", writeCircuitNode(circuit));
    return printJson(root);
}

Result<Circuit> readCircuit(std::string_view text) {
    return readOfKind(text, circuitFormat, jobFileVersion,
                      [](JsonReader& reader) { return readCircuitNode(reader.member("circuit")); });
}

}  // namespace ohmwright

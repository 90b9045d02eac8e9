// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/sound_parts.h"

#include "core/base/said.h"
#include "core/files/job_file.h"
#include "core/files/json_path.h"
#include "core/files/json_tree.h"
#include "core/files/named_file.h"

#include <algorithm>
#include <utility>

namespace ohmwright {

namespace {

constexpr int mostFaults = 1000;  // Every one is a reading anew; a file with more is no job any longer.

/// The job that everything missing is taken from.
const JsonNode& newJob() {
    static const JsonNode node = *parseJson(writeJob(Job()));
    return node;
}

/// Members that a new job has and this object has not. Returns whether there were any.
bool addMissing(JsonNode& node, const JsonNode& whole) {
    bool isChanged = false;
    for (std::size_t i = 0; i < whole.keys.size(); ++i) {
        if (!node.find(whole.keys[i])) {
            node.add(whole.keys[i], whole.items[i]);
            isChanged = true;
        }
    }
    return isChanged;
}

void removeItem(JsonNode& nest, const JsonNode* item) {
    const auto index = item - nest.items.data();
    nest.items.erase(nest.items.begin() + index);
    if (!nest.keys.empty()) {
        nest.keys.erase(nest.keys.begin() + index);
    }
}

/// Makes the place readable and says how; empty when it cannot be.
std::string mend(JsonNode& root, const std::string& where) {
    JsonNode* node = &root;
    const JsonNode* whole = &newJob();
    for (const std::string& step : where == "the file" ? std::vector<std::string>() : stepsOfPath("/" + where)) {
        JsonNode* next = childAt(*node, step);
        if (!next) {
            break;
        }
        const JsonNode* wholeNext = whole->find(step);
        if (node->kind == JsonNode::Kind::list || !wholeNext) {
            removeItem(*node, next);
            return said("It is left out.");
        }
        node = next;
        whole = wholeNext;
    }
    const bool isObject = node->kind == JsonNode::Kind::object && whole->kind == JsonNode::Kind::object;
    if (isObject) {
        return addMissing(*node, *whole) ? said("It stands as in a new job.") : std::string();
    }
    const int line = node->line;
    *node = *whole;
    node->line = line;
    return said("It stands as in a new job.");
}

/// Known from here on as the version that can be read. Returns what there is to say of it.
std::string takeAsKnown(JsonNode& root) {
    JsonNode* version = root.find("version");
    const bool isNewer = version && version->kind == JsonNode::Kind::number && version->number > jobFileVersion;
    if (!isNewer) {
        return {};
    }
    std::string sentence = said(
        "A newer program wrote the file: it has format version %1, and version %2 is the newest "
        "that is known here.",
        version->text, jobFileVersion);
    *version = JsonNode::ofInteger(jobFileVersion);
    return sentence;
}

void addUnknown(const std::vector<UnknownKey>& unknown, std::vector<std::string>& faults) {
    for (const UnknownKey& key : unknown) {
        faults.push_back(said("%1: this key is not known here. It is not shown.", key.path.substr(1)));
    }
}

}  // namespace

Result<SoundParts> readSoundParts(std::string_view text) {
    const Result<Job> whole = readJob(text);
    if (whole) {
        return Error{ErrorCode::invalidInput, said("The file is sound."), {}};
    }
    PartOfJson part = parseWhatIsWhole(text);
    const JsonNode* format = part.root.kind == JsonNode::Kind::object ? part.root.find("format") : nullptr;
    if (!format || format->text != newJob().find("format")->text) {
        return whole.error();
    }
    SoundParts sound;
    if (part.fault) {
        sound.faults.push_back(part.fault->message);
    }
    const std::string newer = takeAsKnown(part.root);
    sound.isNewer = !newer.empty();
    if (sound.isNewer) {
        sound.faults.insert(sound.faults.begin(), newer);
    }
    Result<Job> job = readJobNode(part.root);
    for (int count = 0; !job && count < mostFaults; ++count) {
        const std::string how = mend(part.root, job.error().where);
        if (how.empty()) {
            return whole.error();
        }
        sound.faults.push_back(job.error().message + " " + how);
        job = readJobNode(part.root);
    }
    if (!job || job->stock.parts.empty()) {
        return whole.error();
    }
    if (sound.isNewer) {
        addUnknown(job->unknown, sound.faults);
    }
    sound.job = *std::move(job);
    return sound;
}

Result<SoundParts> loadSoundParts(const std::filesystem::path& path) {
    return loadBy(path, readSoundParts);
}

}  // namespace ohmwright

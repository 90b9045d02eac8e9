// Verbs that put the stock drawing right: what the board has instead, what is taken back, what was looked at.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/job_drawer.h"
#include "app/commandline/verbs.h"
#include "core/base/value_text.h"
#include "core/circuit/knowledge_words.h"
#include "core/files/job_file.h"
#include "core/files/part_data.h"
#include "core/plan/board_walk.h"
#include "core/plan/correct.h"
#include "core/plan/edits.h"
#include "core/plan/findings.h"

#include <algorithm>
#include <array>

namespace ohmwright {

namespace {

constexpr double percent = 100.0;

/// "12k" in the part's own unit. Errors: of the house's reader, at the option.
Result<double> readPartValue(std::string_view option, const std::string& text, PartKind kind) {
    const auto value = parsePartValue(text, unitOf(kind));
    if (!value) return refuseOption(option, value.error().message);
    return value->si;
}

/// A type that the unit, its plan or the drawer knows.
Result<Model> typeOfCall(const Job& job, const Request& request, PartKind kind) {
    if (const Model* known = findModel(job.stock, request.type); known != nullptr) return *known;
    for (const Mod& mod : job.plan) {
        for (const SingleChange& change : everySingleChange(mod.change)) {
            const auto* swap = std::get_if<SwapType>(&change);
            if (swap != nullptr && swap->model.name == request.type) return swap->model;
        }
        for (const NewPart* fitted : newPartsOf(mod.change))
            if (fitted->model.name == request.type) return fitted->model;
    }
    if (!request.models.empty()) {
        const auto library = loadModels(request.models);
        // Of another file than the one that the call is about: it names itself.
        if (!library) return Error{ErrorCode::fileUnreadable, library.error().message, request.models};
        const Model* known = findModel(*library, request.type);
        if (known != nullptr && known->kind == kind) return *known;
    }
    return refuseOption("--type", "“" + request.type +
                                      "” is no type that the unit or its plan has: name a file of part "
                                      "data with --models.");
}

/// "linear", "log 15", "reverse log 10": percent of the track at half travel.
Result<LawFound> readLaw(const std::string& text) {
    if (text == "linear") return LawFound{};
    const bool isReverse = text.starts_with("reverse log ");
    if (!isReverse && !text.starts_with("log "))
        return refuseOption("--law", "write linear, \"log 15\" or \"reverse log 10\", in percent at half travel.");
    const auto share = readFigure("--law", text.substr(text.rfind(' ') + 1), Unit::none);
    if (!share) return share.error();
    return LawFound{isReverse ? Taper::reverseLogarithmic : Taper::logarithmic, *share / percent};
}

Result<LegFound> readLeg(const Part& part, const Request& request) {
    const auto leg = readCountOr("--leg", request.leg, 1, static_cast<int>(part.nets.size()), 1);
    if (!leg) return leg.error();
    if (request.net.empty()) return refuseOption("--net", "name the net where leg " + request.leg + " sits.");
    return LegFound{*leg - 1, request.net};
}

/// One finding a call: of two, one would be lost.
Result<void> requireOneFinding(const Request& request) {
    const std::pair<const char*, bool> said[] = {{"--missing", request.missing},
                                                 {"--type", !request.type.empty()},
                                                 {"--value", !request.value.empty()},
                                                 {"--tolerance", !request.tolerance.empty()},
                                                 {"--law", !request.law.empty()},
                                                 {"--leg", !request.leg.empty()},
                                                 {"--reference", !request.reference.empty()},
                                                 {"--board-note", !request.boardNote.empty()}};
    std::string first;
    for (const auto& [option, isSaid] : said) {
        if (isSaid && !first.empty())
            return refuseOption(option, "one call says one thing, and " + first +
                                            " says another: write what is found "
                                            "with the one, then the other.");
        first = isSaid ? option : first;
    }
    return {};
}

/// What the call says of a part that is drawn.
Result<Finding> findingOn(const Job& job, const Part& part, const Request& request) {
    if (const auto one = requireOneFinding(request); !one) return one.error();
    if (request.missing) return Finding(PresenceFound{});
    if (!request.type.empty()) {
        const auto type = typeOfCall(job, request, part.kind);
        if (!type) return type.error();
        return Finding(TypeFound{*type, request.printed});
    }
    if (!request.value.empty()) {
        if (!hasValue(part.kind)) return refuseOption("--value", displayName(part) + " has no value: use --type.");
        const auto value = readPartValue("--value", request.value, part.kind);
        if (!value) return value.error();
        return Finding(ValueFound{*value, request.printed});
    }
    if (!request.tolerance.empty()) {
        const auto share = readFigure("--tolerance", request.tolerance, Unit::none);
        if (!share) return share.error();
        return Finding(ToleranceFound{*share / percent});
    }
    if (!request.law.empty()) {
        const auto law = readLaw(request.law);
        if (!law) return law.error();
        return Finding(*law);
    }
    if (!request.leg.empty()) {
        const auto leg = readLeg(part, request);
        if (!leg) return leg.error();
        return Finding(*leg);
    }
    if (!request.reference.empty()) return Finding(ReferenceFound{request.reference});
    if (!request.boardNote.empty()) return Finding(BoardNoteFound{request.boardNote});
    return refuseOption("--part",
                        "say what the board has: --value, --type, --tolerance, --law, --leg with --net, "
                        "--reference, --board-note or --missing.");
}

/// A part that the drawing has not: --part is its reference.
Result<Finding> partMore(const Job& job, const Request& request) {
    static constexpr std::array kinds{PartKind::resistor,      PartKind::capacitor, PartKind::inductor,
                                      PartKind::potentiometer, PartKind::link,      PartKind::diode,
                                      PartKind::bipolar,       PartKind::jfet,      PartKind::mosfet};
    std::string names;
    const PartKind* kind = nullptr;
    for (const PartKind& each : kinds) {
        names.append(names.empty() ? "" : ", ").append(kindName(each));
        if (kindName(each) == request.more) kind = &each;
    }
    if (kind == nullptr) return refuseOption("--more", "choose one of " + names + ".");
    PresenceFound found;
    Part part;
    part.reference = request.part;
    part.kind = *kind;
    part.nets = splitAtCommas(request.net);
    part.printed = request.printed;
    part.boardNote = request.boardNote;
    part.knowledge = Knowledge::seen;
    if (hasValue(*kind)) {
        const auto value = readPartValue("--value", request.value, *kind);
        if (!value) return value.error();
        part.value = *value;
    } else if (hasModel(*kind)) {
        const auto type = typeOfCall(job, request, *kind);
        if (!type) return type.error();
        part.model = type->name;
        found.models.push_back(*type);
    }
    if (!request.beside.empty()) {
        const auto beside = partNamed(job.stock, "--beside", request.beside);
        if (!beside) return beside.error();
        found.beside = (*beside)->id;
    }
    found.part = part;
    return Finding(found);
}

Result<WrittenFile> asFile(const Result<Job>& job) {
    if (!job) return refuseOption("--part", job.error().message);
    return WrittenFile{writeJob(*job), {}};
}

}  // namespace

Result<WrittenFile> writeFound(const Job& job, const Request& request, const std::stop_token&) {
    Correction correction;
    const auto reason = reasonOfWord(request.reason);
    if (!reason) return refuseOption("--reason", "choose board differs, earlier mod or misread.");
    correction.reason = *reason;
    correction.note = request.note;
    correction.who = request.who;
    correction.when = request.when.empty() ? timeOfNow() : request.when;
    if (request.more.empty()) {
        const auto part = partNamed(job.stock, "--part", request.part);
        if (!part) return part.error();
        correction.part = (*part)->id;
        const auto finding = findingOn(job, **part, request);
        if (!finding) return finding.error();
        correction.found = *finding;
    } else {
        const auto finding = partMore(job, request);
        if (!finding) return finding.error();
        correction.found = *finding;
    }
    const auto corrected = correct(job, correction);
    auto file = asFile(corrected);
    if (!file || corrected->corrections.empty()) return file;
    for (const ModAndCorrection& met : modsOnCorrected(*corrected, correction)) file->notes.push_back(met.sentence);
    const std::string lines = linesSay(corrected->stock, correction.part);
    if (!lines.empty()) file->notes.push_back(lines);
    const std::string undrawn =
        request.more.empty() ? std::string() : notDrawn(corrected->stock, corrected->corrections.back().part);
    if (!undrawn.empty()) file->notes.push_back(undrawn);
    return file;
}

Result<WrittenFile> writeTakenBack(const Job& job, const Request& request, const std::stop_token&) {
    const auto last = static_cast<int>(job.corrections.size());
    const auto number = readCountOr("--number", request.number, 1, std::max(1, last), std::max(1, last));
    if (!number) return number.error();
    const auto drawn = takeBackCorrection(job, static_cast<std::size_t>(*number - 1));
    if (!drawn) return refuseOption("--number", drawn.error().message);
    return WrittenFile{writeJob(*drawn), {}};
}

Result<WrittenFile> writeMeasured(const Job& job, const Request& request, const std::stop_token&) {
    const auto part = partNamed(job.stock, "--part", request.part);
    if (!part) return part.error();
    std::optional<double> read;
    if (!request.value.empty()) {
        const auto value = readPartValue("--value", request.value, (*part)->kind);
        if (!value) return value.error();
        read = *value;
    }
    return asFile(setPartMeasured(job, (*part)->id, read));
}

Result<Answer> answerCorrections(const PreparedCircuit& prepared, const Request&, const std::stop_token&) {
    const Job& job = *prepared.job;
    Answer answer{{Table{{"number", "part", "found", "drawn", "reason", "visit", "when", "who", "note"}, {}}}, {}, {}};
    double number = 0.0;
    for (const Correction& each : job.corrections) {
        const Part* part = findPart(job.stock, each.part);
        const PartKind kind = part != nullptr ? part->kind : PartKind::resistor;
        answer.tables.front().rows.push_back({++number, correctedName(job.stock, each), findingWords(each.found, kind),
                                              findingWords(each.drawn, kind), std::string(reasonWord(each.reason)),
                                              static_cast<double>(each.visit), each.when, each.who, each.note});
        for (const ModAndCorrection& met : modsOnCorrected(job, each)) answer.notes.push_back(met.sentence);
    }
    if (const std::string revision = revisionWords(job); !revision.empty())
        answer.notes.push_back("Board revision: " + revision + ".");
    return answer;
}

Result<Answer> answerWalk(const PreparedCircuit& prepared, const Request&, const std::stop_token&) {
    const Job& job = *prepared.job;
    Answer answer{
        {Table{{"step", "stage", "part", "value", "printed", "known", "measured", "drawing", "where"}, {}}}, {}, {}};
    double step = 0.0;
    for (const PartId& id : walkOrder(job.stock)) {
        const Part& part = *findPart(job.stock, id);
        const Stage* stage = stageOfPart(job.stock, id);
        const std::string value = hasValue(part.kind) ? formatPartValue({part.value, unitOf(part.kind)}) : part.model;
        answer.tables.front().rows.push_back({++step, stage != nullptr ? stage->name : std::string(), displayName(part),
                                              value, part.printed, std::string(knowledgeWord(part.knowledge)),
                                              part.measured ? Cell(*part.measured) : Cell(), drawingSays(job, id),
                                              part.boardNote});
    }
    const WalkProgress progress = walkProgress(job.stock);
    answer.notes.push_back(std::to_string(progress.drawn) + " of " + std::to_string(progress.all()) +
                           " parts are known from the drawing alone.");
    return answer;
}

}  // namespace ohmwright

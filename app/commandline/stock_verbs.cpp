// Verbs of the shop: what is in the drawer, what a plan takes out of it, what can stand for a part, and the price.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/job_drawer.h"
#include "app/commandline/verbs.h"
#include "core/base/value_text.h"
#include "core/files/atomic_file.h"
#include "core/files/drawer_csv.h"
#include "core/files/drawer_file.h"
#include "core/files/file_head.h"
#include "core/plan/device_pick.h"
#include "core/plan/pick_list.h"
#include "core/plan/quote.h"
#include "core/plan/substitutes.h"

#include <cmath>

namespace ohmwright {

namespace {

Cell figure(double value) {
    return value == 0.0 || !std::isfinite(value) ? Cell() : Cell(value);
}

Cell cellOf(const std::optional<double>& value) {
    return value ? Cell(*value) : Cell();
}

/// Errors: of the file; invalidInput where there is no drawer to look into.
Result<JobDrawer> requireDrawer(const Request& request) {
    auto drawer = readJobDrawer(request);
    if (drawer && drawer->isAssumed())
        return refuseOption("--drawer", "there is no drawer beside the job: name one, or its shop with --shop.");
    return drawer;
}

const char* lineWord(QuoteLineKind kind) {
    switch (kind) {
        case QuoteLineKind::fee:
            return "fee";
        case QuoteLineKind::work:
            return "work";
        case QuoteLineKind::part:
            return "part";
        case QuoteLineKind::risk:
            break;
    }
    return "risk";
}

std::string nameOf(const Shortage& shortage) {
    return shortage.type.empty() ? formatPartValue({shortage.value, unitOf(shortage.kind)}) : shortage.type;
}

void addShortages(Answer& answer, const std::string& folder, const Drawer& drawer, const std::stop_token& stop) {
    std::vector<Job> open;
    for (const ShopJob& file : readShopJobs(folder, stop)) {
        if (!file.job)
            answer.notes.push_back(file.fault);
        else if (isOpen(file.job->visit.state))
            open.push_back(*file.job);
    }
    Table table{{"part", "needed", "there", "missing", "jobs"}, {}};
    std::vector<std::string> unfit;
    for (const Shortage& shortage : shortageList(open, drawer, &unfit)) {
        std::string jobs;
        for (const std::string& job : shortage.jobs) jobs += (jobs.empty() ? "" : " ") + job;
        table.rows.push_back(
            {nameOf(shortage), double(shortage.needed), double(shortage.there), double(shortage.missing), jobs});
    }
    for (const std::string& job : unfit) answer.notes.push_back(job + ": its plan cannot be fitted.");
    answer.tables.push_back(std::move(table));
}

}  // namespace

Result<Answer> answerDrawer(const PreparedCircuit& prepared, const Request& request, const std::stop_token&) {
    const auto drawer = requireDrawer(request);
    if (!drawer) return drawer.error();
    const std::string job = reservationName(*prepared.job);
    Table table{{"lot", "kind", "value", "type", "quantity", "free", "printed", "measured"}, {}};
    for (const DrawerLot& lot : drawer->drawer.lots)
        table.rows.push_back({lot.id, std::string(kindName(lot.kind)), figure(lot.value), lot.type,
                              double(lot.quantity), double(availableFor(lot, job)), lot.printed, cellOf(lot.measured)});
    return Answer{{table}, {}, {}};
}

Result<Answer> answerPickList(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    const auto drawer = requireDrawer(request);
    if (!drawer) return drawer.error();
    const auto lines = pickList(*prepared.job, drawer->drawer);
    if (!lines) return lines.error();
    Table table{{"mod", "place", "lot", "printed", "sentence"}, {}};
    for (const PickLine& line : *lines)
        table.rows.push_back({line.modLetter, line.reference, line.lot, line.printed, line.sentence});
    Answer answer{{table}, {}, {}};
    if (!request.shop.empty()) {
        const auto shop = readCallShop(request);
        if (!shop) return shop.error();
        addShortages(answer, request.shop, shop->drawer.value_or(Drawer()), stop);
    }
    return answer;
}

Result<Answer> answerSubstitutes(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    const auto part = partNamed(prepared.circuit, "--part", request.part);
    if (!part) return part.error();
    const auto drawer = requireDrawer(request);
    if (!drawer) return drawer.error();
    SubstituteRequest asked;
    asked.part = (*part)->id;
    asked.drawer = drawer->drawer;
    const auto found = findSubstitutes(*prepared.job, asked, stop);
    if (!found) return found.error();
    Answer answer{{Table{{"lot", "value", "type", "score", "consequence"}, {}}}, {}, {}};
    for (const Substitute& each : *found) {
        answer.tables.front().rows.push_back({each.lot, figure(each.value), each.type, each.score, each.consequence});
        for (const std::string& warning : each.warnings) answer.notes.push_back(each.lot + ": " + warning);
    }
    return answer;
}

Result<Answer> answerDevicePick(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    const auto part = partNamed(prepared.circuit, "--part", request.part);
    if (!part) return part.error();
    const auto drawer = requireDrawer(request);
    if (!drawer) return drawer.error();
    const auto picks = pickDevices(prepared.circuit, prepared.setting, (*part)->id, drawer->drawer, {}, {}, stop);
    if (!picks) return picks.error();
    Table table{{"lot", "device", "output_v", "stage_gain_db", "balance", "trimmed_ohm", "trimmed_gain_db"}, {}};
    for (const DevicePick& pick : *picks)
        table.rows.push_back({pick.lot, pick.label, pick.outputVolts, pick.stageGainDb, pick.balance,
                              cellOf(pick.trimmedOhms), pick.trimmedOhms ? Cell(pick.trimmedGainDb) : Cell()});
    return Answer{{table}, {}, {}};
}

Result<Answer> answerQuote(const PreparedCircuit& prepared, const Request& request, const std::stop_token&) {
    const auto drawer = readJobDrawer(request);
    if (!drawer) return drawer.error();
    const auto shop = readCallShop(request);
    if (!shop) return shop.error();
    const auto quote = makeQuote(*prepared.job, drawer->drawer, shop->rates);
    if (!quote) return quote.error();
    Answer answer{{Table{{"kind", "mod", "what", "minutes", "price"}, {}}}, {}, {}};
    for (const QuoteLine& line : quote->lines)
        answer.tables.front().rows.push_back(
            {std::string(lineWord(line.kind)), line.modLetter, line.what, line.minutes, line.price});
    answer.closing = {{"minutes", quote->minutes}, {"total", quote->total}};
    answer.notes.push_back("Prices in " + quote->currency + ".");
    answer.notes.insert(answer.notes.end(), quote->consents.begin(), quote->consents.end());
    if (drawer->isAssumed()) answer.notes.push_back(drawer->note());
    return answer;
}

Result<WrittenFile> writeDrawerTable(const Job&, const Request& request, const std::stop_token&) {
    const auto onHand = requireDrawer(request);
    if (!onHand) return onHand.error();
    return WrittenFile{writeDrawerCsv(onHand->drawer), {}};
}

Result<WrittenFile> writeDrawerMerged(const Job& job, const Request& request, const std::stop_token&) {
    const auto onHand = readJobDrawer(request);
    if (!onHand) return onHand.error();
    const auto text = readWholeFile(request.table);
    if (!text) return text.error();
    const auto table = readDrawerCsv(*text);
    if (!table) return errorInFile(table.error(), request.table);
    if (!table->troubles.empty())
        return errorInFile({ErrorCode::fileUnreadable,
                            table->troubles.front().message + " Lines with a fault: " +
                                std::to_string(table->troubles.size()) + "; nothing of the table was taken.",
                            ""},
                           request.table);
    Drawer before = onHand->drawer;
    if (before.shop.empty()) before.shop = job.shop;
    const Drawer merged = mergedInto(before, *table);
    const std::size_t added = merged.lots.size() - before.lots.size();
    WrittenFile file{
        writeDrawer(merged),
        {std::to_string(table->lots.size() - added) + " lots replaced, " + std::to_string(added) + " added."}};
    for (const std::string& column : table->unknownColumns)
        file.notes.push_back("The column “" + column + "” means nothing here and was left out.");
    return file;
}

}  // namespace ohmwright

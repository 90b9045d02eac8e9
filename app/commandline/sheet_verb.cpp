// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/job_drawer.h"
#include "app/commandline/offscreen.h"
#include "app/commandline/verbs.h"
#include "app/papers/make_paper.h"
#include "core/bench/paper_answers.h"
#include "core/files/atomic_file.h"

#include <QByteArray>

#include <filesystem>
#include <memory>
#include <optional>

namespace ohmwright {

namespace {

/// The whole of --kind, from the drawer and the shop where the paper needs them.
Result<PaperRequest> requestOf(const PreparedCircuit& prepared, const Request& request) {
    const std::optional<PaperKind> kind = paperOfWord(request.kind);
    if (!kind) return refuseOption("--kind", "choose bench, way-back, customer, label or quote.");
    PaperRequest paper;
    paper.kind = *kind;
    paper.job = std::make_shared<const Job>(*prepared.job);
    const Result<Shop> shop = readCallShop(request);
    if (!shop) return shop.error();
    paper.words = shop->words;
    paper.rates = shop->rates;
    const Result<JobDrawer> drawer = readJobDrawer(request);
    if (!drawer) return drawer.error();
    paper.drawer = drawer->drawer;
    paper.isStockAssumed = drawer->isAssumed();
    return paper;
}

}  // namespace

Result<void> printSheet(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    if (request.paper != "a4" && request.paper != "letter") return refuseOption("--paper", "choose a4 or letter.");
    const Result<PaperRequest> wanted = requestOf(prepared, request);
    if (!wanted) return wanted.error();
    // What nobody saw is a gap in the file, no fault of the call.
    if (const Result<void> seen = checkSeen(*prepared.job); !seen)
        return Error{ErrorCode::fileDamaged, seen.error().message + " The verb seen does it.", {}};
    const Result<PaperAnswers> answers = answersOfPaper(*wanted, stop);
    if (!answers) return answers.error();
    const Offscreen offscreen;
    std::error_code ignored;
    const std::filesystem::path folder = std::filesystem::absolute(request.file, ignored).parent_path();
    const StepPhotos photos = readStepPhotos(*answers, QString::fromStdString(folder.string()));
    const QByteArray pdf = pdfOf(layOut(*answers, request.paper == "a4" ? PaperSize::a4 : PaperSize::letter, photos));
    return replaceFile(request.out, std::string_view(pdf.constData(), static_cast<std::size_t>(pdf.size())));
}

}  // namespace ohmwright

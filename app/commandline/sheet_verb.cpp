// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/job_drawer.h"
#include "app/commandline/verbs.h"
#include "app/look/theme.h"
#include "app/papers/bench_sheet.h"
#include "app/papers/customer_papers.h"
#include "core/files/atomic_file.h"
#include "core/plan/compare.h"

#include <QApplication>

#include <algorithm>
#include <array>
#include <memory>

namespace ohmwright {

namespace {

/// Fonts and painters need an application; made only here and without a display, and not when there is one.
class PaperMaker {
public:
    PaperMaker() {
        if (QApplication::instance() != nullptr) return;
        qputenv("QT_QPA_PLATFORM", "offscreen");
        // Notes on the desktop's own set-up are not for a caller without one.
        qInstallMessageHandler([](QtMsgType, const QMessageLogContext&, const QString&) {});
        m_application = std::make_unique<QApplication>(m_argumentCount, m_arguments.data());
        Theme::install();
    }

private:
    std::array<char, 14> m_name = {"ohmwright-cli"};
    std::array<char*, 2> m_arguments = {m_name.data(), nullptr};
    int m_argumentCount = 1;
    std::unique_ptr<QApplication> m_application;
};

/// Why there is no sheet; what is wrong with the job keeps its code.
Error noSheet(Error error) {
    if (error.code != ErrorCode::cancelled)
        error.message = "No sheet is printed while the job cannot be solved. " + error.message;
    return error;
}

}  // namespace

Result<void> printSheet(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    constexpr std::array<std::string_view, 5> kinds{"bench", "way-back", "customer", "label", "quote"};
    if (std::find(kinds.begin(), kinds.end(), request.kind) == kinds.end()) {
        return refuseOption("--kind", "choose bench, way-back, customer, label or quote.");
    }
    if (request.paper != "a4" && request.paper != "letter") return refuseOption("--paper", "choose a4 or letter.");
    const PaperSize paper = request.paper == "a4" ? PaperSize::a4 : PaperSize::letter;
    const auto written = [&](const Result<QByteArray>& pdf) -> Result<void> {
        if (!pdf) return pdf.error();
        return replaceFile(request.out, std::string_view(pdf->constData(), static_cast<std::size_t>(pdf->size())));
    };
    if (request.kind == "way-back") {
        const PaperMaker maker;
        return written(wayBackSheetPdf(*prepared.job, paper));
    }
    if (request.kind == "customer") {
        const Result<Shop> shop = readCallShop(request);
        if (!shop) return shop.error();
        const PaperMaker maker;
        const Result<Paper> sheet = customerSheet(*prepared.job, paper, shop->words, stop);
        if (!sheet) return sheet.error();
        return written(pdfOf(*sheet));
    }
    if (request.kind == "label") {
        const PaperMaker maker;
        return written(pdfOf(lidLabel(*prepared.job, paper)));
    }
    if (request.kind == "quote") {
        const Result<JobDrawer> drawer = readJobDrawer(request);
        if (!drawer) return drawer.error();
        const Result<Shop> shop = readCallShop(request);
        if (!shop) return shop.error();
        const Result<Quote> quote = makeQuote(*prepared.job, drawer->drawer, shop->rates);
        if (!quote) return quote.error();
        const PaperMaker maker;
        return written(pdfOf(quoteSheet(*prepared.job, *quote, paper, drawer->isAssumed())));
    }
    CompareRequest compare;
    compare.job = std::make_shared<const Job>(*prepared.job);
    const Result<LinearAnswer> linear = compareLinear(compare, stop);
    if (!linear) return noSheet(linear.error());
    const Result<LargeSignalAnswer> largeSignal = compareLargeSignal(compare, stop);
    if (!largeSignal) return noSheet(largeSignal.error());
    const PaperMaker maker;
    return written(benchSheetPdf(*compare.job, *linear, *largeSignal, paper));
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/verbs.h"
#include "app/look/theme.h"
#include "app/papers/bench_sheet.h"

#include <QApplication>

#include <array>
#include <memory>

namespace ohmwright {

namespace {

Error refuse(const std::string& option, const std::string& sentence) {
    return {ErrorCode::invalidInput, option + ": " + sentence, option};
}

/// Fonts and painters need an application; made only here and without a display, and not when there is one.
class PaperMaker {
public:
    PaperMaker() {
        if (QApplication::instance() != nullptr) return;
        qputenv("QT_QPA_PLATFORM", "offscreen");
        m_application = std::make_unique<QApplication>(m_argumentCount, m_arguments.data());
        Theme::install();
    }

private:
    std::array<char, 14> m_name = {"ohmwright-cli"};
    std::array<char*, 2> m_arguments = {m_name.data(), nullptr};
    int m_argumentCount = 1;
    std::unique_ptr<QApplication> m_application;
};

}  // namespace

Result<void> printSheet(const PreparedJob& prepared, const Request& request) {
    if (request.kind != "bench") return refuse("--kind", "choose bench; no other sheet can be printed yet.");
    if (request.out.empty()) return refuse("--out", "name the PDF to write, as in --out sheet.pdf.");
    if (request.paper != "a4" && request.paper != "letter") return refuse("--paper", "choose a4 or letter.");
    const PaperMaker maker;
    return writeBenchSheet(prepared.job, QString::fromStdString(request.out),
                           request.paper == "a4" ? PaperSize::a4 : PaperSize::letter);
}

}  // namespace ohmwright

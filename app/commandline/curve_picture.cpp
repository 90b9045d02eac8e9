// The verb curve where its file is a picture: what the window exports of a curve.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/offscreen.h"
#include "app/commandline/verbs.h"
#include "app/curves/job_sheet.h"
#include "core/files/atomic_file.h"
#include "core/plan/apply.h"
#include "core/plan/pinned.h"

#include <QByteArray>

#include <algorithm>
#include <cctype>
#include <filesystem>

namespace ohmwright {

namespace {

/// ".svg", in small letters.
std::string endingOf(const std::string& path) {
    std::string ending = std::filesystem::path(path).extension().string();
    std::transform(ending.begin(), ending.end(), ending.begin(),
                   [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
    return ending;
}

Error ofGhost(const PinnedState& pinned, Error error) {
    error.message = "ghost " + pinned.letter + ": " + error.message;
    return error;
}

/// The states that are pinned with the job, each along the same kind of curve.
Result<std::vector<PinnedCurve>> pinnedCurves(const Job& job, CurveKind kind, const std::stop_token& stop) {
    std::vector<PinnedCurve> curves;
    for (const PinnedState& pinned : job.pinned) {
        const Job pinnedJob = jobOfPinned(job, pinned);
        const Result<Circuit> circuit = nowCircuit(pinnedJob);
        if (!circuit) return ofGhost(pinned, circuit.error());
        Result<CurveTable> table = measureCurve(kind, *circuit, pinnedJob.setting, stop);
        if (!table) return ofGhost(pinned, asCircuitFault(table.error()));
        curves.push_back({QString::fromStdString(pinned.letter), static_cast<int>(pinnedLetters.find(pinned.letter)),
                          *std::move(table)});
    }
    return curves;
}

}  // namespace

bool isCurvePicture(const std::string& path) {
    const std::string ending = endingOf(path);
    return ending == ".svg" || ending == ".png" || ending == ".pdf";
}

Result<void> writeCurvePicture(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    const std::string ending = endingOf(request.out);
    if (ending == ".pdf")
        return refuseOption("--out", "a curve is drawn as .svg or .png; any other ending is given its values.");
    const Result<CurveKind> kind = curveKindOf(request);
    if (!kind) return kind.error();
    if (*kind == CurveKind::bias)
        return refuseOption("--out", "bias is a table and has no picture: write its values, as in bias.csv.");
    const Result<ComparedCurve> curve = compareCurve(*prepared.job, *kind, stop);
    if (!curve) return asCircuitFault(curve.error());
    const Result<std::vector<PinnedCurve>> pins = pinnedCurves(*prepared.job, *kind, stop);
    if (!pins) return pins.error();
    const Offscreen offscreen;
    const CurveSheet sheet = sheetOfJob(*kind, *prepared.job, *curve, *pins);
    const QByteArray bytes = ending == ".svg" ? curveSheetSvg(sheet) : curveSheetPng(sheet);
    return replaceFile(request.out, std::string_view(bytes.constData(), static_cast<std::size_t>(bytes.size())));
}

}  // namespace ohmwright

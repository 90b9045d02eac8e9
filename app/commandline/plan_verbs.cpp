// Verbs of the planning half: spread, shares, claims, knobs, sums.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/frequency_grid.h"
#include "app/commandline/job_drawer.h"
#include "app/commandline/verbs.h"
#include "core/measure/spread.h"
#include "core/plan/claims.h"
#include "core/plan/compare_curves.h"
#include "core/plan/knob_translation.h"
#include "core/plan/shares.h"
#include "core/plan/sums.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <sstream>
#include <string>

namespace ohmwright {

namespace {

/// Points a decade of the spread where the call names no grid: each is solved in thousands of builds.
constexpr const char* spreadPerDecade = "20";

Cell cellOf(const std::optional<double>& value) {
    return value ? Cell(*value) : Cell();
}

/// "fuller, less squashed" as two words.
std::vector<std::string> wordsOf(const std::string& text) {
    std::vector<std::string> words;
    std::istringstream parts(text);
    for (std::string part; std::getline(parts, part, ',');) {
        const auto from = part.find_first_not_of(' ');
        if (from != std::string::npos) words.push_back(part.substr(from, part.find_last_not_of(' ') - from + 1));
    }
    return words;
}

}  // namespace

Result<Answer> answerSpread(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    Request grid = request;
    if (grid.at.empty() && grid.perDecade.empty()) grid.perDecade = spreadPerDecade;
    const Result<std::vector<double>> hertz = frequenciesOf(grid);
    if (!hertz) return hertz.error();
    // Mods are held against the spread of stock; a variant that the call names is asked for its own.
    const Circuit& circuit = request.variant.empty() ? prepared.job->stock : prepared.circuit;
    const Result<SampledBand> band = sampledBand(circuit, prepared.setting, *hertz, {}, stop);
    if (!band) return asCircuitFault(band.error());
    Answer answer{{Table{{"frequency_hz", "low_db", "high_db"}, {}}}, {}};
    for (std::size_t k = 0; k < hertz->size(); ++k)
        answer.tables.front().rows.push_back({(*hertz)[k], band->lowDb[k], band->highDb[k]});
    const Result<std::vector<ModSpread>> marks = markMods(*prepared.job, *hertz, stop);
    if (!marks) return asCircuitFault(marks.error());
    for (const ModSpread& mark : *marks)
        if (mark.isWithin) answer.notes.push_back("mod " + mark.letter + " " + mark.sentence + " dB.");
    return answer;
}

Result<CurveKind> curveKindOf(const Request& request) {
    const auto asked = std::find_if(curveKindNames.begin(), curveKindNames.end(),
                                    [&](const CurveKindName& each) { return each.id == request.curve; });
    if (asked == curveKindNames.end())
        return refuseOption("--kind", "is one of response, clip, level, harmonics, time, noise and bias, not \"" +
                                          request.curve + "\".");
    return asked->kind;
}

Result<Answer> answerCurve(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    const Result<CurveKind> kind = curveKindOf(request);
    if (!kind) return kind.error();
    const Result<ComparedCurve> compared = compareCurve(*prepared.job, *kind, stop);
    if (!compared) return asCircuitFault(compared.error());
    const CurveTable both = sideBySide(*compared);
    Answer answer{{Table{}}, {}};
    Table& table = answer.tables.front();
    if (!both.rows.empty()) table.columns.emplace_back("net");
    for (const CurveColumn& column : both.columns) table.columns.push_back(column.id);
    for (std::size_t row = 0; row < both.rowCount(); ++row) {
        std::vector<Cell>& cells = table.rows.emplace_back();
        cells.reserve(table.columns.size());
        if (!both.rows.empty()) cells.emplace_back(both.rows[row]);
        for (const CurveColumn& column : both.columns) {
            Cell& cell = cells.emplace_back();
            if (std::isfinite(column.values[row])) cell = column.values[row];
        }
    }
    if (!both.trouble.empty()) answer.notes.push_back("Some cells are empty: " + both.trouble);
    return answer;
}

Result<Answer> answerShares(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    SharesRequest wanted;
    if (!request.figures.empty()) wanted.figures = wordsOf(request.figures);
    wanted.withBands = false;
    const Result<SharesAnswer> shares = shareFigures(*prepared.job, wanted, stop);
    if (!shares) return shares.error();
    Answer answer{{Table{{"figure", "mod", "alone", "share"}, {}}}, {}};
    std::vector<std::vector<Cell>>& rows = answer.tables.front().rows;
    for (const FigureShares& figure : shares->figures) {
        for (const ModShare& mod : figure.mods)
            rows.push_back({figure.id, mod.letter, cellOf(mod.alone), cellOf(mod.share)});
        rows.push_back({figure.id, std::string("together"), Cell(), cellOf(figure.together)});
        rows.push_back({figure.id, std::string("interaction"), Cell(), cellOf(figure.interaction)});
        if (!figure.note.empty()) answer.notes.push_back(figure.id + ": " + figure.note);
    }
    if (!shares->note.empty()) answer.notes.push_back(shares->note);
    return answer;
}

Result<Answer> answerClaims(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    const std::vector<std::string> words = wordsOf(request.words);
    if (words.empty()) return refuseOption("--words", "name the customer's words, as in \"fuller,less squashed\".");
    const Result<Shop> shop = readCallShop(request);
    if (!shop) return shop.error();
    const Result<std::vector<ClaimAnswer>> claims = checkClaims(*prepared.job, words, shop->words, stop);
    if (!claims) return claims.error();
    Answer answer{{Table{{"word", "verdict", "figure", "stock", "now", "limit"}, {}}}, {}};
    for (const ClaimAnswer& claim : *claims) {
        const std::string verdict(verdictWord(claim.verdict));
        if (claim.figures.empty()) {
            answer.tables.front().rows.push_back({claim.word, verdict, Cell(), Cell(), Cell(), Cell()});
            answer.notes.push_back(claim.sentence);
        }
        for (const ClaimFigure& figure : claim.figures)
            answer.tables.front().rows.push_back(
                {claim.word, verdict, figure.id, cellOf(figure.stock), cellOf(figure.now), cellOf(figure.limitYes)});
        if (claim.isHeldBack) answer.notes.push_back(claim.sentence + ".");
    }
    return answer;
}

Result<Answer> answerKnobs(const PreparedCircuit& prepared, const Request&, const std::stop_token& stop) {
    const Result<std::vector<KnobTranslation>> knobs = translateKnobs(*prepared.job, stop);
    if (!knobs) return knobs.error();
    Answer answer{{Table{{"knob", "old", "new", "kept_equal"}, {}}}, {}};
    for (const KnobTranslation& knob : *knobs) {
        answer.tables.front().rows.push_back({knob.knob, knob.oldPosition, cellOf(knob.newPosition), knob.keptEqual});
        if (!knob.newPosition) answer.notes.push_back(knob.sentence + ".");
    }
    return answer;
}

Result<Answer> answerSums(const PreparedCircuit& prepared, const Request&, const std::stop_token& stop) {
    const Result<std::vector<Sum>> sums = showSums(prepared.circuit, prepared.setting, stop);
    if (!sums) return sums.error();
    Answer answer{
        {Table{{"figure", "formula", "with_values", "result", "unit", "solved", "difference", "approximation"}, {}}},
        {}};
    for (const Sum& sum : *sums)
        answer.tables.front().rows.push_back({sum.figure, sum.formula, sum.withValues, sum.result, sum.unit,
                                              cellOf(sum.solved), cellOf(sum.difference), sum.approximation});
    return answer;
}

}  // namespace ohmwright

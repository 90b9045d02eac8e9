// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/targets.h"

#include "core/base/said.h"
#include "core/base/value_text.h"
#include "core/circuit/check.h"
#include "core/measure/chosen_figures.h"
#include "core/plan/apply.h"
#include "core/plan/score_grid.h"
#include "core/plan/target_options.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <set>
#include <tuple>
#include <utility>

namespace ohmwright {

namespace {

constexpr std::size_t mostWants = 6;
constexpr std::size_t mostParts = 4;
/// Knots along one part's values. At five decades they are a fifth of a decade apart, where a cubic through four of a
/// first-order corner's decibels is right to some thousandths of a dB.
constexpr std::size_t coarseKnots = 25;
constexpr std::size_t coarseKnotsWhenSlow = 13;
/// Knots of the second look, over a fifth of a decade to each side of the best answer.
constexpr std::size_t fineKnots = 9;
constexpr double fineReach = 0.46;  // ln of about 1.6
/// Places between two knots where the score is looked at for its minima.
constexpr std::size_t placesBetweenKnots = 4;
/// Options beside a minimum that are taken into the narrower choice, to each side.
constexpr int neighbours = 3;
/// For each number of parts taken, so many answers are solved.
constexpr std::size_t solvedForEachCount = 48;
constexpr std::size_t mostTaken = 4;
/// Scores nearer than this are alike.
constexpr double scoreStep = 0.1;
const double nothing = std::numeric_limits<double>::quiet_NaN();

Error overtaken() {
    return {ErrorCode::cancelled, said("The search was overtaken by a newer one."), ""};
}

// ---- Figures of the circuit with some values changed --------------------------------------------------------------

/// What is compared: the logarithm of a ratio figure, the figure itself else, in steps of nearness from the wanted one.
class Scale {
public:
    explicit Scale(const std::vector<Want>& wants) : m_wants(wants) {}

    [[nodiscard]] std::size_t count() const { return m_wants.size(); }
    /// Misses in steps; NaN where the figure does not exist.
    [[nodiscard]] std::vector<double> misses(const std::vector<Figure>& figures) const {
        std::vector<double> result;
        for (std::size_t k = 0; k < m_wants.size(); ++k) {
            result.push_back(figures[k].value ? miss(m_wants[k], *figures[k].value) : nothing);
        }
        return result;
    }

private:
    static double miss(const Want& want, double value) {
        if (want.figure.comparedAsRatio) {
            return value > 0.0 ? 100.0 * std::log(value / want.value) : nothing;
        }
        return (value - want.value) / nearnessStep(want);
    }
    const std::vector<Want>& m_wants;
};

double scoreOf(const std::vector<double>& misses) {
    double sum = 0.0;
    for (const double miss : misses) {
        sum += miss * miss;
    }
    return std::sqrt(sum);  // NaN where a figure does not exist
}

/// Solves the circuit with the values of some parts changed, and counts.
class Bench {
public:
    Bench(Circuit circuit, const Setting& setting, const TargetRequest& request, const std::stop_token& stop)
        : m_circuit(std::move(circuit)),
          m_setting(setting),
          m_stop(stop),
          m_meter(namesOf(request)),
          m_scale(request.wants) {}

    /// Absent when this circuit has no answer; an error only when overtaken.
    Result<std::optional<std::vector<Figure>>> figuresWith(const std::vector<std::pair<PartId, double>>& values) {
        if (m_stop.stop_requested()) {
            return overtaken();
        }
        std::vector<double> before;
        for (const auto& [id, value] : values) {
            Part& part = *findPart(m_circuit, id);
            before.push_back(part.value);
            part.value = value;
        }
        ++m_solved;
        auto figures = m_meter.measure(m_circuit, m_setting, m_stop);
        for (std::size_t k = 0; k < values.size(); ++k) {
            findPart(m_circuit, values[k].first)->value = before[k];
        }
        if (figures) {
            return std::optional(*std::move(figures));
        }
        if (figures.error().code == ErrorCode::cancelled) {
            return figures.error();
        }
        m_lastTrouble = figures.error();
        return std::optional<std::vector<Figure>>();
    }
    [[nodiscard]] const Scale& scale() const { return m_scale; }
    [[nodiscard]] const Circuit& circuit() const { return m_circuit; }
    [[nodiscard]] std::size_t solved() const { return m_solved; }
    [[nodiscard]] const std::optional<Error>& lastTrouble() const { return m_lastTrouble; }
    [[nodiscard]] bool isSlow() const {
        return std::any_of(m_meter.names().begin(), m_meter.names().end(),
                           [](const FigureName& name) { return name.work >= FigureWork::settled; });
    }

private:
    static std::vector<FigureName> namesOf(const TargetRequest& request) {
        std::vector<FigureName> names;
        for (const Want& want : request.wants) {
            names.push_back(want.figure);
        }
        return names;
    }

    Circuit m_circuit;
    const Setting& m_setting;
    std::stop_token m_stop;
    FigureMeter m_meter;
    Scale m_scale;
    std::size_t m_solved = 0;
    std::optional<Error> m_lastTrouble;
};

// ---- The narrower choice --------------------------------------------------------------------------------------

/// Two choices are the same when they make the same parts of the same members.
auto identityOf(const Choice& choice) {
    const auto key = [](std::size_t place, const Option& option) {
        return option.first < 0 ? std::tuple(std::size_t(0), Joint::single, -1, -1)
                                : std::tuple(place + 1, option.joint, option.first, option.second);
    };
    auto a = key(choice.firstPlace, choice.first);
    auto b = key(choice.secondPlace, choice.second);
    return a < b ? std::pair(a, b) : std::pair(b, a);
}

/// The best of each number of parts taken, by what interpolation says.
class Narrower {
public:
    void offer(const Choice& choice) {
        ++m_considered;
        const std::size_t taken = choice.taken();
        if (taken == 0 || taken > mostTaken || !(choice.guess < m_limits[taken])) {
            return;
        }
        std::vector<Choice>& kept = m_kept[taken];
        kept.push_back(choice);
        if (kept.size() >= 6 * solvedForEachCount) {
            trim(taken);
        }
    }
    std::vector<Choice> take() {
        std::vector<Choice> all;
        for (std::size_t taken = 1; taken <= mostTaken; ++taken) {
            trim(taken);
            all.insert(all.end(), m_kept[taken].begin(), m_kept[taken].end());
        }
        return all;
    }
    [[nodiscard]] std::size_t considered() const { return m_considered; }

private:
    void trim(std::size_t taken) {
        std::vector<Choice>& kept = m_kept[taken];
        std::stable_sort(kept.begin(), kept.end(), [](const Choice& a, const Choice& b) { return a.guess < b.guess; });
        std::set<decltype(identityOf(kept.front()))> seen;
        std::erase_if(kept, [&seen](const Choice& choice) { return !seen.insert(identityOf(choice)).second; });
        if (kept.size() > solvedForEachCount) {
            kept.resize(solvedForEachCount);
            m_limits[taken] = kept.back().guess;
        }
    }

    std::array<std::vector<Choice>, mostTaken + 1> m_kept;
    std::array<double, mostTaken + 1> m_limits{1e300, 1e300, 1e300, 1e300, 1e300};
    std::size_t m_considered = 0;
};

// ---- The search -----------------------------------------------------------------------------------------------

class TargetSearch {
public:
    TargetSearch(Bench& bench, const TargetRequest& request, std::vector<OpenPart> places)
        : m_bench(bench), m_request(request), m_places(std::move(places)) {}

    Result<TargetList> run() {
        TargetList list;
        const auto present = m_bench.figuresWith({});
        if (!present) {
            return present.error();
        }
        if (*present) {
            list.present = **present;
        }
        const auto pairs = placePairs();
        double done = 0.0;
        for (const auto& [first, second] : pairs) {
            if (const Result<void> searched = searchPair(first, second); !searched) {
                return searched.error();
            }
            done += 0.9 / double(pairs.size());
            tell(done);
        }
        if (const Result<void> solved = solveChoices(); !solved) {
            return solved.error();
        }
        if (m_answers.empty()) {
            return nothingFound();
        }
        list.answers = ranked();
        list.considered = m_considered;
        list.solved = m_bench.solved();
        const bool isAssumed =
            std::any_of(m_places.begin(), m_places.end(), [](const OpenPart& place) { return place.isAssumed; });
        list.note = isAssumed ? said("assumed stock: preferred numbers, nothing of it was counted") : "";
        tell(1.0);
        return list;
    }

private:
    void tell(double share) const {
        if (m_request.progress) {
            m_request.progress(share);
        }
    }

    /// Every two of the parts; the one alone when there is one.
    [[nodiscard]] std::vector<std::pair<std::size_t, std::size_t>> placePairs() const {
        std::vector<std::pair<std::size_t, std::size_t>> pairs;
        for (std::size_t a = 0; a < m_places.size(); ++a) {
            for (std::size_t b = a + 1; b < m_places.size(); ++b) {
                pairs.emplace_back(a, b);
            }
        }
        if (pairs.empty()) {
            pairs.emplace_back(0, 0);
        }
        return pairs;
    }

    Result<void> searchPair(std::size_t first, std::size_t second) {
        const bool isAlone = first == second;
        const OpenPart& a = m_places[first];
        const OpenPart& b = m_places[second];
        const std::size_t knots = m_bench.isSlow() ? coarseKnotsWhenSlow : coarseKnots;
        const Axis alongA = Axis::over(a.lowestLog, a.highestLog, knots);
        const double stays = std::log(b.part->value);
        const Axis alongB = isAlone ? Axis::over(stays, stays, 1) : Axis::over(b.lowestLog, b.highestLog, knots);
        Narrower narrower;
        const auto coarse = solveGrid(first, second, alongA, alongB);
        if (!coarse) {
            return coarse.error();
        }
        walk(*coarse, first, second, narrower);
        // The second look: finer knots about the best that the first one found.
        const std::vector<Choice> found = narrower.take();
        const auto best = std::min_element(found.begin(), found.end(),
                                           [](const Choice& x, const Choice& y) { return x.guess < y.guess; });
        if (best != found.end()) {
            const Choice centre = *best;
            const auto about = [](double place, const Axis& axis) {
                return axis.knots == 1 ? axis
                                       : Axis::over(std::max(axis.from, place - fineReach),
                                                    std::min(axis.to(), place + fineReach), fineKnots);
            };
            const auto fine =
                solveGrid(first, second, about(centre.first.logValue, alongA), about(centre.second.logValue, alongB));
            if (!fine) {
                return fine.error();
            }
            walk(*fine, first, second, m_narrower);
        }
        for (const Choice& choice : found) {
            m_narrower.offer(choice);
        }
        m_considered += narrower.considered();
        return {};
    }

    Result<Grid> solveGrid(std::size_t first, std::size_t second, const Axis& alongA, const Axis& alongB) {
        Grid grid{alongA, alongB, m_bench.scale().count(), {}};
        for (std::size_t a = 0; a < alongA.knots; ++a) {
            for (std::size_t b = 0; b < alongB.knots; ++b) {
                std::vector<std::pair<PartId, double>> values{{m_places[first].part->id, std::exp(alongA.at(a))}};
                if (second != first) {
                    values.emplace_back(m_places[second].part->id, std::exp(alongB.at(b)));
                }
                const auto figures = m_bench.figuresWith(values);
                if (!figures) {
                    return figures.error();
                }
                const std::vector<double> misses =
                    *figures ? m_bench.scale().misses(**figures) : std::vector<double>(grid.wants, nothing);
                grid.misses.insert(grid.misses.end(), misses.begin(), misses.end());
            }
        }
        return grid;
    }

    /// Offers, for every option of the first part inside the grid, the options of the second about every minimum of the
    /// score along it.
    void walk(const Grid& grid, std::size_t first, std::size_t second, Narrower& narrower) const {
        std::vector<double> slice;
        for (const std::vector<Option>& options : m_places[first].byTaken) {
            const auto begin = std::lower_bound(options.begin(), options.end(), grid.first.from - 1e-9, under);
            const auto end = std::upper_bound(begin, options.end(), grid.first.to() + 1e-9, over);
            for (auto option = begin; option != end; ++option) {
                grid.sliceAt(option->logValue, slice);
                walkSlice(grid, slice, {first, second, *option, {}, 0.0}, narrower);
            }
        }
    }
    static bool under(const Option& option, double logValue) { return option.logValue < logValue; }
    static bool over(double logValue, const Option& option) { return logValue < option.logValue; }

    void walkSlice(const Grid& grid, const std::vector<double>& slice, Choice choice, Narrower& narrower) const {
        const Axis& axis = grid.second;
        const auto offer = [&](const Option& option) {
            choice.second = option;
            choice.guess = scoreOn(slice, axis, grid.wants, option.logValue);
            narrower.offer(choice);
        };
        if (choice.firstPlace == choice.secondPlace) {
            choice.second = {std::log(m_places[choice.secondPlace].part->value), Joint::single, -1, -1};
            choice.guess = scoreOn(slice, axis, grid.wants, axis.from);
            narrower.offer(choice);
            return;
        }
        const std::size_t places = (axis.knots - 1) * placesBetweenKnots + 1;
        const double step = axis.step / double(placesBetweenKnots);
        const auto scoreAt = [&](std::size_t place) {
            const double score = scoreOn(slice, axis, grid.wants, axis.from + step * double(place));
            return std::isfinite(score) ? score : std::numeric_limits<double>::infinity();
        };
        const double afterEnd = std::numeric_limits<double>::infinity();
        double before = afterEnd;
        double here = scoreAt(0);
        for (std::size_t place = 0; place < places; ++place) {
            const double after = place + 1 < places ? scoreAt(place + 1) : afterEnd;
            if (here <= before && here <= after && std::isfinite(here)) {
                offerAbout(m_places[choice.secondPlace], grid,
                           minimumNear(axis.from + step * double(place), step, before, here, after), offer);
            }
            before = here;
            here = after;
        }
    }
    /// The lowest point of the parabola through three scores squared.
    static double minimumNear(double place, double step, double before, double here, double after) {
        if (!std::isfinite(before) || !std::isfinite(after)) {
            return place;
        }
        const double left = before * before;
        const double middle = here * here;
        const double right = after * after;
        const double bend = left - 2.0 * middle + right;
        return bend > 0.0 ? place + step * std::clamp(0.5 * (left - right) / bend, -1.0, 1.0) : place;
    }
    template <class Offer>
    static void offerAbout(const OpenPart& place, const Grid& grid, double logValue, Offer offer) {
        for (const std::vector<Option>& options : place.byTaken) {
            const auto middle = std::lower_bound(options.begin(), options.end(), logValue, under) - options.begin();
            const auto first = std::max<std::ptrdiff_t>(0, middle - neighbours);
            const auto last = std::min(std::ptrdiff_t(options.size()), middle + neighbours);
            for (auto k = first; k < last; ++k) {
                const Option& option = options[std::size_t(k)];
                if (option.logValue >= grid.second.from - 1e-9 && option.logValue <= grid.second.to() + 1e-9) {
                    offer(option);
                }
            }
        }
    }

    Result<void> solveChoices() {
        const std::vector<Choice> choices = m_narrower.take();
        std::set<decltype(identityOf(choices.front()))> seen;
        for (const Choice& choice : choices) {
            const int left = leftToBuild(m_places, choice);
            if (left < 1 || !seen.insert(identityOf(choice)).second) {
                continue;
            }
            TargetAnswer answer = answerOf(choice);
            answer.leftToBuild = left;
            std::vector<std::pair<PartId, double>> values;
            for (const PartChoice& part : answer.choices) {
                values.emplace_back(part.part, part.combination.value);
            }
            auto figures = m_bench.figuresWith(values);
            if (!figures) {
                return figures.error();
            }
            if (!*figures) {
                continue;
            }
            answer.score = scoreOf(m_bench.scale().misses(**figures));
            answer.figures = **std::move(figures);
            if (std::isfinite(answer.score)) {
                m_answers.push_back(std::move(answer));
            }
        }
        return {};
    }

    [[nodiscard]] TargetAnswer answerOf(const Choice& choice) const {
        TargetAnswer answer;
        answer.taken = choice.taken();
        for (std::size_t k = 0; k < m_places.size(); ++k) {
            const OpenPart& place = m_places[k];
            const Option* option = k == choice.firstPlace    ? &choice.first
                                   : k == choice.secondPlace ? &choice.second
                                                             : nullptr;
            PartChoice part;
            part.part = place.part->id;
            if (option == nullptr || option->first < 0) {
                part.combination = {Joint::single, place.part->value, {}};
            } else {
                part.stays = false;
                part.combination = combinationOf(place, *option);
                ++answer.swaps;
                answer.isInStock = answer.isInStock && !place.isAssumed;
            }
            answer.choices.push_back(std::move(part));
        }
        return answer;
    }
    static auto rankOf(const TargetAnswer& answer) {
        return std::tuple(std::round(answer.score / scoreStep), answer.taken, answer.swaps, answer.score,
                          -answer.leftToBuild);
    }

    [[nodiscard]] std::vector<TargetAnswer> ranked() {
        std::stable_sort(m_answers.begin(), m_answers.end(),
                         [](const TargetAnswer& a, const TargetAnswer& b) { return rankOf(a) < rankOf(b); });
        std::array<double, mostTaken + 2> nearest{};
        nearest.fill(std::numeric_limits<double>::infinity());
        for (const TargetAnswer& answer : m_answers) {
            for (std::size_t more = answer.taken + 1; more < nearest.size(); ++more) {
                nearest[more] = std::min(nearest[more], std::round(answer.score / scoreStep));
            }
        }
        std::array<std::size_t, mostTaken + 2> listed{};
        std::vector<TargetAnswer> list;
        for (TargetAnswer& answer : m_answers) {
            const bool isNearer = std::round(answer.score / scoreStep) < nearest[answer.taken];
            if (isNearer && listed[answer.taken] < m_request.mostForEachCount) {
                ++listed[answer.taken];
                list.push_back(std::move(answer));
            }
        }
        return list;
    }

    [[nodiscard]] Error nothingFound() const {
        const bool nothingOnHand =
            std::all_of(m_places.begin(), m_places.end(), [](const OpenPart& place) { return place.onHand.empty(); });
        if (nothingOnHand) {
            return {ErrorCode::invalidInput,
                    said("The drawer holds nothing of that kind: put parts in, or name other parts that may change."),
                    ""};
        }
        if (m_bench.lastTrouble()) {
            return *m_bench.lastTrouble();
        }
        return {ErrorCode::invalidInput,
                said("None of the values on hand gives all the wanted figures: ask for fewer, or name other parts."),
                ""};
    }

    Bench& m_bench;
    const TargetRequest& m_request;
    std::vector<OpenPart> m_places;
    Narrower m_narrower;
    std::vector<TargetAnswer> m_answers;
    std::size_t m_considered = 0;
};

Result<void> checkRequest(const TargetRequest& request) {
    const auto wrong = [](const std::string& sentence) { return Error{ErrorCode::invalidInput, sentence, ""}; };
    if (request.wants.empty() || request.wants.size() > mostWants) {
        return wrong(said("Name one to six figures that are wanted."));
    }
    if (request.parts.empty() || request.parts.size() > mostParts) {
        return wrong(said("Name one to four parts that may change."));
    }
    for (const Want& want : request.wants) {
        if (!std::isfinite(want.value) || (want.figure.comparedAsRatio && want.value <= 0.0)) {
            return wrong(said("The figure %1 cannot have that value.", want.figure.id));
        }
    }
    return {};
}

}  // namespace

Result<Want> readWant(std::string_view text) {
    const std::size_t equals = text.find('=');
    if (equals == std::string_view::npos) {
        return Error{ErrorCode::invalidInput, said("“%1”: write FIGURE=VALUE, as in gain_leg_corner=590.", text),
                     std::string(text)};
    }
    auto figure = findFigureName(text.substr(0, equals));
    if (!figure) {
        return figure.error();
    }
    const std::string_view number = text.substr(equals + 1);
    double value = 0.0;
    const auto end = std::from_chars(number.data(), number.data() + number.size(), value);
    if (end.ec != std::errc() || end.ptr != number.data() + number.size() || !std::isfinite(value)) {
        return Error{ErrorCode::invalidInput,
                     said("“%1” is no number for %2, which is in %3.", number, figure->id, said(figure->unit)),
                     std::string(text)};
    }
    return Want{*std::move(figure), value};
}

double nearnessStep(const Want& want) {
    if (want.figure.comparedAsRatio) {
        return 0.01 * want.value;
    }
    const bool isDecibels = want.figure.unit == "dB" || want.figure.unit == "dBV" || want.figure.unit == "dBc";
    return isDecibels ? 0.1 : std::max(0.01 * std::abs(want.value), 1e-3);
}

Result<TargetList> findTargets(const Job& job, const TargetRequest& request, const std::stop_token& stop) {
    if (const Result<void> sound = checkRequest(request); !sound) {
        return sound.error();
    }
    auto now = nowCircuit(job);
    if (!now) {
        return now.error();
    }
    Bench bench(*std::move(now), job.setting, request, stop);
    std::vector<OpenPart> places;
    for (const PartId& id : request.parts) {
        const Part* part = findPart(bench.circuit(), id);
        if (part == nullptr || !valueLimits(part->kind)) {
            return Error{ErrorCode::invalidInput,
                         part == nullptr ? said("There is no part \"%1\" in the circuit. Choose another.", id)
                                         : said("%1 has no value to choose. Name resistors, capacitors, coils or pots.",
                                                displayName(*part)),
                         id};
        }
        const bool isTwice =
            std::any_of(places.begin(), places.end(), [part](const OpenPart& place) { return place.part == part; });
        if (!isTwice) {
            places.push_back(openPartFor(*part, request));
        }
    }
    return TargetSearch(bench, request, std::move(places)).run();
}

std::vector<Change> changesOf(const Circuit& now, const TargetAnswer& answer) {
    std::vector<Change> changes;
    for (const PartChoice& choice : answer.choices) {
        const Part* part = findPart(now, choice.part);
        if (choice.stays || part == nullptr) {
            continue;
        }
        const Combination& combination = choice.combination;
        changes.emplace_back(SwapValue{choice.part, combination.members.front().value});
        if (combination.joint == Joint::single) {
            continue;
        }
        NewPart second;
        second.reference = part->reference + "b";
        second.kind = part->kind;
        second.value = combination.members.back().value;
        second.tolerance = part->tolerance;
        if (combination.joint == Joint::series) {
            changes.emplace_back(AddInSeries{choice.part, 1, second, false});
        } else {
            changes.emplace_back(AddAcross{choice.part, 0, 1, second, false});
        }
    }
    return changes;
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/shares.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/measure/chosen_figures.h"
#include "core/measure/circuit_meter.h"
#include "core/measure/named_frequencies.h"
#include "core/measure/stage_sweep.h"
#include "core/plan/apply.h"
#include "core/plan/state_error.h"

#include <algorithm>
#include <atomic>
#include <bit>
#include <cmath>
#include <map>
#include <thread>

namespace ohmwright {

namespace {

using Subset = unsigned;  ///< Bit k: the k-th mod that is on.

Error overtaken() {
    return {ErrorCode::cancelled, said("The solve was overtaken by a newer one."), ""};
}

/// Places in the plan of the mods that are on.
std::vector<std::size_t> modsOn(const Plan& plan) {
    std::vector<std::size_t> places;
    for (std::size_t k = 0; k < plan.size(); ++k) {
        if (plan[k].on) {
            places.push_back(k);
        }
    }
    return places;
}

std::string lettersOf(const Plan& plan, const std::vector<std::size_t>& on, Subset subset) {
    std::string letters;
    for (std::size_t k = 0; k < on.size(); ++k) {
        if ((subset >> k & 1U) != 0) {
            letters += (letters.empty() ? "" : "+") + plan[on[k]].letter;
        }
    }
    return letters.empty() ? said("stock") : letters;
}

/// One subset of the mods: fitted or not, and its figures.
struct SubsetState {
    bool fits = false;
    std::string trouble;  ///< Why it cannot be fitted or solved.
    std::vector<std::optional<double>> values;
    std::vector<std::string> absences;
};

/// Stock first, then the rest, each with the steps that stock and now need.
class SubsetSolver {
public:
    SubsetSolver(const Job& job, const std::vector<std::string>& figures, const std::stop_token& stop)
        : m_job(job), m_figures(figures), m_stop(stop), m_on(modsOn(job.plan)) {}

    [[nodiscard]] const std::vector<std::size_t>& on() const { return m_on; }
    [[nodiscard]] Subset all() const { return (1U << m_on.size()) - 1U; }

    /// Stock and now; both must be there.
    Result<void> solveEnds() {
        for (const Subset subset : {0U, all()}) {
            const char* name = subset == 0 ? toSay("stock: %1") : toSay("now: %1");
            const auto circuit = circuitOf(subset);
            if (!circuit) {
                return named(name, circuit.error());
            }
            auto meter = CircuitMeter::make(*circuit, m_job.setting, 0, nullptr, m_stop);
            if (!meter) {
                return named(name, meter.error());
            }
            SubsetState state;
            if (auto read = readFigures(*meter, state); !read) {
                return named(name, read.error());
            }
            m_levelSteps = std::max(m_levelSteps, meter->levelSteps());
            m_states[subset] = std::move(state);
            if (subset == 0) {
                m_stock = std::make_unique<CircuitMeter>(*std::move(meter));
            }
        }
        return {};
    }

    /// Errors: cancelled.
    Result<const SubsetState*> solve(Subset subset) {
        if (auto solved = solveAll({subset}); !solved) {
            return solved.error();
        }
        return &m_states.at(subset);
    }

    /// Those that are not known yet, on as many threads as the machine has; each state is the same on any of them.
    /// Errors: cancelled.
    Result<void> solveAll(std::vector<Subset> subsets) {
        std::erase_if(subsets, [this](Subset subset) { return m_states.contains(subset); });
        std::vector<Result<SubsetState>> solved(subsets.size(), Result<SubsetState>(overtaken()));
        std::atomic<std::size_t> next = 0;
        const auto work = [&] {
            for (std::size_t at = next++; at < subsets.size(); at = next++) {
                solved[at] = stateOf(subsets[at]);
            }
        };
        {
            std::vector<std::jthread> helpers;
            const std::size_t threads = std::min<std::size_t>(std::thread::hardware_concurrency(), subsets.size());
            for (std::size_t k = 1; k < threads; ++k) {
                helpers.emplace_back(work);
            }
            work();
        }
        for (std::size_t at = 0; at < subsets.size(); ++at) {
            if (!solved[at]) {
                return solved[at].error();
            }
            m_states[subsets[at]] = *std::move(solved[at]);
        }
        return {};
    }

    [[nodiscard]] CircuitMeter& stock() { return *m_stock; }

private:
    [[nodiscard]] Result<Circuit> circuitOf(Subset subset) const {
        Plan plan = m_job.plan;
        for (std::size_t k = 0; k < m_on.size(); ++k) {
            plan[m_on[k]].on = (subset >> k & 1U) != 0;
        }
        return applyPlan(m_job.stock, plan, m_job.setting.throws);
    }

    /// Errors: cancelled.
    [[nodiscard]] Result<SubsetState> stateOf(Subset subset) const {
        SubsetState state;
        if (const auto circuit = circuitOf(subset); !circuit) {
            state.trouble = circuit.error().message;
        } else if (auto solved = solveCircuitOf(*circuit, state); !solved) {
            return solved.error();
        }
        return state;
    }

    /// Errors: cancelled; any other trouble is the subset's own.
    Result<void> solveCircuitOf(const Circuit& circuit, SubsetState& state) const {
        state.fits = true;
        auto meter = CircuitMeter::make(circuit, m_job.setting, m_levelSteps, m_stock.get(), m_stop);
        Result<void> read = meter ? readFigures(*meter, state) : Result<void>(meter.error());
        if (read) {
            return {};
        }
        if (read.error().code == ErrorCode::cancelled || read.error().code == ErrorCode::invalidInput) {
            return read;
        }
        state.trouble = read.error().message;
        state.values.assign(m_figures.size(), std::nullopt);
        state.absences.assign(m_figures.size(), read.error().message);
        return {};
    }

    Result<void> readFigures(CircuitMeter& meter, SubsetState& state) const {
        state.fits = true;
        for (const std::string& id : m_figures) {
            if (m_stop.stop_requested()) {
                return overtaken();
            }
            const auto figure = meter.figure(id, m_stop);
            if (!figure) {
                return figure.error();
            }
            state.values.push_back(figure->value);
            state.absences.push_back(said(figure->absence));
        }
        return {};
    }

    const Job& m_job;
    const std::vector<std::string>& m_figures;
    const std::stop_token& m_stop;
    std::vector<std::size_t> m_on;
    std::size_t m_levelSteps = 0;
    std::unique_ptr<CircuitMeter> m_stock;
    std::map<Subset, SubsetState> m_states;
};

/// In how many orders each subset is reached from stock, and leads from it to all mods, over subsets that fit.
struct Orders {
    std::vector<double> before, after;

    [[nodiscard]] double total() const { return after.front(); }
    /// Share of the orders in which `mod` is fitted on exactly this subset.
    [[nodiscard]] double weight(Subset without, Subset mod) const {
        return before[without] * after[without | mod] / total();
    }
};

Orders countOrders(const std::vector<const SubsetState*>& states, std::size_t mods) {
    Orders orders{std::vector<double>(states.size(), 0.0), std::vector<double>(states.size(), 0.0)};
    orders.before.front() = 1.0;
    orders.after.back() = 1.0;
    for (Subset subset = 1; subset < states.size(); ++subset) {
        for (std::size_t k = 0; k < mods && states[subset]->fits; ++k) {
            if ((subset >> k & 1U) != 0) {
                orders.before[subset] += orders.before[subset ^ (1U << k)];
            }
        }
    }
    for (Subset subset = Subset(states.size() - 1); subset-- > 0;) {
        for (std::size_t k = 0; k < mods && states[subset]->fits; ++k) {
            if ((subset >> k & 1U) == 0) {
                orders.after[subset] += orders.after[subset | (1U << k)];
            }
        }
    }
    return orders;
}

/// The quick band of stock for figures that are gains in dB.
Result<std::optional<double>> bandOf(CircuitMeter& stock, const std::string& id, const std::stop_token& stop) {
    const auto name = findFigureName(id);
    if (!name) {
        return name.error();
    }
    const bool isResponse = id.rfind("response", 0) == 0;
    std::optional<double> hertz = name->hertz ? name->hertz : namedFrequencyAfter("response_", id);
    NetName under;
    NetName over = stock.circuit().ports.output;
    if (!isResponse && stock.clipStage() != nullptr) {
        under = stock.clipStage()->input;
        over = stock.clipStage()->output;
        hertz = name->hertz ? name->hertz : namedFrequencyAfter("stage_gain_", id);
        if (id == "highest_gain") {
            // At a summit the frequency's own move changes nothing to first order.
            const auto at = stock.figure("highest_gain_at", stop);
            if (!at) {
                return at.error();
            }
            hertz = at->value;
        }
    }
    if (!hertz) {
        return std::optional<double>();
    }
    const auto band = quickGainBand(stock.circuit(), stock.setting(), under, over, std::span(&*hertz, 1), stop);
    if (!band) {
        return band.error();
    }
    return std::optional(band->bandDb.front());
}

std::optional<double> difference(const std::optional<double>& a, const std::optional<double>& b) {
    return a && b ? std::optional(*a - *b) : std::nullopt;
}

/// REQUIRES: a name that was measured already.
std::string unitOf(const std::string& id) {
    const auto name = findFigureName(id);
    return name ? name->unit : std::string();
}

/// Alone, together and interaction of the figure at `place`.
FigureShares alongsideOf(const Job& job, SubsetSolver& solver, const std::vector<const SubsetState*>& singles,
                         const SubsetState& stock, const SubsetState& now, std::size_t place, const std::string& id) {
    FigureShares shares;
    shares.id = id;
    shares.unit = unitOf(id);
    shares.stock = stock.values[place];
    shares.now = now.values[place];
    shares.together = difference(shares.now, shares.stock);
    if (!shares.together) {
        shares.note = shares.stock ? said("now: %1", now.absences[place]) : said("stock: %1", stock.absences[place]);
    }
    double sum = 0.0;
    bool allThere = true;
    for (std::size_t k = 0; k < singles.size(); ++k) {
        const Mod& mod = job.plan[solver.on()[k]];
        ModShare share{mod.id, mod.letter, {}, {}, {}};
        if (singles[k]->fits) {
            share.alone = difference(singles[k]->values[place], shares.stock);
        }
        allThere = allThere && share.alone.has_value();
        sum += share.alone.value_or(0.0);
        if (!share.alone && shares.note.empty()) {
            shares.note = said("%1 alone has no value: %2", mod.letter,
                               singles[k]->fits ? singles[k]->absences[place] : singles[k]->trouble);
        }
        shares.mods.push_back(share);
    }
    if (allThere) {
        shares.sumOfSingles = sum;
        shares.interaction = difference(shares.together, shares.sumOfSingles);
    }
    return shares;
}

/// The average over the orders that can be; absent with a note when a state on the way has no value.
void addFairShares(const Job& job, SubsetSolver& solver, const std::vector<const SubsetState*>& states,
                   const Orders& orders, std::size_t place, FigureShares& shares) {
    std::vector<double> averages(shares.mods.size(), 0.0);
    for (Subset subset = 0; subset < states.size(); ++subset) {
        const bool isOnTheWay = orders.before[subset] * orders.after[subset] > 0.0;
        if (isOnTheWay && !states[subset]->values[place]) {
            shares.note = said("%1 has no value, so there are no shares: %2", lettersOf(job.plan, solver.on(), subset),
                               states[subset]->absences[place]);
            return;
        }
        for (std::size_t k = 0; k < averages.size(); ++k) {
            const Subset mod = 1U << k;
            if ((subset & mod) != 0 || orders.weight(subset, mod) == 0.0 || !states[subset | mod]->values[place]) {
                continue;
            }
            averages[k] +=
                orders.weight(subset, mod) * (*states[subset | mod]->values[place] - *states[subset]->values[place]);
        }
    }
    for (std::size_t k = 0; k < averages.size(); ++k) {
        shares.mods[k].share = averages[k];
    }
}

std::string orderNote(const Job& job, SubsetSolver& solver, const std::vector<const SubsetState*>& singles,
                      const SharesAnswer& answer) {
    if (answer.orders == answer.ordersThinkable) {
        return {};
    }
    for (std::size_t k = 0; k < singles.size(); ++k) {
        if (!singles[k]->fits) {
            return said(
                "Shares are the average of the %1 of %2 orders of fitting that can be: %3 cannot be fitted alone. "
                "%4",
                answer.orders, answer.ordersThinkable, job.plan[solver.on()[k]].letter, singles[k]->trouble);
        }
    }
    return said("Shares are the average of the %1 of %2 orders of fitting that can be.", answer.orders,
                answer.ordersThinkable);
}

/// All subsets of the mods, or each mod alone where they are too many for all.
std::vector<Subset> subsetsToSolve(const SubsetSolver& solver, bool isExact) {
    std::vector<Subset> subsets;
    if (isExact) {
        for (Subset subset = 0; subset <= solver.all(); ++subset) {
            subsets.push_back(subset);
        }
        return subsets;
    }
    for (std::size_t k = 0; k < solver.on().size(); ++k) {
        subsets.push_back(1U << k);
    }
    return subsets;
}

Result<std::vector<const SubsetState*>> statesOf(SubsetSolver& solver, const std::vector<Subset>& subsets) {
    std::vector<const SubsetState*> states;
    states.reserve(subsets.size());
    for (const Subset subset : subsets) {
        const auto state = solver.solve(subset);
        if (!state) {
            return state.error();
        }
        states.push_back(*state);
    }
    return states;
}

/// The spread of stock beside the shares, and each mod held against it.
Result<void> addBand(SubsetSolver& solver, const std::stop_token& stop, FigureShares& shares) {
    const auto band = bandOf(solver.stock(), shares.id, stop);
    if (!band) {
        return named(toSay("stock: %1"), band.error());
    }
    shares.bandDb = *band;
    for (ModShare& mod : shares.mods) {
        if (mod.alone && shares.bandDb) {
            mod.mark = SpreadMark{*mod.alone, *shares.bandDb};
        }
    }
    return {};
}

int ordersOf(std::size_t mods) {
    int orders = 1;
    for (std::size_t k = 2; k <= mods; ++k) {
        orders *= int(k);
    }
    return orders;
}

}  // namespace

Result<SharesAnswer> shareFigures(const Job& job, const SharesRequest& request, const std::stop_token& stop) {
    SubsetSolver solver(job, request.figures, stop);
    if (auto ends = solver.solveEnds(); !ends) {
        return ends.error();
    }
    const std::size_t mods = solver.on().size();
    const bool isExact = mods <= mostSharedMods;
    const std::vector<Subset> subsets = subsetsToSolve(solver, isExact);
    if (auto solved = solver.solveAll(subsets); !solved) {
        return solved.error();
    }
    const auto states = statesOf(solver, subsets);
    if (!states) {
        return states.error();
    }
    const auto singles = statesOf(solver, subsetsToSolve(solver, false));
    if (!singles) {
        return singles.error();
    }
    SharesAnswer answer;
    Orders orders;
    if (isExact) {
        orders = countOrders(*states, mods);
        answer.orders = int(orders.total());
        answer.ordersThinkable = ordersOf(mods);
        answer.note = orderNote(job, solver, *singles, answer);
    } else {
        answer.note = said(
            "The plan has %1 mods on. Fair shares are exact for up to %2: switch some off, or read alone and "
            "together.",
            mods, mostSharedMods);
    }
    const auto stock = solver.solve(0);
    const auto now = solver.solve(solver.all());
    for (std::size_t place = 0; place < request.figures.size(); ++place) {
        FigureShares shares = alongsideOf(job, solver, *singles, **stock, **now, place, request.figures[place]);
        if (isExact && shares.together && orders.total() > 0.0) {
            addFairShares(job, solver, *states, orders, place, shares);
        } else if (isExact && shares.together) {
            shares.note =
                said("No order of fitting leads from stock to the plan one mod at a time, so there are no shares.");
        }
        if (auto banded = request.withBands ? addBand(solver, stop, shares) : Result<void>(); !banded) {
            return banded.error();
        }
        answer.figures.push_back(std::move(shares));
    }
    return answer;
}

std::string spreadSentence(const SpreadMark& mark, double hertz) {
    return said(mark.isWithin() ? toSay("within spread: %1 dB at %2 against ±%3")
                                : toSay("bigger than the spread: %1 dB at %2 against ±%3"),
                formatFigure(mark.changeDb, Sign::always), formatFrequency(hertz), formatFigure(mark.bandDb));
}

Result<std::vector<ModSpread>> markMods(const Job& job, const std::vector<double>& hertz, const std::stop_token& stop) {
    const auto stock = quickBand(job.stock, job.setting, hertz, stop);
    if (!stock) {
        return named(toSay("stock: %1"), stock.error());
    }
    std::vector<ModSpread> marks;
    for (const std::size_t place : modsOn(job.plan)) {
        const Mod& mod = job.plan[place];
        ModSpread spread{mod.id, mod.letter, 0.0, {}, true, ""};
        const auto circuit = applyAlone(job.stock, mod, job.setting.throws);
        const auto solved = circuit ? solveCircuit(*circuit, job.setting, stop) : circuit.error();
        const auto gains =
            solved ? frequencyResponse(*solved->equations, *solved->bias, {circuit->ports.output}, hertz, stop)
                   : solved.error();
        if (!gains) {
            if (gains.error().code == ErrorCode::cancelled) {
                return gains.error();
            }
            spread.isWithin = false;
            spread.sentence = said("not known: %1", gains.error().message);
            marks.push_back(spread);
            continue;
        }
        double standsOut = -1.0;
        for (std::size_t k = 0; k < hertz.size(); ++k) {
            const SpreadMark mark{20.0 * std::log10(std::abs((*gains)[0][k])) - stock->nominalDb[k], stock->bandDb[k]};
            const double ratio = std::abs(mark.changeDb) / std::max(mark.bandDb, 1e-9);
            spread.isWithin = spread.isWithin && mark.isWithin();
            if (ratio > standsOut * (1.0 + 1e-9)) {
                standsOut = ratio;
                spread.hertz = hertz[k];
                spread.mark = mark;
            }
        }
        spread.sentence = spreadSentence(spread.mark, spread.hertz);
        marks.push_back(spread);
    }
    return marks;
}

}  // namespace ohmwright

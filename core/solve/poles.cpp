// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/poles.h"

#include "core/base/said.h"
#include "core/solve/charge_pencil.h"
#include "core/solve/natural_roots.h"
#include "core/solve/response.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace ohmwright {

namespace {

using Complex = std::complex<double>;

constexpr double turn = 2.0 * std::numbers::pi;
constexpr std::size_t mostCharges = 400;
/// Far below every root but those at 0 [rad/s].
constexpr double slowestRate = turn * 1e-9;
/// How far above the fastest pole the zeros are counted, and how far from a whole number that may come out.
constexpr double aboveFastest = 1e4;
constexpr double countError = 0.02;
/// A candidate that Newton's step would carry further than this share of its size is no zero.
constexpr double mostDoubt = 0.03;
/// Check frequencies, and the level below which a response has no digits.
constexpr double checkFromHz = 1.0;
constexpr double checkToHz = 1e6;
constexpr int checkPerDecade = 3;
constexpr double checkDepth = 1e-9;
constexpr double closedDb = 1e-3;
constexpr double closedRadians = 1e-3;
constexpr double closedTrace = 1e-4;

Error cancelledError() {
    return {ErrorCode::cancelled, said("The solve was overtaken by a newer one."), ""};
}

std::size_t movingCharges(const Equations& equations, const OperatingPoint& bias) {
    std::vector<char> moves(equations.chargeBranches().size(), 0);
    for (std::size_t k = 0; k < equations.chargeSlopes().size(); ++k) {
        if (bias.state.slopes[k] != 0.0) {
            moves[std::size_t(equations.chargeSlopes()[k].charge)] = 1;
        }
    }
    return std::size_t(std::count(moves.begin(), moves.end(), 1));
}

/// Zeros of the transfer, from its poles: sum 1/(s - z) = d(ln T)/ds + sum 1/(s - p).
class ZeroSearch {
public:
    ZeroSearch(ChargePencil& pencil, const std::vector<NaturalRoot>& poles, Equations::DriveRows drive, int output)
        : m_pencil(pencil), m_poles(poles), m_drive(drive), m_output(output) {}

    [[nodiscard]] bool isSilent() const {
        return (m_drive.plus == m_pencil.size() && m_drive.minus == m_pencil.size()) || !isHeardAt(turn * 1e3);
    }

    /// @param candidates  of the bordered pencil; some stand for zeros at infinity.
    std::vector<NaturalRoot> find(std::vector<NaturalRoot> candidates, const std::stop_token& stop) const {
        std::sort(candidates.begin(), candidates.end(),
                  [](const NaturalRoot& a, const NaturalRoot& b) { return std::abs(a.value) < std::abs(b.value); });
        const std::size_t atZero = countBelow(slowestRate).value_or(0);
        std::vector<NaturalRoot> zeros;
        takeZeros(atZero, candidates, zeros);
        std::erase_if(candidates, [&](const NaturalRoot& candidate) { return !(doubtOf(candidate) < mostDoubt); });
        double fastest = 1.0;
        for (const auto* list : {&m_poles, &std::as_const(candidates)}) {
            for (const NaturalRoot& root : *list) {
                fastest = std::max(fastest, std::abs(root.value));
            }
        }
        std::optional<std::size_t> all;
        for (double rate = aboveFastest * fastest; !all && rate < 1e6 * ChargePencil::largestRate; rate *= 100.0) {
            all = countBelow(rate);
        }
        if (all) {
            keepSurest(*all - std::min(*all, atZero), candidates);
        }
        zeros.insert(zeros.end(), candidates.begin(), candidates.end());
        refineRoots(zeros, logDerivative(), stop);
        return zeros;
    }

private:
    [[nodiscard]] bool isHeardAt(double omega) const {
        const auto transfer = m_pencil.transferAt({0.0, omega}, m_drive, m_output);
        return transfer && std::abs(transfer->value) > 0.0;
    }

    [[nodiscard]] LogDerivative logDerivative() const {
        return [this](Complex s) -> std::optional<Complex> {
            const auto transfer = m_pencil.transferAt(s, m_drive, m_output);
            if (!transfer || !std::isfinite(std::abs(transfer->logDerivative))) {
                return std::nullopt;
            }
            return transfer->logDerivative + reciprocalSum(m_poles, s);
        };
    }

    /// How many zeros are far slower than a rate; nothing when some are of its size.
    [[nodiscard]] std::optional<std::size_t> countBelow(double rate) const {
        const auto sum = logDerivative()(rate);
        if (!sum) {
            return std::nullopt;
        }
        const double count = (*sum * rate).real();
        const double whole = std::round(count);
        if (!(std::abs(count - whole) < countError) || whole < 0.0) {
            return std::nullopt;
        }
        return std::size_t(whole);
    }

    /// Moves the slowest candidates to 0, where they belong.
    static void takeZeros(std::size_t count, std::vector<NaturalRoot>& candidates, std::vector<NaturalRoot>& zeros) {
        std::size_t taken = 0;
        auto at = candidates.begin();
        for (; at != candidates.end() && taken < count; ++at) {
            taken += at->count();
        }
        candidates.erase(candidates.begin(), at);
        zeros.resize(count);
    }

    /// How far Newton's step would carry a candidate, as a share of its size: nearly nothing for a zero, the whole way
    /// where there is none.
    [[nodiscard]] double doubtOf(const NaturalRoot& candidate) const {
        const auto sum = logDerivative()(candidate.value * (1.0 + 1e-9));
        return sum ? 1.0 / std::abs(*sum * candidate.value) : 0.0;
    }

    /// Keeps so many: those that the transfer itself confirms best.
    void keepSurest(std::size_t count, std::vector<NaturalRoot>& candidates) const {
        if (countOf(candidates) <= count) {
            return;
        }
        std::vector<std::pair<double, NaturalRoot>> judged;
        judged.reserve(candidates.size());
        for (const NaturalRoot& candidate : candidates) {
            judged.emplace_back(doubtOf(candidate), candidate);
        }
        std::stable_sort(judged.begin(), judged.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
        candidates.clear();
        for (const auto& [doubt, candidate] : judged) {
            if (countOf(candidates) + candidate.count() <= count) {
                candidates.push_back(candidate);
            }
        }
    }

    ChargePencil& m_pencil;
    const std::vector<NaturalRoot>& m_poles;
    Equations::DriveRows m_drive;
    int m_output;
};

/// Logarithm of the product of (s - root).
Complex logProduct(const std::vector<NaturalRoot>& roots, Complex s) {
    Complex sum = 0.0;
    for (const NaturalRoot& root : roots) {
        sum += std::log(s - root.value);
        if (root.isPair()) {
            sum += std::log(s - std::conj(root.value));
        }
    }
    return sum;
}

/// Compares the response with K prod (s - z) / prod (s - p), and the trace of the equations with the poles'.
Result<void> check(const Equations& equations, const OperatingPoint& bias, int output, ChargePencil& pencil,
                   const std::vector<NaturalRoot>& poles, const std::vector<NaturalRoot>& zeros,
                   PolesAndZeros& answer) {
    SmallSignal signal(equations, bias);
    std::vector<double> levels;
    std::vector<Complex> ratios;  // ln of response over products: ln K everywhere
    bool tracesAgree = true;
    for (const double hertz : logarithmicGrid(checkFromHz, checkToHz, checkPerDecade)) {
        const Complex s{0.0, turn * hertz};
        const auto solution = signal.at(hertz);
        if (!solution) {
            return solution.error();
        }
        const Complex gain = (*solution)[std::size_t(output)];
        levels.push_back(std::abs(gain));
        ratios.push_back(std::log(gain) + logProduct(poles, s) - logProduct(zeros, s));
        if (const auto trace = pencil.logDerivative(s)) {
            const Complex missing = (*trace - reciprocalSum(poles, s)) * s;
            tracesAgree = tracesAgree && std::abs(missing) <= closedTrace;
        }
    }
    const auto loudest = std::size_t(std::max_element(levels.begin(), levels.end()) - levels.begin());
    double worstRadians = 0.0;
    answer.checkErrorDb = 0.0;
    answer.gain = levels[loudest];
    answer.gainHertz = logarithmicGrid(checkFromHz, checkToHz, checkPerDecade)[loudest];
    for (std::size_t k = 0; levels[loudest] > 0.0 && k < levels.size(); ++k) {
        if (levels[k] < checkDepth * levels[loudest]) {
            continue;
        }
        const Complex difference = ratios[k] - ratios[loudest];
        answer.checkErrorDb = std::max(answer.checkErrorDb, std::abs(difference.real()) * 20.0 / std::numbers::ln10);
        worstRadians = std::max(worstRadians, std::abs(std::remainder(difference.imag(), turn)));
    }
    answer.closed = answer.checkErrorDb < closedDb && worstRadians < closedRadians && tracesAgree;
    return {};
}

std::vector<Complex> inHertz(const std::vector<NaturalRoot>& roots) {
    std::vector<Complex> values = expanded(roots);
    for (Complex& value : values) {
        value /= turn;
    }
    return values;
}

}  // namespace

Result<PolesAndZeros> findPolesAndZeros(const Equations& equations, const OperatingPoint& bias, int output,
                                        const std::stop_token& stop) {
    const std::size_t charges = movingCharges(equations, bias);
    if (charges > mostCharges) {
        return Error{ErrorCode::unsolvable,
                     said("The circuit has %1 charges; poles are found of at most %2: take a part of the circuit.",
                          charges, mostCharges),
                     ""};
    }
    ChargePencil pencil(equations, bias);
    auto poles = pencil.approximateRoots(stop);
    if (!poles) {
        return poles.error();
    }
    refineRoots(
        *poles, [&](Complex s) { return pencil.logDerivative(s); }, stop);
    if (stop.stop_requested()) {
        return cancelledError();
    }

    std::vector<NaturalRoot> zeros;
    const ZeroSearch search(pencil, *poles, equations.driveRows(), output);
    if (!search.isSilent()) {
        auto candidates = ChargePencil::bordered(equations, bias, output).approximateRoots(stop);
        if (!candidates) {
            return candidates.error();
        }
        zeros = search.find(std::move(*candidates), stop);
    }
    if (stop.stop_requested()) {
        return cancelledError();
    }

    PolesAndZeros answer;
    answer.poles = inHertz(*poles);
    answer.zeros = inHertz(zeros);
    answer.infinitePoles = int(charges) - int(answer.poles.size());
    if (auto checked = check(equations, bias, output, pencil, *poles, zeros, answer); !checked) {
        return checked.error();
    }
    return answer;
}

}  // namespace ohmwright

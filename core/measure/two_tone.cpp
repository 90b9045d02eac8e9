// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/two_tone.h"

#include "core/base/said.h"
#include "core/measure/settled_wave.h"
#include "core/measure/wave.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <map>
#include <numbers>
#include <optional>
#include <string>
#include <utility>

namespace ohmwright {

namespace {

constexpr int mostTurns = 400;
constexpr double sameRatio = 1e-9;
/// Steps a period of the faster tone, before they are doubled to see what they change.
constexpr double stepsPerTurn = 96.0;
constexpr double mostSteps = 150000.0;
/// How still the lines must stand when the steps double, of the output's RMS.
constexpr double stillShare = 1e-5;

/// Whole numbers of turns of the two tones in their common period.
struct Turns {
    int first, second;
};

std::optional<Turns> commonTurns(double firstHz, double secondHz) {
    for (int slower = 1; slower <= mostTurns; ++slower) {
        const double faster = slower * std::max(firstHz, secondHz) / std::min(firstHz, secondHz);
        if (std::abs(faster - std::round(faster)) <= sameRatio * faster) {
            const int other = int(std::lround(faster));
            return firstHz < secondHz ? Turns{slower, other} : Turns{other, slower};
        }
    }
    return std::nullopt;
}

/// Every digit that tells one ratio from another: three would show tones that were not asked for.
std::string exactHertz(double hertz) {
    constexpr int digits = 12;
    std::array<char, 40> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), hertz, std::chars_format::general, digits);
    return std::string(text.data(), end.ptr) + " Hz";
}

Error noCommonPeriod(double firstHz, double secondHz) {
    constexpr int fewTurns = 20;
    const double near = std::round(secondHz / firstHz * fewTurns) / fewTurns * firstHz;
    return {ErrorCode::invalidInput,
            said("Tones of %1 and %2 have no common period that can settle: choose tones whose ratio is one of whole "
                 "numbers, such as %3 for the second.",
                 exactHertz(firstHz), exactHertz(secondHz), exactHertz(near)),
            ""};
}

}  // namespace

Result<TwoToneSpectrum> measureTwoTone(const SolvedCircuit& solved, int output, double firstHz, double secondHz,
                                       double voltsPeak, int highestOrder, const std::stop_token& stop) {
    if (!(firstHz > 0.0) || !(secondHz > 0.0) || !std::isfinite(firstHz) || !std::isfinite(secondHz) ||
        firstHz == secondHz || highestOrder < 1 || highestOrder > 15) {
        return Error{ErrorCode::invalidInput, said("Two tones must differ, and both be above 0 Hz."), ""};
    }
    const auto turns = commonTurns(firstHz, secondHz);
    if (!turns || stepsPerTurn * std::max(turns->first, turns->second) > mostSteps) {
        return noCommonPeriod(firstHz, secondHz);
    }
    SettledTone tone;
    tone.toneHz = firstHz / turns->first;
    tone.voltsPeak = voltsPeak;
    tone.shape = [turns](double share) {
        const double angle = 2.0 * std::numbers::pi * share;
        return std::sin(angle * turns->first) + std::sin(angle * turns->second);
    };
    const int fastest = std::max(turns->first, turns->second);
    const int highest = highestOrder * fastest;
    const auto state = settleWithin(solved, tone, output, oddSteps(stepsPerTurn * fastest), highest, stop, stillShare);
    if (!state) {
        return state.error();
    }
    const std::vector<double> wave = state->wave(output);
    const auto lines = harmonicsOf(wave, highest, 1.0 / double(wave.size()));

    std::map<int, std::pair<int, int>> lowestOrder;  // by multiple of the common frequency
    for (int m = -highestOrder; m <= highestOrder; ++m) {
        for (int n = -highestOrder; n <= highestOrder; ++n) {
            const int multiple = m * turns->first + n * turns->second;
            if (multiple <= 0 || std::abs(m) + std::abs(n) > highestOrder) {
                continue;
            }
            const auto known = lowestOrder.try_emplace(multiple, m, n).first;
            if (std::abs(m) + std::abs(n) < std::abs(known->second.first) + std::abs(known->second.second)) {
                known->second = {m, n};
            }
        }
    }
    TwoToneSpectrum spectrum;
    spectrum.commonHz = tone.toneHz;
    spectrum.isUnsteady = state->unsteadyShare > stillShare;
    spectrum.steadyAboveDb = state->steadyAboveDb();
    spectrum.firstToneVoltsPeak = std::abs(lines[std::size_t(turns->first)]);
    spectrum.secondToneVoltsPeak = std::abs(lines[std::size_t(turns->second)]);
    for (const auto& [multiple, orders] : lowestOrder) {
        spectrum.products.push_back(
            {multiple * tone.toneHz, orders.first, orders.second, std::abs(lines[std::size_t(multiple)])});
    }
    return spectrum;
}

}  // namespace ohmwright

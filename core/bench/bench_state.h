/// A board under the instruments of the bench.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/bench/check.h"
#include "core/bench/meter.h"

#include <memory>
#include <stop_token>

namespace ohmwright {

/// A finished circuit at its setting under all instruments, measured parts at their measured values; solves what a
/// check asks for, once.
class BenchState {
public:
    BenchState(const Circuit& circuit, const Setting& setting, const MeterModel& meter = {});
    BenchState(BenchState&&) noexcept;
    BenchState& operator=(BenchState&&) noexcept;
    ~BenchState();

    /// Errors: of the solver; invalidInput where a probe's part is not there.
    Result<CheckReading> read(const Check& check, const std::stop_token& stop = {});
    [[nodiscard]] const Circuit& circuit() const;
    [[nodiscard]] const ProbedBoard& board() const;

private:
    struct Inside;
    std::unique_ptr<Inside> m_inside;
};

}  // namespace ohmwright

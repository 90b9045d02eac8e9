/// The work on one mod after the other, with the readings that prove each.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/order_of_work.h"

#include <cstddef>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

/// Puts the steps of mods at the end of a plan of work.
class GroupSteps {
public:
    /// REQUIRES: all three stay where they are for its life; the plan has its duties.
    GroupSteps(WorkPlan& work, const Setting& setting, const std::stop_token& stop)
        : m_work(work), m_setting(setting), m_stop(stop) {}

    /// Errors: of planChecks, the switch's throw before the sentence.
    Result<void> add(const FittedMod& fitted);

private:
    Result<void> addSwitch(const FittedMod& fitted);
    Result<void> addReadings(const FittedMod& fitted, const std::vector<BoardEdit>& edits, const Circuit& board,
                             std::optional<std::size_t> throwIndex = {});
    void push(std::vector<BenchStep> steps);

    WorkPlan& m_work;
    const Setting& m_setting;
    const std::stop_token& m_stop;
};

/// The step of one check of a plan; a reading of the whole job has no letter.
BenchStep readingStep(const CheckPlan& plan, std::size_t index, const std::string& letter, StepKind kind);

/// At which throw a fitted switch stands; absent without one.
std::optional<std::size_t> standingThrow(const FittedMod& fitted);

/// The mod's switch the other way up at that throw; empty where nothing differs.
std::vector<Mistake> upsideDown(const FittedMod& fitted, std::size_t throwIndex);

}  // namespace ohmwright

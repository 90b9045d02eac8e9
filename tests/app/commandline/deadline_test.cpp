// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/deadline.h"

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <thread>

namespace ohmwright {
namespace {

using namespace std::chrono_literals;

TEST(Deadline, AsksForAStopWhenTheTimeIsUp) {
    const Deadline deadline(1ms);
    const std::stop_token token = deadline.token();
    const auto begin = std::chrono::steady_clock::now();
    while (!token.stop_requested() && std::chrono::steady_clock::now() - begin < 10s) std::this_thread::sleep_for(1ms);
    EXPECT_TRUE(token.stop_requested());
    EXPECT_TRUE(deadline.isOver());
}

TEST(Deadline, CallsItsLastResortOnlyWhenTheTimeIsUp) {
    std::atomic<int> calls = 0;
    {
        const Deadline inTime(60s, [&calls] { ++calls; });
    }
    EXPECT_EQ(calls, 0);
    const Deadline over(1ms, [&calls] { ++calls; });
    const auto begin = std::chrono::steady_clock::now();
    while (calls == 0 && std::chrono::steady_clock::now() - begin < 10s) std::this_thread::sleep_for(1ms);
    EXPECT_EQ(calls, 1);
}

TEST(Deadline, EndsAtOnceWhenTheWorkIsDone) {
    const auto begin = std::chrono::steady_clock::now();
    {
        const Deadline deadline(60s);
        EXPECT_FALSE(deadline.isOver());
    }
    EXPECT_LT(std::chrono::steady_clock::now() - begin, 10s);
}

}  // namespace
}  // namespace ohmwright

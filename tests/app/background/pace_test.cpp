// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/pace.h"

#include <gtest/gtest.h>

#include <sys/resource.h>

#include <cerrno>
#include <thread>

namespace ohmwright {
namespace {

/// Nice value of the thread that calls it. getpriority(2): 0 is the calling thread, errno tells -1 from a failure.
int niceValue() {
    errno = 0;
    const int value = ::getpriority(PRIO_PROCESS, 0);
    EXPECT_EQ(errno, 0);
    return value;
}

TEST(Pace, WorkBehindStepsBackAndTakesTheThreadsItStartsWithIt) {
    const int window = niceValue();
    int behind = window;
    int startedByIt = window;
    std::thread([&] {
        takePace(Pace::behind);
        behind = niceValue();
        std::thread([&] { startedByIt = niceValue(); }).join();
    }).join();
    EXPECT_GT(behind, window);
    EXPECT_EQ(startedByIt, behind);
    EXPECT_EQ(niceValue(), window) << "the window itself stays where it was";
}

TEST(Pace, WhatIsWantedSoonKeepsItsPlace) {
    const int window = niceValue();
    int soon = window + 1;
    std::thread([&] {
        takePace(Pace::soon);
        soon = niceValue();
    }).join();
    EXPECT_EQ(soon, window);
}

}  // namespace
}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/latest_wins.h"

#include <gtest/gtest.h>
#include <QElapsedTimer>
#include <QTest>
#include <QThread>

#include <atomic>
#include <memory>
#include <vector>

namespace ohmwright {
namespace {

/// Works until it is asked to stop, or until a limit that only a failing test meets.
int workUntilStopped(const std::stop_token& stop) {
    for (int i = 0; i < 2000 && !stop.stop_requested(); ++i) {
        QThread::msleep(5);
    }
    return -1;
}

struct Bench {
    QObject receiver;
    QThreadPool pool;
    std::vector<int> taken;
    LatestWins<int> lane{receiver, pool, [this](int answer) { taken.push_back(answer); }};
};

TEST(LatestWins, TheAnswerComesOnTheReceiversThread) {
    QObject receiver;
    QThreadPool pool;
    QThread* workedOn = nullptr;
    QThread* takenOn = nullptr;
    LatestWins<QThread*> lane(receiver, pool, [&](QThread* thread) {
        workedOn = thread;
        takenOn = QThread::currentThread();
    });
    lane.start([](const std::stop_token&) { return QThread::currentThread(); });
    EXPECT_TRUE(lane.isRunning());
    ASSERT_TRUE(QTest::qWaitFor([&] { return takenOn != nullptr; }));
    EXPECT_EQ(takenOn, receiver.thread());
    EXPECT_NE(workedOn, takenOn);
    EXPECT_FALSE(lane.isRunning());
}

TEST(LatestWins, StartingDoesNotWaitForTheOlderRequest) {
    Bench bench;
    QElapsedTimer clock;
    bench.lane.start([](const std::stop_token&) {
        QThread::msleep(400);
        return 1;
    });
    clock.start();
    bench.lane.start([](const std::stop_token&) { return 2; });
    EXPECT_LT(clock.elapsed(), 200);
    ASSERT_TRUE(QTest::qWaitFor([&] { return !bench.taken.empty(); }));
    bench.pool.waitForDone();
    QTest::qWait(50);
    EXPECT_EQ(bench.taken, std::vector<int>{2});
}

TEST(LatestWins, OnlyTheLatestOfManyIsTaken) {
    Bench bench;
    std::atomic<int> stopped = 0;
    for (int i = 0; i < 50; ++i) {
        bench.lane.start([&stopped](const std::stop_token& stop) {
            const int answer = workUntilStopped(stop);
            ++stopped;
            return answer;
        });
    }
    bench.lane.start([](const std::stop_token&) { return 7; });
    ASSERT_TRUE(QTest::qWaitFor([&] { return !bench.taken.empty(); }));
    bench.pool.waitForDone();
    QTest::qWait(20);
    EXPECT_EQ(bench.taken, std::vector<int>{7});
    EXPECT_EQ(stopped, 50);
}

TEST(LatestWins, AStoppedAnswerIsDroppedEvenWhenItIsAlreadyThere) {
    Bench bench;
    bench.lane.start([](const std::stop_token&) { return 1; });
    bench.pool.waitForDone();
    bench.lane.stop();
    QTest::qWait(20);
    EXPECT_TRUE(bench.taken.empty());
}

TEST(LatestWins, ReceiverAndLaneMayDieWhileARequestRuns) {
    QThreadPool pool;
    int taken = 0;
    {
        auto receiver = std::make_unique<QObject>();
        auto lane = std::make_unique<LatestWins<int>>(*receiver, pool, [&taken](int) { ++taken; });
        lane->start(workUntilStopped);
        lane.reset();
        receiver.reset();
    }
    pool.waitForDone();
    QTest::qWait(20);
    EXPECT_EQ(taken, 0);
}

}  // namespace
}  // namespace ohmwright

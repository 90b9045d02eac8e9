// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/job_lock.h"

#include "tests/support/temporary_folder.h"

#include <gtest/gtest.h>

#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>
#include <csignal>
#include <filesystem>

namespace ohmwright {
namespace {

class JobLockTest : public testing::Test {
protected:
    [[nodiscard]] LockAnswer take(const LockHolder& who, LockWish wish = LockWish::free) const {
        Result<LockAnswer> answer = takeJobLock(job, who, wish);
        EXPECT_TRUE(answer);
        return answer ? *std::move(answer) : LockAnswer();
    }
    [[nodiscard]] bool hasFile() const { return std::filesystem::exists(folder / "lamp.ohmjob.lock"); }

    /// As a program that is killed while it has the job open leaves it.
    void leaveBehind(const LockHolder& who) const {
        const pid_t child = fork();
        if (child == 0) {
            const Result<LockAnswer> held = takeJobLock(job, who, LockWish::free);
            std::raise(SIGKILL);
        }
        int status = 0;
        ASSERT_EQ(waitpid(child, &status, 0), child);
        ASSERT_TRUE(WIFSIGNALED(status));
    }

    TemporaryFolder folder;
    std::filesystem::path job = folder / "lamp.ohmjob";
    LockHolder ida{"Ida", "bench-1", "2026-11-29T21:03:00"};
    LockHolder olaf{"Olaf \"the iron\" Ø", "bench-1", "2026-11-29T21:40:00"};
    LockHolder away{"Mara", "bench-2", "2026-11-29T20:00:00"};
};

TEST_F(JobLockTest, TheSecondIsToldWhoHasItSinceWhenAndGetsItOnceItIsFree) {
    {
        const LockAnswer first = take(ida);
        ASSERT_EQ(first.state, LockState::taken);
        EXPECT_TRUE(hasFile());
        const LockAnswer second = take(olaf);
        EXPECT_EQ(second.state, LockState::heldHere);
        EXPECT_FALSE(second.lock);
        EXPECT_EQ(second.holder, ida);
        EXPECT_EQ(take(olaf, LockWish::alsoLeft).state, LockState::heldHere) << "what lives is not taken";
    }
    EXPECT_FALSE(hasFile()) << "given back on closing";
    EXPECT_EQ(take(olaf).state, LockState::taken);
}

TEST_F(JobLockTest, WhatAKilledProgramLeftIsToldAndTakenOnlyWhenAsked) {
    leaveBehind(olaf);
    ASSERT_TRUE(hasFile());
    const LockAnswer found = take(ida);
    EXPECT_EQ(found.state, LockState::leftBehind);
    EXPECT_EQ(found.holder, olaf);
    EXPECT_TRUE(hasFile());
    {
        const LockAnswer mine = take(ida, LockWish::alsoLeft);
        ASSERT_EQ(mine.state, LockState::taken);
        EXPECT_EQ(take(olaf).holder, ida) << "the new holder's name stands in it";
    }
    EXPECT_FALSE(hasFile());
}

TEST_F(JobLockTest, OfAnotherMachineNobodyHereCanTellWhetherItLives) {
    leaveBehind(away);
    EXPECT_EQ(take(ida).state, LockState::heldAway);
    EXPECT_EQ(take(ida).holder, away);
    EXPECT_EQ(take(ida, LockWish::alsoLeft).state, LockState::taken);
}

TEST_F(JobLockTest, ALockThatCannotBeReadIsLeftBehindByNobodyKnown) {
    folder.write("lamp.ohmjob.lock", "{\"format\": \"ohmwri");
    const LockAnswer found = take(ida);
    EXPECT_EQ(found.state, LockState::leftBehind);
    EXPECT_EQ(found.holder, LockHolder());
    EXPECT_EQ(take(ida, LockWish::alsoLeft).state, LockState::taken);
}

TEST_F(JobLockTest, AFolderThatIsNotThereHasNoLock) {
    const Result<LockAnswer> answer = takeJobLock(folder / "gone/lamp.ohmjob", ida, LockWish::free);
    ASSERT_FALSE(answer);
    EXPECT_EQ(answer.error().code, ErrorCode::fileUnreadable);
    EXPECT_NE(answer.error().message.find("No such file"), std::string::npos) << answer.error().message;
}

TEST_F(JobLockTest, AMovedLockStillHoldsAndNeverTakesAnothersFileAway) {
    {
        LockAnswer first = take(ida);
        const JobLock moved = *std::move(first.lock);
        first = LockAnswer();
        EXPECT_EQ(take(olaf).state, LockState::heldHere);
        // Somebody swept the folder, and another took the job.
        std::filesystem::remove(folder / "lamp.ohmjob.lock");
        folder.write("lamp.ohmjob.lock", "another's");
    }
    EXPECT_EQ(folder.read("lamp.ohmjob.lock"), "another's");
}

}  // namespace
}  // namespace ohmwright

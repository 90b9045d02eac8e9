/// Tells other windows and machines that a job is open: a file beside it with a name, a machine and a time.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"

#include <filesystem>
#include <optional>
#include <string>

namespace ohmwright {

struct LockHolder {
    std::string who;      ///< As the machine knows the person.
    std::string machine;  ///< Its name in the shop's network.
    std::string since;    ///< ISO 8601, local time: "2026-11-29T21:58:03".

    friend bool operator==(const LockHolder&, const LockHolder&) = default;
};

/// "lamp.ohmjob.lock" beside "lamp.ohmjob".
std::filesystem::path lockFileOf(const std::filesystem::path& job);

/// A lock that is held: given back, and its file taken away, at the end of its life. The system gives it back when the
/// process is killed; its file stays behind then.
class JobLock {
public:
    /// REQUIRES: `descriptor` is open on `file` and holds the system's lock.
    JobLock(int descriptor, std::filesystem::path file);
    ~JobLock();
    JobLock(JobLock&& other) noexcept;
    JobLock& operator=(JobLock&& other) noexcept;
    JobLock(const JobLock&) = delete;
    JobLock& operator=(const JobLock&) = delete;

private:
    void giveBack();

    int m_descriptor;
    std::filesystem::path m_file;
};

enum class LockState {
    taken,       ///< It is ours.
    heldHere,    ///< A program that runs on this machine, or that the file system knows of, has it.
    heldAway,    ///< Another machine has it, or had it when it stopped: nobody here can tell.
    leftBehind,  ///< The program on this machine that had it is gone.
};

struct LockAnswer {
    LockState state = LockState::taken;
    std::optional<JobLock> lock;  ///< When it was taken.
    LockHolder holder;            ///< Whose it is, when it was not; empty members where its file cannot be read.
};

/// What may be taken.
enum class LockWish { free, alsoLeft };

/// Looks whether the job is free and takes it then; with `alsoLeft` what is leftBehind or heldAway is taken, too.
///
/// A lock of the system (flock) on the file tells the living from the dead on one machine; the words inside tell who.
/// Errors: fileUnreadable when no lock file can be made in the job's folder.
Result<LockAnswer> takeJobLock(const std::filesystem::path& job, const LockHolder& self, LockWish wish);

}  // namespace ohmwright

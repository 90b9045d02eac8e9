// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/job_lock.h"

#include "core/base/said.h"
#include "core/files/atomic_file.h"
#include "core/files/file_head.h"

#include <array>
#include <cerrno>
#include <string_view>
#include <system_error>
#include <utility>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

namespace ohmwright {

namespace {

constexpr std::string_view lockFormat = "ohmwright-lock";
constexpr int lockVersion = 1;
constexpr mode_t modeOfLock = 0666;      // Less the user's umask: others read who has the job.
constexpr int mostAttempts = 10;         // A holder may give its file back between our opening and our locking it.
constexpr std::size_t mostBytes = 4096;  // Far above a name, a machine and a time.

Error cannotLock(const std::filesystem::path& file) {
    return {ErrorCode::fileUnreadable,
            said("No lock can be put beside the job: %1: %2. Others are not told that it is open here.", file.string(),
                 std::generic_category().message(errno)),
            file.string()};
}

std::string writeHolder(const LockHolder& holder) {
    JsonNode root = writeHead(lockFormat, lockVersion);
    root.add("who", JsonNode::ofText(holder.who));
    root.add("machine", JsonNode::ofText(holder.machine));
    root.add("since", JsonNode::ofText(holder.since));
    return printJson(root);
}

/// Nothing when the file was made this moment; empty members when what stands in it cannot be read.
std::optional<LockHolder> readHolder(int descriptor) {
    std::array<char, mostBytes> bytes{};
    const ssize_t count = ::pread(descriptor, bytes.data(), bytes.size(), 0);
    if (count <= 0) {
        return std::nullopt;
    }
    const auto holder =
        readOfKind(std::string_view(bytes.data(), static_cast<std::size_t>(count)), lockFormat, lockVersion,
                   [](JsonReader& reader) {
                       return LockHolder{reader.text("who"), reader.text("machine"), reader.text("since")};
                   });
    return holder ? *holder : LockHolder();
}

bool fill(int descriptor, const std::string& text) {
    return ::ftruncate(descriptor, 0) == 0 &&
           ::pwrite(descriptor, text.data(), text.size(), 0) == static_cast<ssize_t>(text.size());
}

/// Whether the file under that name is still the one that is open: its last holder takes it away.
bool isStillThere(int descriptor, const std::filesystem::path& file) {
    struct stat opened = {};
    struct stat named = {};
    return ::fstat(descriptor, &opened) == 0 && ::stat(file.c_str(), &named) == 0 && opened.st_ino == named.st_ino &&
           opened.st_dev == named.st_dev;
}

/// Another person's file may be readable only: it still tells, and the system's lock works on it.
int openLock(const std::filesystem::path& file) {
    const int descriptor = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, modeOfLock);
    return descriptor < 0 && errno == EACCES ? ::open(file.c_str(), O_RDONLY | O_CLOEXEC) : descriptor;
}

/// Makes room for a file of our own where the one that is there may not be written.
bool isReplaceable(int descriptor, const std::filesystem::path& file) {
    return (::fcntl(descriptor, F_GETFL) & O_ACCMODE) == O_RDONLY && ::unlink(file.c_str()) == 0;
}

LockState stateOf(const LockHolder& holder, const LockHolder& self) {
    return holder.machine.empty() || holder.machine == self.machine ? LockState::leftBehind : LockState::heldAway;
}

/// The system's lock on the open file. False when another has it; a file system without such locks gives it to all.
bool lockOpened(int descriptor) {
    return ::flock(descriptor, LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK;
}

}  // namespace

std::filesystem::path lockFileOf(const std::filesystem::path& job) {
    std::filesystem::path file = job;
    file += ".lock";
    return file;
}

JobLock::JobLock(int descriptor, std::filesystem::path file) : m_descriptor(descriptor), m_file(std::move(file)) {}

JobLock::~JobLock() {
    giveBack();
}

JobLock::JobLock(JobLock&& other) noexcept
    : m_descriptor(std::exchange(other.m_descriptor, -1)), m_file(std::move(other.m_file)) {}

JobLock& JobLock::operator=(JobLock&& other) noexcept {
    if (this != &other) {
        giveBack();
        m_descriptor = std::exchange(other.m_descriptor, -1);
        m_file = std::move(other.m_file);
    }
    return *this;
}

void JobLock::giveBack() {
    if (m_descriptor < 0) {
        return;
    }
    // Before it is unlocked, so that nobody locks a file that is about to go.
    if (isStillThere(m_descriptor, m_file)) {
        ::unlink(m_file.c_str());
    }
    ::close(m_descriptor);
    m_descriptor = -1;
}

Result<LockAnswer> takeJobLock(const std::filesystem::path& job, const LockHolder& self, LockWish wish) {
    const std::filesystem::path file = lockFileOf(job);
    for (int attempt = 0; attempt < mostAttempts; ++attempt) {
        const int descriptor = openLock(file);
        if (descriptor < 0) {
            return cannotLock(file);
        }
        const bool isLocked = lockOpened(descriptor);
        const std::optional<LockHolder> holder = readHolder(descriptor);
        if (!isLocked) {
            ::close(descriptor);
            return LockAnswer{LockState::heldHere, std::nullopt, holder.value_or(LockHolder())};
        }
        if (holder && wish == LockWish::free && isStillThere(descriptor, file)) {
            ::close(descriptor);
            return LockAnswer{stateOf(*holder, self), std::nullopt, *holder};
        }
        if (!isStillThere(descriptor, file) || isReplaceable(descriptor, file)) {
            ::close(descriptor);
            continue;
        }
        JobLock lock(descriptor, file);
        if (!fill(descriptor, writeHolder(self))) {
            return cannotLock(file);
        }
        return LockAnswer{LockState::taken, std::move(lock), {}};
    }
    return cannotLock(file);
}

}  // namespace ohmwright

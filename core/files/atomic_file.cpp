// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/atomic_file.h"

#include "core/base/said.h"

#include <array>
#include <atomic>
#include <cerrno>
#include <cstdint>
#include <string>
#include <system_error>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace ohmwright {

namespace {

constexpr std::uintmax_t largestBytes = std::uintmax_t{64} << 20U;  // 64 MiB: photographs included, far above a job.
constexpr mode_t modeOfNewFile = 0666;                              // Less the user's umask.
constexpr mode_t rightsMask = 07777;
constexpr unsigned mostAttempts = 100;  // Names left behind by a process that died while it saved.

Error unreadable(const std::string& sentence, const std::filesystem::path& path) {
    return {ErrorCode::fileUnreadable, sentence, path.string()};
}

std::string systemReason(int number) {
    return std::generic_category().message(number);
}

/// A file descriptor that is closed at the end of its scope.
class OpenFile {
public:
    explicit OpenFile(int descriptor) : m_descriptor(descriptor) {}
    ~OpenFile() { close(); }
    OpenFile(const OpenFile&) = delete;
    OpenFile& operator=(const OpenFile&) = delete;

    [[nodiscard]] bool isOpen() const { return m_descriptor >= 0; }
    [[nodiscard]] int descriptor() const { return m_descriptor; }
    /// False with errno when the system has lost bytes.
    bool close() {
        const int descriptor = m_descriptor;
        m_descriptor = -1;
        return descriptor < 0 || ::close(descriptor) == 0;
    }

private:
    int m_descriptor;
};

/// All bytes, whatever the system takes at once. False with errno.
bool writeAll(int descriptor, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
        if (written < 0 && errno != EINTR) {
            return false;
        }
        bytes.remove_prefix(written > 0 ? static_cast<std::size_t>(written) : 0);
    }
    return true;
}

/// The file beside the target: removed again unless it was renamed. Errors are told by errno.
class FileBeside {
public:
    explicit FileBeside(const std::filesystem::path& target) : m_file(createBeside(target)) {}
    ~FileBeside() {
        if (m_mustGo) {
            ::unlink(m_path.c_str());
        }
    }
    FileBeside(const FileBeside&) = delete;
    FileBeside& operator=(const FileBeside&) = delete;

    [[nodiscard]] bool isOpen() const { return m_file.isOpen(); }

    /// With the rights of the file it is to replace; bytes on the disk itself, not only with the system.
    bool fill(std::string_view bytes, const std::filesystem::path& target) {
        struct stat status = {};
        const bool replaces = ::stat(target.c_str(), &status) == 0;
        return (!replaces || ::fchmod(m_file.descriptor(), status.st_mode & rightsMask) == 0) &&
               writeAll(m_file.descriptor(), bytes) && ::fsync(m_file.descriptor()) == 0 && m_file.close();
    }
    bool renameTo(const std::filesystem::path& target) {
        const bool renamed = ::rename(m_path.c_str(), target.c_str()) == 0;
        m_mustGo = !renamed;
        return renamed;
    }

private:
    int createBeside(const std::filesystem::path& target) {
        static std::atomic<unsigned> counter{0};
        // A name of its own length: the target's may already be as long as the system allows.
        const std::string name = ".ohmwright-" + std::to_string(::getpid()) + "-";
        for (unsigned attempt = 0; attempt < mostAttempts; ++attempt) {
            m_path = target.parent_path() / (name + std::to_string(counter++));
            const int descriptor = ::open(m_path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, modeOfNewFile);
            m_mustGo = descriptor >= 0;
            if (descriptor >= 0 || errno != EEXIST) {
                return descriptor;
            }
        }
        return -1;
    }

    std::filesystem::path m_path;
    bool m_mustGo = false;
    OpenFile m_file;
};

/// The rename itself reaches the disk with the folder. Some file systems cannot: then the file is still whole.
void flushFolder(const std::filesystem::path& folder) {
    const OpenFile file(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (file.isOpen()) {
        ::fsync(file.descriptor());
    }
}

/// Where a symbolic link leads, so that the link stays and its target is replaced.
std::filesystem::path followed(const std::filesystem::path& path) {
    std::error_code none;
    const std::filesystem::path target = std::filesystem::canonical(path, none);
    return none ? path : target;
}

}  // namespace

Result<std::string> readWholeFile(const std::filesystem::path& path) {
    const auto cannotRead = [&path](const std::string& reason) {
        return unreadable(said("The file %1 cannot be read: %2.", path.string(), reason), path);
    };
    const OpenFile file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
    struct stat status = {};
    if (!file.isOpen() || ::fstat(file.descriptor(), &status) != 0) {
        return cannotRead(systemReason(errno));
    }
    if (!S_ISREG(status.st_mode)) {
        return cannotRead(S_ISDIR(status.st_mode) ? said("it is a folder") : said("it is no ordinary file"));
    }
    std::string bytes;
    std::array<char, 65536> piece{};
    while (true) {
        const ssize_t count = ::read(file.descriptor(), piece.data(), piece.size());
        if (count == 0) {
            return bytes;
        }
        if (count < 0 && errno != EINTR) {
            return cannotRead(systemReason(errno));
        }
        bytes.append(piece.data(), count > 0 ? static_cast<std::size_t>(count) : 0);
        if (bytes.size() > largestBytes) {
            return cannotRead(said("it is larger than 64 MiB"));
        }
    }
}

Result<void> replaceFile(const std::filesystem::path& path, std::string_view bytes) {
    const auto cannotWrite = [&path](int number) {
        return unreadable(
            said("The file %1 cannot be written: %2. Choose another folder or make room, then save again.",
                 path.string(), systemReason(number)),
            path);
    };
    const std::filesystem::path target = followed(path);
    if (::access(target.c_str(), W_OK) != 0 && errno != ENOENT) {
        return cannotWrite(errno);  // Renaming would go through, against what a read-only file says.
    }
    FileBeside beside(target);
    if (!beside.isOpen() || !beside.fill(bytes, target) || !beside.renameTo(target)) {
        return cannotWrite(errno);
    }
    flushFolder(target.has_parent_path() ? target.parent_path() : std::filesystem::path("."));
    return {};
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/atomic_file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <csignal>
#include <filesystem>
#include <fstream>

#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

namespace ohmwright {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

/// A folder of its own for each test, gone afterwards.
class AtomicFile : public testing::Test {
protected:
    void SetUp() override {
        m_folder = fs::temp_directory_path() / ("ohmwright-atomic-" + std::to_string(::getpid()));
        fs::remove_all(m_folder);
        fs::create_directories(m_folder);
    }
    void TearDown() override {
        fs::permissions(m_folder, fs::perms::owner_all);
        fs::remove_all(m_folder);
    }
    [[nodiscard]] fs::path in(const std::string& name) const { return m_folder / name; }
    [[nodiscard]] std::size_t filesInFolder() const {
        return static_cast<std::size_t>(std::distance(fs::directory_iterator(m_folder), fs::directory_iterator()));
    }
    static std::string contents(const fs::path& path) {
        std::ifstream file(path, std::ios::binary);
        return {std::istreambuf_iterator<char>(file), {}};
    }

    fs::path m_folder;
};

/// Rights count for nothing when the tests run as root: then another user does the work.
class AsOrdinaryUser {
public:
    AsOrdinaryUser() : m_was(::geteuid()) {
        if (m_was == 0) {
            constexpr uid_t nobody = 65534;
            EXPECT_EQ(::seteuid(nobody), 0);
        }
    }
    ~AsOrdinaryUser() {
        if (m_was == 0) {
            EXPECT_EQ(::seteuid(m_was), 0);
        }
    }
    AsOrdinaryUser(const AsOrdinaryUser&) = delete;
    AsOrdinaryUser& operator=(const AsOrdinaryUser&) = delete;

private:
    uid_t m_was;
};

TEST_F(AtomicFile, WritesAndReadsBytesOfAnyKind) {
    std::string bytes;
    for (int i = 0; i < 300000; ++i) {
        bytes += static_cast<char>(i * 7);
    }
    ASSERT_TRUE(replaceFile(in("a"), bytes));
    const Result<std::string> back = readWholeFile(in("a"));
    ASSERT_TRUE(back);
    EXPECT_EQ(*back, bytes);
    ASSERT_TRUE(replaceFile(in("a"), ""));
    EXPECT_EQ(*readWholeFile(in("a")), "");
    EXPECT_EQ(filesInFolder(), 1U);
}

TEST_F(AtomicFile, ReplacesTheFileAndKeepsItsRights) {
    ASSERT_TRUE(replaceFile(in("a"), "old"));
    fs::permissions(in("a"), fs::perms::owner_read | fs::perms::owner_write);
    ASSERT_TRUE(replaceFile(in("a"), "new"));
    EXPECT_EQ(contents(in("a")), "new");
    EXPECT_EQ(fs::status(in("a")).permissions(), fs::perms::owner_read | fs::perms::owner_write);
    EXPECT_EQ(filesInFolder(), 1U);
}

TEST_F(AtomicFile, ANewFileHasTheRightsThatTheUserGivesNewFiles) {
    const mode_t before = ::umask(027);
    const Result<void> written = replaceFile(in("a"), "new");
    ::umask(before);
    ASSERT_TRUE(written);
    EXPECT_EQ(fs::status(in("a")).permissions(),
              fs::perms::owner_read | fs::perms::owner_write | fs::perms::group_read);
}

TEST_F(AtomicFile, ALinkStaysALink) {
    ASSERT_TRUE(replaceFile(in("real"), "old"));
    fs::create_symlink(in("real"), in("link"));
    ASSERT_TRUE(replaceFile(in("link"), "new"));
    EXPECT_TRUE(fs::is_symlink(in("link")));
    EXPECT_EQ(contents(in("real")), "new");
}

TEST_F(AtomicFile, NamesOfAnyLengthAndScriptAreTaken) {
    const fs::path path = in(std::string(240, 'n') + "Ω 日本");
    ASSERT_TRUE(replaceFile(path, "text"));
    EXPECT_EQ(*readWholeFile(path), "text");
}

TEST_F(AtomicFile, LeavesTheOldFileAndNothingElseWhenTheDiskIsFull) {
    ASSERT_TRUE(replaceFile(in("a"), "old"));
    // A limit on the size of files stands for a full disk: the write stops half way.
    struct rlimit before = {};
    ASSERT_EQ(::getrlimit(RLIMIT_FSIZE, &before), 0);
    struct rlimit small = before;
    small.rlim_cur = 1000;
    const auto handler = std::signal(SIGXFSZ, SIG_IGN);
    ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &small), 0);
    const Result<void> written = replaceFile(in("a"), std::string(100000, 'x'));
    ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &before), 0);
    std::signal(SIGXFSZ, handler);
    ASSERT_FALSE(written);
    EXPECT_EQ(written.error().code, ErrorCode::fileUnreadable);
    EXPECT_THAT(written.error().message, HasSubstr("File too large"));
    EXPECT_EQ(contents(in("a")), "old");
    EXPECT_EQ(filesInFolder(), 1U);
}

TEST_F(AtomicFile, SaysWhyAFolderCannotBeWrittenTo) {
    fs::permissions(m_folder,
                    fs::perms::owner_read | fs::perms::owner_exec | fs::perms::others_read | fs::perms::others_exec);
    const AsOrdinaryUser user;
    const Result<void> written = replaceFile(in("a"), "text");
    ASSERT_FALSE(written);
    EXPECT_EQ(written.error().code, ErrorCode::fileUnreadable);
    EXPECT_THAT(written.error().message, HasSubstr("Permission denied"));
    EXPECT_THAT(written.error().message, HasSubstr(in("a").string()));
}

TEST_F(AtomicFile, DoesNotReplaceAFileThatIsReadOnly) {
    ASSERT_TRUE(replaceFile(in("a"), "old"));
    fs::permissions(in("a"), fs::perms::owner_read | fs::perms::others_read);
    fs::permissions(m_folder, fs::perms::all);
    {
        // access(2) asks for the real user, so the other user must be one in full.
        const uid_t real = ::getuid();
        if (real == 0) {
            ASSERT_EQ(::setresuid(65534, 65534, 0), 0);
        }
        const Result<void> written = replaceFile(in("a"), "new");
        if (real == 0) {
            ASSERT_EQ(::setresuid(0, 0, 0), 0);
        }
        ASSERT_FALSE(written);
        EXPECT_THAT(written.error().message, HasSubstr("Permission denied"));
    }
    EXPECT_EQ(contents(in("a")), "old");
    EXPECT_EQ(filesInFolder(), 1U);
}

TEST_F(AtomicFile, SaysWhyAPathCannotBeWritten) {
    ASSERT_TRUE(replaceFile(in("file"), "text"));
    fs::create_directories(in("folder"));
    for (const fs::path& path :
         {in("missing") / "a", in("file") / "a", in("folder"), in(std::string(300, 'n')), fs::path()}) {
        const Result<void> written = replaceFile(path, "text");
        ASSERT_FALSE(written) << path;
        EXPECT_EQ(written.error().code, ErrorCode::fileUnreadable);
        EXPECT_EQ(written.error().where, path.string());
    }
    EXPECT_EQ(filesInFolder(), 2U);
    EXPECT_TRUE(fs::is_empty(in("folder")));
}

TEST_F(AtomicFile, SaysWhyAFileCannotBeRead) {
    const auto reasonOf = [](const fs::path& path) {
        const Result<std::string> read = readWholeFile(path);
        EXPECT_FALSE(read) << path;
        return read ? std::string() : read.error().message;
    };
    EXPECT_THAT(reasonOf(in("missing")), HasSubstr("No such file"));
    EXPECT_THAT(reasonOf(m_folder), HasSubstr("it is a folder"));
    EXPECT_THAT(reasonOf("/dev/null"), HasSubstr("no ordinary file"));
    ASSERT_TRUE(replaceFile(in("large"), "x"));
    fs::resize_file(in("large"), (std::uintmax_t{64} << 20U) + 1);
    EXPECT_THAT(reasonOf(in("large")), HasSubstr("64 MiB"));
    ASSERT_TRUE(replaceFile(in("secret"), "x"));
    fs::permissions(in("secret"), fs::perms::none);
    const AsOrdinaryUser user;
    EXPECT_THAT(reasonOf(in("secret")), HasSubstr("Permission denied"));
}

}  // namespace
}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/input_file.h"

#include "core/files/atomic_file.h"
#include "core/files/job_file.h"

#include <cctype>
#include <filesystem>
#include <string_view>
#include <system_error>
#include <utility>

namespace ohmwright {

namespace {

enum class FileKind { job, netlist };

std::string lowerExtension(const std::string& path) {
    std::string extension = std::filesystem::path(path).extension().string();
    for (char& c : extension) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return extension;
}

FileKind kindOf(const std::string& path, std::string_view text) {
    const std::string extension = lowerExtension(path);
    if (extension == ".ohmjob") return FileKind::job;
    if (extension == ".cir") return FileKind::netlist;
    const std::size_t first = text.find_first_not_of(" \t\r\n");
    return first != std::string_view::npos && text[first] == '{' ? FileKind::job : FileKind::netlist;
}

/// A pipe or a device may never end, or only be read once.
bool isSpecial(const std::string& path) {
    std::error_code ignored;
    const std::filesystem::file_status status = std::filesystem::status(path, ignored);
    return std::filesystem::exists(status) && !std::filesystem::is_regular_file(status) &&
           !std::filesystem::is_directory(status);
}

}  // namespace

Result<InputFile> readInputFile(const std::string& path) {
    if (path.empty()) return Error{ErrorCode::fileUnreadable, "The file has no name: give a *.cir or *.ohmjob.", ""};
    if (isSpecial(path))
        return Error{ErrorCode::fileUnreadable,
                     "The file " + path + " cannot be read: it is no ordinary file; save its text in one.", path};
    const Result<std::string> text = readWholeFile(path);
    if (!text) return text.error();
    if (kindOf(path, *text) == FileKind::job) {
        Result<Job> job = readJob(*text);
        if (!job) return job.error();
        return InputFile(*std::move(job));
    }
    Result<Netlist> netlist = readNetlist(*text);
    if (!netlist) return netlist.error();
    return InputFile(*std::move(netlist));
}

std::string inFile(const std::string& path, const Error& error) {
    constexpr std::string_view lineWord = "line ";
    if (!error.where.starts_with(lineWord)) return path + ": " + error.message;
    const std::string number = error.where.substr(lineWord.size());
    const std::string said = "line " + number + ": ";
    const bool saysItself = error.message.starts_with(said);
    return path + ":" + number + ": " + (saysItself ? error.message.substr(said.size()) : error.message);
}

}  // namespace ohmwright

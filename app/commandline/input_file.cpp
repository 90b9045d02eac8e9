// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/input_file.h"

#include "core/files/atomic_file.h"
#include "core/files/job_file.h"
#include "core/files/netlist_job.h"

#include <filesystem>
#include <string_view>
#include <system_error>
#include <utility>

namespace ohmwright {

namespace {

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
    if (!isNetlistFile(path, *text)) {
        Result<Job> job = readJob(*text);
        if (!job) return job.error();
        return InputFile(*std::move(job));
    }
    Result<Netlist> netlist = readNetlist(*text);
    if (!netlist) return netlist.error();
    return InputFile(*std::move(netlist));
}

std::optional<NetlistFaults> faultsOfNetlistFile(const std::string& path) {
    if (isSpecial(path)) return std::nullopt;
    const Result<std::string> text = readWholeFile(path);
    if (!text || !isNetlistFile(path, *text)) return std::nullopt;
    return faultsOfNetlist(*text);
}

std::string inFile(const std::string& path, const Error& error) {
    return inNetlistFile(path, error).message;  // A job's fault has its line in the same form.
}

}  // namespace ohmwright

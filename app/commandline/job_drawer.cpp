// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/job_drawer.h"

#include "core/files/atomic_file.h"
#include "core/files/drawer_csv.h"
#include "core/files/drawer_file.h"
#include "core/files/file_head.h"
#include "core/plan/pick_list.h"

#include <filesystem>
#include <system_error>

namespace ohmwright {

namespace {

Result<Drawer> readAnyDrawer(const std::filesystem::path& path) {
    if (path.extension() != ".csv") return loadDrawer(path);
    const auto text = readWholeFile(path);
    if (!text) return text.error();
    auto table = readDrawerCsv(*text);
    if (!table) return errorInFile(table.error(), path);
    if (!table->troubles.empty())
        return errorInFile({ErrorCode::fileUnreadable, table->troubles.front().message, ""}, path);
    return Drawer{"", std::move(table->lots)};
}

std::filesystem::path drawerBeside(const std::filesystem::path& job) {
    std::error_code ignored;
    const std::filesystem::path folder = std::filesystem::absolute(job, ignored).parent_path();
    for (const std::filesystem::path& place : {folder, folder.parent_path()})
        if (std::filesystem::is_regular_file(place / drawerFileName, ignored)) return place / drawerFileName;
    return {};
}

}  // namespace

std::string JobDrawer::note() const {
    return isAssumed() ? "There is no drawer beside the job: preferred numbers are assumed to be in stock." : "";
}

Result<JobDrawer> readJobDrawer(const Request& request) {
    const std::filesystem::path path =
        request.drawer.empty() ? drawerBeside(request.file) : std::filesystem::path(request.drawer);
    if (path.empty()) return JobDrawer{};
    auto drawer = readAnyDrawer(path);
    if (!drawer) {
        // Of another file than the one that the call is about: it names itself.
        return Error{ErrorCode::fileUnreadable, drawer.error().message, path.string()};
    }
    return JobDrawer{*std::move(drawer), path.string()};
}

std::vector<ValueOnHand> valuesFor(const JobDrawer& drawer, PartKind kind, const Job& job) {
    if (!drawer.isAssumed()) return valuesOnHand(drawer.drawer, kind, reservationName(job));
    return assumedStock(kind);
}

}  // namespace ohmwright

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

std::vector<Job> jobsOf(const std::filesystem::path& folder) {
    std::vector<Job> jobs;
    for (ShopJob& file : readShopJobs(folder))
        if (file.job) jobs.push_back(*std::move(file.job));
    return jobs;
}

}  // namespace

std::string JobDrawer::note() const {
    return isAssumed() ? "There is no drawer beside the job: preferred numbers are assumed to be in stock." : "";
}

Result<Shop> readCallShop(const Request& request) {
    std::error_code ignored;
    if (!request.shop.empty() && !std::filesystem::is_directory(request.shop, ignored))
        return Error{ErrorCode::fileUnreadable, "--shop: " + request.shop + " is no folder.", request.shop};
    Shop shop = readShop(request.shop.empty() ? shopFolderOf(request.file) : std::filesystem::path(request.shop));
    // Of another file than the one that the call is about: it names itself.
    if (!shop.faults.empty())
        return Error{ErrorCode::fileUnreadable, shop.faults.front().message, shop.faults.front().where};
    return shop;
}

Result<JobDrawer> readJobDrawer(const Request& request) {
    const std::filesystem::path path(request.drawer);
    if (path.empty()) {
        auto shop = readCallShop(request);
        if (!shop) return shop.error();
        if (!shop->drawer) return JobDrawer{};
        if (!request.shop.empty()) shop->drawer = withReservations(*shop->drawer, jobsOf(shop->folder));
        return JobDrawer{*std::move(shop->drawer), (shop->folder / drawerFileName).string()};
    }
    auto drawer = readAnyDrawer(path);
    if (!drawer) {
        // Of another file than the one that the call is about: it names itself.
        return Error{ErrorCode::fileUnreadable, drawer.error().message, path.string()};
    }
    return JobDrawer{*std::move(drawer), path.string()};
}

Result<const Part*> partNamed(const Circuit& circuit, std::string_view option, const std::string& name) {
    const Part* part = findPartByReference(circuit, name);
    part = part == nullptr ? findPart(circuit, name) : part;
    if (part == nullptr) return refuseOption(option, "“" + name + "” is no part of this circuit; bias lists them all.");
    return part;
}

std::vector<ValueOnHand> valuesFor(const JobDrawer& drawer, PartKind kind, const Job& job) {
    if (!drawer.isAssumed()) return valuesOnHand(drawer.drawer, kind, reservationName(job));
    return assumedStock(kind);
}

}  // namespace ohmwright

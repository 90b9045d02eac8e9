// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/shop_folder.h"

#include "core/base/said.h"
#include "core/files/atomic_file.h"
#include "core/files/claim_words.h"
#include "core/files/drawer_file.h"
#include "core/files/earlier_versions.h"
#include "core/files/file_head.h"
#include "core/files/job_file.h"
#include "core/files/shop_rates.h"
#include "core/files/side_effect_limits.h"
#include "core/plan/pick_list.h"

#include <algorithm>
#include <system_error>
#include <utility>

namespace ohmwright {

namespace {

namespace fs = std::filesystem;

constexpr int deepestFolder = 2;                  // Shop, a folder a unit or a year, one more.
constexpr std::size_t mostFolderEntries = 20000;  // A folder that is no shop (a whole home) is not walked to its end.

bool isFile(const fs::path& path) {
    std::error_code none;
    return fs::is_regular_file(path, none);
}

/// The file's text when there is one and it can be read; a fault otherwise.
std::optional<std::string> textOf(const fs::path& path, std::vector<Error>& faults) {
    std::error_code none;
    if (!fs::exists(path, none)) {
        return std::nullopt;
    }
    Result<std::string> text = readWholeFile(path);
    if (!text) {
        faults.push_back(text.error());
        return std::nullopt;
    }
    return *std::move(text);
}

/// What the file says in place of `value`; as it is without a file or with one that cannot be used.
template <class T, class Value>
void readInto(Value& value, const fs::path& path, Result<T> (*read)(std::string_view), std::vector<Error>& faults) {
    const auto text = textOf(path, faults);
    if (!text) {
        return;
    }
    Result<T> found = read(*text);
    if (!found) {
        faults.push_back(errorInFile(found.error(), path));
        return;
    }
    value = *std::move(found);
}

Error changedOutside(const fs::path& path) {
    return {
        ErrorCode::fileUnreadable,
        said("%1 was changed by someone else since it was read: nothing was overwritten. Read the shop folder again.",
             path.string()),
        path.string()};
}

/// Errors: the file on disk is not what `shop` was read from.
Result<void> requireUnchanged(const Shop& shop, const fs::path& path) {
    std::error_code none;
    if (!fs::exists(path, none)) {
        return shop.drawerText.empty() ? Result<void>() : changedOutside(path);
    }
    const Result<std::string> present = readWholeFile(path);
    if (!present) {
        return present.error();
    }
    if (!shop.drawer) {
        return Error{
            ErrorCode::fileUnreadable,
            said("%1 is there but could not be read: nothing was overwritten. Mend it or move it away.", path.string()),
            path.string()};
    }
    return *present == shop.drawerText ? Result<void>() : changedOutside(path);
}

/// A job's needs one after the other, as many as there still are.
Drawer reservedAsFarAsPossible(Drawer drawer, const Job& job) {
    const std::string name = reservationName(job);
    drawer = releaseReservation(drawer, name);
    const Result<std::vector<PickLine>> lines = pickList(job, drawer);
    if (!lines) {
        return drawer;
    }
    Result<Drawer> reserved = reserve(drawer, name, takenBy(*lines));
    return reserved ? *std::move(reserved) : drawer;
}

}  // namespace

Shop readShop(const fs::path& folder) {
    Shop shop;
    shop.folder = folder;
    if (folder.empty()) {
        return shop;
    }
    readInto(shop.words, folder / claimWordsFileName, readClaimWords, shop.faults);
    readInto(shop.rates, folder / shopRatesFileName, readShopRates, shop.faults);
    readInto(shop.limits, folder / sideEffectLimitsFileName, readSideEffectLimits, shop.faults);
    readInto(shop.drawer, folder / drawerFileName, readDrawer, shop.faults);
    if (shop.drawer) {
        std::vector<Error> ignored;
        shop.drawerText = textOf(folder / drawerFileName, ignored).value_or(std::string());
    }
    return shop;
}

fs::path shopFolderOf(const fs::path& jobFile) {
    if (jobFile.empty()) {
        return {};
    }
    std::error_code none;
    const fs::path folder = fs::absolute(jobFile, none).parent_path();
    for (const fs::path& place : {folder, folder.parent_path()}) {
        if (isFile(place / drawerFileName)) {
            return place;
        }
    }
    return {};
}

Result<void> saveShopDrawer(Shop& shop, const Drawer& drawer) {
    if (shop.folder.empty()) {
        return Error{ErrorCode::fileUnreadable,
                     said("There is no shop folder yet: choose one, and the drawer is kept there."), ""};
    }
    if (const std::vector<std::string> faults = faultsOf(drawer); !faults.empty()) {
        return Error{ErrorCode::invalidInput,
                     said("The drawer cannot be saved as it is; the file on disk is as before. %1", faults.front()),
                     ""};
    }
    const fs::path path = shop.folder / drawerFileName;
    if (Result<void> unchanged = requireUnchanged(shop, path); !unchanged) {
        return unchanged;
    }
    std::error_code trouble;
    fs::create_directories(shop.folder, trouble);
    if (trouble) {
        return Error{ErrorCode::fileUnreadable,
                     said("The shop folder %1 cannot be made: %2.", shop.folder.string(), trouble.message()),
                     shop.folder.string()};
    }
    std::string text = writeDrawer(drawer);
    if (Result<void> written = replaceKeepingEarlier(path, text); !written) {
        return written;
    }
    shop.drawer = drawer;
    shop.drawerText = std::move(text);
    return {};
}

std::vector<ShopJob> readShopJobs(const fs::path& folder, const std::stop_token& stop) {
    std::vector<fs::path> paths;
    std::error_code trouble;
    fs::recursive_directory_iterator entry(folder, fs::directory_options::skip_permission_denied, trouble);
    const fs::recursive_directory_iterator end;
    for (std::size_t seen = 0; !trouble && entry != end && seen < mostFolderEntries; ++seen) {
        std::error_code none;
        if (entry->is_directory(none)) {
            const std::string name = entry->path().filename().string();
            if (entry.depth() >= deepestFolder || name == earlierVersionsFolder || name.front() == '.') {
                entry.disable_recursion_pending();
            }
        } else if (entry->path().extension() == ".ohmjob" && entry->is_regular_file(none)) {
            paths.push_back(entry->path());
        }
        entry.increment(trouble);
    }
    std::sort(paths.begin(), paths.end());
    std::vector<ShopJob> jobs;
    for (const fs::path& path : paths) {
        if (stop.stop_requested()) {
            break;
        }
        Result<LoadedJob> loaded = loadJob(path);
        jobs.push_back({path, {}, {}});
        if (loaded) {
            jobs.back().job = std::move(loaded->job);
        } else {
            jobs.back().fault = loaded.error().message;
        }
    }
    return jobs;
}

std::vector<ShopJob> jobsOfUnit(std::vector<ShopJob> jobs, std::string_view serial) {
    std::erase_if(jobs,
                  [serial](const ShopJob& each) { return !each.job || !isSameSerial(each.job->unit.serial, serial); });
    return jobs;
}

bool isOpen(VisitState state) {
    return state == VisitState::quoted || state == VisitState::onBench || state == VisitState::proven;
}

Drawer withReservations(const Drawer& drawer, const std::vector<Job>& jobs) {
    Drawer reserved = drawer;
    for (const Job& job : jobs) {
        if (isOpen(job.visit.state)) {
            reserved = reservedAsFarAsPossible(std::move(reserved), job);
        } else {
            reserved = releaseReservation(reserved, reservationName(job));
        }
    }
    return reserved;
}

}  // namespace ohmwright

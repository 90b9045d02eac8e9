/// The shop's folder: drawer, customers' words, rates, limits, and the jobs in it.
///
///     drawer.json   parts in stock             files/drawer_file.h
///     words.json    customers' words           files/claim_words.h
///     rates.json    what work and parts cost   files/shop_rates.h
///     limits.json   limits of side effects     files/side_effect_limits.h
///     recipes/      recipes                    files/recipe_file.h
///     *.ohmjob      jobs, here or in folders below
///     earlier/      what the files held before files/earlier_versions.h
///
/// Every file may be missing: the house's figures stand for it.
/// The formats are described in resources/shop-file-formats.md.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/error.h"
#include "core/base/result.h"
#include "core/parts/drawer.h"
#include "core/plan/claims.h"
#include "core/plan/job.h"
#include "core/plan/quote.h"
#include "core/plan/side_effects.h"

#include <filesystem>
#include <optional>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// What a shop's folder says.
struct Shop {
    std::filesystem::path folder;  ///< Empty: no shop, the house's figures.
    std::optional<Drawer> drawer;  ///< Absent without a drawer.json, and while it cannot be read.
    ClaimLimits words = houseClaimLimits();
    ShopRates rates;
    SideEffectLimits limits;
    /// One a file that is there and cannot be used: "PATH: line 7, lots/R-3k9/value: ..."; the house's figures stand
    /// for it, and a drawer is not written over.
    std::vector<Error> faults;
    std::string drawerText;  ///< As it was read, to notice a change from outside; empty when there is none.

    /// Whether a plan's parts are assumed to be in stock.
    [[nodiscard]] bool isStockAssumed() const { return !drawer || drawer->lots.empty(); }
};

/// Never fails: what cannot be read is in `faults`. A folder that is not there is an empty shop.
Shop readShop(const std::filesystem::path& folder);

/// The shop that a job file belongs to: its own folder or the one above that, whichever holds a drawer.json first;
/// empty when none does.
std::filesystem::path shopFolderOf(const std::filesystem::path& jobFile);

/// Writes the drawer and keeps the earlier version; makes the folder when it is not there.
/// @param shop  as it was read; its drawer and text are what was written afterwards.
/// Errors: invalidInput when the drawer has a fault; fileUnreadable of the system, and when the file on disk is no
/// longer what was read: nothing of others is overwritten. Folder and `shop` are as before then.
Result<void> saveShopDrawer(Shop& shop, const Drawer& drawer);

/// A job file of the shop.
struct ShopJob {
    std::filesystem::path path;
    std::optional<Job> job;  ///< Absent when the file cannot be read.
    std::string fault;       ///< Then: why.
};
/// All job files in the folder and two levels of folders below it, by path; earlier versions are left out.
/// @param stop  polled at every file; those that were read until then are given back.
std::vector<ShopJob> readShopJobs(const std::filesystem::path& folder, const std::stop_token& stop = {});

/// Of these, the jobs that tell of the unit with that serial; files that cannot be read are left out.
std::vector<ShopJob> jobsOfUnit(std::vector<ShopJob> jobs, std::string_view serial);

/// Quoted, on the bench or proven: the customer said yes, or is being asked with these parts.
bool isOpen(VisitState state);

/// The drawer with what the open jobs need reserved for them, each in place of what it had reserved. What a job cannot
/// get is left out here: core/plan/pick_list.h's shortageList tells it. Reservations of jobs that are not among `jobs`
/// stay; those of jobs that are gone or draft go.
Drawer withReservations(const Drawer& drawer, const std::vector<Job>& jobs);

}  // namespace ohmwright

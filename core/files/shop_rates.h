/// What a shop charges, as a file in its folder.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/quote.h"

#include <string>
#include <string_view>

namespace ohmwright {

inline constexpr int shopRatesVersion = 1;
/// Its name in the shop folder.
inline constexpr std::string_view shopRatesFileName = "rates.json";

/// A rate that the file does not name is the house's; so are the minutes of a kind of change that it does not name.
/// Errors: fileDamaged naming line and key (no JSON, another kind of file, an unknown key, a rate under 0);
/// fileNewer above shopRatesVersion.
Result<ShopRates> readShopRates(std::string_view text);
/// All of them; `readShopRates(writeShopRates(rates))` gives rates equal to `rates`.
std::string writeShopRates(const ShopRates& rates);

}  // namespace ohmwright

/// The customer's words of a shop as a file in its folder: which words, which figure, from which change on.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/claims.h"

#include <filesystem>
#include <string>
#include <string_view>

namespace ohmwright {

inline constexpr int claimWordsVersion = 1;

/// What the file is called in the shop folder.
inline constexpr std::string_view claimWordsFileName = "words.json";

/// Errors: fileDamaged naming line and key (no JSON, another kind of file, a key missing, an unknown meaning, limits
/// that cannot be, as checkClaimLimits); fileNewer above claimWordsVersion.
Result<ClaimLimits> readClaimWords(std::string_view text);
/// The canonical text; `readClaimWords(writeClaimWords(limits))` gives limits equal to `limits`.
std::string writeClaimWords(const ClaimLimits& limits);

/// Errors: fileUnreadable; as readClaimWords with the path in the message.
Result<ClaimLimits> loadClaimWords(const std::filesystem::path& path);
/// Written beside and renamed. Errors: invalidInput as checkClaimLimits; fileUnreadable.
Result<void> saveClaimWords(const ClaimLimits& limits, const std::filesystem::path& path);

}  // namespace ohmwright

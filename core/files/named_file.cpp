// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/named_file.h"

#include "core/base/said.h"
#include "core/files/earlier_versions.h"

#include <system_error>

namespace ohmwright {

namespace fs = std::filesystem;

Result<fs::path> keepByName(const fs::path& folder, const std::string& stem, const std::string& text,
                            const std::function<bool(const fs::path&)>& hasName) {
    std::error_code trouble;
    fs::create_directories(folder, trouble);
    if (trouble) {
        return Error{ErrorCode::fileUnreadable,
                     said("The folder %1 cannot be made: %2.", folder.string(), trouble.message()), folder.string()};
    }
    fs::path path = folder / (stem + ".json");
    std::error_code none;
    for (int number = 2; fs::exists(path, none) && !hasName(path); ++number) {
        std::string name = stem;
        path = folder / name.append("-").append(std::to_string(number)).append(".json");
    }
    if (const Result<void> written = replaceKeepingEarlier(path, text); !written) {
        return written.error();
    }
    return path;
}

}  // namespace ohmwright

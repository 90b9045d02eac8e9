// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/file_head.h"

#include "core/base/said.h"

#include <cmath>

namespace ohmwright {

JsonNode writeHead(std::string_view format, int version) {
    JsonNode root = JsonNode::object();
    root.add("format", JsonNode::ofText(std::string(format)));
    root.add("version", JsonNode::ofInteger(version));
    return root;
}

Result<void> requireHead(JsonReader& reader, ReadingState& state, std::string_view format, int newestVersion) {
    const std::string found = reader.text("format");
    const double version = reader.number("version");
    if (!state.error && found != format) {
        reader.member("format").fail(
            said("\"%1\" is expected here, not \"%2\": this is another kind of file.", format, found));
    }
    if (!state.error && !(version >= 1.0 && version == std::floor(version))) {
        reader.member("version").fail(said("a version is a whole number from 1 up."));
    }
    if (state.error) {
        return *state.error;
    }
    if (version > newestVersion) {
        return Error{ErrorCode::fileNewer,
                     said("The file has format version %1, which is newer than version %2 that this program knows. "
                          "Open it with a newer Ohmwright.",
                          JsonNode::ofNumber(version).text, newestVersion),
                     "version"};
    }
    return {};
}

Error errorInFile(Error error, const std::filesystem::path& path) {
    error.message = path.string() + ": " + error.message;
    return error;
}

}  // namespace ohmwright

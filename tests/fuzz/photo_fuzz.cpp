/// Any bytes as a photo: what its head says can be read from is a picture of some size, and everything else is refused
/// in words.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/photo_file.h"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

namespace {

void require(bool truth) {
    if (!truth) {
        std::abort();
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace ohmwright;
    const auto head = readPhotoHead(std::string_view(reinterpret_cast<const char*>(data), size));
    if (head) {
        require(head->width > 0 && head->height > 0);
        require(head->orientation >= 1 && head->orientation <= 8);
    } else {
        require(!head.error().message.empty());
    }
    return 0;
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/photo_file.h"

#include "core/base/said.h"
#include "core/files/atomic_file.h"
#include "core/files/file_head.h"
#include "core/plan/board_marks.h"

#include <cstdint>
#include <optional>
#include <system_error>

namespace ohmwright {

namespace {

constexpr int mostCopies = 1000;

/// Bytes of a picture, each asked for by its place; none beyond the end.
class Bytes {
public:
    explicit Bytes(std::string_view bytes, bool isLittleEndian = false)
        : m_bytes(bytes), m_isLittleEndian(isLittleEndian) {}

    [[nodiscard]] std::optional<std::uint32_t> number(std::size_t at, std::size_t count) const {
        if (at > m_bytes.size() || count > m_bytes.size() - at) {
            return std::nullopt;
        }
        std::uint32_t value = 0;
        for (std::size_t k = 0; k < count; ++k) {
            const std::size_t index = m_isLittleEndian ? at + count - 1 - k : at + k;
            value = (value << 8U) | static_cast<unsigned char>(m_bytes[index]);
        }
        return value;
    }

private:
    std::string_view m_bytes;
    bool m_isLittleEndian;
};

Error noPicture(const std::string& sentence) {
    return Error{ErrorCode::fileDamaged, sentence, {}};
}

/// The orientation in the first directory of a TIFF block, as Exif has it; 1 where there is none.
int orientationOf(std::string_view tiff) {
    constexpr std::uint32_t orientationTag = 0x0112;
    constexpr std::size_t entryLength = 12;
    const Bytes bytes(tiff, tiff.substr(0, 2) == "II");
    const auto directory = bytes.number(4, 4);
    const auto entries = directory ? bytes.number(*directory, 2) : std::nullopt;
    for (std::uint32_t k = 0; entries && k < *entries; ++k) {
        const std::size_t entry = std::size_t{*directory} + 2 + k * entryLength;
        const auto tag = bytes.number(entry, 2);
        const auto value = bytes.number(entry + 8, 2);
        if (!tag || !value) {
            return 1;
        }
        if (*tag == orientationTag) {
            return *value >= 1 && *value <= 8 ? static_cast<int>(*value) : 1;
        }
    }
    return 1;
}

PhotoHead upright(PhotoHead::Kind kind, std::uint32_t width, std::uint32_t height, int orientation) {
    constexpr int firstOnItsSide = 5;
    const auto [w, h] = orientation >= firstOnItsSide ? std::pair{height, width} : std::pair{width, height};
    return {kind, static_cast<int>(w), static_cast<int>(h), orientation};
}

bool isFrameHead(std::uint32_t marker) {
    // C4, C8 and CC of the row are tables and a reserved one.
    return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
}

/// Markers without a length: filling, restarts, the beginning.
bool standsAlone(std::uint32_t marker) {
    return marker == 0x01 || (marker >= 0xD0 && marker <= 0xD8);
}

Result<PhotoHead> readJpeg(std::string_view text) {
    const Bytes bytes(text);
    int orientation = 1;
    std::size_t at = 2;
    while (const auto marker = bytes.number(at, 2)) {
        if (*marker == 0xFFFF) {
            ++at;  // Any number of filling bytes stands before a marker.
            continue;
        }
        if ((*marker >> 8U) != 0xFF) {
            break;
        }
        const std::uint32_t kind = *marker & 0xFFU;
        if (standsAlone(kind)) {
            at += 2;
            continue;
        }
        const auto length = bytes.number(at + 2, 2);
        if (!length || *length < 2) {
            break;
        }
        if (isFrameHead(kind)) {
            const auto height = bytes.number(at + 5, 2);
            const auto width = bytes.number(at + 7, 2);
            if (!height || !width || *height == 0 || *width == 0) {
                break;
            }
            return upright(PhotoHead::Kind::jpeg, *width, *height, orientation);
        }
        const std::string_view segment = text.substr(at + 4, *length - 2);
        constexpr std::string_view exif("Exif\0\0", 6);
        if (kind == 0xE1 && segment.substr(0, exif.size()) == exif) {
            orientation = orientationOf(segment.substr(exif.size()));
        }
        at += 2 + std::size_t{*length};
    }
    return noPicture(said("The JPEG ends before it says how large it is: take the photo from the camera again."));
}

Result<PhotoHead> readPng(std::string_view text) {
    const Bytes bytes(text);
    const auto width = bytes.number(16, 4);
    const auto height = bytes.number(20, 4);
    if (!width || !height || text.substr(12, 4) != "IHDR" || *width == 0 || *height == 0) {
        return noPicture(said("The PNG ends before it says how large it is: take the photo from the camera again."));
    }
    if (*width > largestPhotoSide || *height > largestPhotoSide) {
        return noPicture(said("The PNG says it has more than 65,535 pixels one way: save it smaller."));
    }
    return upright(PhotoHead::Kind::png, *width, *height, 1);
}

std::string copyName(const std::string& stem, BoardSide side, int number, PhotoHead::Kind kind) {
    std::string name = stem;
    name.append(side == BoardSide::part ? "-part-side" : "-solder-side");
    if (number > 1) {
        name.append("-").append(std::to_string(number));
    }
    return name.append(kind == PhotoHead::Kind::jpeg ? ".jpg" : ".png");
}

/// What lies there is these bytes.
bool holds(const std::filesystem::path& path, std::string_view bytes) {
    const Result<std::string> there = readWholeFile(path);
    return there && *there == bytes;
}

}  // namespace

Result<PhotoHead> readPhotoHead(std::string_view bytes) {
    constexpr std::string_view png("\x89PNG\r\n\x1a\n", 8);
    if (bytes.substr(0, 2) == "\xFF\xD8") {
        return readJpeg(bytes);
    }
    if (bytes.substr(0, png.size()) == png) {
        return readPng(bytes);
    }
    return noPicture(said("This is neither a JPEG nor a PNG: save the photo as one of them."));
}

std::string photoHash(std::string_view bytes) {
    // 64-bit FNV-1a, http://www.isthe.com/chongo/tech/comp/fnv/
    std::uint64_t hash = 14695981039346656037U;
    for (const char byte : bytes) {
        hash = (hash ^ static_cast<unsigned char>(byte)) * 1099511628211U;
    }
    constexpr std::string_view digits = "0123456789abcdef";
    std::string text;
    for (int shift = 60; shift >= 0; shift -= 4) {
        text += digits[(hash >> static_cast<unsigned>(shift)) & 0xFU];
    }
    return text;
}

Result<BoardPhoto> copyPhotoIn(const std::filesystem::path& picture, const std::filesystem::path& folder,
                               const std::string& stem, BoardSide side) {
    const Result<std::string> bytes = readWholeFile(picture);
    if (!bytes) {
        return bytes.error();
    }
    const Result<PhotoHead> head = readPhotoHead(*bytes);
    if (!head) {
        return errorInFile(head.error(), picture);
    }
    for (int number = 1; number <= mostCopies; ++number) {
        const std::string name = copyName(stem, side, number, head->kind);
        const std::filesystem::path path = folder / name;
        std::error_code ignored;
        const bool isThere = std::filesystem::exists(path, ignored);
        if (isThere && !holds(path, *bytes)) {
            continue;
        }
        if (!isThere) {
            const Result<void> written = replaceFile(path, *bytes);
            if (!written) {
                return written.error();
            }
        }
        return BoardPhoto{name, photoHash(*bytes), head->width, head->height};
    }
    return Error{
        ErrorCode::fileUnreadable,
        said("%1 photos of this job lie in %2: take some away.", {std::to_string(mostCopies), folder.string()}),
        {}};
}

Result<std::filesystem::path> findPhoto(const std::filesystem::path& folder, const BoardPhoto& photo, BoardSide side) {
    const std::filesystem::path path = folder / photo.file;
    const Result<std::string> bytes = readWholeFile(path);
    if (!bytes) {
        return Error{ErrorCode::fileUnreadable,
                     said("The photo of the %1, %2, is not beside the job: put it back into %3. Its marks are kept.",
                          {sideWords(side), photo.file, folder.string()}),
                     {}};
    }
    if (photoHash(*bytes) != photo.hash) {
        return Error{ErrorCode::fileDamaged,
                     said("%2, the photo of the %1, is another file than was marked: put the earlier one back into "
                          "%3, or add this one anew and mark its legs. The marks are kept until then.",
                          {sideWords(side), photo.file, folder.string()}),
                     {}};
    }
    return path;
}

Result<void> copyPhotosAlong(const Board& board, const std::filesystem::path& from, const std::filesystem::path& to) {
    std::error_code ignored;
    if (std::filesystem::equivalent(from, to, ignored)) {
        return {};
    }
    for (const BoardSide side : boardSides) {
        const BoardFace& face = board.face(side);
        const Result<std::string> bytes =
            face.photo ? readWholeFile(from / face.photo->file) : Result<std::string>(Error{});
        if (!bytes || holds(to / face.photo->file, *bytes)) {
            continue;
        }
        if (std::filesystem::exists(to / face.photo->file, ignored)) {
            return Error{ErrorCode::fileUnreadable,
                         said("The photo of the %1 was not taken along: another file is called %2 in %3. Rename it, "
                              "then save again.",
                              {sideWords(side), face.photo->file, to.string()}),
                         {}};
        }
        const Result<void> written = replaceFile(to / face.photo->file, *bytes);
        if (!written) {
            return written.error();
        }
    }
    return {};
}

}  // namespace ohmwright

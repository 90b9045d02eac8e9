/// Photos of the board beside a job file: what a picture file is, copied in, found again.
///
/// JPEG (ITU-T T.81; orientation by Exif, CIPA DC-008) and PNG (W3C). Only the head of a picture is read here.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"

#include <filesystem>
#include <string>
#include <string_view>

namespace ohmwright {

struct PhotoHead {
    enum class Kind { jpeg, png } kind = Kind::jpeg;
    int width = 0;  ///< [px] as it is seen upright.
    int height = 0;
    int orientation = 1;  ///< Exif's, 1 to 8; 1 where none is said. From 5 on the stored picture lies on its side.

    friend bool operator==(const PhotoHead&, const PhotoHead&) = default;
};

/// Errors: fileDamaged when the bytes are neither, or end before their size is said.
Result<PhotoHead> readPhotoHead(std::string_view bytes);

/// Sixteen hex digits (64-bit FNV-1a): tells that a file is another one, not who changed it.
std::string photoHash(std::string_view bytes);

/// Copies a picture into a job's folder as STEM-part-side.jpg, or -2 ... where another file has that name; the original
/// stays. A copy that is there already is taken.
/// @param stem  of the job file.
/// Errors: fileUnreadable of the system; as readPhotoHead, with the path in front.
Result<BoardPhoto> copyPhotoIn(const std::filesystem::path& picture, const std::filesystem::path& folder,
                               const std::string& stem, BoardSide side);

/// Where the photo lies. Errors: fileUnreadable when it is not there; fileDamaged when it is another file. Both say
/// what to do; the marks are not lost.
Result<std::filesystem::path> findPhoto(const std::filesystem::path& folder, const BoardPhoto& photo, BoardSide side);

/// Takes the job's photos along to another folder under their names; those that are there already stay, as do those
/// that are not found. Errors: fileUnreadable when another file has such a name there, or the system refuses.
Result<void> copyPhotosAlong(const Board& board, const std::filesystem::path& from, const std::filesystem::path& to);

}  // namespace ohmwright

/// Errors of one of the two states that everything here compares: stock and now.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/base/said.h"

namespace ohmwright {

/// With the state before its sentence; "cancelled" stays as it is.
/// @param format  "stock: %1", "now: %1".
inline Error named(const char* format, Error error) {
    if (error.code != ErrorCode::cancelled) {
        error.message = said(format, error.message);
    }
    return error;
}

}  // namespace ohmwright

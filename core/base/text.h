/// Letters of names and lines, whatever the language of the machine.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace ohmwright {

/// ASCII letters only: names are compared case-blind, other letters are their own.
std::string inLowerCase(std::string_view text);
std::string inUpperCase(std::string_view text);

/// With a space for every control character, so that what was typed or read cannot break a line.
std::string oneLine(std::string_view text);

}  // namespace ohmwright

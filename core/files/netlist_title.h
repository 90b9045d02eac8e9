/// The first line of a netlist, which is the title even where it was meant as a card.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/netlist_log.h"

#include <string>

namespace ohmwright {

/// A file without a title loses its first card. Notes it where the title has a card's form: an element between nets
/// that the rest of the file has, a part of two nets and a number, or a .model, .param or .subckt.
void noteTitle(const std::string& title, const Circuit& circuit, NetlistLog& log);

}  // namespace ohmwright

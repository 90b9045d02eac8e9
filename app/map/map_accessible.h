/// The map for those who hear it: a list of parts in signal order, each with its value now and in stock, what its legs
/// join, and what can be done with it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

namespace ohmwright {

class MapView;
struct SpokenPart;

/// Makes QAccessible answer for MapView; further calls do nothing.
void installMapAccessibility();
/// Tells a screen reader that another part is selected.
void announceSelected(MapView& view);
/// The same parts as `before`, in the same order, with other names or values: whoever listens is told of each.
void announceChanges(MapView& view, const std::vector<SpokenPart>& before);
/// The parts are others: interfaces handed out before are no longer valid.
void forgetSpokenParts(MapView& view);

}  // namespace ohmwright

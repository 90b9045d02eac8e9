/// The map for those who hear it: a list of parts in signal order.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ohmwright {

class MapView;

/// Makes QAccessible answer for MapView; further calls do nothing.
void installMapAccessibility();
/// Tells a screen reader that another part is selected.
void announceSelected(MapView& view);
/// The parts or their names have changed: interfaces handed out before are no longer valid.
void forgetSpokenParts(MapView& view);

}  // namespace ohmwright

/// A lot's fields as text and back: what is typed here is read as a table from outside is.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/parts/drawer.h"

#include <QString>

namespace ohmwright {

/// Name of a column of core/files/drawer_csv.h, "measured"; its cell of the lot, "2k688".
QString lotCell(const DrawerLot& lot, const QString& column);

/// The lot with one cell as it was typed.
/// Errors: invalidInput in the words of drawer_csv.h, the line's number left out.
Result<DrawerLot> withCell(const DrawerLot& lot, const QString& column, const QString& typed);

/// A new lot, "capacitor", "120n" or "1N4148", "5". Its id is the table reader's own.
/// Errors: as withCell.
Result<DrawerLot> lotFromWords(const QString& kind, const QString& valueOrType, const QString& quantity);

/// The drawer with a lot at its end, under an id that no other has.
Drawer withLot(const Drawer& drawer, DrawerLot lot);

}  // namespace ohmwright

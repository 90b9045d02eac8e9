/// In which unit levels are read, everywhere in the window: the user's choice.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/level_unit.h"

#include <QObject>
#include <QString>

namespace ohmwright {

/// One instance; follow changed(). GUI thread only.
class LevelUnits : public QObject {
    Q_OBJECT
public:
    static LevelUnits& current();

    [[nodiscard]] LevelUnit unit() const { return m_unit; }
    void setUnit(LevelUnit unit);
    /// The next one of the four, after the last the first.
    void step();

signals:
    void changed();

private:
    LevelUnits() = default;

    LevelUnit m_unit = LevelUnit::millivoltsPeak;
};

/// "mVpk"
QString unitName(LevelUnit unit);
/// Whether RMS figures take another unit beside it, it is said: "mVpk, RMS figures in dBV".
QString unitWords(LevelUnit unit);

/// "100 mVpk", "−23.0 dBV": a sine of so many volts peak, in the unit chosen.
QString pickLevelText(double voltsPeak);

}  // namespace ohmwright

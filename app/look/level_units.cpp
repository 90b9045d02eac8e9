// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/level_units.h"

namespace ohmwright {

LevelUnits& LevelUnits::current() {
    static LevelUnits units;
    return units;
}

void LevelUnits::setUnit(LevelUnit unit) {
    if (unit != m_unit) {
        m_unit = unit;
        emit changed();
    }
}

void LevelUnits::step() {
    const auto next = (static_cast<std::size_t>(m_unit) + 1) % levelUnitNames.size();
    setUnit(levelUnitNames[next].unit);
}

QString unitName(LevelUnit unit) {
    const std::string_view name = nameOf(unit);
    return QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size()));
}

QString unitWords(LevelUnit unit) {
    const LevelUnit rms = rmsUnitBeside(unit);
    return rms == unit ? unitName(unit) : LevelUnits::tr("%1, RMS figures in %2").arg(unitName(unit), unitName(rms));
}

QString pickLevelText(double voltsPeak) {
    const LevelUnit unit = LevelUnits::current().unit();
    return QString::fromStdString(formatLevel(levelOfPeak(voltsPeak, unit), unit)) + QLatin1Char(' ') + unitName(unit);
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/owned_scale.h"

#include "app/look/theme.h"
#include "core/base/number_text.h"
#include "core/plan/owners.h"

#include <QObject>

namespace ohmwright {

QColor plateColour(double dbPerTenPercent) {
    const ThemeColours& colours = Theme::current().colours();
    const auto step = static_cast<std::size_t>(ownedStep(dbPerTenPercent));
    return dbPerTenPercent > 0.0 ? colours.raise.at(step) : colours.lower.at(step);
}

QString ownedFigure(double dbPerTenPercent) {
    return QString::fromStdString(formatFixed(dbPerTenPercent, 2, Sign::always));
}

QString ownersQuestion(double hertz, bool isStock) {
    return (isStock ? QObject::tr("Who owns %1 in stock?") : QObject::tr("Who owns %1?"))
        .arg(QString::fromStdString(formatFrequency(hertz)));
}

}  // namespace ohmwright

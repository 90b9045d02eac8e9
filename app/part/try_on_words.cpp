// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/try_on_words.h"

#include "core/base/value_text.h"
#include "core/plan/pick_list.h"
#include "core/plan/try_on.h"

#include <QObject>

#include <cmath>

namespace ohmwright {

namespace {

/// Two parts together have no preferred value: three digits are enough of them.
double threeDigits(double value) {
    const double unit = std::pow(10.0, std::floor(std::log10(value)) - 2.0);
    return std::round(value / unit) * unit;
}

QString valueText(PartKind kind, double value) {
    return QString::fromStdString(formatPartValue({value, unitOf(kind)}));
}

}  // namespace

QString tryOnWords(const Job& job, const Part& part, double target, const Drawer& drawer) {
    const auto onHand =
        drawer.lots.empty() ? assumedStock(part.kind) : valuesOnHand(drawer, part.kind, reservationName(job));
    const Result<TryOn> tryOn = tryOnValue(job.stock, job.setting, part.id, target, onHand, 1);
    if (!tryOn) {
        return {};
    }
    QString words = QString::fromStdString(tryOn->sentence);
    if (tryOn->way == TryOnWay::across && !tryOn->offers.empty()) {
        const TryOnOffer& best = tryOn->offers.front();
        // The value as it is printed on the part; what it gives is of the measured one.
        const DrawerLot* lot = findLot(drawer, best.fitted.lot);
        words = QObject::tr("%1 across the old part, %2")
                    .arg(valueText(part.kind, lot != nullptr ? lot->value : best.fitted.value),
                         valueText(part.kind, threeDigits(best.gives)));
    }
    return QObject::tr("To hear it first: %1. %2").arg(words, QString::fromStdString(tryOn->caution));
}

}  // namespace ohmwright

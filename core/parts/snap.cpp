// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/parts/snap.h"

#include "core/base/said.h"
#include "core/base/value_text.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ohmwright {

namespace {

constexpr double sameValue = 1e-9;  // decimal text and series members differ in the last binary digits only

bool isSame(double a, double b) {
    return std::abs(a - b) <= sameValue * std::max(std::abs(a), std::abs(b));
}

std::string textOf(PartKind kind, double value) {
    return formatPartValue({value, unitOf(kind)});
}

}  // namespace

Series shopSeries(PartKind kind) {
    switch (kind) {
        case PartKind::capacitor:
        case PartKind::inductor:
            return Series::e12;
        case PartKind::potentiometer:
            return Series::e6;
        default:
            return Series::e24;
    }
}

const char* seriesName(Series series) {
    switch (series) {
        case Series::e3:
            return "E3";
        case Series::e6:
            return "E6";
        case Series::e12:
            return "E12";
        case Series::e24:
            return "E24";
        case Series::e48:
            return "E48";
        case Series::e96:
            return "E96";
        case Series::e192:
            break;
    }
    return "E192";
}

SnappedValue snapToPart(const Drawer& drawer, PartKind kind, double value, std::string_view job) {
    SnappedValue nearest;
    double least = std::numeric_limits<double>::infinity();
    for (const DrawerLot* lot : lotsOfKind(drawer, kind, job)) {
        if (lot->value <= 0.0) {
            continue;
        }
        const double away = std::abs(std::log(lot->value / value));
        if (isSame(lot->value, nearest.value)) {
            nearest.left += availableFor(*lot, job);
        } else if (away < least || (away == least && lot->value < nearest.value)) {
            nearest = {lot->value, availableFor(*lot, job)};
            least = away;
        }
    }
    return nearest.left > 0 ? nearest : SnappedValue{nearestPreferred(value, shopSeries(kind)), 0};
}

std::string snapSentence(PartKind kind, double from, const SnappedValue& to, bool isStockKnown) {
    const std::string before = textOf(kind, from);
    const std::string after = textOf(kind, to.value);
    const std::string value = before == after ? after : said("snapped %1 → %2", before, after);
    if (to.left > 0) {
        return said("%1, %2 in the drawer", value, to.left);
    }
    return said(isStockKnown ? toSay("%1 of %2, none of its kind in the drawer") : toSay("%1 of %2, assumed stock"),
                value, seriesName(shopSeries(kind)));
}

}  // namespace ohmwright

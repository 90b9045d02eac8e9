// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/spoken_events.h"

#include <utility>

namespace ohmwright {

namespace {

std::function<void(QAccessibleEvent&)>& hearerInForce() {
    static std::function<void(QAccessibleEvent&)> hearer;
    return hearer;
}

}  // namespace

bool isListenedTo() {
    return QAccessible::isActive() || hearerInForce();
}

void tellListeners(QAccessibleEvent& event) {
    if (hearerInForce()) {
        hearerInForce()(event);
    }
    QAccessible::updateAccessibility(&event);
}

void setHearer(std::function<void(QAccessibleEvent&)> hearer) {
    hearerInForce() = std::move(hearer);
}

}  // namespace ohmwright

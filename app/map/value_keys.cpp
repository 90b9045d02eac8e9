// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/value_keys.h"

#include <QKeyEvent>

namespace ohmwright {

bool startsValue(const QKeyEvent& event) {
    const Qt::KeyboardModifiers modifiers = event.modifiers() & ~Qt::KeypadModifier;
    if (modifiers != Qt::NoModifier || event.text().size() != 1) {
        return false;
    }
    const QChar typed = event.text().front();
    return typed.isLetterOrNumber() || typed == '.' || typed == ',';
}

bool isDigitKey(const QKeyEvent& event) {
    return startsValue(event) && !event.text().front().isLetter();
}

}  // namespace ohmwright

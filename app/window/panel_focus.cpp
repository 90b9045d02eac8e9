// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/panel_focus.h"

#include <QApplication>
#include <QWidget>

namespace ohmwright {

namespace {

bool isIn(const QWidget* panel, const QWidget* widget) {
    return widget != nullptr && (panel == widget || panel->isAncestorOf(widget));
}

/// Null when the panel has none, as when it is folded. The chain may leave a panel and come back to it: children stand
/// in it in the order of their making.
QWidget* firstStop(QWidget* panel) {
    QWidget* stop = panel;
    do {
        if (isIn(panel, stop) && stop->isVisible() && stop->isEnabled() && (stop->focusPolicy() & Qt::TabFocus) != 0) {
            return stop;
        }
        stop = stop->nextInFocusChain();
    } while (stop != panel);
    return nullptr;
}

}  // namespace

void focusPanel(const std::vector<QWidget*>& panels, int step) {
    const auto count = static_cast<int>(panels.size());
    int at = step > 0 ? -1 : count;
    for (int i = 0; i < count; ++i) {
        if (isIn(panels[static_cast<std::size_t>(i)], QApplication::focusWidget())) {
            at = i;
        }
    }
    for (int tried = 0; tried < count; ++tried) {
        at = (at + step + count) % count;
        if (QWidget* stop = firstStop(panels[static_cast<std::size_t>(at)])) {
            stop->setFocus(Qt::TabFocusReason);
            return;
        }
    }
}

}  // namespace ohmwright

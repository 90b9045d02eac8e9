// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/panel_focus.h"

#include <QApplication>
#include <QGridLayout>
#include <QLayout>
#include <QScrollArea>
#include <QWidget>

#include <algorithm>
#include <tuple>

namespace ohmwright {

namespace {

bool isIn(const QWidget* panel, const QWidget* widget) {
    return widget != nullptr && (panel == widget || panel->isAncestorOf(widget));
}

bool isStop(const QWidget& widget) {
    return widget.isVisible() && widget.isEnabled() && (widget.focusPolicy() & Qt::TabFocus) == Qt::TabFocus &&
           widget.focusProxy() == nullptr;
}

/// A grid keeps its items in the order of their coming.
std::vector<QLayoutItem*> itemsOf(const QLayout& layout) {
    std::vector<QLayoutItem*> items;
    items.reserve(static_cast<std::size_t>(layout.count()));
    for (int index = 0; index < layout.count(); ++index) {
        items.push_back(layout.itemAt(index));
    }
    if (const auto* grid = qobject_cast<const QGridLayout*>(&layout)) {
        std::vector<std::tuple<int, int, QLayoutItem*>> placed;
        for (int index = 0; index < layout.count(); ++index) {
            int row = 0;
            int column = 0;
            int span = 0;
            grid->getItemPosition(index, &row, &column, &span, &span);
            placed.emplace_back(row, column, items[static_cast<std::size_t>(index)]);
        }
        std::stable_sort(placed.begin(), placed.end(), [](const auto& a, const auto& b) {
            return std::tie(std::get<0>(a), std::get<1>(a)) < std::tie(std::get<0>(b), std::get<1>(b));
        });
        for (std::size_t index = 0; index < placed.size(); ++index) {
            items[index] = std::get<2>(placed[index]);
        }
    }
    return items;
}

void collect(const QLayout& layout, std::vector<QWidget*>& children) {
    for (QLayoutItem* item : itemsOf(layout)) {
        if (QWidget* widget = item->widget()) {
            children.push_back(widget);
        } else if (const QLayout* inner = item->layout()) {
            collect(*inner, children);
        }
    }
}

/// As they are laid out; what no layout holds follows by its place.
std::vector<QWidget*> childrenInOrder(const QWidget& widget) {
    std::vector<QWidget*> children;
    if (widget.layout() != nullptr) {
        collect(*widget.layout(), children);
    }
    std::vector<QWidget*> loose;
    for (QWidget* child : widget.findChildren<QWidget*>(QString(), Qt::FindDirectChildrenOnly)) {
        if (!child->isWindow() && std::find(children.begin(), children.end(), child) == children.end()) {
            loose.push_back(child);
        }
    }
    std::stable_sort(loose.begin(), loose.end(), [](const QWidget* a, const QWidget* b) {
        return std::pair(a->y(), a->x()) < std::pair(b->y(), b->x());
    });
    children.insert(children.end(), loose.begin(), loose.end());
    return children;
}

void collectStops(QWidget& widget, std::vector<QWidget*>& stops) {
    if (!widget.isVisible()) {
        return;
    }
    if (isStop(widget)) {
        stops.push_back(&widget);
    }
    for (QWidget* child : childrenInOrder(widget)) {
        collectStops(*child, stops);
    }
}

/// Who comes by key to what is scrolled away sees it.
void bringIntoView(QWidget& stop) {
    for (QWidget* outer = stop.parentWidget(); outer != nullptr; outer = outer->parentWidget()) {
        if (auto* area = qobject_cast<QScrollArea*>(outer)) {
            area->ensureWidgetVisible(&stop);
        }
    }
}

}  // namespace

std::vector<QWidget*> stopsOf(QWidget& widget) {
    std::vector<QWidget*> stops;
    collectStops(widget, stops);
    return stops;
}

bool focusStop(QWidget& window, int step) {
    const std::vector<QWidget*> stops = stopsOf(window);
    if (stops.empty()) {
        return false;
    }
    // A part of a stop, as the field of a combination box, stands for it.
    const QWidget* focus = QApplication::focusWidget();
    const auto at = std::find_if(stops.rbegin(), stops.rend(), [focus](QWidget* stop) { return isIn(stop, focus); });
    const auto count = static_cast<int>(stops.size());
    const int from = at != stops.rend() ? count - 1 - static_cast<int>(at - stops.rbegin()) : step > 0 ? -1 : 0;
    const auto next = static_cast<std::size_t>((from + step + count) % count);
    stops[next]->setFocus(step > 0 ? Qt::TabFocusReason : Qt::BacktabFocusReason);
    bringIntoView(*stops[next]);
    return true;
}

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
        const std::vector<QWidget*> stops = stopsOf(*panels[static_cast<std::size_t>(at)]);
        if (!stops.empty()) {
            stops.front()->setFocus(Qt::TabFocusReason);
            return;
        }
    }
}

}  // namespace ohmwright

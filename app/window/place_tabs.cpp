// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/place_tabs.h"

#include "app/look/said_text.h"
#include "app/look/theme.h"

#include <QKeyEvent>
#include <QSignalBlocker>

namespace ohmwright {

namespace {

constexpr int side = 9;

}  // namespace

PlaceTabs::PlaceTabs(QWidget* parent) : QTabBar(parent) {
    setAccessibleName(tr("Places"));
    setDrawBase(false);
    setExpanding(false);
    setUsesScrollButtons(false);
    setElideMode(Qt::ElideNone);
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Expanding);
    connect(this, &QTabBar::currentChanged, this,
            [this](int index) { emit placeAsked(tabData(index).value<Place>()); });
    // The marked place may lie behind another page: a press leads back to it.
    connect(this, &QTabBar::tabBarClicked, this, [this](int index) {
        if (index >= 0 && index == currentIndex()) {
            emit placeAsked(tabData(index).value<Place>());
        }
    });
    // A tab's width is asked for once and kept.
    connect(&Theme::current(), &Theme::changed, this, [this] {
        for (int index = 0; index < count(); ++index) {
            setTabText(index, tabText(index));
        }
    });
}

void PlaceTabs::add(Place place) {
    const QSignalBlocker quiet(this);
    setTabData(addTab(saidText(placeName(place))), QVariant::fromValue(place));
}

void PlaceTabs::setPlace(Place place) {
    const QSignalBlocker quiet(this);
    for (int index = 0; index < count(); ++index) {
        if (tabData(index).value<Place>() == place) {
            setCurrentIndex(index);
        }
    }
}

void PlaceTabs::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
        case Qt::Key_Return:
        case Qt::Key_Enter:
        case Qt::Key_Space:
        case Qt::Key_Down:
            emit placeAsked(tabData(currentIndex()).value<Place>());
            return;
        case Qt::Key_Left:
        case Qt::Key_Right:
        case Qt::Key_Home:
        case Qt::Key_End:
            if (event->key() == Qt::Key_Home || event->key() == Qt::Key_End) {
                setCurrentIndex(event->key() == Qt::Key_Home ? 0 : count() - 1);
            } else {
                QTabBar::keyPressEvent(event);
            }
            // A place that is opened takes the keyboard: the walk over the tabs would end at the first one.
            setFocus(Qt::OtherFocusReason);
            return;
        default:
            QTabBar::keyPressEvent(event);
    }
}

/// The bold width for every tab, so that a tab that wakes up moves none of its neighbours.
QSize PlaceTabs::tabSizeHint(int index) const {
    const QFontMetrics bold(Theme::current().font(TextRole::body, true));
    return {bold.horizontalAdvance(tabText(index)) + 2 * side, height()};
}

}  // namespace ohmwright

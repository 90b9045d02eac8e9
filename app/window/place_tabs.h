/// The places as tabs in the header; the one that is open is bold, with the tab mark at the header's lower edge.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/window/place.h"

#include <QTabBar>

namespace ohmwright {

class PlaceTabs : public QTabBar {
    Q_OBJECT
public:
    explicit PlaceTabs(QWidget* parent = nullptr);

    /// One more tab at the right.
    void add(Place place);
    /// Marks the place as open; says nothing.
    /// REQUIRES: it was added.
    void setPlace(Place place);

signals:
    void placeAsked(ohmwright::Place place);

protected:
    /// Arrows look into place after place and stay here; Enter, Space and Down go in.
    void keyPressEvent(QKeyEvent* event) override;
    [[nodiscard]] QSize tabSizeHint(int index) const override;
};

}  // namespace ohmwright

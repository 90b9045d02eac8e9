// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/stock_hold.h"

#include "app/document/selection.h"

#include <QApplication>

namespace ohmwright {

StockHold::StockHold(Selection& selection, QObject* parent) : QObject(parent), m_selection(selection) {
    connect(&selection, &Selection::holdsStockChanged, this, [this] { emit shownChanged(m_selection.holdsStock()); });
}

void StockHold::press() {
    if (m_isDown) {
        return;
    }
    m_isDown = true;
    if (m_isLatched) {
        setLatched(false);
        m_sincePress.invalidate();
        m_selection.setHoldsStock(false);
        return;
    }
    const bool isSecond = m_sincePress.isValid() && m_sincePress.elapsed() < QApplication::doubleClickInterval();
    m_sincePress.start();
    if (isSecond) {
        setLatched(true);
    }
    m_selection.setHoldsStock(true);
}

void StockHold::release() {
    if (!m_isDown) {
        return;
    }
    m_isDown = false;
    m_selection.setHoldsStock(m_isLatched);
}

void StockHold::latch() {
    setLatched(true);
    m_selection.setHoldsStock(true);
}

void StockHold::letGo() {
    m_isDown = false;
    setLatched(false);
    m_selection.setHoldsStock(false);
}

void StockHold::setLatched(bool latched) {
    if (latched == m_isLatched) {
        return;
    }
    m_isLatched = latched;
    emit latchChanged(latched);
}

}  // namespace ohmwright

/// Hold for stock: the unit as built is shown while a key or button is down; pressed twice it latches.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QElapsedTimer>
#include <QObject>

namespace ohmwright {

class Selection;

class StockHold : public QObject {
    Q_OBJECT
public:
    explicit StockHold(Selection& selection, QObject* parent = nullptr);

    void press();
    void release();
    /// Shows stock until the next press or letGo().
    void latch();
    /// Lets go whatever is held, latched or not.
    void letGo();
    [[nodiscard]] bool isDown() const { return m_isDown; }
    [[nodiscard]] bool isLatched() const { return m_isLatched; }

signals:
    /// Whether the unit as built is shown, by key, button or menu.
    void shownChanged(bool shown);
    void latchChanged(bool latched);

private:
    void setLatched(bool latched);

    Selection& m_selection;
    QElapsedTimer m_sincePress;
    bool m_isDown = false;
    bool m_isLatched = false;
};

}  // namespace ohmwright

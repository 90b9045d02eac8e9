/// A circuit's drawing without words, as small as it has to be: on the shelf, and of the unit that is being joined.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <QRectF>
#include <QWidget>

class QPainter;

namespace ohmwright {

/// Wires, symbols, signs and zone lines, fitted into the middle of `box`, never larger than the map draws them.
/// Parts without a place are left out.
void paintSmallDrawing(QPainter& painter, const Circuit& circuit, const QRectF& box);

/// One drawing as a widget; empty without a circuit.
class SmallDrawing : public QWidget {
    Q_OBJECT
public:
    explicit SmallDrawing(QWidget* parent = nullptr);

    /// @param words  what it shows, for those who do not see it.
    void setCircuit(const Circuit& circuit, const QString& words);
    [[nodiscard]] const Circuit& circuit() const { return m_circuit; }
    [[nodiscard]] QSize sizeHint() const override { return {600, 200}; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    Circuit m_circuit;
};

}  // namespace ohmwright

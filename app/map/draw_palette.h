/// What can be put down: a row a thing, with its symbol and its key.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

namespace ohmwright {

class DrawHand;

class DrawPalette : public QWidget {
    Q_OBJECT
public:
    /// The hand must outlive the palette.
    explicit DrawPalette(DrawHand& hand, QWidget* parent = nullptr);

signals:
    /// Something was taken: the keyboard belongs to the drawing now.
    void taken();

private:
    DrawHand& m_hand;
};

}  // namespace ohmwright

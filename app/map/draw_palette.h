/// What can be put down: a row a thing, with its symbol and its key.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include <vector>

class QLabel;

namespace ohmwright {

class DrawHand;
class ThingButton;

class DrawPalette : public QWidget {
    Q_OBJECT
public:
    /// The hand must outlive the palette.
    explicit DrawPalette(DrawHand& hand, QWidget* parent = nullptr);

    /// Folded, a row is its symbol and its key; its name is in the tool tip.
    void setFolded(bool isFolded);

signals:
    /// Something was taken: the keyboard belongs to the drawing now.
    void taken();

private:
    void fitRows();

    DrawHand& m_hand;
    QLabel* m_title = nullptr;
    std::vector<ThingButton*> m_rows;
};

}  // namespace ohmwright

/// Part bodies as they are held in the hand, in print ink alone: code on a body, colour bands told apart by hatching
/// and letters, the ring of a diode, the plus of an electrolytic.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QRectF>
#include <QString>

#include <vector>

class QPainter;

namespace ohmwright {

/// A part body as it is drawn beside its step; nothing where there is none to draw.
struct PrintedPicture {
    enum class Kind { none, code, bands, diode, polar } kind = Kind::none;
    QString marking;             ///< On the body: "124".
    std::vector<QString> bands;  ///< Resistor: colours from the left.
    QString plainEnd;            ///< Diode: what the anode joins; polar: what the minus joins.
    QString markedEnd;           ///< Diode: what the cathode joins; polar: what the plus joins.
};

/// Two letters of a colour of the code: "orange" is "OG". From memory: IEC 60757. Empty for what is no colour of it.
QString colourLetters(const QString& colour);

/// Room that a picture takes [px at 96 dpi]; empty for none.
QSizeF sizeOf(const PrintedPicture& picture);

/// Into the upper right of `box`.
void paintPicture(QPainter& painter, const QRectF& box, const PrintedPicture& picture);

}  // namespace ohmwright

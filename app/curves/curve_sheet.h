/// A curve as a picture that leaves the program: in print ink, with its axes, its legend and what it holds for.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/curves/cursor_readout.h"
#include "app/curves/table_axes.h"

#include <QByteArray>
#include <QImage>
#include <QString>

#include <vector>

class QPainter;

namespace ohmwright {

struct CurveSheet {
    QString title;        ///< "Harbour Lamp, HL-0231: Response"
    QString conditions;   ///< "dB, string to output, small signal, drive 5.0, level 5.0"
    ComparedCurve curve;  ///< In the units of the axes.
    std::vector<PinnedCurve> pins;
    std::vector<QString> pinNames;  ///< As many as `pins`: "mods A and C".
    TableAxes axes;
};

/// Size of the picture [px at 96 dpi].
inline constexpr int sheetWidth = 840;
inline constexpr int sheetHeight = 540;

void paintCurveSheet(QPainter& painter, const CurveSheet& sheet);
/// Scalable, its text as text.
QByteArray curveSheetSvg(const CurveSheet& sheet);
/// Twice the size, for a dense screen and for print.
QImage curveSheetImage(const CurveSheet& sheet);
/// That image as a file.
QByteArray curveSheetPng(const CurveSheet& sheet);

}  // namespace ohmwright

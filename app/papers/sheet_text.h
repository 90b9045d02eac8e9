/// Text on paper: runs of normal, bold and struck text in one line, wrapped and elided paragraphs.
///
/// All lengths in px at 96 dpi (a PDF page is laid out at 96). Monochrome; nothing smaller than 9 pt.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QColor>
#include <QFont>
#include <QRectF>
#include <QString>
#include <QStringList>
#include "app/look/print_ink.h"

#include <string>
#include <vector>

class QPainter;

namespace ohmwright {

/// The print set of resources/look/tokens.json: as built in grey, planned in black.
namespace print {
inline constexpr int smallPixels = 12;  ///< 9 pt, the smallest text on paper.
inline constexpr int bodyPixels = 13;
inline constexpr int figurePixels = 17;  ///< 12.75 pt
inline constexpr int headingPixels = 15;
inline constexpr int titlePixels = 21;
inline constexpr double stockPixels = 1.8;  ///< 1.35 pt
inline constexpr double nowPixels = 2.8;    ///< 2.1 pt
}  // namespace print

QFont paperFont(int pixels, bool bold = false);

/// UTF-8 from core, with everything that is no letter or sign (line ends, controls) as one space.
QString paperText(const std::string& text);
QString paperText(const QString& text);

struct Run {
    QString text;
    bool bold = false;
    int pixels = print::bodyPixels;
    bool struck = false;
};
using Runs = std::vector<Run>;

double widthOf(const Runs& runs);

/// On one line, vertically centred in `box`; what does not fit is elided at the end.
void drawRuns(QPainter& painter, const QRectF& box, const Runs& runs, Qt::Alignment alignment = Qt::AlignLeft);
void drawText(QPainter& painter, const QRectF& box, const QString& text, Qt::Alignment alignment = Qt::AlignLeft,
              bool bold = false, int pixels = print::bodyPixels);

/// At most `maxLines` lines that each fit `width`; the last one is elided when there is more.
QStringList wrapText(const QString& text, const QFont& font, double width, int maxLines);

}  // namespace ohmwright

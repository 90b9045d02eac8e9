/// What all papers share: page, banner, words under a head, signs, and the way into a PDF.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/papers/page_flow.h"
#include "core/base/error.h"
#include "core/plan/job.h"

#include <QByteArray>
#include <QRectF>
#include <QString>

class QPainter;

namespace ohmwright {

enum class PaperSize { a4, letter };

/// A paper that is laid out and not yet drawn.
struct Paper {
    PageFlow flow;
    QString title;  ///< Of the document: kind, unit, serial.
    PaperSize size = PaperSize::a4;
};

/// With the job's banner and nothing else. @param kind  "Way-back sheet": the title of every page.
Paper paperOf(const Job& job, const QString& kind, PaperSize size);

/// As vector drawing; text stays text.
QByteArray pdfOf(const Paper& paper);

/// Says before the reason that nothing is printed; cancelled stays as it is.
Error refusal(Error error);

/// The page in px at 96 dpi.
QSizeF pageOf(PaperSize paper);

/// Three significant digits.
QString figureWords(double value);
/// "14 Mar 2026"; what is no ISO day stands as it is.
QString visitDate(const Visit& visit);

/// A bold head with text beside it, wrapped; the last of `maxLines` is elided when there is more.
void addWords(PageFlow& flow, const QString& head, const QString& text, int maxLines);

inline constexpr double tickBox = 15.0;  ///< Height of the box that is signed.
/// At the right end of a line.
void paintTickBox(QPainter& painter, const QRectF& line);
/// Revision triangle with the mod's letter.
void paintTriangle(QPainter& painter, const QRectF& box, const QString& letter);
/// Octagon with a sentence in a frame; with `boxWords` a box to sign beside them.
void paintStopBar(QPainter& painter, const QRectF& box, const QString& words, const QString& boxWords);

}  // namespace ohmwright

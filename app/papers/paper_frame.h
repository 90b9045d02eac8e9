/// What all papers share: page, banner, words under a head, signs, and the way into a PDF.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/papers/page_flow.h"
#include "core/bench/paper_answers.h"

#include <QByteArray>
#include <QRectF>
#include <QString>
#include <QStringList>

#include <string>
#include <vector>

class QPagedPaintDevice;
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

/// All pages onto a device whose page is of the paper's size, at whatever resolution; true when it took them.
bool printOn(const Paper& paper, QPagedPaintDevice& device);

/// The page in px at 96 dpi.
QSizeF pageOf(PaperSize paper);

/// "up to 269 V, 250 V on C3 in use" where the unit has high voltage; else empty. Of stock, which it is opened with.
QString highVoltageOf(const PaperAnswers& answers);
/// "C4 Cg 56n (printed 563), R5 Rg 3k9"
QString partList(const std::vector<std::string>& parts);

/// Three significant digits.
QString figureWords(double value);
/// "14 Mar 2026"; what is no ISO day stands as it is.
QString visitDate(const Visit& visit);

/// "24 Nov 2026 21:58"; what is no ISO time stands as it is.
QString paperTime(const std::string& when);

/// A bold head with text beside it, wrapped; the last of `maxLines` is elided when there is more.
void addWords(PageFlow& flow, const QString& head, const QString& text, int maxLines);

/// Lines with words under them, side by side: "work, date".
void addSignatures(PageFlow& flow, const QStringList& words);

inline constexpr double tickBox = 15.0;  ///< Height of the box that is signed.
/// At the right end of a line.
void paintTickBox(QPainter& painter, const QRectF& line);
/// Revision triangle with the mod's letter.
void paintTriangle(QPainter& painter, const QRectF& box, const QString& letter);
/// Octagon with a sentence in a frame; with `boxWords` a box to sign beside them.
void paintStopBar(QPainter& painter, const QRectF& box, const QString& words, const QString& boxWords);

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/paper_frame.h"

#include "app/look/level_units.h"
#include "app/look/said_text.h"
#include "app/papers/sheet_text.h"
#include "core/base/number_text.h"
#include "core/bench/high_voltage.h"
#include "core/circuit/supply_volts.h"
#include "core/plan/correct.h"

#include <QBuffer>
#include <QDateTime>
#include <QLocale>
#include <QPageSize>
#include <QPainter>
#include <QPainterPath>
#include <QPdfWriter>
#include <QRegularExpression>

namespace ohmwright {

namespace {

constexpr double layoutDpi = 96.0;

}  // namespace

QString highVoltageOf(const PaperAnswers& answers) {
    const Job& job = *answers.job;
    return highestSupplyVolts(job.stock, job.setting) > highVolts
               ? paperText(highVoltageWords(job.stock, job.setting, answers.linear->stock.biasVolts))
               : QString();
}

QString partList(const std::vector<std::string>& parts) {
    QStringList words;
    for (const std::string& part : parts) {
        words << paperText(part);
    }
    return words.join(", ");
}

QString figureWords(double value) {
    return QString::fromStdString(formatFigure(value));
}

QString paperTime(const std::string& when) {
    const QDateTime time = QDateTime::fromString(QString::fromStdString(when), Qt::ISODate);
    return time.isValid() ? shownLocale().toString(time, QObject::tr("d MMM yyyy HH:mm")) : paperText(when);
}

QString visitDate(const Visit& visit) {
    const QDate day = QDate::fromString(QString::fromStdString(visit.date), Qt::ISODate);
    return day.isValid() ? shownLocale().toString(day, QObject::tr("d MMM yyyy")) : paperText(visit.date);
}

namespace {

PageBanner bannerOf(const Job& job, const QString& title) {
    const QString hash = QString::fromStdString(stateHash(job));
    const QString serial = paperText(job.unit.serial);
    const QString visit = QString::number(job.visit.number);
    PageBanner banner;
    banner.title = title;
    banner.shop = paperText(job.shop);
    banner.unit = QStringList({paperText(job.unit.name), serial}).filter(QRegularExpression(".")).join(", ");
    banner.customer = paperText(job.customer.name);
    banner.planState = hash;
    // The banner has room for a few words; which parts differ stands below it.
    const std::string& revision = job.unit.boardRevision;
    const bool isOther = revisionWords(job) != revision && !revision.empty();
    banner.board = isOther ? QObject::tr("like %1").arg(paperText(revision)) : paperText(revision);
    banner.visit = QStringList({visit, visitDate(job.visit)}).filter(QRegularExpression(".")).join(", ");
    banner.unitsNote = QObject::tr("3k9 = 3.9 k\u2126   120n = 120 nF   %1: pick level, at the string")
                           .arg(unitName(LevelUnits::current().unit()));
    // The serial may be of any length; the visit and the hash must stay readable.
    banner.stamp = QObject::tr("%1   visit %2   %3").arg(serial.left(24), visit, hash);
    return banner;
}

}  // namespace

void addWords(PageFlow& flow, const QString& head, const QString& text, int maxLines) {
    const double headWidth = widthOf({{head + " ", true}});
    const double width = flow.contentWidth() - headWidth;
    const QStringList lines = wrapText(text, paperFont(print::bodyPixels), width, maxLines);
    for (qsizetype i = 0; i < lines.size(); ++i) {
        const QString line = lines[i];
        const QString shownHead = i == 0 ? head : QString();
        flow.add(18.0, [line, shownHead, headWidth](QPainter& painter, const QRectF& box) {
            drawText(painter, box, shownHead, Qt::AlignLeft, true);
            drawText(painter, box.adjusted(headWidth, 0.0, 0.0, 0.0), line);
        });
    }
}

/// Filled: what is planned is black on paper.
void paintTriangle(QPainter& painter, const QRectF& box, const QString& letter) {
    QPainterPath path;
    path.moveTo(box.center().x(), box.top());
    path.lineTo(box.bottomRight());
    path.lineTo(box.bottomLeft());
    path.closeSubpath();
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillPath(path, print::ink());
    painter.setPen(Qt::white);
    drawText(painter, box.adjusted(-4.0, 0.18 * box.height(), 4.0, 0.18 * box.height()), letter, Qt::AlignHCenter, true,
             print::smallPixels);
    painter.restore();
}

void paintTickBox(QPainter& painter, const QRectF& line) {
    painter.setPen(QPen(print::ink(), 1.0));
    painter.setBrush(Qt::NoBrush);
    painter.drawRoundedRect(
        QRectF(line.right() - tickBox - 4.0, line.center().y() - tickBox / 2.0, tickBox + 4.0, tickBox), 2.0, 2.0);
}

namespace {

void paintStopSignOnPaper(QPainter& painter, const QRectF& box) {
    QPolygonF octagon;
    const double cut = 0.293 * box.width();
    octagon << box.topLeft() + QPointF(cut, 0) << box.topRight() - QPointF(cut, 0) << box.topRight() + QPointF(0, cut)
            << box.bottomRight() - QPointF(0, cut) << box.bottomRight() - QPointF(cut, 0)
            << box.bottomLeft() + QPointF(cut, 0) << box.bottomLeft() - QPointF(0, cut)
            << box.topLeft() + QPointF(0, cut);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(Qt::NoPen);
    painter.setBrush(print::ink());
    painter.drawPolygon(octagon);
    painter.fillRect(QRectF(box.left() + 0.2 * box.width(), box.center().y() - 2.0, 0.6 * box.width(), 4.0), Qt::white);
    painter.restore();
}

}  // namespace

void paintStopBar(QPainter& painter, const QRectF& box, const QString& words, const QString& boxWords) {
    const QRectF bar = box.adjusted(1.0, 8.0, -1.0, -8.0);
    painter.setPen(QPen(print::ink(), 2.0));
    painter.drawRoundedRect(bar, 3.0, 3.0);
    paintStopSignOnPaper(painter, {bar.left() + 14.0, bar.center().y() - 12.0, 24.0, 24.0});
    painter.setPen(QPen(print::ink(), 1.0));
    drawText(painter, bar.adjusted(52.0, 0.0, boxWords.isEmpty() ? -14.0 : -250.0, 0.0), words, Qt::AlignLeft, true,
             print::figurePixels);
    if (boxWords.isEmpty()) {
        return;
    }
    drawText(painter, bar.adjusted(0.0, 0.0, -80.0, 0.0), boxWords, Qt::AlignRight);
    painter.drawRoundedRect(QRectF(bar.right() - 70.0, bar.center().y() - 9.0, 56.0, 18.0), 2.0, 2.0);
}

QSizeF pageOf(PaperSize paper) {
    const QPageSize size(paper == PaperSize::a4 ? QPageSize::A4 : QPageSize::Letter);
    return size.size(QPageSize::Inch) * layoutDpi;
}

bool printOn(const Paper& paper, QPagedPaintDevice& device) {
    QPainter painter;
    if (!painter.begin(&device)) {
        return false;
    }
    for (int page = 0; page < paper.flow.pageCount(); ++page) {
        if (page > 0 && !device.newPage()) {
            return false;
        }
        painter.save();
        painter.scale(device.logicalDpiX() / layoutDpi, device.logicalDpiY() / layoutDpi);
        paper.flow.paintPage(painter, page);
        painter.restore();
    }
    return painter.end();
}

QByteArray pdfOf(const Paper& paper) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QPdfWriter writer(&buffer);
    // At 96 a px of the layout is a px of the paper and text keeps its size.
    writer.setResolution(static_cast<int>(layoutDpi));
    writer.setPageLayout(QPageLayout(QPageSize(paper.size == PaperSize::a4 ? QPageSize::A4 : QPageSize::Letter),
                                     QPageLayout::Portrait, QMarginsF()));
    writer.setTitle(paper.title);
    writer.setCreator("Ohmwright");
    printOn(paper, writer);
    return bytes;
}

void addSignatures(PageFlow& flow, const QStringList& words) {
    flow.add(58.0, [words](QPainter& painter, const QRectF& box) {
        const double width = box.width() / static_cast<double>(words.size());
        for (qsizetype column = 0; column < words.size(); ++column) {
            const double left = box.left() + width * static_cast<double>(column);
            painter.drawLine(QPointF(left, box.bottom() - 20.0), QPointF(left + width - 14.0, box.bottom() - 20.0));
            drawText(painter, {left, box.bottom() - 18.0, width - 14.0, 16.0}, words[column], Qt::AlignLeft, false,
                     print::smallPixels);
        }
    });
}

Paper paperOf(const Job& job, const QString& kind, PaperSize size) {
    const QString name = QString("%1 %2 %3").arg(kind, paperText(job.unit.name), paperText(job.unit.serial));
    Paper paper{PageFlow(pageOf(size), bannerOf(job, kind)), name, size};
    paper.flow.add(6.0, [](QPainter&, const QRectF&) {});
    return paper;
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/map_export.h"

#include "app/look/theme.h"
#include "app/map/map_scene.h"

#include <QBuffer>
#include <QCoreApplication>
#include <QFileInfo>
#include <QHash>
#include <QImage>
#include <QMimeData>
#include <QPagedPaintDevice>
#include <QPainter>
#include <QPdfWriter>
#include <QRegularExpression>
#include <QSaveFile>
#include <QSvgGenerator>
#include <QSvgRenderer>

#include <algorithm>
#include <array>
#include <utility>

namespace ohmwright {
namespace {

constexpr int screenDpi = 96;
constexpr double finer = 2.0;  // a picture's pixels to one of the screen
constexpr double headHeight = 34.0;
constexpr double rim = 10.0;
constexpr double pageRimMillimetres = 12.0;

/// Ink of the theme in force -> ink of paper (resources/look/tokens.json, `print`; the lighter greys are ours).
QHash<QString, QString> printInks() {
    const ThemeColours& colours = Theme::current().colours();
    QHash<QString, QString> inks;
    const auto set = [&inks](const QColor& from, const char* to) { inks.insert(from.name(), QLatin1String(to)); };
    for (const QColor& colour : {colours.ink, colours.ink2, colours.wire, colours.now, colours.ghost, colours.measured,
                                 colours.stop, colours.warn, colours.focus, colours.ok}) {
        set(colour, "#000000");
    }
    for (const QColor& colour : {colours.stock, colours.stockOnSoft, colours.ink3, colours.edge}) {
        set(colour, "#555555");
    }
    for (const QColor& colour : {colours.canvas, colours.stopSoft, colours.warnSoft, colours.onNow, colours.grid,
                                 colours.zoneTint, colours.panel}) {
        set(colour, "#ffffff");
    }
    set(colours.gridMajor, "#e6e6e6");
    set(colours.hair, "#bbbbbb");
    // Which way a part moves it, the sign of its figure says.
    constexpr std::array<const char*, 4> plates{"#f2f2f2", "#e6e6e6", "#d9d9d9", "#cccccc"};
    for (std::size_t i = 0; i < plates.size(); ++i) {
        set(colours.raise.at(i), plates.at(i));
        set(colours.lower.at(i), plates.at(i));
    }
    return inks;
}

QByteArray inPrintInk(const QByteArray& svg) {
    const QHash<QString, QString> inks = printInks();
    const QString text = QString::fromUtf8(svg);
    static const QRegularExpression colour(QStringLiteral("#[0-9a-f]{6}"));
    QString printed;
    qsizetype at = 0;
    for (auto match = colour.globalMatch(text); match.hasNext();) {
        const QRegularExpressionMatch found = match.next();
        printed += QStringView(text).mid(at, found.capturedStart() - at);
        printed += inks.value(found.captured(), found.captured());
        at = found.capturedEnd();
    }
    printed += QStringView(text).mid(at);
    return printed.toUtf8();
}

/// "1 Source" over each zone, with the stages' borders up to it.
void paintHeads(QPainter& painter, const MapState& state, const MapLayout& layout, const QRectF& sheet) {
    const ThemeColours& colours = Theme::current().colours();
    const double bottom = sheet.top() + headHeight;
    painter.setPen(QPen(colours.hair, line::hair));
    painter.drawLine(QPointF(sheet.left(), bottom), QPointF(sheet.right(), bottom));
    const auto& stages = state.job->stock.stages;
    for (std::size_t i = 0; i < std::min(stages.size(), layout.zoneLefts.size()); ++i) {
        const double left = i == 0 ? sheet.left() : layout.zoneLefts[i];
        const double right = i + 1 < layout.zoneLefts.size() ? layout.zoneLefts[i + 1] : sheet.right();
        painter.setPen(QPen(colours.hair, line::hair));
        if (i > 0) {
            painter.drawLine(QPointF(left, sheet.top()), QPointF(left, bottom));
        }
        painter.setPen(colours.ink);
        painter.setFont(Theme::current().font(TextRole::body, true));
        const QString name = QString("%1  %2").arg(QString::number(i + 1), QString::fromStdString(stages[i].name));
        painter.drawText(QRectF(left + rim, sheet.top(), right - left - rim, headHeight),
                         Qt::AlignLeft | Qt::AlignVCenter | Qt::TextSingleLine,
                         QFontMetricsF(painter.font()).elidedText(name, Qt::ElideRight, right - left - rim));
    }
}

bool writeAll(const QString& path, const QByteArray& bytes) {
    QSaveFile file(path);
    return file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size() && file.commit();
}

/// One page as large as the drawing, so that whoever lays it into a paper cuts nothing off.
QByteArray asPdf(QSvgRenderer& drawing, const QString& title) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QPdfWriter writer(&buffer);
    writer.setTitle(title);
    const QSizeF points = QSizeF(drawing.defaultSize()) * 72.0 / screenDpi;
    const double pageRim = pageRimMillimetres * 72.0 / 25.4;
    writer.setPageLayout(QPageLayout(
        QPageSize(points + QSizeF(2 * pageRim, 2 * pageRim), QPageSize::Point, QString(), QPageSize::ExactMatch),
        QPageLayout::Portrait, QMarginsF(pageRim, pageRim, pageRim, pageRim), QPageLayout::Point));
    QPainter painter(&writer);
    drawing.render(&painter, QRectF(QPointF(0, 0), QSizeF(writer.width(), writer.height())));
    painter.end();
    return bytes;
}

QImage asImage(QSvgRenderer& drawing) {
    QImage image(drawing.defaultSize() * finer, QImage::Format_RGB32);
    image.fill(Qt::white);
    image.setDotsPerMeterX(qRound(finer * screenDpi / 0.0254));
    image.setDotsPerMeterY(qRound(finer * screenDpi / 0.0254));
    QPainter painter(&image);
    drawing.render(&painter);
    return image;
}

}  // namespace

QByteArray drawingAsSvg(const MapState& state) {
    MapState shown = state;
    shown.selected.clear();
    MapScene scene;
    scene.setState(shown);
    // What the screen keeps of an item are pixels.
    for (QGraphicsItem* item : scene.items()) {
        item->setCacheMode(QGraphicsItem::NoCache);
    }
    const QRectF extent = scene.layout().extent;
    const QRectF sheet = extent.adjusted(-rim, -rim - headHeight, rim, rim);
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QSvgGenerator generator;
    generator.setOutputDevice(&buffer);
    generator.setResolution(screenDpi);
    generator.setSize(sheet.size().toSize());
    generator.setViewBox(QRectF(QPointF(0, 0), sheet.size()));
    generator.setTitle(QString::fromStdString(state.job->unit.name));
    QPainter painter(&generator);
    painter.translate(-sheet.topLeft());
    const QRectF drawing = sheet.adjusted(0, headHeight, 0, 0);
    scene.render(&painter, drawing, drawing);
    paintHeads(painter, state, scene.layout(), sheet);
    painter.end();
    return inPrintInk(bytes);
}

QString saveDrawing(const MapState& state, const QString& path) {
    const QString suffix = QFileInfo(path).suffix().toLower();
    const QByteArray svg = drawingAsSvg(state);
    QByteArray bytes = svg;
    if (suffix != "svg") {
        QSvgRenderer drawing(svg);
        if (suffix == "pdf") {
            bytes = asPdf(drawing, QString::fromStdString(state.job->unit.name));
        } else if (suffix == "png") {
            bytes.clear();
            QBuffer buffer(&bytes);
            buffer.open(QIODevice::WriteOnly);
            asImage(drawing).save(&buffer, "PNG");
        } else {
            return QObject::tr("A drawing is written as SVG, PDF or PNG: end the name of %1 in .svg, .pdf or .png.")
                .arg(QFileInfo(path).fileName());
        }
    }
    return writeAll(path, bytes)
               ? QString()
               : QObject::tr("%1 cannot be written: choose another folder.").arg(QFileInfo(path).fileName());
}

QPageLayout::Orientation orientationFor(const MapState& state) {
    const QSizeF size = QSvgRenderer(drawingAsSvg(state)).defaultSize();
    return size.width() > size.height() ? QPageLayout::Landscape : QPageLayout::Portrait;
}

bool printDrawing(const MapState& state, QPagedPaintDevice& device) {
    QSvgRenderer drawing(drawingAsSvg(state));
    QPainter painter;
    if (!painter.begin(&device)) {
        return false;
    }
    const double inchPixels = device.logicalDpiX();
    const QRectF page(0, 0, device.width(), device.height());
    const QSizeF size = drawing.defaultSize();
    // Never larger than on the screen: a small unit's drawing does not become a poster.
    const double scale = std::min({page.width() / size.width(), page.height() / size.height(), inchPixels / screenDpi});
    drawing.render(&painter, QRectF(page.topLeft(), size * scale));
    return painter.end();
}

QMimeData* drawingToCopy(const MapState& state) {
    const QByteArray svg = drawingAsSvg(state);
    auto* copy = new QMimeData;
    copy->setData(QStringLiteral("image/svg+xml"), svg);
    QSvgRenderer drawing(svg);
    copy->setImageData(asImage(drawing));
    return copy;
}

}  // namespace ohmwright

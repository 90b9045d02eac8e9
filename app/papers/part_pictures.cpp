// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/part_pictures.h"

#include "app/papers/sheet_text.h"

#include <QObject>
#include <QPainter>

#include <algorithm>
#include <array>

namespace ohmwright {

namespace {

constexpr double pictureWidth = 150.0;
constexpr double endsWidth = 178.0;  ///< With a place named at each end.
constexpr double bodyHeight = 22.0;
constexpr double legHeight = 12.0;
constexpr double labelHeight = 16.0;

/// How a colour looks without colour: fill, and letters under it.
struct BandLook {
    const char* colour;
    const char* letters;
    Qt::BrushStyle hatch;
};
constexpr std::array bandLooks{
    BandLook{"black", "BK", Qt::SolidPattern},    BandLook{"brown", "BN", Qt::Dense2Pattern},
    BandLook{"red", "RD", Qt::BDiagPattern},      BandLook{"orange", "OG", Qt::FDiagPattern},
    BandLook{"yellow", "YE", Qt::Dense6Pattern},  BandLook{"green", "GN", Qt::VerPattern},
    BandLook{"blue", "BU", Qt::HorPattern},       BandLook{"violet", "VT", Qt::CrossPattern},
    BandLook{"grey", "GY", Qt::Dense4Pattern},    BandLook{"white", "WH", Qt::NoBrush},
    BandLook{"gold", "GD", Qt::DiagCrossPattern}, BandLook{"silver", "SR", Qt::Dense7Pattern}};

const BandLook* lookOf(const QString& colour) {
    const auto* found = std::find_if(bandLooks.begin(), bandLooks.end(),
                                     [&](const BandLook& look) { return colour == QLatin1String(look.colour); });
    return found != bandLooks.end() ? found : nullptr;
}

void label(QPainter& painter, const QRectF& box, const QString& text, Qt::Alignment alignment, bool bold = false) {
    drawText(painter, box, text, alignment, bold, print::smallPixels);
}

void paintCode(QPainter& painter, const QRectF& box, const QString& marking) {
    const double width = std::min(std::max(36.0, widthOf({{marking, true}}) + 14.0), box.width());
    const QRectF body(box.right() - width, box.top(), width, bodyHeight);
    painter.drawRoundedRect(body, 3.0, 3.0);
    for (const double share : {0.3, 0.7}) {
        const double x = body.left() + share * body.width();
        painter.drawLine(QPointF(x, body.bottom()), QPointF(x, body.bottom() + legHeight));
    }
    drawText(painter, body.adjusted(2.0, 0.0, -2.0, 0.0), marking, Qt::AlignHCenter, true);
}

void paintBands(QPainter& painter, const QRectF& box, const std::vector<QString>& bands) {
    constexpr double bandWidth = 11.0;
    constexpr double lead = 12.0;
    const QRectF body(box.left() + lead, box.top(), box.width() - 2.0 * lead, bodyHeight);
    painter.drawLine(QPointF(box.left(), body.center().y()), QPointF(body.left(), body.center().y()));
    painter.drawLine(QPointF(body.right(), body.center().y()), QPointF(box.right(), body.center().y()));
    painter.drawRoundedRect(body, 6.0, 6.0);
    const auto count = static_cast<double>(bands.size());
    const double step = (body.width() - 12.0) / count;
    for (std::size_t k = 0; k < bands.size(); ++k) {
        const double centre = body.left() + 6.0 + step * (static_cast<double>(k) + 0.5);
        const QRectF band(centre - bandWidth / 2.0, body.top(), bandWidth, body.height());
        const BandLook* look = lookOf(bands[k]);
        painter.setBrush(look != nullptr ? QBrush(print::ink(), look->hatch) : QBrush());
        painter.drawRect(band);
        painter.setBrush(Qt::NoBrush);
        label(painter, {centre - step / 2.0, body.bottom() + 2.0, step, labelHeight}, colourLetters(bands[k]),
              Qt::AlignHCenter);
    }
}

/// Body in the middle with a lead to each side, the ends' names under them.
void paintEnds(QPainter& painter, const QRectF& box, const QRectF& body, const QString& plain, const QString& marked) {
    painter.drawLine(QPointF(box.left() + 8.0, body.center().y()), QPointF(body.left(), body.center().y()));
    painter.drawLine(QPointF(body.right(), body.center().y()), QPointF(box.right() - 8.0, body.center().y()));
    label(painter, {box.left(), body.bottom() + 3.0, box.width(), labelHeight}, plain, Qt::AlignLeft);
    label(painter, {box.left(), body.bottom() + 3.0 + labelHeight, box.width(), labelHeight}, marked, Qt::AlignRight,
          true);
}

void paintDiode(QPainter& painter, const QRectF& box, const PrintedPicture& picture) {
    const QRectF body(box.center().x() - 21.0, box.top() + labelHeight, 42.0, 15.0);
    painter.drawRoundedRect(body, 3.0, 3.0);
    painter.fillRect(QRectF(body.right() - 12.0, body.top(), 5.0, body.height()), print::ink());
    label(painter, {box.left(), box.top() - 2.0, box.width(), labelHeight}, picture.marking, Qt::AlignHCenter);
    paintEnds(painter, box, body, picture.plainEnd, QObject::tr("band: %1").arg(picture.markedEnd));
}

void paintPolar(QPainter& painter, const QRectF& box, const PrintedPicture& picture) {
    const QRectF body(box.center().x() - 27.0, box.top() + labelHeight, 54.0, 20.0);
    painter.drawRoundedRect(body, 3.0, 3.0);
    // The stripe of the sleeve stands at the minus.
    painter.setBrush(QBrush(print::ink(), Qt::Dense4Pattern));
    painter.drawRect(QRectF(body.left(), body.top(), 11.0, body.height()));
    painter.setBrush(Qt::NoBrush);
    drawText(painter, {body.right() - 16.0, body.top(), 14.0, body.height()}, "+", Qt::AlignHCenter, true,
             print::headingPixels);
    label(painter, {box.left(), box.top() - 2.0, box.width(), labelHeight}, picture.marking, Qt::AlignHCenter);
    paintEnds(painter, box, body, QObject::tr("stripe: %1").arg(picture.plainEnd),
              QObject::tr("plus: %1").arg(picture.markedEnd));
}

}  // namespace

QString colourLetters(const QString& colour) {
    const BandLook* look = lookOf(colour);
    return look != nullptr ? QString(look->letters) : QString();
}

QSizeF sizeOf(const PrintedPicture& picture) {
    switch (picture.kind) {
        case PrintedPicture::Kind::none:
            return {};
        case PrintedPicture::Kind::code:
            return {pictureWidth, bodyHeight + legHeight};
        case PrintedPicture::Kind::bands:
            return {pictureWidth, bodyHeight + 2.0 + labelHeight};
        case PrintedPicture::Kind::diode:
            return {endsWidth, 15.0 + 3.0 + 3.0 * labelHeight};
        case PrintedPicture::Kind::polar:
            return {endsWidth, 20.0 + 3.0 + 3.0 * labelHeight};
    }
    return {};
}

void paintPicture(QPainter& painter, const QRectF& box, const PrintedPicture& picture) {
    const QSizeF size = sizeOf(picture);
    const QRectF place(box.right() - size.width(), box.top(), size.width(), size.height());
    painter.save();
    painter.setPen(QPen(print::ink(), 1.4));
    painter.setBrush(Qt::NoBrush);
    switch (picture.kind) {
        case PrintedPicture::Kind::none:
            break;
        case PrintedPicture::Kind::code:
            paintCode(painter, place, picture.marking);
            break;
        case PrintedPicture::Kind::bands:
            paintBands(painter, place, picture.bands);
            break;
        case PrintedPicture::Kind::diode:
            paintDiode(painter, place, picture);
            break;
        case PrintedPicture::Kind::polar:
            paintPolar(painter, place, picture);
            break;
    }
    painter.restore();
}

}  // namespace ohmwright

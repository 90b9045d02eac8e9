/// A paint device that keeps no picture but the texts: how large each is on the screen, and whether its widget has room
/// for it. What is kept as a picture by its widget (words of the map, plots) is not seen here.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFontMetricsF>
#include <QPaintDevice>
#include <QPaintEngine>
#include <QPainter>
#include <QWidget>

#include <memory>
#include <vector>

namespace ohmwright::test {

/// What of a text may be cut: of rounding to whole pixels, and of a letter's own side [px].
inline constexpr double unseenCut = 2.0;

struct SeenText {
    QString text;
    double pixels = 0.0;  ///< Of the font, on the screen.
    double cut = 0.0;     ///< How much of it lies outside of its widget at the left or right [px].
};

class TextEngine : public QPaintEngine {
public:
    TextEngine() : QPaintEngine(QPaintEngine::AllFeatures) {}

    bool begin(QPaintDevice* /*device*/) override { return true; }
    bool end() override { return true; }
    void updateState(const QPaintEngineState& /*state*/) override {}
    void drawPixmap(const QRectF& /*to*/, const QPixmap& /*picture*/, const QRectF& /*from*/) override {}
    void drawPolygon(const QPointF* /*points*/, int /*count*/, PolygonDrawMode /*mode*/) override {}
    void drawPath(const QPainterPath& /*path*/) override {}
    void drawImage(const QRectF& /*to*/, const QImage& /*picture*/, const QRectF& /*from*/,
                   Qt::ImageConversionFlags /*flags*/) override {}
    void drawTextItem(const QPointF& at, const QTextItem& item) override {
        const QString text = item.text().trimmed();
        if (text.isEmpty()) {
            return;
        }
        const QTransform& way = painter()->deviceTransform();
        const QFontMetricsF metrics(item.font());
        const QRectF box =
            way.mapRect(QRectF(at.x(), at.y() - metrics.ascent(), metrics.horizontalAdvance(text), metrics.height()));
        QRectF room = systemClip().boundingRect();
        if (painter()->hasClipping()) {
            room = room.intersected(way.mapRect(painter()->clipBoundingRect()));
        }
        const bool isSeen = room.intersects(box);
        const double cut = std::max(room.left() - box.left(), box.right() - room.right());
        const double scale = std::sqrt(std::abs(way.determinant()));
        if (isSeen) {
            seen.push_back({text, QFontInfo(item.font()).pixelSize() * scale, std::max(0.0, cut)});
        }
    }
    [[nodiscard]] Type type() const override { return QPaintEngine::User; }

    std::vector<SeenText> seen;
};

class TextRecorder : public QPaintDevice {
public:
    explicit TextRecorder(const QSize& size) : m_size(size) {}

    [[nodiscard]] QPaintEngine* paintEngine() const override { return m_engine.get(); }
    [[nodiscard]] const std::vector<SeenText>& seen() const { return m_engine->seen; }

protected:
    [[nodiscard]] int metric(PaintDeviceMetric kind) const override {
        constexpr int dotsPerInch = 96;
        constexpr double millimetresPerInch = 25.4;
        switch (kind) {
            case PdmWidth:
                return m_size.width();
            case PdmHeight:
                return m_size.height();
            case PdmWidthMM:
                return qRound(m_size.width() * millimetresPerInch / dotsPerInch);
            case PdmHeightMM:
                return qRound(m_size.height() * millimetresPerInch / dotsPerInch);
            case PdmNumColors:
                return 1 << 24;
            case PdmDepth:
                return 32;
            case PdmDpiX:
            case PdmDpiY:
            case PdmPhysicalDpiX:
            case PdmPhysicalDpiY:
                return dotsPerInch;
            case PdmDevicePixelRatioScaled:
                return static_cast<int>(QPaintDevice::devicePixelRatioFScale());
            default:
                return 1;
        }
    }

private:
    QSize m_size;
    std::unique_ptr<TextEngine> m_engine = std::make_unique<TextEngine>();
};

/// The texts of a window as it stands.
inline std::vector<SeenText> textsOf(QWidget& widget) {
    TextRecorder recorder(widget.size());
    widget.render(&recorder);
    return recorder.seen();
}

}  // namespace ohmwright::test

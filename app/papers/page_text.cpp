// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/page_text.h"

#include "app/papers/page_flow.h"

#include <QPaintDevice>
#include <QPaintEngine>
#include <QPainter>

#include <algorithm>
#include <cmath>
#include <vector>

namespace ohmwright {

namespace {

struct Word {
    QPointF at;  ///< Left end of its baseline.
    double width = 0.0;
    QString text;
};

/// Takes the texts that are drawn, and nothing else.
class TextEngine : public QPaintEngine {
public:
    TextEngine() : QPaintEngine(QPaintEngine::AllFeatures) {}

    bool begin(QPaintDevice*) override { return true; }
    bool end() override { return true; }
    void updateState(const QPaintEngineState&) override {}
    void drawPixmap(const QRectF&, const QPixmap&, const QRectF&) override {}
    void drawPath(const QPainterPath&) override {}
    void drawPolygon(const QPointF*, int, PolygonDrawMode) override {}
    [[nodiscard]] Type type() const override { return QPaintEngine::User; }
    void drawTextItem(const QPointF& at, const QTextItem& item) override {
        words.push_back({painter()->transform().map(at), item.width(), item.text()});
    }

    std::vector<Word> words;
};

class TextDevice : public QPaintDevice {
public:
    explicit TextDevice(const QSizeF& size) : m_size(size) {}

    [[nodiscard]] QPaintEngine* paintEngine() const override { return &m_engine; }
    [[nodiscard]] const std::vector<Word>& words() const { return m_engine.words; }

protected:
    [[nodiscard]] int metric(PaintDeviceMetric which) const override {
        constexpr int dotsPerInch = 96;
        switch (which) {
            case PdmWidth:
                return static_cast<int>(m_size.width());
            case PdmHeight:
                return static_cast<int>(m_size.height());
            case PdmDpiX:
            case PdmDpiY:
            case PdmPhysicalDpiX:
            case PdmPhysicalDpiY:
                return dotsPerInch;
            case PdmDevicePixelRatio:
                return 1;
            default:
                return QPaintDevice::metric(which);
        }
    }

private:
    QSizeF m_size;
    mutable TextEngine m_engine;
};

/// Pieces that are nearer to each other belong together [px].
constexpr double sameWord = 2.5;
/// Baselines that are nearer stand on one line: sizes of a line differ, its middle does not.
constexpr double sameLine = 5.0;

}  // namespace

QString textOfPage(const PageFlow& flow, int page) {
    TextDevice device(flow.pageSize());
    QPainter painter(&device);
    flow.paintPage(painter, page);
    painter.end();
    std::vector<Word> words = device.words();
    std::stable_sort(words.begin(), words.end(), [](const Word& a, const Word& b) { return a.at.y() < b.at.y(); });
    QStringList lines;
    for (std::size_t first = 0; first < words.size();) {
        std::size_t end = first;
        while (end < words.size() && words[end].at.y() - words[first].at.y() < sameLine) {
            ++end;
        }
        const auto from = words.begin() + static_cast<std::ptrdiff_t>(first);
        const auto to = words.begin() + static_cast<std::ptrdiff_t>(end);
        std::stable_sort(from, to, [](const Word& a, const Word& b) { return a.at.x() < b.at.x(); });
        QString line;
        double right = 0.0;
        for (auto word = from; word != to; ++word) {
            // A sign out of another font is a piece of its own in the middle of a word.
            const bool isApart = word->at.x() - right > sameWord && !line.isEmpty();
            line += (isApart ? "  " : "") + word->text;
            right = word->at.x() + word->width;
        }
        lines << line.trimmed();
        first = end;
    }
    return lines.join('\n');
}

QString textOf(const PageFlow& flow) {
    QStringList pages;
    for (int page = 0; page < flow.pageCount(); ++page) {
        pages << textOfPage(flow, page);
    }
    return pages.join("\n\n");
}

}  // namespace ohmwright

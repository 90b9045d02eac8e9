// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/board/body_painter.h"

#include "app/look/theme.h"
#include "core/bench/net_words.h"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

constexpr double padRadius = 8.5;
constexpr double holeRadius = 3.2;
constexpr double cornerHole = 11.0;
constexpr double cornerAt = 26.0;

QRectF rectOf(const DrawnRect& box) {
    return {box.left, box.top, box.width, box.height};
}

QPointF pointOf(const BoardPoint& at) {
    return {at.x, at.y};
}

/// Nothing on the screen is smaller, however far away the board is shown [px].
constexpr double leastLetters = 12.0;

/// @return in the painter's own px.
int leastPixels(const QPainter& painter) {
    const double scale = std::abs(painter.worldTransform().m11());
    return scale > 0.0 ? static_cast<int>(std::ceil(leastLetters / scale)) : static_cast<int>(leastLetters);
}

QFont fontOf(const QPainter& painter, double pixels, bool isBold) {
    QFont font = Theme::current().font(TextRole::body, isBold);
    font.setPixelSize(std::max(static_cast<int>(pixels), leastPixels(painter)));
    return font;
}

/// One body: its legs, its shape and what is printed on it.
class BodyPainter {
public:
    BodyPainter(QPainter& painter, const DrawnBody& drawn, const Circuit& circuit, const BodyLooks& looks)
        : m_painter(painter), m_drawn(drawn), m_looks(looks), m_part(findPart(circuit, drawn.parts.front())) {
        m_isChanged = std::any_of(drawn.parts.begin(), drawn.parts.end(),
                                  [&looks](const PartId& id) { return looks.changed.contains(id); });
    }

    void paint() {
        if (m_part == nullptr) {
            return;
        }
        paintLeads();
        paintBody();
        paintPads();
    }

    /// On a rim of the board's own colour: whatever runs there is cut off, not crossed.
    void paintName() {
        if (m_part == nullptr) {
            return;
        }
        const bool isChip = m_drawn.shape == BodyShape::chip;
        const QString name = QString::fromStdString(isChip ? chipName(*m_part) : displayName(*m_part));
        const QFont font = fontOf(m_painter, 13.0, false);
        const QFontMetricsF metrics(font);
        QPainterPath letters;
        letters.addText(m_drawn.label.x - metrics.horizontalAdvance(name) / 2.0, m_drawn.label.y - metrics.descent(),
                        font, name);
        m_painter.setBrush(Qt::NoBrush);
        m_painter.setPen(QPen(boardColour("mask"), 5.0, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
        m_painter.drawPath(letters);
        m_painter.fillPath(letters, boardColour("words"));
    }

private:
    [[nodiscard]] QRectF body() const { return rectOf(m_drawn.body); }
    /// What is seen through the board is an outline.
    void fill(const QColor& own) {
        const QColor colour = m_isChanged ? Theme::current().colours().now : own;
        m_painter.setPen(QPen(m_looks.isFaint ? boardColour("faint") : boardColour("maskEdge"), 1.0));
        m_painter.setBrush(m_looks.isFaint ? QBrush(Qt::NoBrush) : QBrush(colour));
    }
    void write(const QRectF& box, const QString& text, double pixels, bool isBold, const QColor& colour) {
        if (m_looks.isFaint) {
            return;
        }
        QFont font = fontOf(m_painter, pixels, isBold);
        // A long marking is written smaller, to stay on its body, or left to the part's panel.
        const auto isTooLarge = [&] {
            const QFontMetricsF metrics(font);
            return metrics.horizontalAdvance(text) > box.width() - 4.0 || metrics.capHeight() > box.height();
        };
        while (isTooLarge() && font.pixelSize() > leastPixels(m_painter)) {
            font.setPixelSize(font.pixelSize() - 1);
        }
        if (isTooLarge()) {
            return;
        }
        m_painter.setFont(font);
        m_painter.setPen(colour);
        m_painter.drawText(box, Qt::AlignCenter, text);
    }
    [[nodiscard]] QString marking() const { return QString::fromStdString(printedMarking(*m_part)); }

    void paintLeads() {
        m_painter.setPen(
            QPen(m_looks.isFaint ? boardColour("faint") : boardColour("lead"), 3.0, Qt::SolidLine, Qt::FlatCap));
        for (const LegMark& leg : m_drawn.legs) {
            const QPointF at = pointOf(leg.at);
            const QPointF onBody(std::clamp(at.x(), body().left() + 8.0, body().right() - 8.0),
                                 std::clamp(at.y(), body().top() + 4.0, body().bottom() - 4.0));
            m_painter.drawLine(at, onBody);
        }
    }

    void paintPads() {
        const auto pad = [this](const QPointF& at) {
            m_painter.setPen(QPen(boardColour("copper"), 1.0));
            m_painter.setBrush(boardColour("pad"));
            m_painter.drawEllipse(at, padRadius, padRadius);
            m_painter.setBrush(boardColour("copper"));
            m_painter.drawEllipse(at, holeRadius, holeRadius);
        };
        for (const LegMark& leg : m_drawn.legs) {
            pad(pointOf(leg.at));
        }
        for (const BoardPoint& at : m_drawn.free) {
            pad(pointOf(at));
        }
    }

    void paintBody() {
        switch (m_drawn.shape) {
            case BodyShape::axial:
                paintBands();
                break;
            case BodyShape::diode:
                paintDiode();
                break;
            case BodyShape::box:
                fill(bodyColour(m_part->build.rfind("ceramic", 0) == 0 ? "ceramic" : "film"));
                m_painter.drawRoundedRect(body(), 3.0, 3.0);
                write(body(), marking(), 14.0, true, bodyColour("marking"));
                break;
            case BodyShape::can:
                paintCan();
                break;
            case BodyShape::halfDisc:
                paintHalfDisc();
                break;
            case BodyShape::chip:
                paintChip();
                break;
            case BodyShape::pot:
                paintPot();
                break;
            case BodyShape::valve:
                fill(bodyColour("valve"));
                m_painter.drawEllipse(body());
                write(body(), marking(), 13.0, true, bodyColour("black"));
                break;
        }
    }

    /// The marking under the shaft, apart from it.
    void paintPot() {
        constexpr double shaft = 18.0;
        constexpr double gap = 5.0;
        fill(bodyColour("pot"));
        m_painter.drawRoundedRect(body(), 4.0, 4.0);
        const QPointF centre(body().center().x(), body().top() + shaft + gap);
        fill(bodyColour("shaft"));
        m_painter.drawEllipse(centre, shaft, shaft);
        const double under = centre.y() + shaft + gap;
        write({body().left(), under, body().width(), body().bottom() - under - 2.0}, marking(), 13.0, false,
              boardColour("words"));
    }

    void paintBands() {
        fill(bodyColour("resistor"));
        m_painter.drawRoundedRect(body(), 6.0, 6.0);
        const QStringList bands = marking().split('-');
        if (m_looks.isFaint ||
            std::any_of(bands.begin(), bands.end(), [](const QString& band) { return !bandColour(band).isValid(); })) {
            write(body(), marking(), 11.0, true, bodyColour("black"));
            return;
        }
        const double step = (body().width() - 8.0) / static_cast<double>(bands.size());
        for (int k = 0; k < bands.size(); ++k) {
            const double centre = body().left() + 4.0 + step * (k + 0.5);
            m_painter.fillRect(QRectF(centre - 3.0, body().top() + 0.5, 6.0, body().height() - 1.0),
                               bandColour(bands[k]));
        }
    }

    /// The band stands at the cathode's end, wherever that is seen.
    void paintDiode() {
        fill(bodyColour("glass"));
        m_painter.drawRoundedRect(body(), 4.0, 4.0);
        const double cathode = m_drawn.legs.size() > 1 ? m_drawn.legs[1].at.x : body().right();
        const double x = cathode > body().center().x() ? body().right() - 12.0 : body().left() + 5.0;
        m_painter.fillRect(QRectF(x, body().top(), 7.0, body().height()), bodyColour("black"));
    }

    void paintCan() {
        fill(bodyColour("can"));
        m_painter.drawEllipse(body());
        const bool isPlusLeft = m_drawn.legs.size() < 2 || m_drawn.legs[0].at.x < m_drawn.legs[1].at.x;
        if (!m_looks.isFaint) {
            QPainterPath disc, half;
            disc.addEllipse(body().adjusted(1.0, 1.0, -1.0, -1.0));
            const double x = isPlusLeft ? body().left() + body().width() * 0.72 : body().left();
            half.addRect(QRectF(x, body().top(), body().width() * 0.28, body().height()));
            m_painter.fillPath(disc.intersected(half), bodyColour("stripe"));
            m_painter.setPen(QPen(bodyColour("can"), 1.0));
            m_painter.setBrush(bodyColour("canTop"));
            m_painter.drawEllipse(body().center(), 19.0, 19.0);
        }
        m_painter.setFont(fontOf(m_painter, 15.0, true));
        m_painter.setPen(boardColour("words"));
        const double plus = isPlusLeft ? m_drawn.legs[0].at.x - 17.0 : m_drawn.legs[0].at.x + 17.0;
        m_painter.drawText(QRectF(plus - 8.0, m_drawn.legs[0].at.y - 10.0, 16.0, 20.0), Qt::AlignCenter, "+");
    }

    void paintHalfDisc() {
        QPainterPath path;
        path.moveTo(body().left(), body().bottom());
        path.arcTo(QRectF(body().left(), body().top(), body().width(), 2.0 * body().height()), 180.0, -180.0);
        path.closeSubpath();
        fill(bodyColour("black"));
        m_painter.drawPath(path);
        write(body().adjusted(2.0, 8.0, -2.0, 0.0), marking(), 10.0, false, bodyColour("marking"));
    }

    void paintChip() {
        fill(bodyColour("black"));
        m_painter.drawRoundedRect(body(), 3.0, 3.0);
        const double notch = m_looks.isMirrored ? body().right() : body().left();
        fill(bodyColour("shaft"));
        m_painter.drawPie(QRectF(notch - 8.0, body().center().y() - 8.0, 16.0, 16.0),
                          (m_looks.isMirrored ? 90 : -90) * 16, 180 * 16);
        m_painter.drawEllipse(QPointF(notch + (m_looks.isMirrored ? -12.0 : 12.0), body().bottom() - 10.0), 3.0, 3.0);
        const std::string type = m_part->printed.empty() ? m_part->model : m_part->printed;
        write(body(), QString::fromStdString(type), 15.0, false, bodyColour("marking"));
    }

    QPainter& m_painter;
    const DrawnBody& m_drawn;
    const BodyLooks& m_looks;
    const Part* m_part;
    bool m_isChanged = false;
};

}  // namespace

void paintDrawnBoard(QPainter& painter, const BoardSheet& sheet, const Circuit& circuit, const BodyLooks& looks) {
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(boardColour("maskEdge"), 2.5));
    painter.setBrush(boardColour("mask"));
    painter.drawRoundedRect(QRectF(0.0, 0.0, sheet.width, sheet.height), 10.0, 10.0);
    painter.setBrush(boardColour("hole"));
    painter.setPen(QPen(boardColour("maskEdge"), 2.0));
    for (const double x : {cornerAt, sheet.width - cornerAt}) {
        for (const double y : {cornerAt, sheet.height - cornerAt}) {
            painter.drawEllipse(QPointF(x, y), cornerHole, cornerHole);
        }
    }
    for (const DrawnBody& body : sheet.drawn.bodies) {
        BodyPainter(painter, body, circuit, looks).paint();
    }
}

void paintDrawnNames(QPainter& painter, const BoardSheet& sheet, const Circuit& circuit) {
    const BodyLooks plain;
    for (const DrawnBody& body : sheet.drawn.bodies) {
        BodyPainter(painter, body, circuit, plain).paintName();
    }
}

}  // namespace ohmwright

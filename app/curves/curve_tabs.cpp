// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/curve_tabs.h"

#include "app/curves/plot_frame.h"
#include "app/look/said_text.h"
#include "app/look/theme.h"

#include <QMouseEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>
#include <utility>

namespace ohmwright {

namespace {

// In px.
constexpr double side = 10.0;
constexpr double keyGap = 5.0;
constexpr double markHeight = 3.0;
constexpr double sampleWidth = 28.0;
constexpr double sampleGap = 6.0;
constexpr double entryGap = 12.0;
/// Where the strip is narrow.
constexpr double shortSample = 18.0;
constexpr double shortGap = 8.0;

QString nameOf(CurveKind kind) {
    return saidText(curveKindNames[static_cast<std::size_t>(kind)].name);
}

QString keyOf(CurveKind kind) {
    return QString::number(1 + static_cast<int>(kind));
}

/// A fill without outline, as wide as the words are high.
QPen fillSample(const QColor& colour) {
    QPen fill(colour, Theme::current().pixels(TextRole::caption) * 0.9);
    fill.setCapStyle(Qt::FlatCap);
    return fill;
}

QPen penOf(const LegendEntry& entry) {
    const Theme& theme = Theme::current();
    switch (entry.line) {
        case LegendLine::stock:
            return theme.stockPen();
        case LegendLine::now:
            return theme.nowPen();
        case LegendLine::band:
            return fillSample(theme.colours().band);
        case LegendLine::spread:
            return fillSample(spreadFill());
        case LegendLine::otherThrow:
            return theme.throwPen(entry.pattern);
        case LegendLine::ghost:
            break;
    }
    return theme.ghostPen();
}

/// The bold width for every tab, so that a tab that wakes up moves none of its neighbours.
double tabWidth(CurveKind kind, bool hasKey) {
    const QFontMetricsF name(Theme::current().font(TextRole::body, true));
    const QFontMetricsF key(Theme::current().font(TextRole::body));
    return 2.0 * side + name.horizontalAdvance(nameOf(kind)) +
           (hasKey ? keyGap + key.horizontalAdvance(keyOf(kind)) : 0.0);
}

}  // namespace

CurveTabs::CurveTabs(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("curveTabs"));
    setAccessibleName(tr("Kind of curve"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    for (const CurveKindName& each : curveKindNames) {
        m_kinds.push_back(each.kind);
    }
    connect(&Theme::current(), &Theme::changed, this, &CurveTabs::followTheme);
}

void CurveTabs::followTheme() {
    updateGeometry();
    shareRoom();
}

void CurveTabs::setKinds(std::vector<CurveKind> kinds) {
    m_kinds = std::move(kinds);
    shareRoom();
}

/// Where tabs and legend have no room side by side, the digits of the keys go first, then the air of the legend; of its
/// words only what is left over is cut, at the end of the last ones.
void CurveTabs::shareRoom() {
    const double all = legendWidth(sampleWidth, entryGap);
    m_showsKeys = true;
    m_showsKeys = all <= legendRoom();
    m_isLegendShort = all > legendRoom();
    update();
}

double CurveTabs::legendWidth(double sample, double gap) const {
    const QFontMetricsF metrics(Theme::current().font(TextRole::body));
    double needed = -gap;
    for (const LegendEntry& entry : m_legend) {
        needed += sample + sampleGap + metrics.horizontalAdvance(entry.words) + 1.0 + gap;
    }
    return std::max(0.0, needed);
}

double CurveTabs::legendRoom() const {
    return width() - tabBox(m_kinds.back()).right() - 2.0 * side;
}

bool CurveTabs::isLegendWhole() const {
    return legendWidth(m_isLegendShort ? shortSample : sampleWidth, m_isLegendShort ? shortGap : entryGap) <=
           legendRoom();
}

void CurveTabs::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    shareRoom();
}

void CurveTabs::setShown(std::vector<CurveKind> kinds) {
    m_shown = std::move(kinds);
    QStringList names;
    for (const CurveKind kind : m_shown) {
        names << nameOf(kind);
    }
    setAccessibleDescription(tr("shown: %1").arg(names.join(QStringLiteral(", "))));
    update();
}

void CurveTabs::setLegend(std::vector<LegendEntry> entries) {
    if (entries == m_legend) {
        return;
    }
    m_legend = std::move(entries);
    shareRoom();
}

bool CurveTabs::isShown(CurveKind kind) const {
    return std::find(m_shown.begin(), m_shown.end(), kind) != m_shown.end();
}

QRect CurveTabs::tabBox(CurveKind kind) const {
    double left = 0.0;
    for (const CurveKind each : m_kinds) {
        if (each == kind) {
            break;
        }
        left += tabWidth(each, m_showsKeys);
    }
    return QRectF(left, 0.0, tabWidth(kind, m_showsKeys), height()).toAlignedRect();
}

QSize CurveTabs::sizeHint() const {
    return {360, static_cast<int>(std::lround(space::row * Theme::current().textScale()))};
}

void CurveTabs::mousePressEvent(QMouseEvent* event) {
    for (const CurveKind kind : m_kinds) {
        if (!tabBox(kind).contains(event->pos())) {
            continue;
        }
        if (event->button() == Qt::LeftButton) {
            emit chosen(kind);
            return;
        }
        if (event->button() == Qt::RightButton) {
            emit sideAsked(kind, event->globalPosition().toPoint());
            return;
        }
    }
    QWidget::mousePressEvent(event);
}

void CurveTabs::paintEvent(QPaintEvent* event) {
    Q_UNUSED(event)
    const ThemeColours& colours = Theme::current().colours();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(rect(), colours.panel);
    painter.fillRect(QRect(0, height() - 1, width(), 1), colours.hair);
    for (const CurveKind kind : m_kinds) {
        paintTab(painter, kind);
    }
    paintLegend(painter);
}

void CurveTabs::paintTab(QPainter& painter, CurveKind kind) const {
    const Theme& theme = Theme::current();
    const QRectF box = tabBox(kind);
    const bool isOn = isShown(kind);
    painter.setFont(theme.font(TextRole::body, isOn));
    painter.setPen(isOn ? theme.colours().ink : theme.colours().ink2);
    painter.drawText(box.adjusted(side, 0.0, 0.0, 0.0), Qt::AlignLeft | Qt::AlignVCenter, nameOf(kind));
    if (m_showsKeys) {
        painter.setFont(theme.font(TextRole::body));
        painter.setPen(theme.colours().ink3);
        painter.drawText(box.adjusted(0.0, 0.0, -side, 0.0), Qt::AlignRight | Qt::AlignVCenter, keyOf(kind));
    }
    if (isOn) {
        painter.fillRect(QRectF(box.left(), height() - markHeight, box.width(), markHeight), theme.colours().ink);
    }
}

void CurveTabs::paintLegend(QPainter& painter) const {
    const Theme& theme = Theme::current();
    painter.setFont(theme.font(TextRole::body));
    const QFontMetricsF metrics(painter.font());
    const double sample = m_isLegendShort ? shortSample : sampleWidth;
    const double gap = m_isLegendShort ? shortGap : entryGap;
    const double end = width() - side;
    double x = end - std::min(legendWidth(sample, gap), legendRoom());
    for (const LegendEntry& entry : m_legend) {
        const double room = end - x - sample - sampleGap;
        if (room < metrics.horizontalAdvance(QStringLiteral("…"))) {
            return;
        }
        painter.setPen(penOf(entry));
        painter.drawLine(QPointF(x, height() / 2.0), QPointF(x + sample, height() / 2.0));
        x += sample + sampleGap;
        const QString words = metrics.elidedText(entry.words, Qt::ElideRight, room + 1.0);
        const double width = metrics.horizontalAdvance(words) + 1.0;
        painter.setPen(theme.colours().ink2);
        painter.drawText(QRectF(x, 0.0, width, height()), Qt::AlignLeft | Qt::AlignVCenter, words);
        x += width + gap;
    }
}

}  // namespace ohmwright

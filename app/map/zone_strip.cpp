// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/zone_strip.h"

#include "app/look/language.h"
#include "app/look/said_text.h"
#include "app/look/theme.h"
#include "app/map/part_view.h"
#include "core/base/number_text.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QStringList>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace ohmwright {
namespace {

constexpr double padding = 10.0;
constexpr double numberRoom = 19.0;
constexpr double gap = 8.0;
constexpr double firstBaseline = 18.0;
constexpr double secondBaseline = 36.0;
constexpr double staleOpacity = 0.35;  // as a curve that is not current
constexpr const char* arrow = "→";

QString positionText(double position) {
    return position >= 9.95 ? QString("10") : QString::fromStdString(formatFixed(position, 1));
}

QStringList knobsIn(const Job& job, const Stage& stage) {
    QStringList knobs;
    for (const Knob& knob : job.stock.knobs) {
        if (std::find(stage.parts.begin(), stage.parts.end(), knob.part) != stage.parts.end()) {
            knobs << nameInSentence(knob.name) + ' ' + positionText(knobPosition(job.setting, knob.id));
        }
    }
    return knobs;
}

std::optional<double> gainOf(const LinearState& state, std::size_t stage) {
    if (stage >= state.stageGainDbAtCursor.size() || !std::isfinite(state.stageGainDbAtCursor[stage])) {
        return std::nullopt;
    }
    return state.stageGainDbAtCursor[stage];
}

void fillGains(ZoneHead& head, const MapState& state, std::size_t stage) {
    if (!state.linear) {
        return;
    }
    const std::optional<double> stock = gainOf(state.linear->stock, stage);
    const std::optional<double> now = gainOf(state.linear->now, stage);
    if (!stock || !now) {
        return;
    }
    const QString before = QString::fromStdString(formatFigure(*stock));
    const QString after = QString::fromStdString(formatFigure(state.holdsStock ? *stock : *now));
    head.gain = after + " dB";
    if (before != after) {
        head.stockGain = before;
    }
}

/// Two transistors in one loop have one gain: that of the second zone then counts from the jack, not from the first's
/// end.
bool skipsAStage(const Circuit& circuit, std::size_t stage) {
    return circuit.stages[stage].input == circuit.ports.jack &&
           circuit.stages[stage - 1].output != circuit.stages[stage].input;
}

/// The largest in which a stage's name is whole: of a narrow zone the smaller, then its regular weight.
QFont nameFont(const QString& name, double room) {
    const Theme& theme = Theme::current();
    for (const QFont& font : {theme.font(TextRole::body, true), theme.font(TextRole::caption, true)}) {
        if (QFontMetricsF(font).horizontalAdvance(name) <= room) {
            return font;
        }
    }
    return theme.font(TextRole::caption);
}

QString frequencyText(double hz) {
    return QString::fromStdString(formatFrequency(hz)).remove(decimalSign() + QString("0 "));
}

}  // namespace

std::vector<ZoneHead> zoneHeads(const MapState& state) {
    std::vector<ZoneHead> heads;
    const Circuit& circuit = state.job->stock;
    for (std::size_t i = 0; i < circuit.stages.size(); ++i) {
        const Stage& stage = circuit.stages[i];
        ZoneHead head;
        head.number = QString::number(i + 1);
        head.name = QString::fromStdString(stage.name);
        head.hasActiveMod = !state.holdsStock && hasActiveMod(*state.job, stage);
        fillGains(head, state, i);
        QStringList remarks = knobsIn(*state.job, stage);
        if (i > 0 && !head.gain.isEmpty() && skipsAStage(circuit, i)) {
            remarks.prepend(QObject::tr("from the jack"));
        }
        head.shortRemark = remarks.join(", ");
        if (!head.gain.isEmpty() && (head.hasActiveMod || !head.stockGain.isEmpty())) {
            remarks.prepend(QObject::tr("at %1").arg(frequencyText(state.cursorHz)));
        }
        head.remark = remarks.join(", ");
        heads.push_back(head);
    }
    return heads;
}

ZoneStrip::ZoneStrip(QWidget* parent) : QWidget(parent) {
    const auto follow = [this] {
        setFixedHeight(qRound(space::zoneStrip * Theme::current().textScale()));
        update();
    };
    follow();
    connect(&Theme::current(), &Theme::changed, this, follow);
}

void ZoneStrip::setState(const MapState& state) {
    m_heads = zoneHeads(state);
    m_isCurrent = state.isCurrent;
    QStringList spoken;
    for (const ZoneHead& head : m_heads) {
        const QString gain =
            head.stockGain.isEmpty() ? head.gain : tr("%1 to %2", "a change").arg(head.stockGain, head.gain);
        spoken << head.number + ' ' + head.name + (head.gain.isEmpty() ? QString() : ", " + gain);
    }
    setAccessibleName(tr("Stages: %1").arg(spoken.join("; ")));
    update();
}

void ZoneStrip::setEdges(std::vector<double> edges) {
    m_edges = std::move(edges);
    update();
}

void ZoneStrip::paintEvent(QPaintEvent* /*event*/) {
    const ThemeColours& colours = Theme::current().colours();
    QPainter painter(this);
    painter.fillRect(rect(), colours.zoneTint);
    for (std::size_t i = 0; i < m_heads.size() && i + 1 < m_edges.size(); ++i) {
        paintZone(painter, m_heads[i], m_edges[i], m_edges[i + 1]);
    }
    painter.setPen(colours.hair);
    painter.drawLine(0, height() - 1, width(), height() - 1);
}

void ZoneStrip::paintZone(QPainter& painter, const ZoneHead& head, double left, double right) const {
    const Theme& theme = Theme::current();
    const ThemeColours& colours = theme.colours();
    painter.setPen(colours.hair);
    if (left > 0.0) {
        painter.drawLine(QPointF(left, 0), QPointF(left, height()));
    }
    if (head.hasActiveMod) {
        painter.fillRect(QRectF(left, 0, right - left, line::zoneMark), colours.now);
    }
    painter.save();
    painter.setClipRect(QRectF(left, 0, right - left, height()));
    painter.setFont(theme.font(TextRole::caption));
    painter.setPen(colours.ink2);
    const double baseline = firstBaseline * theme.textScale();
    painter.drawText(QPointF(left + padding, baseline), head.number);
    const double textLeft = left + padding + numberRoom * theme.textScale();
    painter.setFont(nameFont(head.name, right - textLeft - 2));
    painter.setPen(colours.ink);
    const QFontMetricsF metrics(painter.font());
    painter.drawText(QPointF(textLeft, baseline), metrics.elidedText(head.name, Qt::ElideRight, right - textLeft - 2));
    paintGain(painter, head, textLeft, right);
    painter.restore();
}

void ZoneStrip::paintGain(QPainter& painter, const ZoneHead& head, double left, double right) const {
    const Theme& theme = Theme::current();
    const ThemeColours& colours = theme.colours();
    const bool isChanged = !head.stockGain.isEmpty();
    painter.setOpacity(m_isCurrent ? 1.0 : staleOpacity);
    double x = left;
    const auto write = [&](const QString& text, const QFont& font, const QColor& colour) {
        painter.setFont(font);
        painter.setPen(colour);
        painter.drawText(QPointF(x, secondBaseline * theme.textScale()), text);
        x += QFontMetricsF(font).horizontalAdvance(text);
    };
    const QFont caption = theme.font(TextRole::caption);
    if (isChanged) {
        write(head.stockGain + ' ' + arrow + ' ', caption, colours.stock);
        write(head.gain, theme.font(TextRole::body, true), colours.now);
    } else if (!head.gain.isEmpty()) {
        const bool hasRoom = x + QFontMetricsF(caption).horizontalAdvance(head.gain) <= right - 2;
        write(hasRoom ? head.gain : QString(head.gain).remove(" dB"), caption, colours.ink2);
    }
    painter.setOpacity(1.0);
    for (const QString& remark : {head.remark, head.shortRemark}) {
        const QString separator = x > left && !isChanged && !remark.isEmpty() ? QString(", ") : QString();
        const double before = isChanged ? gap : 0.0;
        const QString text = separator + remark;
        if (!remark.isEmpty() && x + before + QFontMetricsF(caption).horizontalAdvance(text) <= right - 2) {
            x += before;
            write(text, caption, isChanged ? colours.ink3 : colours.ink2);
            return;
        }
    }
}

}  // namespace ohmwright

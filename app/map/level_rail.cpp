// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/level_rail.h"

#include "app/look/level_units.h"
#include "app/look/said_text.h"
#include "app/look/theme.h"
#include "app/map/part_view.h"
#include "core/base/decibels.h"
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
/// Between a figure and the borders of its zone.
constexpr double figureGap = 4.0;
constexpr double tickHeight = 7.0;
constexpr double staleOpacity = 0.35;
constexpr const char* arrow = "→";

/// "jack", "U1 pin 3": where a technician puts the probe for a border; empty where no pin says it.
QString placeOf(const Circuit& circuit, const NetName& net) {
    if (net == circuit.ports.jack) {
        return QObject::tr("jack");
    }
    for (const Part& part : circuit.parts) {
        constexpr std::size_t signalPins = 3;
        for (std::size_t pin = 0;
             part.kind == PartKind::opamp && pin < std::min<std::size_t>(part.nets.size(), signalPins); ++pin) {
            if (part.nets[pin] == net && pin < part.pins.size() && !part.pins[pin].empty()) {
                return QObject::tr("%1 pin %2")
                    .arg(packageName(part.reference), QString::fromStdString(part.pins[pin]));
            }
        }
    }
    return {};
}

QString clipPlaceOf(const Circuit& circuit) {
    for (const Part& part : circuit.parts) {
        if (part.kind == PartKind::opamp && part.nets.size() > 2 && part.nets[2] == circuit.ports.clipNode &&
            part.pins.size() > 2 && !part.pins[2].empty()) {
            return QObject::tr("pin %1").arg(QString::fromStdString(part.pins[2]));
        }
    }
    return QObject::tr("clip node");
}

/// Peak of the clip node at the player's level, between two points of the curve.
std::optional<double> peakAt(const std::vector<double>& picks, const std::vector<double>& peaks, double pick) {
    const auto above = std::lower_bound(picks.begin(), picks.end(), pick);
    if (above == picks.end() || peaks.size() != picks.size()) {
        return std::nullopt;
    }
    const auto i = static_cast<std::size_t>(above - picks.begin());
    if (*above == pick || i == 0) {
        return *above == pick ? std::optional<double>(peaks[i]) : std::nullopt;
    }
    const double share = (pick - picks[i - 1]) / (picks[i] - picks[i - 1]);
    return peaks[i - 1] + share * (peaks[i] - peaks[i - 1]);
}

QString clipText(const ClipCurve& clip, double pick) {
    const std::optional<double> up = peakAt(clip.pickVoltsPeak, clip.positiveVolts, pick);
    const std::optional<double> down = peakAt(clip.pickVoltsPeak, clip.negativeVolts, pick);
    return up && down ? QString::fromStdString(formatVoltPair(*up, *down)) : QString();
}

/// Of a level in dBV RMS. After the clip node it is no sine: its RMS is never given as a peak.
LevelUnit unitOf(bool isStillSine) {
    const LevelUnit unit = LevelUnits::current().unit();
    return isStillSine ? unit : rmsUnitBeside(unit);
}

QString levelText(double levelDbv, LevelUnit unit) {
    const double level = levelOfRms(amplitudeRatio(levelDbv), unit);
    return QString::fromStdString(isDecibels(unit) ? formatFigure(level) : formatLevel(level, unit));
}

std::size_t clipStageOf(const Circuit& circuit) {
    const Stage* stage = stageWithOutput(circuit, circuit.ports.clipNode);
    return stage ? static_cast<std::size_t>(stage - circuit.stages.data()) : circuit.stages.size();
}

std::optional<double> levelOf(const LargeSignalState& state, std::size_t stage) {
    if (stage >= state.levelDbvAtBorder.size() || !std::isfinite(state.levelDbvAtBorder[stage])) {
        return std::nullopt;
    }
    return state.levelDbvAtBorder[stage];
}

void fillFigure(RailFigure& figure, const MapState& state, std::size_t stage, std::size_t clipStage) {
    const LargeSignalState& stock = state.largeSignal->stock;
    const LargeSignalState& now = state.holdsStock ? stock : state.largeSignal->now;
    if (stage == clipStage) {
        const double pick = state.job->setting.pickVoltsPeak;
        figure.place = clipPlaceOf(state.job->stock);
        figure.stock = clipText(stock.clip, pick);
        figure.now = clipText(now.clip, pick);
        figure.unit = "V";
        figure.shortUnit = "V";
        return;
    }
    const std::optional<double> before = levelOf(stock, stage);
    const std::optional<double> after = levelOf(now, stage);
    if (!before || !after) {
        return;
    }
    const bool isStillSine = stage < clipStage && clipStage < state.job->stock.stages.size();
    const LevelUnit unit = unitOf(isStillSine);
    figure.stock = levelText(*before, unit);
    figure.now = levelText(*after, unit);
    figure.unit = unitName(unit);
}

}  // namespace

std::vector<RailFigure> railFigures(const MapState& state) {
    const Circuit& circuit = state.job->stock;
    const std::size_t clipStage = clipStageOf(circuit);
    std::vector<RailFigure> figures(circuit.stages.size());
    for (std::size_t i = 0; i < figures.size() && state.largeSignal; ++i) {
        figures[i].place = i < clipStage ? placeOf(circuit, circuit.stages[i].output) : QString();
        fillFigure(figures[i], state, i, clipStage);
        if (figures[i].stock == figures[i].now) {
            figures[i].stock.clear();
        }
        if (i + 1 == figures.size()) {
            figures[i].shortUnit = figures[i].unit;
        }
    }
    return figures;
}

void joinFigures(RailFigure& first, RailFigure& second) {
    if (second.now.isEmpty()) {
        second = first;
    } else {
        const QString change = first.stock.isEmpty() ? first.now : first.stock + ' ' + arrow + ' ' + first.now;
        const QString unit = first.unit == second.unit ? QString() : ' ' + first.unit;
        second.place.prepend((first.place + ' ' + change).trimmed() + unit + ", ");
        second.place = second.place.trimmed();
    }
    first.now.clear();
}

QString pickText(const Job& job) {
    return LevelRail::tr("%1 Hz, %2 picked")
        .arg(numberText(job.setting.toneHz, 'g', 4), pickLevelText(job.setting.pickVoltsPeak));
}

LevelRail::LevelRail(QWidget* parent) : QWidget(parent) {
    setFixedHeight(space::levelRail);
    connect(&Theme::current(), &Theme::changed, this, qOverload<>(&QWidget::update));
}

void LevelRail::setState(const MapState& state) {
    m_figures = railFigures(state);
    m_pick = pickText(*state.job);
    m_isCurrent = state.isCurrent;
    m_hasAnswer = state.largeSignal != nullptr;
    QStringList spoken{m_pick};
    for (std::size_t i = 0; i < m_figures.size(); ++i) {
        const RailFigure& figure = m_figures[i];
        if (!figure.now.isEmpty()) {
            const QString stage = QString::number(i + 1);
            spoken << (figure.stock.isEmpty()
                           ? tr("stage %1 %2 %3 %4").arg(stage, figure.place, figure.now, figure.unit)
                           : tr("stage %1 %2 %3 to %4 %5")
                                 .arg(stage, figure.place, figure.stock, figure.now, figure.unit));
        }
    }
    setAccessibleName(tr("Levels: %1").arg(spoken.join("; ")));
    update();
}

void LevelRail::setEdges(std::vector<double> edges) {
    m_edges = std::move(edges);
    update();
}

double LevelRail::writeFigure(QPainter* painter, const RailFigure& figure, double left, double right) const {
    const Theme& theme = Theme::current();
    const ThemeColours& colours = theme.colours();
    const bool isChanged = !figure.stock.isEmpty();
    const QFont plain = theme.font(TextRole::body);
    const QFont bold = theme.font(TextRole::body, true);
    const QString space(' ');
    const QString place = figure.place.isEmpty() ? QString() : figure.place + space;
    const QString stock = isChanged ? figure.stock + space + arrow + space : QString();
    const auto widthWith = [&](const QString& unit) {
        const QString now = unit.isEmpty() ? figure.now : figure.now + space + unit;
        return QFontMetricsF(plain).horizontalAdvance(place + stock) +
               QFontMetricsF(isChanged ? bold : plain).horizontalAdvance(now);
    };
    const bool hasRoom = right - widthWith(figure.unit) >= left;
    const QString unit = hasRoom ? figure.unit : figure.shortUnit;
    const double start = right - widthWith(unit);
    if (!painter) {
        return start;
    }
    const double baseline = height() / 2.0 + QFontMetricsF(plain).capHeight() / 2.0;
    painter->setFont(plain);
    painter->setPen(isChanged ? colours.stock : colours.ink2);
    painter->drawText(QPointF(start, baseline), place + stock);
    const double nowLeft = start + QFontMetricsF(plain).horizontalAdvance(place + stock);
    painter->setFont(isChanged ? bold : plain);
    painter->setPen(isChanged ? colours.now : colours.ink2);
    painter->drawText(QPointF(nowLeft, baseline), unit.isEmpty() ? figure.now : figure.now + space + unit);
    return start;
}

void LevelRail::joinNarrowZones(std::vector<RailFigure>& figures, double pickRight) const {
    if (figures.size() < 2 || m_edges.size() < 3 || figures[0].now.isEmpty()) {
        return;
    }
    if (writeFigure(nullptr, figures[0], 0.0, m_edges[1] - figureGap) < pickRight + padding) {
        joinFigures(figures[0], figures[1]);
    }
}

void LevelRail::paintEvent(QPaintEvent* /*event*/) {
    const Theme& theme = Theme::current();
    const ThemeColours& colours = theme.colours();
    QPainter painter(this);
    painter.fillRect(rect(), colours.panel);
    painter.setPen(colours.hair);
    painter.drawLine(0, 0, width(), 0);
    painter.setPen(QPen(colours.edge, 1.5));
    for (std::size_t i = 1; i + 1 < m_edges.size(); ++i) {
        painter.drawLine(QPointF(m_edges[i], 0), QPointF(m_edges[i], tickHeight));
    }
    const QFont plain = theme.font(TextRole::body);
    const QFontMetricsF metrics(plain);
    const QString pick = m_hasAnswer && !m_isCurrent ? tr("levels not current") : m_pick;
    const double pickRight = padding + metrics.horizontalAdvance(pick);
    painter.setFont(plain);
    painter.setPen(colours.ink3);
    painter.drawText(QPointF(padding, height() / 2.0 + metrics.capHeight() / 2.0), pick);
    std::vector<RailFigure> figures = m_figures;
    joinNarrowZones(figures, pickRight);
    painter.setOpacity(m_isCurrent ? 1.0 : staleOpacity);
    for (std::size_t i = 0; i < figures.size() && i + 1 < m_edges.size(); ++i) {
        RailFigure& figure = figures[i];
        const double left = std::max(m_edges[i] + figureGap, pickRight + figureGap);
        const double right = m_edges[i + 1] - figureGap;
        if (!figure.now.isEmpty() && writeFigure(nullptr, figure, left, right) < left) {
            figure.stock.clear();  // the zone is narrower than both: what is now stays
        }
        if (!figure.now.isEmpty() && writeFigure(nullptr, figure, left, right) < left) {
            figure.place = m_figures[i].place;
        }
        // A zone that is seen in part only must not write over its neighbour.
        const bool hasRoom = right > left - figureGap && writeFigure(nullptr, figure, left, right) >= m_edges[i];
        if (!figure.now.isEmpty() && hasRoom) {
            writeFigure(&painter, figure, left, right);
        }
    }
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/response_curves.h"

#include "app/curves/curve_reading.h"
#include "app/curves/curve_thinning.h"
#include "app/curves/string_ticks.h"
#include "app/look/said_text.h"
#include "app/look/theme.h"

#include <qcustomplot.h>

#include <algorithm>
#include <cmath>
#include <span>

namespace ohmwright {

namespace {

/// Of now in the difference strip [px].
constexpr double lessWidth = 2.2;

/// A twentieth of a pixel on a full screen (12 px a dB): nobody sees what is left out.
constexpr double unseenDb = 0.004;

void drawResponse(QCPGraph& graph, std::span<const double> hz, std::span<const double> decibels) {
    std::vector<double> decades(hz.size());
    std::transform(hz.begin(), hz.end(), decades.begin(), [](double each) { return std::log10(each); });
    std::vector<double> x;
    std::vector<double> y;
    for (const std::size_t i : pointsToDraw(decades, decibels, unseenDb)) {
        x.push_back(hz[i]);
        y.push_back(decibels[i]);
    }
    setPoints(graph, x, y);
}

/// The curve as it is drawn [px].
QPolygonF polylineOf(const QCPGraph& graph) {
    QPolygonF line;
    for (const QCPGraphData& point : *graph.data()) {
        if (std::isfinite(point.value)) {
            line << QPointF(graph.keyAxis()->coordToPixel(point.key), graph.valueAxis()->coordToPixel(point.value));
        }
    }
    return line;
}

bool isSame(const std::optional<ResponseCurve>& shown, const ResponseCurve* wanted) {
    return shown.has_value() == (wanted != nullptr) &&
           (!wanted || (shown->hz == wanted->hz && shown->gainDb == wanted->gainDb));
}

std::optional<ResponseCurve> copyOf(const ResponseCurve* curve) {
    return curve ? std::optional(*curve) : std::nullopt;
}

std::vector<double> bandOf(const LinearAnswer* answer, std::vector<double> LinearAnswer::*band) {
    return answer ? answer->*band : std::vector<double>();
}

/// Below the curves of the lines that are asked for first.
constexpr const char* throwsLayer = "throws";

QCPGraph* addCurve(QCustomPlot& plot, QCPAxisRect& rect) {
    QCPGraph* graph = plot.addGraph(rect.axis(QCPAxis::atBottom), rect.axis(QCPAxis::atLeft));
    graph->setLayer(QStringLiteral("main"));
    graph->setSelectable(QCP::stNone);
    return graph;
}

}  // namespace

// Later ones lie above earlier ones: bands, stock, ghost, now.
ResponseCurves::ResponseCurves(QCustomPlot& plot, QCPAxisRect& frame, QCPAxisRect& strip)
    : m_plot(plot),
      m_frame(frame),
      m_bandLow(addCurve(plot, frame)),
      m_bandHigh(addCurve(plot, frame)),
      m_spreadLow(addCurve(plot, strip)),
      m_spreadHigh(addCurve(plot, strip)),
      m_stock(addCurve(plot, frame)),
      m_ghost(addCurve(plot, frame)),
      m_now(addCurve(plot, frame)),
      m_ghostLess(addCurve(plot, strip)),
      m_nowLess(addCurve(plot, strip)) {
    m_plot.addLayer(QLatin1String(throwsLayer), m_plot.layer(QStringLiteral("main")), QCustomPlot::limBelow);
    for (QCPGraph* edge : {m_bandLow, m_bandHigh, m_spreadLow, m_spreadHigh}) {
        edge->setPen(Qt::NoPen);
    }
    m_bandHigh->setChannelFillGraph(m_bandLow);
    m_spreadHigh->setChannelFillGraph(m_spreadLow);
}

bool ResponseCurves::show(const LinearAnswer* answer) {
    const ResponseCurve* stock = answer ? &answer->stock.response : nullptr;
    const ResponseCurve* now = answer ? &answer->now.response : nullptr;
    const ResponseCurve* ghost = answer && answer->ghost ? &answer->ghost->response : nullptr;
    // Moving the cursor asks for new figures of the same curves; they need not be drawn again.
    const bool isOld = isSame(m_stockCurve, stock) && isSame(m_nowCurve, now) && isSame(m_ghostCurve, ghost) &&
                       m_nowBand == bandOf(answer, &LinearAnswer::nowBandDb);
    if (isOld) {
        return false;
    }
    m_stockCurve = copyOf(stock);
    m_nowCurve = copyOf(now);
    m_ghostCurve = copyOf(ghost);
    m_nowBand = bandOf(answer, &LinearAnswer::nowBandDb);
    m_stockBand = bandOf(answer, &LinearAnswer::stockBandDb);
    fill();
    return true;
}

void ResponseCurves::fill() {
    const auto fill = [](QCPGraph& graph, const std::optional<ResponseCurve>& curve) {
        if (curve) {
            drawResponse(graph, curve->hz, curve->gainDb);
        } else {
            clearPoints(graph);
        }
    };
    fill(*m_stock, m_stockCurve);
    fill(*m_now, m_nowCurve);
    fill(*m_ghost, m_ghostCurve);
    const auto fillLess = [this](QCPGraph& graph, const std::optional<ResponseCurve>& curve) {
        if (!curve || !m_stockCurve) {
            clearPoints(graph);
            return std::vector<double>();
        }
        std::vector<double> difference = differenceDb(*curve, *m_stockCurve);
        drawResponse(graph, curve->hz, difference);
        return difference;
    };
    m_nowDifference = fillLess(*m_nowLess, m_nowCurve);
    m_ghostDifference = fillLess(*m_ghostLess, m_ghostCurve);
    fillBands();
}

void ResponseCurves::fillBands() {
    const auto fill = [](QCPGraph& low, QCPGraph& high, const std::optional<ResponseCurve>& curve,
                         const std::vector<double>& band, bool aboutCurve) {
        if (!curve || band.size() != curve->hz.size()) {
            clearPoints(low);
            clearPoints(high);
            return;
        }
        std::vector<double> under;
        std::vector<double> over;
        for (std::size_t i = 0; i < band.size(); ++i) {
            const double middle = aboutCurve ? curve->gainDb[i] : 0.0;
            under.push_back(middle - band[i]);
            over.push_back(middle + band[i]);
        }
        setPoints(low, curve->hz, under);
        setPoints(high, curve->hz, over);
    };
    fill(*m_bandLow, *m_bandHigh, m_nowCurve, m_nowBand, true);
    fill(*m_spreadLow, *m_spreadHigh, m_stockCurve, m_stockBand, false);
}

PlotRange ResponseCurves::grownGain(PlotRange shown) const {
    const auto extent = [](const std::optional<ResponseCurve>& curve) {
        return curve ? extentBetween(curve->hz, curve->gainDb, lowestHz, guitarToHz) : std::nullopt;
    };
    std::vector<PlotRange> others;
    for (const auto* curve : {&m_nowCurve, &m_ghostCurve}) {
        if (const auto values = extent(*curve)) {
            others.push_back(*values);
        }
    }
    for (const ThrowCurve& curve : m_throwCurves) {
        if (const auto values = extent(curve.response)) {
            others.push_back(*values);
        }
    }
    const auto stock = extent(m_stockCurve);
    return stock ? gainRange(shown, *stock, others) : shown;
}

PlotRange ResponseCurves::grownDifference(PlotRange shown) const {
    const auto grow = [&shown](const std::optional<ResponseCurve>& curve, std::span<const double> values) {
        if (const auto span = curve ? extentBetween(curve->hz, values, lowestHz, guitarToHz) : std::nullopt) {
            shown = differenceRange(shown, *span);
        }
    };
    grow(m_nowCurve, m_nowDifference);
    grow(m_ghostCurve, m_ghostDifference);
    return shown;
}

void ResponseCurves::showThrows(std::vector<ThrowCurve> throws) {
    m_throwCurves = std::move(throws);
    for (QCPGraph* graph : m_throws) {
        m_plot.removeGraph(graph);
    }
    m_throws.clear();
    for (const ThrowCurve& curve : m_throwCurves) {
        QCPGraph* graph = addCurve(m_plot, m_frame);
        graph->setLayer(QLatin1String(throwsLayer));
        drawResponse(*graph, curve.response.hz, curve.response.gainDb);
        m_throws.push_back(graph);
    }
}

void ResponseCurves::applyPens(const CurveLook& look) {
    const Theme& theme = Theme::current();
    QPen stock = theme.stockPen();
    if (look.holdsStock) {
        stock.setWidthF(theme.nowPen().widthF());
    }
    m_stock->setPen(penFor(stock, look.state));
    m_now->setPen(penFor(theme.nowPen(), look.state));
    m_ghost->setPen(penFor(theme.ghostPen(), look.state));
    QPen nowLess = theme.nowPen();
    nowLess.setWidthF(lessWidth);
    m_nowLess->setPen(penFor(nowLess, look.state));
    m_ghostLess->setPen(penFor(theme.ghostPen(), look.state));
    m_bandHigh->setBrush(look.state.isCurrent ? QBrush(theme.colours().band) : QBrush(Qt::NoBrush));
    m_spreadHigh->setBrush(look.state.isCurrent ? QBrush(spreadFill()) : QBrush(Qt::NoBrush));
    for (std::size_t at = 0; at < m_throws.size(); ++at) {
        m_throws[at]->setPen(penFor(theme.throwPen(static_cast<int>(at)), look.state));
        m_throws[at]->setVisible(!look.holdsStock);
    }
    for (QCPGraph* graph : {m_now, m_ghost, m_bandLow, m_bandHigh}) {
        graph->setVisible(!look.holdsStock);
    }
    for (QCPGraph* graph : {m_spreadLow, m_spreadHigh, m_nowLess, m_ghostLess}) {
        graph->setVisible(!look.holdsStock && look.showsDifference);
    }
}

QStringList ResponseCurves::namesShown() const {
    QStringList names;
    const auto addIf = [&names](const QCPGraph* graph, const char* name) {
        if (graph->visible() && !graph->data()->isEmpty()) {
            names << saidText(name);
        }
    };
    for (std::size_t at = 0; at < m_throws.size(); ++at) {
        if (m_throws[at]->visible()) {
            names << m_throwCurves[at].name;
        }
    }
    addIf(m_stock, toSay("stock"));
    addIf(m_ghost, toSay("ghost"));
    addIf(m_now, toSay("now"));
    return names;
}

std::vector<QPolygonF> ResponseCurves::polylines() const {
    std::vector<QPolygonF> lines;
    for (const QCPGraph* graph : {m_stock, m_ghost, m_now}) {
        if (graph->visible()) {
            lines.push_back(polylineOf(*graph));
        }
    }
    return lines;
}

std::vector<QPolygonF> ResponseCurves::throwLines() const {
    std::vector<QPolygonF> lines;
    for (const QCPGraph* graph : m_throws) {
        if (graph->visible()) {
            lines.push_back(polylineOf(*graph));
        }
    }
    return lines;
}

}  // namespace ohmwright

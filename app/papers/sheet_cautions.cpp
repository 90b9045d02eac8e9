// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/sheet_cautions.h"

#include "app/papers/paper_frame.h"
#include "app/papers/sheet_text.h"
#include "core/bench/high_voltage.h"

#include <QObject>
#include <QPainter>
#include <QPolygonF>

#include <algorithm>
#include <vector>

namespace ohmwright {

namespace {

void paintWarningTriangle(QPainter& painter, const QRectF& box) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(print::ink(), 2.4, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.drawPolygon(QPolygonF({QPointF(box.center().x(), box.top()), box.bottomRight(), box.bottomLeft()}));
    painter.drawLine(QPointF(box.center().x(), box.top() + 0.38 * box.height()),
                     QPointF(box.center().x(), box.top() + 0.66 * box.height()));
    painter.drawPoint(QPointF(box.center().x(), box.top() + 0.84 * box.height()));
    painter.restore();
}

constexpr double cautionHeight = 17.0;
constexpr double cautionLeft = 58.0;

Runs cautionRuns(const Caution& caution) {
    return {{paperText(caution.head), true, print::smallPixels, false},
            {" " + paperText(caution.text), false, print::smallPixels, false}};
}

/// Short ones stand two in a row.
std::vector<std::vector<Runs>> cautionRows(const std::vector<Caution>& cautions, double width) {
    std::vector<std::vector<Runs>> rows;
    bool isHalfFull = false;
    for (const Caution& caution : cautions) {
        const QString text = paperText(caution.text);
        const double headWidth = widthOf({{paperText(caution.head) + " ", true, print::smallPixels, false}});
        const Runs runs = cautionRuns(caution);
        if (widthOf(runs) < width / 2.0 - 8.0) {
            if (isHalfFull) {
                rows.back().push_back(runs);
            } else {
                rows.push_back({runs});
            }
            isHalfFull = !isHalfFull;
            continue;
        }
        isHalfFull = false;
        const QStringList lines = wrapText(text, paperFont(print::smallPixels), width - headWidth, 3);
        for (qsizetype i = 0; i < lines.size(); ++i) {
            rows.push_back({{{i == 0 ? paperText(caution.head) + " " : QString(), true, print::smallPixels, false},
                             {lines[i], false, print::smallPixels, false}}});
        }
    }
    return rows;
}

void paintCautions(QPainter& painter, const QRectF& box, const std::vector<std::vector<Runs>>& rows) {
    paintWarningTriangle(painter, {box.left() + 4.0, box.top() + 8.0, 38.0, 34.0});
    const double left = box.left() + cautionLeft;
    const double half = (box.right() - left) / 2.0;
    double y = box.top() + 4.0;
    for (const std::vector<Runs>& row : rows) {
        for (std::size_t column = 0; column < row.size(); ++column) {
            const double x = left + half * static_cast<double>(column);
            drawRuns(painter, {x, y, box.right() - x, cautionHeight}, row[column]);
        }
        y += cautionHeight;
    }
}

}  // namespace

void addCautions(PageFlow& flow, const PaperAnswers& answers) {
    const Job& job = *answers.job;
    flow.beginSection(QObject::tr("Cautions"), QObject::tr("read before step 1"));
    if (const QString volts = highVoltageOf(answers); !volts.isEmpty()) {
        const QString words = QObject::tr("High voltage: %1").arg(volts);
        flow.add(
            52.0, [words](QPainter& painter, const QRectF& box) { paintStopBar(painter, box, words, {}); }, true);
    }
    const auto rows = cautionRows(cautionsOf(job.stock, job.setting), flow.contentWidth() - cautionLeft);
    const double height = std::max(48.0, 8.0 + cautionHeight * static_cast<double>(rows.size()));
    flow.add(height, [rows](QPainter& painter, const QRectF& box) { paintCautions(painter, box, rows); });
}

}  // namespace ohmwright

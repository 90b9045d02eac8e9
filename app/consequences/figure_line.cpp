// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/consequences/figure_line.h"

#include "app/look/theme.h"

#include <QKeyEvent>
#include <QMouseEvent>

namespace ohmwright {

std::vector<FigureRun> stockToNow(const QString& before, const QString& stock, const QString& now,
                                  const QString& after) {
    using Kind = FigureRun::Kind;
    std::vector<FigureRun> runs;
    if (!before.isEmpty()) {
        runs.push_back({before, Kind::plain});
    }
    if (!stock.isEmpty() && stock != now) {
        runs.push_back({stock, Kind::stock});
        runs.push_back({QStringLiteral(" → "), Kind::plain});
        runs.push_back({now, Kind::now});
    } else {
        runs.push_back({now, Kind::change});
    }
    if (!after.isEmpty()) {
        runs.push_back({after, Kind::plain});
    }
    return runs;
}

FigureLine::FigureLine(QWidget* parent) : QLabel(parent) {
    setTextFormat(Qt::RichText);
    setWordWrap(true);
    connect(&Theme::current(), &Theme::changed, this, &FigureLine::follow);
    follow();
}

void FigureLine::setRuns(std::vector<FigureRun> runs) {
    m_runs = std::move(runs);
    follow();
}

QString FigureLine::words() const {
    QString all;
    for (const FigureRun& run : m_runs) {
        all += run.text;
    }
    return all;
}

void FigureLine::setPressable(bool pressable) {
    setFocusPolicy(pressable ? Qt::StrongFocus : Qt::NoFocus);
    setCursor(pressable ? Qt::PointingHandCursor : Qt::ArrowCursor);
    setProperty("focusOutline", pressable);
}

void FigureLine::mousePressEvent(QMouseEvent* event) {
    if (event->button() == Qt::LeftButton && focusPolicy() != Qt::NoFocus) {
        emit pressed();
        return;
    }
    QLabel::mousePressEvent(event);
}

void FigureLine::keyPressEvent(QKeyEvent* event) {
    const bool isPress = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter ||
                         event->key() == Qt::Key_Space || event->key() == Qt::Key_Equal;
    if (isPress && focusPolicy() != Qt::NoFocus) {
        emit pressed();
        return;
    }
    QLabel::keyPressEvent(event);
}

void FigureLine::follow() {
    const ThemeColours& colours = Theme::current().colours();
    setFont(Theme::current().font(TextRole::caption));
    QString html;
    for (const FigureRun& run : m_runs) {
        const bool isBold = run.kind == FigureRun::Kind::now || run.kind == FigureRun::Kind::change;
        const QColor colour = run.kind == FigureRun::Kind::now      ? colours.now
                              : run.kind == FigureRun::Kind::stock  ? colours.stock
                              : run.kind == FigureRun::Kind::change ? colours.ink
                                                                    : colours.ink2;
        html += QString("<span style=\"color:%1%2\">%3</span>")
                    .arg(colour.name(), isBold ? ";font-weight:bold" : "", run.text.toHtmlEscaped());
    }
    setText(html);
    setAccessibleName(words());
}

}  // namespace ohmwright

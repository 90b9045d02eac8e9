// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/clip_figures.h"

#include "app/curves/clip_plot.h"
#include "app/curves/plot_frame.h"
#include "app/look/level_units.h"
#include "app/look/row_keys.h"
#include "app/look/theme.h"
#include "core/base/number_text.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QStringList>

#include <algorithm>
#include <cmath>
#include <optional>

namespace ohmwright {

namespace {

// In px.
constexpr double side = 12.0;
constexpr double signRoom = 20.0;
constexpr double columnGap = 10.0;
constexpr double wordGap = 5.0;
constexpr int edgeRoom = 5;
/// Widest usual row, beside the plot.
constexpr double besideWidth = 262.0;

int lineHeight() {
    return QFontMetrics(Theme::current().font(TextRole::body)).height() + 1;
}

/// Half-waves whose pick levels differ by less are said to clip together; a technician's generator is no finer [V].
constexpr double samePickLevelVolts = 0.001;

constexpr QChar arrow(u'→');

/// The same quantity on the two half-waves.
struct Pair {
    std::optional<double> positive;
    std::optional<double> negative;
};

QString volts(const std::optional<double>& value, const QString& absence) {
    return value ? QString::fromStdString(formatFixed(*value, 2, Sign::always)) : absence;
}

bool readsAlike(const Pair& pair) {
    if (!pair.positive || !pair.negative) {
        return !pair.positive && !pair.negative;
    }
    return formatFixed(*pair.positive, 2) == formatFixed(-*pair.negative, 2);
}

QString both(const Pair& pair, const QString& absence) {
    return pair.positive && pair.negative ? QString::fromStdString(formatVoltPair(*pair.positive, *pair.negative))
                                          : absence;
}

/// Stock and now as a row; `absence` is the word that takes no unit.
ClipRow row(ClipSign sign, const QString& name, const QString& stock, const QString& now, const QString& absence) {
    const bool hasUnit = now != absence;
    return {sign, name, stock, now == stock ? QString() : now, hasUnit ? QStringLiteral("V") : QString(), QString()};
}

void addPair(std::vector<ClipRow>& rows, const QString& name, const Pair& stock, const Pair& now,
             const QString& absence, ClipSign up, ClipSign down) {
    if (readsAlike(stock) && readsAlike(now)) {
        rows.push_back(row(up, name, both(stock, absence), both(now, absence), absence));
        return;
    }
    rows.push_back(
        row(up, name + QStringLiteral(" +"), volts(stock.positive, absence), volts(now.positive, absence), absence));
    rows.push_back(
        row(down, name + QStringLiteral(" −"), volts(stock.negative, absence), volts(now.negative, absence), absence));
}

Pair thresholdVolts(const ClipCurve& clip) {
    return {clip.positive ? std::optional(clip.positive->volts) : std::nullopt,
            clip.negative ? std::optional(clip.negative->volts) : std::nullopt};
}

Pair thresholdLevels(const ClipCurve& clip) {
    return {clip.positive ? std::optional(clip.positive->pickVoltsPeak) : std::nullopt,
            clip.negative ? std::optional(clip.negative->pickVoltsPeak) : std::nullopt};
}

bool togetherInLevel(const Pair& levels) {
    if (!levels.positive || !levels.negative) {
        return !levels.positive && !levels.negative;
    }
    return std::abs(*levels.positive - *levels.negative) < samePickLevelVolts;
}

/// A pick level in the unit that the user chose; the unit itself stands once a row.
QString levelFigure(const std::optional<double>& volts) {
    const LevelUnit unit = LevelUnits::current().unit();
    return volts ? QString::fromStdString(formatLevel(levelOfPeak(*volts, unit), unit)) : QObject::tr("none");
}

QString levelStep(const std::optional<double>& stock, const std::optional<double>& now) {
    const QString before = levelFigure(stock);
    const QString after = levelFigure(now);
    return before == after ? before : before + QStringLiteral(" → ") + after;
}

void addLevels(std::vector<ClipRow>& rows, const Pair& stock, const Pair& now) {
    if (!stock.positive && !stock.negative && !now.positive && !now.negative) {
        return;
    }
    const QString name = QObject::tr("reached at");
    const QString unit = unitName(LevelUnits::current().unit());
    if (togetherInLevel(stock) && togetherInLevel(now)) {
        const QString before = levelFigure(stock.positive);
        const QString after = levelFigure(now.positive);
        rows.push_back({ClipSign::none, name, before, after == before ? QString() : after, unit,
                        ", " + QObject::tr("both half-waves")});
        return;
    }
    const QString levels = QStringLiteral("+ %1, − %2")
                               .arg(levelStep(stock.positive, now.positive), levelStep(stock.negative, now.negative));
    rows.push_back({ClipSign::none, QObject::tr("reached"), levels, QString(), unit, QString()});
}

struct Piece {
    QString words;
    bool isBold = false;
    QColor ThemeColours::*colour = &ThemeColours::ink3;
};

/// All of a row but its tail.
std::vector<Piece> piecesOf(const ClipRow& row) {
    const bool isFigure = row.sign != ClipSign::none;
    const bool changes = !row.now.isEmpty();
    const auto quiet = isFigure ? &ThemeColours::stock : &ThemeColours::ink3;
    std::vector<Piece> pieces{{row.name, false, isFigure ? &ThemeColours::ink : &ThemeColours::ink3},
                              {row.stock, false, quiet}};
    if (changes) {
        pieces.push_back({QString(arrow), false, &ThemeColours::ink3});
        pieces.push_back({row.now, true, &ThemeColours::now});
    }
    if (!row.unit.isEmpty()) {
        const bool belongsToNow = isFigure && changes;
        pieces.push_back({row.unit, belongsToNow, belongsToNow ? &ThemeColours::now : quiet});
    }
    return pieces;
}

/// Length of a row [px]; the first piece takes `indent` where that is wider.
double lengthOf(const std::vector<Piece>& pieces, TextRole role, double indent) {
    double length = 0.0;
    for (const Piece& piece : pieces) {
        length += QFontMetricsF(Theme::current().font(role, piece.isBold)).horizontalAdvance(piece.words) + wordGap;
        if (&piece == &pieces.front()) {
            length = std::max(length, indent);
        }
    }
    return length - wordGap;
}

}  // namespace

QString ClipRow::text() const {
    QStringList words{name, stock};
    if (!now.isEmpty()) {
        words << QString(arrow) << now;
    }
    if (!unit.isEmpty()) {
        words << unit;
    }
    return words.join(QLatin1Char(' ')) + tail;
}

std::vector<ClipRow> clipRows(const LargeSignalAnswer& answer, bool onlyStock) {
    const LargeSignalState& stock = answer.stock;
    const LargeSignalState& now = onlyStock ? answer.stock : answer.now;
    const double pick = answer.job ? answer.job->setting.pickVoltsPeak : 0.0;
    std::vector<ClipRow> rows;
    const auto lacksThreshold = [](const ClipCurve& clip) { return !clip.positiveSettled || !clip.negativeSettled; };
    const bool thresholdsOpen = lacksThreshold(stock.clip) || lacksThreshold(now.clip);
    addPair(rows, QObject::tr("clip threshold"), thresholdVolts(stock.clip), thresholdVolts(now.clip),
            thresholdsOpen ? QObject::tr("not settled") : QObject::tr("not reached"), ClipSign::positiveThreshold,
            ClipSign::negativeThreshold);
    addLevels(rows, thresholdLevels(stock.clip), thresholdLevels(now.clip));
    const PlayerPeaks stockPeaks = playerPeaks(stock);
    const PlayerPeaks nowPeaks = playerPeaks(now);
    const std::size_t first = rows.size();
    addPair(rows, QObject::tr("peak at player"), {stockPeaks.positive, stockPeaks.negative},
            {nowPeaks.positive, nowPeaks.negative},
            stock.trouble.empty() && now.trouble.empty() ? QObject::tr("none") : QObject::tr("not settled"),
            ClipSign::player, ClipSign::player);
    if (pick > 0.0 && !rows[first].unit.isEmpty()) {
        rows[first].tail = ' ' + QObject::tr("at %1").arg(pickLevelText(pick));
    }
    return rows;
}

ClipFigures::ClipFigures(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("clipFigures"));
    setAccessibleName(tr("Clip figures"));
    setFocusPolicy(Qt::StrongFocus);
    setCursor(Qt::PointingHandCursor);
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
    connect(&Theme::current(), &Theme::changed, this, &ClipFigures::followTheme);
}

void ClipFigures::followTheme() {
    updateGeometry();
    update();
}

void ClipFigures::setCurrent(bool isCurrent) {
    m_isCurrent = isCurrent;
    update();
}

void ClipFigures::setRows(std::vector<ClipRow> rows) {
    if (rows == m_rows) {
        return;
    }
    const bool grows = rows.size() != m_rows.size();
    m_row = std::clamp(m_row, 0, std::max(0, static_cast<int>(rows.size()) - 1));
    m_rows = std::move(rows);
    QStringList lines;
    for (const ClipRow& each : m_rows) {
        lines << each.text();
    }
    setAccessibleDescription(lines.join(QStringLiteral("; ")));
    if (grows) {
        updateGeometry();
    }
    update();
}

QRect ClipFigures::rowBox(int row) const {
    return {0, edgeRoom + row * lineHeight(), width(), lineHeight()};
}

void ClipFigures::pressRow() {
    const QRect box = rowBox(m_row);
    emit rowPressed(m_row, {mapToGlobal(box.topLeft()), box.size()});
}

void ClipFigures::mousePressEvent(QMouseEvent* event) {
    for (int row = 0; row < static_cast<int>(m_rows.size()); ++row) {
        if (event->button() == Qt::LeftButton && rowBox(row).contains(event->position().toPoint())) {
            m_row = row;
            update();
            pressRow();
        }
    }
}

void ClipFigures::keyPressEvent(QKeyEvent* event) {
    const auto step = rowStep(event->key(), m_row, static_cast<int>(m_rows.size()));
    if (!step) {
        QWidget::keyPressEvent(event);
        return;
    }
    m_row = step->row;
    if (step->isPressed) {
        pressRow();
    }
    update();
}

void ClipFigures::setBeside(bool beside) {
    m_isBeside = beside;
    setSizePolicy(beside ? QSizePolicy::Fixed : QSizePolicy::Preferred,
                  beside ? QSizePolicy::Preferred : QSizePolicy::Fixed);
    updateGeometry();
    update();
}

QSize ClipFigures::sizeHint() const {
    // Three rows are the usual case; fewer must not make the plot jump.
    const int rows = std::max(3, static_cast<int>(m_rows.size()));
    const int width = static_cast<int>(std::lround(besideWidth * Theme::current().textScale()));
    return {width, rows * lineHeight() + 2 * edgeRoom};
}

QSize ClipFigures::minimumSizeHint() const {
    return m_isBeside ? sizeHint() : QSize(0, sizeHint().height());
}

double ClipFigures::nameWidth() const {
    const QFontMetricsF metrics(Theme::current().font(TextRole::body));
    double widest = 0.0;
    for (const ClipRow& each : m_rows) {
        if (each.sign != ClipSign::none) {
            widest = std::max(widest, metrics.horizontalAdvance(each.name));
        }
    }
    return widest;
}

void ClipFigures::paintEvent(QPaintEvent* event) {
    Q_UNUSED(event)
    const ThemeColours& colours = Theme::current().colours();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(rect(), colours.panel);
    painter.fillRect(m_isBeside ? QRect(0, 0, 1, height()) : QRect(0, 0, width(), 1), colours.hair);
    painter.setOpacity(static_cast<double>(m_isCurrent ? 1.0F : oldOpacity));
    const double names = nameWidth();
    double top = edgeRoom;
    for (const ClipRow& each : m_rows) {
        paintRow(painter, each, top, names);
        top += lineHeight();
    }
    if (hasFocus() && m_row < static_cast<int>(m_rows.size())) {
        paintFocus(painter, QRectF(rowBox(m_row)));
    }
}

void ClipFigures::paintRow(QPainter& painter, const ClipRow& row, double top, double nameWidth) const {
    const Theme& theme = Theme::current();
    const ThemeColours& colours = theme.colours();
    const QFont plain = theme.font(TextRole::body);
    const QFont bold = theme.font(TextRole::body, true);
    const double baseline = top + QFontMetricsF(plain).ascent();
    const QPointF signAt(side + 6.0, baseline - QFontMetricsF(plain).capHeight() / 2.0);
    const QColor ink = row.now.isEmpty() ? colours.stock : colours.now;
    if (row.sign == ClipSign::player) {
        painter.setPen(QPen(ink, 2.0));
        painter.setBrush(Qt::NoBrush);
        painter.drawEllipse(signAt, 4.5, 4.5);
    } else if (row.sign != ClipSign::none) {
        paintThreshold(painter, signAt, row.sign == ClipSign::positiveThreshold, ink, !row.now.isEmpty());
    }
    const bool isFigure = row.sign != ClipSign::none;
    const double indent = isFigure ? nameWidth + columnGap : 0.0;
    const std::vector<Piece> pieces = piecesOf(row);
    const double room = width() - side - signRoom - edgeRoom;
    const bool fits = lengthOf(pieces, TextRole::body, indent) <= room;
    const TextRole role = fits ? TextRole::body : TextRole::caption;
    double x = side + signRoom;
    for (const Piece& piece : pieces) {
        const QFont font = theme.font(role, piece.isBold);
        painter.setFont(font);
        painter.setPen(theme.colours().*piece.colour);
        painter.drawText(QPointF(x, baseline), piece.words);
        x += QFontMetricsF(font).horizontalAdvance(piece.words) + wordGap;
        if (&piece == &pieces.front() && isFigure) {
            x = side + signRoom + indent;
        }
    }
    const QFont small = theme.font(role);
    x -= wordGap;
    if (x + QFontMetricsF(small).horizontalAdvance(row.tail) <= width() - edgeRoom) {
        painter.setFont(small);
        painter.setPen(colours.ink3);
        painter.drawText(QPointF(x, baseline), row.tail);
    }
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/consequences/effect_strip.h"

#include "app/look/level_units.h"
#include "app/look/sum_notes.h"
#include "app/look/theme.h"

#include <QPainter>

#include <algorithm>
#include <numeric>

namespace ohmwright {

namespace {

using Section = ConsequenceService::Section;

// Sizes in px at text size 100 %.
constexpr int cellHeight = 66;
constexpr int lampHeight = 34;
constexpr int side = 11;
constexpr int lampSide = 7;
constexpr int signSize = 14;
constexpr int signGap = 6;
constexpr double oldOpacity = 0.35;

int scaled(int pixels) {
    return qRound(pixels * Theme::current().textScale());
}

QFont captionFont(bool bold) {
    return Theme::current().font(TextRole::caption, bold);
}

int widthOf(const QString& words, bool bold = false) {
    return QFontMetrics(captionFont(bold)).horizontalAdvance(words);
}

bool isBold(FigureRun::Kind kind) {
    return kind == FigureRun::Kind::now || kind == FigureRun::Kind::change;
}

int widthOf(const std::vector<FigureRun>& runs) {
    return std::accumulate(runs.begin(), runs.end(), 0,
                           [](int sum, const FigureRun& run) { return sum + widthOf(run.text, isBold(run.kind)); });
}

int signRoom(const StripEntry& entry) {
    return entry.sign == SignKind::none ? 0 : scaled(signSize + signGap);
}

QColor colourOf(FigureRun::Kind kind) {
    const ThemeColours& colours = Theme::current().colours();
    switch (kind) {
        case FigureRun::Kind::now:
            return colours.now;
        case FigureRun::Kind::stock:
            return colours.stock;
        case FigureRun::Kind::change:
            return colours.ink;
        case FigureRun::Kind::plain:
            break;
    }
    return colours.ink2;
}

void paintRuns(QPainter& painter, double left, double baseline, const std::vector<FigureRun>& runs) {
    for (const FigureRun& run : runs) {
        painter.setFont(captionFont(isBold(run.kind)));
        painter.setPen(colourOf(run.kind));
        painter.drawText(QPointF(left, baseline), run.text);
        left += painter.fontMetrics().horizontalAdvance(run.text);
    }
}

void addSums(std::vector<StripEntry>& entries, const ConsequenceService& consequences) {
    const auto sums = consequences.sums();
    if (!sums || !consequences.isCurrent(Section::sums)) {
        return;
    }
    for (StripEntry& entry : entries) {
        const std::vector<Note> more = sumNotes(sums->stock, sums->now, entry.sums);
        entry.notes.insert(entry.notes.end(), more.begin(), more.end());
    }
}

}  // namespace

// Cell ------------------------------------------------------------------------------------------------------------

StripCell::StripCell(StripEntry entry, bool isLamp, QWidget* parent)
    : QAbstractButton(parent), m_entry(std::move(entry)), m_isLamp(isLamp) {
    setFocusPolicy(Qt::StrongFocus);
    setProperty("focusOutline", true);
    setAccessibleName(words());
    if (m_entry.notes.empty()) {
        setEnabled(false);
        return;
    }
    setCursor(Qt::PointingHandCursor);
    connect(this, &QAbstractButton::clicked, this, [this] { NoteCard::show(m_entry.notes, *this); });
}

QString StripCell::words() const {
    QString figure;
    for (const FigureRun& run : m_entry.figure) {
        figure += run.text;
    }
    if (m_isLamp) {
        return m_entry.isWarning ? m_entry.lampName + " " + figure : m_entry.lampName;
    }
    QStringList lines{m_entry.name};
    for (const QString& line : {figure, m_entry.smallPrint}) {
        if (!line.isEmpty()) {
            lines << line;
        }
    }
    return lines.join(", ");
}

int StripCell::neededWidth(const StripEntry& entry, bool isLamp) {
    if (isLamp) {
        const int figure = entry.isWarning ? widthOf(" ") + widthOf(entry.figure) : 0;
        return 2 * scaled(lampSide) + signRoom(entry) + widthOf(entry.lampName, entry.isWarning) + figure;
    }
    return 2 * scaled(side) +
           std::max({signRoom(entry) + widthOf(entry.name), widthOf(entry.figure), widthOf(entry.smallPrint)});
}

void StripCell::setOld(bool isOld) {
    m_isOld = isOld;
    update();
}

void StripCell::paintEvent(QPaintEvent*) {
    const ThemeColours& colours = Theme::current().colours();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(rect(), m_entry.isWarning && !m_isOld ? colours.warnSoft : colours.panel);
    painter.setOpacity(m_isOld ? oldOpacity : 1.0);
    const QFontMetricsF metrics(captionFont(false));
    const double box = scaled(signSize);
    if (m_isLamp) {
        const double left = scaled(lampSide);
        const double baseline = height() / 2.0 + (metrics.ascent() - metrics.descent()) / 2.0;
        paintSign(painter, QRectF(left, (height() - box) / 2.0, box, box), m_entry.sign);
        painter.setFont(captionFont(m_entry.isWarning));
        painter.setPen(colours.ink);
        painter.drawText(QPointF(left + signRoom(m_entry), baseline), m_entry.lampName);
        if (m_entry.isWarning) {
            const double from = left + signRoom(m_entry) + widthOf(m_entry.lampName, true) + widthOf(" ");
            paintRuns(painter, from, baseline, m_entry.figure);
        }
        return;
    }
    const double left = scaled(side);
    const double line = metrics.height() + 2.0;
    const double top = (height() - 3.0 * line) / 2.0;
    const auto baseline = [&](int row) { return top + row * line + metrics.ascent(); };
    paintSign(painter, QRectF(left, top + (metrics.height() - box) / 2.0, box, box), m_entry.sign);
    painter.setFont(captionFont(false));
    painter.setPen(colours.ink2);
    painter.drawText(QPointF(left + signRoom(m_entry), baseline(0)), m_entry.name);
    paintRuns(painter, left, baseline(1), m_entry.figure);
    painter.setFont(captionFont(false));
    painter.setPen(colours.ink3);
    painter.drawText(QPointF(left, baseline(2)), m_entry.smallPrint);
}

// Strip -----------------------------------------------------------------------------------------------------------

EffectStrip::EffectStrip(ConsequenceService& consequences, QWidget* parent)
    : QWidget(parent), m_consequences(consequences) {
    setAccessibleName(tr("Side effects"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    connect(&consequences, &ConsequenceService::ready, this, [this](Section section) {
        if (section == Section::effects || section == Section::words || section == Section::sums) {
            follow();
        }
    });
    connect(&consequences, &ConsequenceService::stateChanged, this, &EffectStrip::follow);
    connect(&LevelUnits::current(), &LevelUnits::changed, this, &EffectStrip::follow);
    connect(&Theme::current(), &Theme::changed, this, [this] {
        updateGeometry();
        arrange();
    });
    follow();
}

QSize EffectStrip::sizeHint() const {
    return {400, scaled(m_isFolded ? lampHeight : cellHeight)};
}

void EffectStrip::setFolded(bool folded) {
    m_isFolded = folded;
    updateGeometry();
    arrange();
}

void EffectStrip::setClaimsShown(bool shown) {
    m_showsClaims = shown;
    arrange();
}

void EffectStrip::follow() {
    const auto effects = m_consequences.effects();
    const bool isCurrent = m_consequences.isCurrent(Section::effects);
    const QString trouble = m_consequences.trouble(Section::effects);
    m_isOld = !isCurrent;
    StripEntry head;
    head.lampName = head.name = tr("Side effects");
    head.smallPrint = trouble;
    m_effects.clear();
    if (effects) {
        m_effects = effectEntries(effects->effects);
        addSums(m_effects, m_consequences);
    }
    if (!isCurrent || !effects) {
        head.figure = {{trouble.isEmpty() ? (effects ? tr("solving, not current") : tr("solving")) : tr("not current"),
                        FigureRun::Kind::change}};
        head.isWarning = !trouble.isEmpty();
        m_effects.insert(m_effects.begin(), head);
    }
    const auto words = m_consequences.words();
    m_claims = words && m_consequences.isCurrent(Section::words) ? claimEntries(*words, m_consequences.wordTable())
                                                                 : std::vector<StripEntry>();
    arrange();
}

/// The lightest without a warning share one entry until all have their room.
std::vector<StripEntry> EffectStrip::fitting(std::vector<StripEntry> entries, int room) const {
    const auto needed = [&](const std::vector<StripEntry>& all) {
        int sum = 0;
        for (const StripEntry& entry : all) {
            sum += StripCell::neededWidth(entry, m_isFolded) + 1;
        }
        return sum;
    };
    std::vector<StripEntry> shared;
    while (needed(entries) + (shared.empty() ? 0 : StripCell::neededWidth(sharedEntry(shared), m_isFolded)) > room) {
        auto lightest = entries.end();
        for (auto entry = entries.begin(); entry != entries.end(); ++entry) {
            const bool mayShare = !entry->isWarning && !entry->notes.empty();
            if (mayShare && (lightest == entries.end() || entry->weight < lightest->weight)) {
                lightest = entry;
            }
        }
        if (lightest == entries.end()) {
            break;
        }
        shared.push_back(*lightest);
        entries.erase(lightest);
    }
    if (!shared.empty()) {
        entries.push_back(sharedEntry(shared));
    }
    return entries;
}

void EffectStrip::addCells(const std::vector<StripEntry>& entries, int left, int spare) {
    const int each = entries.empty() ? 0 : spare / static_cast<int>(entries.size());
    for (const StripEntry& entry : entries) {
        auto* cell = new StripCell(entry, m_isFolded, this);
        const int width = StripCell::neededWidth(entry, m_isFolded) + each;
        cell->setGeometry(left, 0, width, height());
        cell->setOld(m_isOld && !entry.notes.empty());
        cell->show();
        m_cells.push_back(cell);
        left += width + 1;
    }
}

void EffectStrip::arrange() {
    for (StripCell* cell : m_cells) {
        cell->hide();
        cell->deleteLater();  // one of them may be handling a press
    }
    m_cells.clear();
    if (width() <= 0) {
        return;
    }
    const auto widths = [this](const std::vector<StripEntry>& all) {
        int sum = 0;
        for (const StripEntry& entry : all) {
            sum += StripCell::neededWidth(entry, m_isFolded) + 1;
        }
        return sum;
    };
    const std::vector<StripEntry> claims = m_isFolded && m_showsClaims ? m_claims : std::vector<StripEntry>();
    const int claimRoom = widths(claims);
    const std::vector<StripEntry> effects = fitting(m_effects, width() - claimRoom);
    const int spare = m_isFolded ? 0 : std::max(0, width() - widths(effects));
    addCells(effects, 0, spare);
    addCells(claims, width() - claimRoom, 0);
    update();
}

void EffectStrip::paintEvent(QPaintEvent*) {
    const ThemeColours& colours = Theme::current().colours();
    QPainter painter(this);
    // The hair between cells is the ground that shows through; lamps stand on the panel.
    painter.fillRect(rect(), m_isFolded ? colours.panel : colours.hair);
    if (!m_isFolded && !m_cells.empty()) {
        const QRect last = m_cells.back()->geometry();
        painter.fillRect(QRect(last.right() + 1, 0, width(), height()), colours.panel);
    }
}

void EffectStrip::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    arrange();
}

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/start_page.h"

#include "app/look/elided_label.h"
#include "app/look/text_link.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/window/demo_tile.h"
#include "app/window/recent_list.h"
#include "app/window/stage_tile.h"
#include "app/window/writing_choices.h"

#include <QGridLayout>
#include <QHBoxLayout>
#include <QPainter>
#include <QPushButton>
#include <QScrollArea>
#include <QShortcut>
#include <QTimer>
#include <QVBoxLayout>

#include <array>
#include <utility>

namespace ohmwright {

namespace {

constexpr int sideWidth = 320;
constexpr int gap = 12;

ThemedLabel* label(TextRole role, bool isBold, QColor ThemeColours::*colour, const QString& words, QWidget* parent) {
    auto* made = new ThemedLabel(role, isBold, colour, parent);
    made->setText(words);
    return made;
}

/// A key as it is printed on a keyboard, and what it does.
class KeyRow : public QWidget {
public:
    KeyRow(QString key, const QString& does, QWidget* parent) : QWidget(parent), m_key(std::move(key)) {
        auto* words = label(TextRole::body, false, &ThemeColours::ink, does, this);
        words->setWordWrap(true);
        auto* layout = new QHBoxLayout(this);
        constexpr int keyRoom = 84;
        layout->setContentsMargins(keyRoom, 0, 0, 0);
        layout->addWidget(words);
        constexpr int keyHeight = 26;
        setMinimumHeight(keyHeight);
    }

protected:
    void paintEvent(QPaintEvent*) override {
        const ThemeColours& c = Theme::current().colours();
        QPainter painter(this);
        painter.setRenderHint(QPainter::Antialiasing);
        painter.setFont(Theme::current().font(TextRole::caption));
        const QFontMetrics metrics(painter.font());
        const QRectF box(0.5, 1.5, metrics.horizontalAdvance(m_key) + 14, metrics.height() + 4);
        painter.setPen(QPen(c.edge, line::hair));
        painter.setBrush(c.raised);
        painter.drawRoundedRect(box, radius::button, radius::button);
        painter.setPen(c.ink2);
        painter.drawText(box, Qt::AlignCenter, m_key);
    }

private:
    QString m_key;
};

/// The eighth card: what a newcomer tries first, and how the lines of the others are read.
class TryCard : public QWidget {
public:
    explicit TryCard(QWidget* parent) : QWidget(parent) {
        auto* layout = new QVBoxLayout(this);
        layout->setContentsMargins(gap, gap - 2, gap, gap);
        layout->addWidget(label(TextRole::lead, true, &ThemeColours::ink, StartPage::tr("Three things to try"), this));
        layout->addWidget(
            new KeyRow(StartPage::tr("wheel"), StartPage::tr("over a part: next value in the drawer"), this));
        layout->addWidget(new KeyRow(StartPage::tr("hold S"), StartPage::tr("see the stock unit again"), this));
        layout->addWidget(
            new KeyRow(StartPage::tr("Ctrl P"), StartPage::tr("bench sheet for the unit on the mat"), this));
        layout->addStretch(1);
        constexpr int legend = 22;
        layout->addSpacing(legend);
    }

protected:
    void paintEvent(QPaintEvent*) override {
        const Theme& theme = Theme::current();
        QPainter painter(this);
        painter.setRenderHint(QPainter::Antialiasing);
        painter.setPen(QPen(theme.colours().ink3, line::hair, Qt::DashLine));
        painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), radius::card, radius::card);
        painter.setFont(theme.font(TextRole::caption));
        const QFontMetrics metrics(painter.font());
        int left = gap;
        const int middle = height() - gap - metrics.height() / 2;
        for (const auto& [pen, words] : {std::pair{theme.stockPen(), StartPage::tr("stock")},
                                         std::pair{theme.nowPen(), StartPage::tr("with the mod")}}) {
            constexpr int sample = 26;
            painter.setPen(pen);
            painter.drawLine(left, middle, left + sample, middle);
            left += sample + 6;
            painter.setPen(theme.colours().ink2);
            painter.drawText(left, middle + metrics.capHeight() / 2, words);
            left += metrics.horizontalAdvance(words) + 14;
        }
    }
};

/// Bold title, a word or two behind it, links at the right.
QHBoxLayout* titleRow(const QString& title, const QString& hint, QWidget* parent) {
    auto* row = new QHBoxLayout;
    row->setSpacing(gap);
    row->addWidget(label(TextRole::screenTitle, true, &ThemeColours::ink, title, parent), 0, Qt::AlignBottom);
    auto* words = new ElidedLabel(TextRole::body, false, &ThemeColours::ink2, parent);
    words->setText(hint);
    words->setAlignment(Qt::AlignLeft | Qt::AlignBottom);
    row->addWidget(words, 1);
    return row;
}

/// All of them in rows of `columns`, replacing how they stood.
void layOut(QGridLayout& grid, const std::vector<QWidget*>& cards, int columns) {
    for (std::size_t i = 0; i < cards.size(); ++i) {
        grid.removeWidget(cards[i]);
    }
    for (std::size_t i = 0; i < cards.size(); ++i) {
        const int index = static_cast<int>(i);
        grid.addWidget(cards[i], index / columns, index % columns);
    }
    for (int column = 0; column < grid.columnCount(); ++column) {
        grid.setColumnStretch(column, column < columns ? 1 : 0);
    }
}

}  // namespace

StartPage::StartPage(Settings& settings, QWidget* parent)
    : QWidget(parent), m_settings(settings), m_lessons(new DemoLessons(this)) {
    m_side = buildSide();
    m_main = new QWidget;
    auto* column = new QVBoxLayout(m_main);
    column->setContentsMargins(28, 22, 28, 16);
    column->setSpacing(gap);
    column->addWidget(buildDemos(), 1);
    column->addSpacing(gap);
    column->addWidget(buildStages());
    column->addWidget(label(TextRole::caption, false, &ThemeColours::ink3,
                            tr("Nothing leaves this machine. Jobs are plain files beside their ten earlier versions."),
                            m_main));

    auto* scroll = new QScrollArea(this);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setWidgetResizable(true);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setWidget(m_main);
    // The page paints the ground itself.
    scroll->viewport()->setAutoFillBackground(false);
    m_main->setAutoFillBackground(false);
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(1);
    layout->addWidget(m_side);
    layout->addWidget(scroll, 1);

    const auto* keys = new QShortcut(QKeySequence::Paste, this, nullptr, nullptr, Qt::WidgetWithChildrenShortcut);
    connect(keys, &QShortcut::activated, this, &StartPage::pasteAsked);
    connect(m_lessons, &DemoLessons::ready, this, [this](const std::vector<DemoLesson>& lessons) {
        for (DemoTile* tile : m_demoTiles) {
            for (const DemoLesson& lesson : lessons) {
                if (lesson.id == tile->id()) {
                    tile->setLesson(lesson);
                }
            }
        }
    });
    connect(&Theme::current(), &Theme::changed, this, [this] {
        m_writing->follow();
        arrange();
    });
    arrange();
}

QWidget* StartPage::buildSide() {
    auto* side = new QWidget(this);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(24, 22, 24, 20);
    column->setSpacing(8);
    column->addWidget(label(TextRole::lead, true, &ThemeColours::ink, tr("Recent jobs"), side));
    m_recent = new RecentList(side);
    column->addWidget(m_recent);
    auto* open = new QPushButton(tr("Open a job or a netlist"), side);
    open->setToolTip(tr("*.ohmjob or *.cir; it may also be dropped here (Ctrl O)"));
    column->addWidget(open);
    column->addStretch(1);
    column->addWidget(label(TextRole::lead, true, &ThemeColours::ink, tr("How you write things"), side));
    column->addWidget(label(TextRole::caption, false, &ThemeColours::ink2, tr("Asked once, change it any time"), side));
    m_writing = new WritingChoices(m_settings, side);
    column->addWidget(m_writing);
    connect(open, &QAbstractButton::clicked, this, &StartPage::openAsked);
    connect(m_recent, &RecentList::fileAsked, this, &StartPage::fileAsked);
    connect(m_writing, &WritingChoices::changed, this, &StartPage::writingChanged);
    return side;
}

QWidget* StartPage::buildDemos() {
    auto* box = new QWidget(m_main);
    auto* column = new QVBoxLayout(box);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gap);
    column->addLayout(
        titleRow(tr("Start on a demo job"), tr("seven units on the bench, each with one honest lesson"), box));
    m_demoGrid = new QGridLayout;
    m_demoGrid->setSpacing(gap);
    column->addLayout(m_demoGrid, 1);
    for (const DemoJob& job : demoJobs()) {
        auto* tile = new DemoTile(job, box);
        connect(tile, &QAbstractButton::clicked, this, [this, id = job.id] { emit demoAsked(id); });
        m_demoTiles.push_back(tile);
        m_demoCards.push_back(tile);
    }
    m_demoCards.push_back(new TryCard(box));
    return box;
}

QWidget* StartPage::buildStages() {
    auto* box = new QWidget(m_main);
    auto* column = new QVBoxLayout(box);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gap);
    QHBoxLayout* title =
        titleRow(tr("New unit from a stage"), tr("what the customer's unit has inside; more stages can follow"), box);
    auto* draw = new TextLink(tr("draw it part by part"), box);
    auto* paste = new TextLink(tr("paste a netlist"), box);
    title->addWidget(draw, 0, Qt::AlignBottom);
    title->addWidget(paste, 0, Qt::AlignBottom);
    column->addLayout(title);
    m_stageGrid = new QGridLayout;
    m_stageGrid->setSpacing(gap);
    column->addLayout(m_stageGrid);
    for (const ShelfStage& stage : stagesToChoose({})) {
        if (stage.piece) {
            auto* tile = new StageTile(stage, box);
            connect(tile, &QAbstractButton::clicked, this, [this, id = tile->id()] { emit joinAsked(id); });
            m_stageTiles.push_back(tile);
        }
    }
    connect(draw, &QAbstractButton::clicked, this, &StartPage::drawAsked);
    connect(paste, &QAbstractButton::clicked, this, &StartPage::pasteAsked);
    return box;
}

void StartPage::arrange() {
    const double scale = Theme::current().textScale();
    m_side->setFixedWidth(qRound(sideWidth * scale));
    const int room = width() - m_side->width() - 60;
    constexpr int leastDemo = 215;
    constexpr int leastStage = 132;
    const auto columns = [room, scale](int least, int most) {
        return qBound(2, static_cast<int>(room / (least * scale + gap)), most);
    };
    layOut(*m_demoGrid, m_demoCards, columns(leastDemo, 4));
    layOut(*m_stageGrid, m_stageTiles, columns(leastStage, static_cast<int>(m_stageTiles.size() + 1) / 2));
}

void StartPage::setRecentFiles(const QStringList& paths) {
    if (paths != m_recentFiles || isVisible()) {
        m_recentFiles = paths;
        m_recent->setFiles(paths);
    }
}

void StartPage::showEvent(QShowEvent* event) {
    m_writing->follow();
    m_recent->setFiles(m_recentFiles);
    if (!m_demoTiles.empty()) {
        m_demoTiles.front()->setFocus();
    }
    // Who opens a job at once does not wait for seven others.
    constexpr int patienceMilliseconds = 60;
    QTimer::singleShot(patienceMilliseconds, this, [this] {
        if (isVisible() && !m_hasLessons) {
            m_hasLessons = true;
            m_lessons->start();
        }
    });
    QWidget::showEvent(event);
}

void StartPage::resizeEvent(QResizeEvent* event) {
    arrange();
    QWidget::resizeEvent(event);
}

void StartPage::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), Theme::current().colours().app);
    painter.fillRect(m_side->geometry(), Theme::current().colours().panel);
}

}  // namespace ohmwright

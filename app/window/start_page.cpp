// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/start_page.h"

#include "app/look/choice_button.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/window/demo_jobs.h"

#include <QFileInfo>
#include <QHBoxLayout>
#include <QPainter>
#include <QShortcut>
#include <QVBoxLayout>

namespace ohmwright {

namespace {

constexpr int columnWidth = 620;
constexpr int demoColumns = 2;

/// A job goes by its name; a netlist may have the same one and says what it is.
QString nameOnButton(const QFileInfo& file) {
    return file.suffix() == "ohmjob" ? file.completeBaseName() : file.fileName();
}

}  // namespace

StartPage::StartPage(QWidget* parent) : QWidget(parent), m_recentBox(new QWidget(this)) {
    auto* column = new QWidget(this);
    column->setFixedWidth(columnWidth);
    auto* title = new ThemedLabel(TextRole::screenTitle, true, &ThemeColours::ink, column);
    title->setText("No job is open");
    auto* open = new ChoiceButton("Open a job or a netlist",
                                  "from its file, *.ohmjob or *.cir; it may also be dropped here", column);
    auto* paste = new ChoiceButton("Paste a netlist", "copied as text anywhere: it is drawn as a map", column);
    auto* choices = new QHBoxLayout;
    choices->addWidget(open);
    choices->addWidget(paste);
    auto* join = new ChoiceButton("New unit from stages", "gain, clipping, tone: joined to its drawing", column);
    auto* draw = new ChoiceButton("Draw a new unit", "part by part, as the board has it", column);
    auto* news = new QHBoxLayout;
    news->addWidget(draw);
    news->addWidget(join);
    auto* demoTitle = new ThemedLabel(TextRole::panelTitle, true, &ThemeColours::ink, column);
    demoTitle->setText("Demo jobs");
    auto* demos = new QVBoxLayout;
    constexpr int gap = 8;
    demos->setSpacing(gap);
    QHBoxLayout* row = nullptr;
    for (const DemoJob& job : demoJobs()) {
        if (row == nullptr || row->count() == demoColumns) {
            row = new QHBoxLayout;
            row->setSpacing(gap);
            demos->addLayout(row);
        }
        auto* demo = new ChoiceButton(job.name, job.complaint, column);
        // A complaint of two lines has its room, whatever the text size.
        const auto giveRoom = [demo] { demo->setFixedHeight(demo->heightForWidth((columnWidth - gap) / demoColumns)); };
        giveRoom();
        connect(&Theme::current(), &Theme::changed, demo, giveRoom);
        row->addWidget(demo, 1);
        connect(demo, &QAbstractButton::clicked, this, [this, id = job.id] { emit demoAsked(id); });
    }
    if (row != nullptr && row->count() < demoColumns) {
        row->addStretch(1);
    }
    auto* recentTitle = new ThemedLabel(TextRole::panelTitle, true, &ThemeColours::ink, m_recentBox);
    recentTitle->setText("Opened last");

    m_recent = new QVBoxLayout(m_recentBox);
    m_recent->setContentsMargins(0, 16, 0, 0);
    m_recent->addWidget(recentTitle);

    auto* list = new QVBoxLayout(column);
    list->setContentsMargins(0, 0, 0, 0);
    list->setSpacing(12);
    list->addWidget(title);
    list->addLayout(choices);
    list->addLayout(news);
    list->addWidget(demoTitle);
    list->addLayout(demos);
    list->addWidget(m_recentBox);

    auto* layout = new QVBoxLayout(this);
    // Between stretches, and not aligned: what wraps in the column would be given the height of the whole width.
    auto* centre = new QHBoxLayout;
    centre->addStretch(1);
    centre->addWidget(column);
    centre->addStretch(1);
    layout->addStretch(2);
    layout->addLayout(centre);
    layout->addStretch(3);
    connect(open, &QAbstractButton::clicked, this, &StartPage::openAsked);
    connect(draw, &QAbstractButton::clicked, this, &StartPage::drawAsked);
    connect(join, &QAbstractButton::clicked, this, &StartPage::joinAsked);
    connect(paste, &QAbstractButton::clicked, this, &StartPage::pasteAsked);
    const auto* keys = new QShortcut(QKeySequence::Paste, this, nullptr, nullptr, Qt::WidgetWithChildrenShortcut);
    connect(keys, &QShortcut::activated, this, &StartPage::pasteAsked);
    setRecentFiles({});
}

void StartPage::setRecentFiles(const QStringList& paths) {
    // The title stays at the top.
    while (m_recent->count() > 1) {
        QLayoutItem* item = m_recent->takeAt(1);
        delete item->widget();
        delete item;
    }
    for (const QString& path : paths.mid(0, 4)) {
        auto* button = new ChoiceButton(nameOnButton(QFileInfo(path)), QFileInfo(path).absolutePath(), m_recentBox);
        m_recent->addWidget(button);
        connect(button, &QAbstractButton::clicked, this, [this, path] { emit fileAsked(path); });
    }
    m_recentBox->setVisible(!paths.isEmpty());
}

void StartPage::paintEvent(QPaintEvent*) {
    const ThemeColours& colours = Theme::current().colours();
    QPainter painter(this);
    painter.fillRect(rect(), colours.canvas);
    painter.setPen(colours.grid);
    for (int y = space::mapPitch; y < height(); y += space::mapPitch) {
        for (int x = space::mapPitch; x < width(); x += space::mapPitch) {
            painter.drawPoint(x, y);
        }
    }
}

}  // namespace ohmwright

/// What stands in the window while no job is open: jobs opened last, the demo jobs, stages for a new unit, and how
/// values are written. No dialog.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStringList>
#include <QWidget>

class QGridLayout;

namespace ohmwright {

class DemoLessons;
class DemoTile;
class RecentList;
class Settings;
class WritingChoices;

class StartPage : public QWidget {
    Q_OBJECT
public:
    /// @param settings  must outlive it.
    explicit StartPage(Settings& settings, QWidget* parent = nullptr);

    void setRecentFiles(const QStringList& paths);

signals:
    void openAsked();
    /// @param stage  that the path begins with, of core/files/stage_shelf.h; empty: none.
    void joinAsked(const QString& stage);
    /// Also by the keys for pasting, while the page has them.
    void pasteAsked();
    void drawAsked();
    void fileAsked(const QString& path);
    /// @param id  of demo_jobs.h.
    void demoAsked(const QString& id);
    /// As WritingChoices::changed().
    void writingChanged();

protected:
    void paintEvent(QPaintEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    QWidget* buildSide();
    QWidget* buildDemos();
    QWidget* buildStages();
    void arrange();

    Settings& m_settings;
    DemoLessons* m_lessons;
    RecentList* m_recent = nullptr;
    WritingChoices* m_writing = nullptr;
    QWidget* m_side = nullptr;
    QWidget* m_main = nullptr;
    QGridLayout* m_demoGrid = nullptr;
    QGridLayout* m_stageGrid = nullptr;
    std::vector<QWidget*> m_demoCards;
    std::vector<DemoTile*> m_demoTiles;
    std::vector<QWidget*> m_stageTiles;
    QStringList m_recentFiles;
    bool m_hasLessons = false;
};

}  // namespace ohmwright

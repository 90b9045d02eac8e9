/// What stands in the window while no job is open: open one, join one of stages, one of the last, or one of the demo
/// jobs. No dialog.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStringList>
#include <QWidget>

class QVBoxLayout;

namespace ohmwright {

class StartPage : public QWidget {
    Q_OBJECT
public:
    explicit StartPage(QWidget* parent = nullptr);

    void setRecentFiles(const QStringList& paths);

signals:
    void openAsked();
    void joinAsked();
    /// Also by the keys for pasting, while the page has them.
    void pasteAsked();
    void drawAsked();
    void fileAsked(const QString& path);
    /// @param id  of demo_jobs.h.
    void demoAsked(const QString& id);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QVBoxLayout* m_recent;
    QWidget* m_recentBox;
};

}  // namespace ohmwright

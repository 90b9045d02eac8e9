/// The jobs opened last, each with its visit's state: read from their files off the GUI thread.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/own_lane.h"
#include "core/plan/job.h"

#include <QStringList>
#include <QWidget>

#include <optional>
#include <vector>

class QVBoxLayout;

namespace ohmwright {

/// What a file holds, as far as it can be said before it is opened.
struct RecentFile {
    QString path;
    QString name;    ///< Of the unit; of the file where it is no job.
    QString serial;  ///< Empty when there is none.
    std::optional<Visit> visit;
    QString state;  ///< "draft, today 21:58"; why it cannot be opened: "not there any more".
    bool isThere = true;
};
RecentFile readRecentFile(const QString& path);

class RecentList : public QWidget {
    Q_OBJECT
public:
    explicit RecentList(QWidget* parent = nullptr);

    /// Newest first; the first few are shown.
    void setFiles(const QStringList& paths);
    [[nodiscard]] const std::vector<RecentFile>& files() const { return m_files; }

signals:
    void fileAsked(const QString& path);

private:
    void show(std::vector<RecentFile> files);

    QStringList m_paths;
    std::vector<RecentFile> m_files;
    QVBoxLayout* m_rows;
    OwnLane<std::vector<RecentFile>> m_lane;
};

}  // namespace ohmwright

/// Notices what others do to the open job's file: at once where the system tells, else when the program is come back
/// to.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFileSystemWatcher>
#include <QObject>
#include <QTimer>

namespace ohmwright {

class JobDocument;

class FileWatch : public QObject {
    Q_OBJECT
public:
    /// What is noticed stands in the document's file condition. The document must outlive the watch.
    explicit FileWatch(JobDocument& document, QObject* parent = nullptr);

private:
    void follow();

    JobDocument& m_document;
    QFileSystemWatcher m_watcher;
    QTimer m_rest;
};

}  // namespace ohmwright

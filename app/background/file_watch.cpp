// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/file_watch.h"

#include "app/document/job_document.h"

#include <QFileInfo>
#include <QGuiApplication>

namespace ohmwright {

namespace {

/// Others may write in several pieces: looked at once they are through.
constexpr int restMilliseconds = 300;

}  // namespace

FileWatch::FileWatch(JobDocument& document, QObject* parent) : QObject(parent), m_document(document) {
    m_rest.setSingleShot(true);
    m_rest.setInterval(restMilliseconds);
    connect(&m_watcher, &QFileSystemWatcher::fileChanged, &m_rest, qOverload<>(&QTimer::start));
    connect(&m_watcher, &QFileSystemWatcher::directoryChanged, &m_rest, qOverload<>(&QTimer::start));
    connect(&m_rest, &QTimer::timeout, this, [this] {
        m_document.checkFile();
        follow();
    });
    connect(&document, &JobDocument::saveStateChanged, this, &FileWatch::follow);
    connect(qGuiApp, &QGuiApplication::applicationStateChanged, this, [this](Qt::ApplicationState state) {
        if (state == Qt::ApplicationActive) {
            m_document.checkFile();
        }
    });
}

/// A file that is replaced by another of its name is another one for the system: it is watched anew.
void FileWatch::follow() {
    const QString path = m_document.path();
    QStringList wanted;
    if (!path.isEmpty()) {
        wanted << path << QFileInfo(path).absolutePath();
    }
    const QStringList watched = m_watcher.files() + m_watcher.directories();
    for (const QString& each : watched) {
        if (!wanted.contains(each)) {
            m_watcher.removePath(each);
        }
    }
    for (const QString& each : wanted) {
        if (!watched.contains(each) && QFileInfo::exists(each)) {
            m_watcher.addPath(each);
        }
    }
}

}  // namespace ohmwright

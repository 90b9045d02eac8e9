// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/earlier_versions.h"

#include "app/document/job_document.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "core/files/earlier_versions.h"
#include "core/files/job_file.h"
#include "core/plan/job_differences.h"

#include <QDateTime>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QListWidget>
#include <QLocale>
#include <QPushButton>
#include <QVBoxLayout>

namespace ohmwright {

namespace {

/// What a line of the list has room for; all of them stand in its tooltip and are read out.
constexpr std::size_t mostOnALine = 3;

std::filesystem::path nativePath(const QString& path) {
    return std::filesystem::path(path.toStdU16String());
}

QString timeOf(const QString& path) {
    return shownLocale().toString(QFileInfo(path).lastModified(), QObject::tr("d MMM yyyy HH:mm"));
}

}  // namespace

EarlierVersions::EarlierVersions(JobDocument& document, QWidget* parent)
    : QDialog(parent), m_document(document), m_head(new QLabel(this)), m_list(new QListWidget(this)) {
    setWindowTitle(tr("Earlier versions"));
    resize(760, 420);
    m_head->setWordWrap(true);
    m_list->setAccessibleName(tr("Earlier versions, newest first"));
    m_list->setWordWrap(true);
    m_show = new QPushButton(tr("Show it &beside"), this);
    m_take = new QPushButton(tr("&Take this one back"), this);
    m_take->setAccessibleDescription(tr("As a step that undo leaves again; the file changes when the job is saved"));
    auto* close = new QPushButton(tr("Close"), this);
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(m_show);
    buttons->addWidget(m_take);
    buttons->addStretch(1);
    buttons->addWidget(close);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(m_head);
    layout->addWidget(m_list, 1);
    layout->addLayout(buttons);
    connect(m_list, &QListWidget::currentRowChanged, this, &EarlierVersions::showChoice);
    connect(m_list, &QListWidget::itemActivated, this, &EarlierVersions::askToShow);
    connect(m_show, &QPushButton::clicked, this, &EarlierVersions::askToShow);
    connect(m_take, &QPushButton::clicked, this, &EarlierVersions::takeBack);
    connect(close, &QPushButton::clicked, this, &QDialog::reject);
    connect(&document, &JobDocument::jobChanged, this, &EarlierVersions::fill);
    connect(&document, &JobDocument::saveStateChanged, this, &EarlierVersions::fill);
    fill();
    m_list->setFocus();
}

void EarlierVersions::fill() {
    const int row = std::max(0, m_list->currentRow());
    m_list->clear();
    m_versions.clear();
    for (const auto& path : earlierVersionsOf(nativePath(m_document.path()))) {
        const Version version{QString::fromStdU16String(path.u16string()),
                              timeOf(QString::fromStdU16String(path.u16string()))};
        const Result<LoadedJob> loaded = loadJob(path);
        auto* item = new QListWidgetItem(m_list);
        if (loaded) {
            const std::vector<std::string> differences = jobDifferences(loaded->job, *m_document.job());
            const QString line =
                differences.empty() ? tr("as it is open") : text(differencesLine(differences, mostOnALine));
            const QString all = differences.empty() ? line : text(differencesLine(differences, differences.size()));
            item->setText(tr("%1\nuntil now: %2").arg(version.when, line));
            item->setToolTip(all);
            item->setData(Qt::AccessibleTextRole, version.when + ", " + all);
        } else {
            item->setText(tr("%1\n%2").arg(version.when, text(loaded.error().message)));
            item->setFlags(Qt::NoItemFlags);
        }
        m_versions.push_back(version);
    }
    const QString name = QFileInfo(m_document.path()).fileName();
    m_head->setText(m_document.path().isEmpty() ? tr("This job has no file yet: once it was saved twice, what its file "
                                                     "held before stands here.")
                    : m_versions.empty()        ? tr("%1 was saved once only: there is no earlier version.").arg(name)
                                         : tr("What %1 held before, newest first. The last ten are kept.").arg(name));
    m_list->setCurrentRow(std::min(row, m_list->count() - 1));
    showChoice();
}

void EarlierVersions::showChoice() {
    const Version* version = chosen();
    m_show->setEnabled(version != nullptr);
    m_take->setEnabled(version != nullptr && m_document.mayEdit());
}

const EarlierVersions::Version* EarlierVersions::chosen() const {
    const QListWidgetItem* item = m_list->currentItem();
    const bool isSound = item && (item->flags() & Qt::ItemIsEnabled);
    return isSound ? &m_versions.at(static_cast<std::size_t>(m_list->currentRow())) : nullptr;
}

void EarlierVersions::askToShow() {
    if (const Version* version = chosen()) {
        emit showAsked(version->path, tr("This is what %1 held on %2. It is shown only.")
                                          .arg(QFileInfo(m_document.path()).fileName(), version->when));
    }
}

void EarlierVersions::takeBack() {
    const Version* version = chosen();
    if (!version) {
        return;
    }
    Result<LoadedJob> loaded = loadJob(nativePath(version->path));
    if (!loaded) {
        m_head->setText(text(loaded.error().message));
        return;
    }
    m_document.edit(std::move(loaded->job), tr("Take back what was saved on %1").arg(version->when),
                    JobAspect::everything);
}

}  // namespace ohmwright

/// What the job's file held before: when, and what differs from what is open. One is shown beside, or taken back.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QDialog>
#include <QString>

#include <vector>

class QLabel;
class QListWidget;
class QPushButton;

namespace ohmwright {

class JobDocument;

class EarlierVersions : public QDialog {
    Q_OBJECT
public:
    /// @param document  must outlive it.
    explicit EarlierVersions(JobDocument& document, QWidget* parent = nullptr);

signals:
    /// @param words  which one it is, as a sentence.
    void showAsked(const QString& path, const QString& words);

private:
    struct Version {
        QString path;
        QString when;
    };
    void fill();
    void showChoice();
    void askToShow();
    /// As an undo step over what is open: nothing that is open is lost.
    void takeBack();
    [[nodiscard]] const Version* chosen() const;

    JobDocument& m_document;
    std::vector<Version> m_versions;
    QLabel* m_head = nullptr;
    QListWidget* m_list = nullptr;
    QPushButton* m_show = nullptr;
    QPushButton* m_take = nullptr;
};

}  // namespace ohmwright

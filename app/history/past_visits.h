/// The unit and its stays, newest first: what was done, what it left with, what differs on return, its papers and
/// notes.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/unit_history.h"

#include <QString>
#include <QWidget>

class QVBoxLayout;

namespace ohmwright {

class JobDocument;
class SentenceList;
class ShopDocument;
class ThemedLabel;
class VisitService;

class PastVisits : public QWidget {
    Q_OBJECT
public:
    PastVisits(JobDocument& document, ShopDocument& shop, VisitService& visits, QWidget* parent = nullptr);

    /// Writes the job as it was when that visit ended. Errors: as jobOfVisit and saveJob.
    Result<void> writeEarlierJob(int visitNumber, const QString& path);

private:
    void showAll();
    void showReturn();
    void addVisit(const PastVisit& past);
    void addNoteRow(const PastVisit& past);
    void askEarlierJob(int visitNumber);
    void note(int visitNumber, const QString& words);

    JobDocument& m_document;
    ShopDocument& m_shop;
    VisitService& m_visits;
    ThemedLabel* m_unit;
    QWidget* m_returnPart;
    SentenceList* m_returned;
    SentenceList* m_pads;
    SentenceList* m_said;
    QVBoxLayout* m_list;
    UnitHistory m_shown;  ///< What the list shows.
    std::vector<QString> m_files;
};

}  // namespace ohmwright

/// The card of the present visit: its state and what the next one asks for, the customer's words, what came in, and the
/// readings before the work and on leaving.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/document/job_document.h"
#include "core/plan/job.h"

#include <QWidget>

#include <map>
#include <vector>

class QLabel;
class QPushButton;
class QVBoxLayout;

namespace ohmwright {

class BenchService;
class JobDocument;
class PanelTitle;
class ReadingTable;
class SentenceList;
class VisitService;
class WordsField;

class VisitCardView : public QWidget {
    Q_OBJECT
public:
    VisitCardView(JobDocument& document, VisitService& visits, BenchService& bench, QWidget* parent = nullptr);

    /// The visit in that state, one undo step, or the reason against it in words. Gone asks for the readings on
    /// leaving.
    void askState(VisitState state);
    /// Writes what leaves, one undo step.
    void depart();

private:
    void build();
    void addWords(QVBoxLayout& layout);
    void showAll();
    void showState();
    void showProgress();
    void showReadings();
    /// Makes the edit through the document and says what it refuses.
    void edit(Result<Job> edited, const QString& name, MergeKind merge = MergeKind::never);
    [[nodiscard]] bool mayLeave() const;

    JobDocument& m_document;
    VisitService& m_visits;
    BenchService& m_bench;
    PanelTitle* m_title;
    std::map<VisitState, QPushButton*> m_states;
    QLabel* m_needsHead;
    SentenceList* m_needs;
    QLabel* m_progressHead;
    SentenceList* m_progress;
    SentenceList* m_refusal;
    WordsField* m_complaint;
    WordsField* m_agreed;
    WordsField* m_condition;
    ReadingTable* m_comingIn;
    QWidget* m_leavingPart;
    ReadingTable* m_leaving;
    QPushButton* m_depart;
    QPushButton* m_next;
    std::vector<UnitReading> m_leavingReadings;  ///< Typed, not yet part of the record.
    bool m_isLeaving = false;                    ///< Gone was asked for.
    std::string m_unit;                          ///< Whose they are.
};

}  // namespace ohmwright

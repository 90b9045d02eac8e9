/// The place "Papers": which papers there are, their pages as they will be printed, and the way onto paper.
///
/// Each paper that leaves, as PDF or from the printer, is recorded in the visit as one undo step. While its answers
/// are worked out the earlier pages stay, pale and stamped; what may not be printed is refused in words, in its place.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/papers/paper_frame.h"
#include "core/plan/papers.h"

#include <QWidget>

#include <memory>

class QLabel;
class QPrinter;
class QPushButton;
class QStackedWidget;
class QTimer;
class QVBoxLayout;

namespace ohmwright {

class JobDocument;
class PageView;
class PaperList;
class PaperService;
class SignText;

class PapersPlace : public QWidget {
    Q_OBJECT
public:
    PapersPlace(JobDocument& document, PaperService& service, QWidget* parent = nullptr);

    void choose(PaperKind kind);
    [[nodiscard]] PaperKind chosen() const;
    void setPaperSize(PaperSize size);
    [[nodiscard]] PaperSize paperSize() const { return m_size; }

    /// The pages of the job as it is are there: they can be saved and printed.
    [[nodiscard]] bool isReady() const;
    /// Why there are no pages stands in their place.
    [[nodiscard]] bool isRefused() const;
    /// Writes the PDF and records it. What is wrong is said in the place and by refused(); nothing is recorded then.
    bool savePdf(const QString& path);
    /// Prints all pages and records it. As savePdf().
    bool printOn(QPrinter& printer);

    [[nodiscard]] const PaperList& list() const { return *m_list; }
    [[nodiscard]] PageView& view() { return *m_view; }
    /// What a user reads where the pages stand: their words, or why there are none.
    [[nodiscard]] QString words() const;
    /// "Bench sheet 29 Nov 2026 10:31, plan 7F3A 91C2: void, printed from an earlier plan": newest first.
    [[nodiscard]] QStringList printed() const;

signals:
    void refused(const QString& sentence);
    /// "bench sheet saved: PATH"
    void said(const QString& words);

protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    QWidget* buildRail();
    QWidget* buildSizes();
    QWidget* buildPages();
    QWidget* buildRefusal();
    void connectWidgets();
    void follow();
    void followPaper();
    void followView();
    void showPrinted();
    void askSave();
    void askPrint();
    void markPartsSeen();
    /// Says why nothing can leave now; true when something can.
    bool mayLeave();
    void record(const QString& done);
    void say(const QString& sentence, bool isRefusal);

    JobDocument& m_document;
    PaperService& m_service;
    PaperSize m_size;
    std::shared_ptr<const Job> m_laidOut;  ///< Of which the pages in the view are.

    PaperList* m_list = nullptr;
    QPushButton* m_a4 = nullptr;
    QPushButton* m_letter = nullptr;
    QPushButton* m_save = nullptr;
    QPushButton* m_print = nullptr;
    SignText* m_message = nullptr;
    QVBoxLayout* m_printedLayout = nullptr;
    QStackedWidget* m_middle = nullptr;
    PageView* m_view = nullptr;
    QWidget* m_refusal = nullptr;
    SignText* m_reason = nullptr;
    QPushButton* m_markSeen = nullptr;
    QLabel* m_title = nullptr;
    QLabel* m_pageWords = nullptr;
    QPushButton* m_previous = nullptr;
    QPushButton* m_next = nullptr;
    QPushButton* m_smaller = nullptr;
    QPushButton* m_larger = nullptr;
    QPushButton* m_fitWidth = nullptr;
    QPushButton* m_fitPage = nullptr;
    QTimer* m_patience = nullptr;
};

}  // namespace ohmwright

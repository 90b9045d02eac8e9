/// One step of the work on the screen: what is done, where the probes go, its two answers, what it may mean.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/look/theme.h"
#include "core/bench/order_of_work.h"
#include "core/bench/work_log.h"

#include <QWidget>

#include <optional>

class QPushButton;
class QScrollArea;
class QVBoxLayout;

namespace ohmwright {

class AnswerButton;
class BenchLabel;
class MeterDial;
class ProbeRow;
class StepChips;
class StepHead;
class StopBand;

class StepView : public QWidget {
    Q_OBJECT
public:
    /// What stands beside the step itself.
    struct Moment {
        QString typed;        ///< Of a reading that is not entered yet.
        int secondsLeft = 0;  ///< Of a wait.
        QString sentence;     ///< About the last answer; empty: how the step is signed.
        bool isBad = false;   ///< Of the sentence.
        bool mayGoBack = true;
    };

    explicit StepView(QWidget* parent = nullptr);

    void showStep(const WorkPlan& work, const WorkLog& log, std::size_t step, const Moment& moment);
    /// No step: a title and why.
    void showNothing(const QString& title, const QString& words);
    void scrollBy(int pixels);
    void scrollToTop();
    /// What a user reads, line under line.
    [[nodiscard]] QString words() const;

signals:
    void passed();
    void failed();
    void back();
    void skipped();

private:
    /// On a low screen what the hands do comes first.
    [[nodiscard]] bool isLow() const;
    BenchLabel* label(int pixels, bool bold, QColor ThemeColours::*colour, const char* name);
    void build();
    void addAnswers(QVBoxLayout& layout);
    void showWork(const WorkPlan& work, const BenchStep& step, const Moment& moment);
    void showAnswers(const WorkPlan& work, const WorkLog& log, std::size_t step, const Moment& moment);
    void showJudgement(const WorkPlan& work, const WorkLog& log, std::size_t step, const Moment& moment);
    void showEntry(const BenchStep& step, const QString& typed);

    StepChips* m_chips = nullptr;
    StepHead* m_head = nullptr;
    BenchLabel* m_title = nullptr;
    BenchLabel* m_sub = nullptr;
    MeterDial* m_dial = nullptr;
    QScrollArea* m_scroll = nullptr;
    ProbeRow* m_red = nullptr;
    ProbeRow* m_black = nullptr;
    BenchLabel* m_work = nullptr;
    BenchLabel* m_wait = nullptr;
    BenchLabel* m_allowed = nullptr;
    BenchLabel* m_entry = nullptr;
    AnswerButton* m_pass = nullptr;
    AnswerButton* m_fail = nullptr;
    QPushButton* m_back = nullptr;
    QPushButton* m_skip = nullptr;
    BenchLabel* m_judged = nullptr;
    BenchLabel* m_suspects = nullptr;
    BenchLabel* m_next = nullptr;
    StopBand* m_stop = nullptr;
};

}  // namespace ohmwright

/// Bench mode: one step of the work a screen, large, worked with one hand or a foot key.
///
/// Space passes, N fails, Backspace goes back, digits begin a reading and Enter takes it. Nothing else acts, so that a
/// sleeve on the keyboard changes nothing. Every signature is one undo step of the job.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/judge_step.h"
#include "core/bench/work_log.h"

#include <QWidget>

#include <memory>
#include <optional>

class QTimer;
class QVBoxLayout;

namespace ohmwright {

class BenchService;
class JobDocument;
class StepView;
class WorkList;

class CheckList : public QWidget {
    Q_OBJECT
public:
    CheckList(JobDocument& document, BenchService& service, QWidget* parent = nullptr);

    /// Who signs; stands beside each reading in the job.
    void setWho(const QString& who) { m_who = who; }
    /// The step on the screen, from 0; nothing while there is no work or all is done.
    [[nodiscard]] std::optional<std::size_t> step() const;
    [[nodiscard]] const WorkList& list() const { return *m_list; }
    /// What a user reads of the step, line under line.
    [[nodiscard]] QString words() const;
    /// What stands left of the step, over a short list; whoever gives it takes it back by showing it elsewhere.
    void setBeside(QWidget* beside);

signals:
    /// The check of the step on the screen; nothing where it has none.
    void checkShown(const std::optional<ohmwright::Check>& check);
    /// X was pressed: the board's other side is wanted.
    void flipAsked();

protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    bool focusNextPrevChild(bool next) override;

private:
    enum class Turn { onWards, stay };

    void build();
    void follow();
    void goTo(std::size_t step);
    void goOn();
    void refresh();
    void showNothing(const QString& title, const QString& words);
    void tick();

    void pass();
    void fail();
    void back();
    void skip();
    void enter();
    void take(std::size_t step, CheckReading reading, const Judgement& judgement);
    void sign(std::size_t step, StepResult result, std::optional<CheckReading> reading, Turn turn);
    void say(const QString& sentence, bool isBad);
    [[nodiscard]] bool mustDischargeNow() const;
    [[nodiscard]] std::size_t dischargeBefore(std::size_t step) const;

    JobDocument& m_document;
    BenchService& m_service;
    std::shared_ptr<const WorkPlan> m_work;
    std::optional<WorkLog> m_log;
    std::optional<std::size_t> m_step;
    QString m_who;
    QString m_typed;
    QString m_sentence;
    bool m_isBad = false;
    bool m_isDischarged = false;  ///< Since the place was opened; asked of high voltage every time.
    int m_secondsLeft = 0;

    void tellCheck();

    WorkList* m_list = nullptr;
    QVBoxLayout* m_left = nullptr;
    StepView* m_view = nullptr;
    QTimer* m_timer = nullptr;
};

}  // namespace ohmwright

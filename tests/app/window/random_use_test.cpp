/// A hand that knows nothing uses the whole window: mouse, keys, wheel, sizes, actions, places. The window goes on
/// answering, its job can always be read back, and undo leads to the beginning again.
/// OHMWRIGHT_EVENTS=1000000 and OHMWRIGHT_SEED=7 ask for more of them and for others. An event is what a hand sends: a
/// button, a key, a step of the wheel or of the mouse, down or up. They are written into a file that is named at the
/// start and stays behind when the program faults.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/spoken_events.h"
#include "core/files/job_file.h"
#include "tests/app/window/open_window.h"
#include "tests/support/random_jobs.h"

#include <QAction>
#include <QDialog>
#include <QMessageBox>
#include <QPushButton>
#include <QTimer>
#include <QWheelEvent>
#include <QWindow>

#include <array>
#include <cstdio>
#include <iostream>
#include <memory>

namespace ohmwright::test {
namespace {

int asked(const char* name, int otherwise) {
    const int number = qEnvironmentVariableIntValue(name);
    return number > 0 ? number : otherwise;
}

constexpr std::array keys{Qt::Key_Tab,      Qt::Key_Backtab,   Qt::Key_Return, Qt::Key_Enter,  Qt::Key_Escape,
                          Qt::Key_Space,    Qt::Key_Backspace, Qt::Key_Left,   Qt::Key_Right,  Qt::Key_Up,
                          Qt::Key_Down,     Qt::Key_Home,      Qt::Key_End,    Qt::Key_PageUp, Qt::Key_Delete,
                          Qt::Key_PageDown, Qt::Key_F6,        Qt::Key_Plus,   Qt::Key_Minus,  Qt::Key_Equal,
                          Qt::Key_Period,   Qt::Key_Comma,     Qt::Key_F2};
constexpr std::array texts{"4k7", "120n", "0", "-1",    "1e30", "1M", "2,2u", "nan",
                           "\"",  "Ω",    "3", "drive", "?",    "A",  "日本"};

class RandomUse : public OpenWindow {
protected:
    RandomUse() : m_chance(static_cast<std::uint32_t>(asked("OHMWRIGHT_SEED", 1))) {
        Settings().setShopFolder(folder.filePath("shop"));
        m_logPath = QDir::temp().filePath(QString("ohmwright-events-%1.log").arg(QCoreApplication::applicationPid()));
        m_log.reset(std::fopen(m_logPath.toLocal8Bit(), "w"));
        std::setvbuf(m_log.get(), nullptr, _IONBF, 0);
        std::cout << "events are written into " << m_logPath.toStdString() << '\n';
        // A dialog waits for an answer in the middle of our event: it gets one, and never a file of the user's.
        m_answers.setInterval(10);
        QObject::connect(&m_answers, &QTimer::timeout, [this] { answer(); });
        m_answers.start();
        setHearer(askWhatItIs);
    }
    ~RandomUse() override {
        setHearer({});
        m_log.reset();
        QFile::remove(m_logPath);
    }

    void answer() {
        auto* box = qobject_cast<QMessageBox*>(QApplication::activeModalWidget());
        auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget());
        QAbstractButton* discard = box ? box->button(QMessageBox::Discard) : nullptr;
        if (discard && m_chance.oneIn(2)) {
            discard->click();
        } else if (dialog) {
            dialog->reject();
        } else if (QWidget* popup = QApplication::activePopupWidget(); popup && m_isActing) {
            popup->close();
        }
    }

    void say(const QString& words) { std::fprintf(m_log.get(), "%s\n", qPrintable(words)); }

    /// `count` events were sent.
    void sent(int count = 1) { m_sent += count; }
    [[nodiscard]] int sentSoFar() const { return m_sent; }

    /// Where the next event goes: what is open over the window, else the window.
    [[nodiscard]] QWidget& front() {
        if (QWidget* popup = QApplication::activePopupWidget()) {
            return *popup;
        }
        QWidget* active = QApplication::activeWindow();
        return active && active->isVisible() && m_chance.oneIn(2) ? *active : *window;
    }
    [[nodiscard]] QPoint pointIn(const QWidget& widget) {
        return {m_chance.below(std::max(1, widget.width())), m_chance.below(std::max(1, widget.height()))};
    }
    [[nodiscard]] Qt::KeyboardModifiers modifiers() {
        constexpr std::array some{Qt::ShiftModifier, Qt::ControlModifier, Qt::AltModifier};
        return m_chance.oneIn(4) ? Qt::KeyboardModifiers(some[static_cast<std::size_t>(m_chance.below(3))])
                                 : Qt::KeyboardModifiers();
    }
    [[nodiscard]] QString nameAt(QWidget& in, const QPoint& at) const {
        const QWidget* under = in.childAt(at);
        return under ? QString("%1 %2").arg(under->metaObject()->className(), under->accessibleName()) : QString();
    }

    void pressMouse() {
        QWidget& in = front();
        QWindow* handle = in.windowHandle();
        if (!handle) {
            return;
        }
        const Qt::MouseButton button = m_chance.oneIn(6) ? Qt::RightButton : Qt::LeftButton;
        const Qt::KeyboardModifiers held = modifiers();
        QPoint at = pointIn(in);
        say(QString("mouse %1 at %2,%3 %4").arg(button).arg(at.x()).arg(at.y()).arg(nameAt(in, at)));
        const QPointer<QWindow> alive(handle);
        QTest::mousePress(handle, button, held, at);
        sent();
        if (m_chance.oneIn(3)) {
            moveMouse(alive, at, m_chance.below(5));
        }
        if (alive) {
            QTest::mouseRelease(handle, button, held, at);
            sent();
        }
        if (alive && m_chance.oneIn(8)) {
            say("  twice");
            pressTwice(in, at, button, held);
        }
    }
    /// From `at` onwards, which is where it stands at the end; over whatever lies below, with or without a button held.
    void moveMouse(const QPointer<QWindow>& handle, QPoint& at, int steps) {
        for (; steps > 0 && handle; --steps) {
            at += QPoint(m_chance.below(161) - 80, m_chance.below(121) - 60);
            at = {std::clamp(at.x(), 0, handle->width() - 1), std::clamp(at.y(), 0, handle->height() - 1)};
            say(QString("  moves to %1,%2").arg(at.x()).arg(at.y()));
            QTest::mouseMove(handle, at);
            sent();
        }
    }
    void hover() {
        QWidget& in = front();
        QPoint at = pointIn(in);
        say("hovers from " + nameAt(in, at));
        moveMouse(in.windowHandle(), at, 1 + m_chance.below(6));
    }
    /// Event by event: the first may close what the second would go to.
    void pressTwice(QWidget& in, const QPoint& at, Qt::MouseButton button, Qt::KeyboardModifiers held) {
        const QPointer<QWidget> under(in.childAt(at));
        for (const QEvent::Type type : {QEvent::MouseButtonDblClick, QEvent::MouseButtonRelease}) {
            if (under) {
                const bool isRelease = type == QEvent::MouseButtonRelease;
                const QPointF there = under->mapFrom(&in, at);
                QMouseEvent event(type, there, under->mapToGlobal(there), button,
                                  isRelease ? Qt::MouseButtons() : Qt::MouseButtons(button), held);
                QApplication::sendEvent(under, &event);
                sent();
            }
        }
    }
    void turnWheel() {
        QWidget& in = front();
        const QPoint at = pointIn(in);
        QWidget* under = in.childAt(at);
        if (!under) {
            return;
        }
        say(QString("wheel at %1,%2 %3").arg(at.x()).arg(at.y()).arg(nameAt(in, at)));
        const QPointF there = under->mapFrom(&in, at);
        QWheelEvent wheel(there, under->mapToGlobal(there), {}, {0, m_chance.oneIn(2) ? 120 : -240}, {}, modifiers(),
                          Qt::NoScrollPhase, false);
        QApplication::sendEvent(under, &wheel);
        sent();
    }
    void pressKey() {
        QWindow* handle = front().windowHandle();
        if (!handle) {
            return;
        }
        const int key = m_chance.oneIn(2)   ? keys[static_cast<std::size_t>(m_chance.below(keys.size()))]
                        : m_chance.oneIn(3) ? Qt::Key_0 + m_chance.below(10)
                                            : Qt::Key_A + m_chance.below(26);
        const Qt::KeyboardModifiers held = modifiers();
        say(QString("key %1 with %2").arg(key, 0, 16).arg(static_cast<int>(held), 0, 16));
        const bool isLetter = key >= Qt::Key_A && key <= Qt::Key_Z;
        const QString text = isLetter || (key >= Qt::Key_0 && key <= Qt::Key_9) ? QString(QChar(key)).toLower() : "";
        // Event by event: each may close the window that the next would go to. QTest::keyClick asks nobody between
        // them.
        const QPointer<QWindow> alive(handle);
        for (const QEvent::Type type : {QEvent::KeyPress, QEvent::KeyRelease}) {
            if (alive) {
                qt_handleKeyEvent(alive, type, key, held, text);
                sent();
                QCoreApplication::processEvents();
            }
        }
    }
    void typeText() {
        QWidget* focus = QApplication::focusWidget();
        if (!focus) {
            return;
        }
        const QString text =
            m_chance.oneIn(30) ? QString(500, 'W') : texts[static_cast<std::size_t>(m_chance.below(texts.size()))];
        say(QString("types %1 into %2").arg(text.left(20), focus->metaObject()->className()));
        QKeyEvent typed(QEvent::KeyPress, Qt::Key_unknown, Qt::NoModifier, text);
        QApplication::sendEvent(focus, &typed);
        sent();
    }
    void triggerAction() {
        const QList<QAction*> actions = window->QWidget::actions() + window->map().actions();
        QAction* action = actions[m_chance.below(static_cast<int>(actions.size()))];
        if (QApplication::activePopupWidget() || !action->isEnabled()) {
            return;
        }
        say("action " + action->objectName());
        action->trigger();
        sent();
    }
    void resize() {
        const QSize size(900 + m_chance.below(1200), 560 + m_chance.below(700));
        say(QString("size %1 x %2").arg(size.width()).arg(size.height()));
        window->resize(size);
        sent();
    }
    void changeLook() {
        say("look");
        Theme::current().setKind(m_chance.oneIn(2) ? ThemeKind::dark : ThemeKind::light);
        Theme::current().setTextScale(1.0 + 0.15 * m_chance.below(3));
        sent();
    }
    void act() {
        m_isActing = true;
        actOnce();
        m_isActing = false;
    }
    void actOnce() {
        const int what = m_chance.below(100);
        if (what < 14) {
            hover();
        } else if (what < 38) {
            pressMouse();
        } else if (what < 52) {
            turnWheel();
        } else if (what < 76) {
            pressKey();
        } else if (what < 84) {
            typeText();
        } else if (what < 94) {
            triggerAction();
        } else if (what < 97) {
            window->showPlace(allPlaces[static_cast<std::size_t>(m_chance.below(allPlaces.size()))]);
            say("place");
            sent();
        } else if (what < 99) {
            resize();
        } else if (m_chance.oneIn(5)) {
            changeLook();  // Takes as long as a hundred others.
        }
    }

    /// As a screen reader does with all that it is told.
    static void askWhatItIs(QAccessibleEvent& event) {
        if (QAccessibleInterface* about = event.accessibleInterface()) {
            for (const QAccessible::Text text : {QAccessible::Name, QAccessible::Value, QAccessible::Description}) {
                (void)about->text(text);
            }
            (void)about->rect();
            (void)about->state();
        }
    }

    /// The window was closed by the hand, or has nothing in it: as at a new start.
    void openAgain() {
        say("opens again");
        window.reset();
        // One in two is listened to.
        setHearer(m_chance.oneIn(2) ? askWhatItIs : std::function<void(QAccessibleEvent&)>());
        window.emplace();
        window->show();
        constexpr std::array demos{"harbour-lamp", "quarry-bell", "moss-engine", "night-ferry"};
        EXPECT_TRUE(window->openDemo(demos[static_cast<std::size_t>(m_chance.below(demos.size()))]));
    }

    void expectSound() {
        const std::string text = writeJob(job());
        const Result<Job> again = readJob(text);
        ASSERT_TRUE(again) << again.error().message;
        ASSERT_EQ(*again, job());
    }
    void expectUndoLeadsBackAndForth() {
        QUndoStack& undo = window->document().undoStack();
        const int steps = undo.index();
        const Job last = job();
        undo.setIndex(0);
        undo.setIndex(steps);
        ASSERT_EQ(job(), last);
    }

    struct Closes {
        void operator()(std::FILE* file) const { std::fclose(file); }
    };
    Chance m_chance;
    QString m_logPath;
    std::unique_ptr<std::FILE, Closes> m_log;
    QTimer m_answers;
    int m_sent = 0;
    bool m_isActing = false;  ///< Still so when the timer comes: something waits for an answer.
};

TEST_F(RandomUse, AHandThatKnowsNothingBreaksNothing) {
    const int events = asked("OHMWRIGHT_EVENTS", 3000);
    constexpr int betweenLooks = 1000;
    constexpr int openings = 4000;
    int nextLook = betweenLooks;
    while (sentSoFar() < events && !HasFailure()) {
        act();
        constexpr int mostMilliseconds = 20;
        QCoreApplication::processEvents(QEventLoop::AllEvents, mostMilliseconds);
        QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
        if (!window->isVisible() || m_chance.oneIn(openings)) {
            openAgain();
        }
        if (sentSoFar() >= nextLook) {
            nextLook += betweenLooks;
            expectSound();
            expectUndoLeadsBackAndForth();
        }
    }
    expectSound();
}

}  // namespace
}  // namespace ohmwright::test

// A hand inside the program itself, which knows nothing of it: a plugin of Qt that the environment names. It works
// through the widgets as a user does, numbers its edits, and writes down when each of them stood in the window; or it
// presses the keys that it is told, and writes down when the last of them was done.
// SPDX-License-Identifier: GPL-3.0-or-later
#include <QAction>
#include <QApplication>
#include <QFile>
#include <QGenericPlugin>
#include <QKeyEvent>
#include <QKeySequence>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QRandomGenerator>
#include <QTest>
#include <QTimer>
#include <QWheelEvent>
#include <QWidget>

#include <chrono>

namespace {

qint64 millisecondsNow() {
    using std::chrono::steady_clock;
    return std::chrono::duration_cast<std::chrono::milliseconds>(steady_clock::now().time_since_epoch()).count();
}

class Hand : public QObject {
public:
    Hand() : m_chance(static_cast<quint32>(qEnvironmentVariableIntValue("OHMWRIGHT_HAND_SEED"))) {
        m_log.setFileName(qEnvironmentVariable("OHMWRIGHT_HAND_LOG"));
        m_mendsOnly = qEnvironmentVariable("OHMWRIGHT_HAND_TASK") == "bring back";
        m_keys = qEnvironmentVariable("OHMWRIGHT_HAND_KEYS").split(' ', Qt::SkipEmptyParts);
        m_hasKeys = !m_keys.isEmpty();
        connect(&m_tick, &QTimer::timeout, this, &Hand::act);
        constexpr int startMilliseconds = 30;
        m_tick.start(startMilliseconds);
    }

private:
    void act() {
        m_window = findWindow();
        if (!m_window || !m_log.isOpen()) {
            (void)(m_window && m_log.open(QIODevice::WriteOnly | QIODevice::Append | QIODevice::Unbuffered));
            return;
        }
        if (m_mendsOnly) {
            bringBack();
            return;
        }
        if (m_hasKeys) {
            pressKey();
            return;
        }
        // The window that was killed before left the job open.
        if (press("Take it over")) {
            return;
        }
        constexpr int shortest = 1;
        constexpr int longest = 60;
        m_tick.setInterval(m_chance.bounded(shortest, longest));
        switch (m_chance.bounded(12)) {
            case 0:
            case 1:
                trigger("job.save");
                break;
            case 2:
                trigger("place.map");
                break;
            case 3:
                wheelSomewhere();
                break;
            case 4:
                m_window->resize(m_chance.bounded(1000, 1800), m_chance.bounded(620, 1000));
                break;
            default:
                writeNumber();
        }
    }

    [[nodiscard]] static QWidget* findWindow() {
        for (QWidget* widget : QApplication::topLevelWidgets()) {
            if (widget->isVisible() && widget->inherits("ohmwright::MainWindow")) {
                return widget;
            }
        }
        return nullptr;
    }

    bool press(const QString& words) {
        for (auto* button : m_window->findChildren<QPushButton*>()) {
            if (button->isVisible() && button->text() == words) {
                button->click();
                return true;
            }
        }
        return false;
    }

    bool trigger(const QString& id) {
        for (QAction* action : m_window->actions()) {
            if (action->objectName() == id && action->isEnabled()) {
                action->trigger();
                return true;
            }
        }
        return false;
    }

    /// The next of the keys, where the keyboard is; once all are done, their number is written down.
    void pressKey() {
        if (!QApplication::focusWidget()) {
            return;
        }
        if (m_keys.isEmpty()) {
            m_log.write(QString("1 %1\n").arg(millisecondsNow()).toUtf8());
            m_tick.stop();
            return;
        }
        const QKeyCombination next = QKeySequence(m_keys.takeFirst())[0];
        QTest::keyClick(static_cast<QWidget*>(nullptr), next.key(), next.keyboardModifiers());
    }

    /// "#17." into the visit's words: an edit like any other, and one that can be told from the one before.
    void writeNumber() {
        if (!trigger("place.history")) {
            return;
        }
        for (auto* field : m_window->findChildren<QPlainTextEdit*>()) {
            if (field->accessibleName() != "What was agreed" || field->isReadOnly()) {
                continue;
            }
            field->setFocus();
            field->selectAll();
            const QString number = QString("#%1.").arg(++m_number);
            QKeyEvent typed(QEvent::KeyPress, Qt::Key_unknown, Qt::NoModifier, number);
            QApplication::sendEvent(field, &typed);
            // What the window refuses is no edit.
            if (m_window->isWindowModified()) {
                m_log.write(QString("%1 %2\n").arg(m_number).arg(millisecondsNow()).toUtf8());
            }
            return;
        }
    }

    void wheelSomewhere() {
        const QPoint at(m_chance.bounded(m_window->width()), m_chance.bounded(m_window->height()));
        QWidget* under = m_window->childAt(at);
        if (!under) {
            return;
        }
        const QPointF there = under->mapFrom(m_window, at);
        QWheelEvent wheel(there, under->mapToGlobal(there), {}, {0, m_chance.bounded(2) == 0 ? 120 : -120}, {}, {},
                          Qt::NoScrollPhase, false);
        QApplication::sendEvent(under, &wheel);
    }

    /// What a user does at the next start: brings the work back, saves, quits.
    void bringBack() {
        if (press("Bring it back")) {
            trigger("job.save");
        }
        m_tick.stop();
        QTimer::singleShot(0, qApp, &QApplication::quit);
    }

    QRandomGenerator m_chance;
    QFile m_log;
    QTimer m_tick;
    QWidget* m_window = nullptr;
    QStringList m_keys;
    int m_number = 0;
    bool m_mendsOnly = false;
    bool m_hasKeys = false;
};

}  // namespace

namespace ohmwright::test {

class HandPlugin : public QGenericPlugin {
    Q_OBJECT
    Q_PLUGIN_METADATA(IID QGenericPluginFactoryInterface_iid FILE "hand.json")
public:
    QObject* create(const QString& /*key*/, const QString& /*specification*/) override { return new Hand; }
};

}  // namespace ohmwright::test

#include "hand_plugin.moc"

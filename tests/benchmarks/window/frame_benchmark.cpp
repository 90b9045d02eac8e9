// How long the window lets a hand wait: from a move of the mouse or the wheel to the painted frame, on the demo Harbour
// Lamp with its window in front. Two frames follow an event: the first shows the knob or the value as it was set, the
// second the curves that were solved for it. Also: from the call of the program to its first frame, and its memory.
//   window_benchmarks [EVENTS]        offscreen, or on the display that QT_QPA_PLATFORM and DISPLAY name
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/knobs/knob_dial.h"
#include "app/look/theme.h"
#include "app/map/map_scene.h"
#include "app/map/map_view.h"
#include "app/map/stage_map.h"
#include "app/window/main_window.h"

#include <QApplication>
#include <QFile>
#include <QMouseEvent>
#include <QTemporaryDir>
#include <QWheelEvent>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <ctime>
#include <string>
#include <vector>

namespace ohmwright {
namespace {

using Clock = std::chrono::steady_clock;

double millisecondsSince(Clock::time_point start) {
    return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

/// Of this thread alone: what a frame costs however many others want the processor.
double threadMilliseconds() {
    timespec now = {};
    ::clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return 1e3 * static_cast<double>(now.tv_sec) + 1e-6 * static_cast<double>(now.tv_nsec);
}

void report(const char* what, std::vector<double> milliseconds) {
    std::sort(milliseconds.begin(), milliseconds.end());
    const auto at = [&milliseconds](double share) {
        return milliseconds[static_cast<std::size_t>(share * static_cast<double>(milliseconds.size() - 1))];
    };
    std::printf("%-46s median %6.1f ms   95 %% %6.1f ms   longest %6.1f ms   n %zu\n", what, at(0.5), at(0.95), at(1.0),
                milliseconds.size());
}

/// Waits until the linear answers that an event asked for are painted.
class Frames : public QObject {
public:
    explicit Frames(MainWindow& window) {
        connect(&window.solver(), &SolverService::linearReady, this, [this] { m_isSolved = true; });
    }

    /// @param act  sends one event.
    template <class Act>
    void measure(const Act& act) {
        m_isSolved = false;
        const Clock::time_point start = Clock::now();
        const double startOfThread = threadMilliseconds();
        act();
        QCoreApplication::processEvents();
        firstOfThread.push_back(threadMilliseconds() - startOfThread);
        first.push_back(millisecondsSince(start));
        while (!m_isSolved && millisecondsSince(start) < 1000.0) {
            QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents);
        }
        QCoreApplication::processEvents();
        solved.push_back(millisecondsSince(start));
        solvedOfThread.push_back(threadMilliseconds() - startOfThread);
    }

    std::vector<double> first;
    std::vector<double> solved;
    std::vector<double> firstOfThread;
    std::vector<double> solvedOfThread;

private:
    bool m_isSolved = false;
};

void rest(int milliseconds) {
    const Clock::time_point start = Clock::now();
    while (millisecondsSince(start) < milliseconds) {
        QCoreApplication::processEvents();
    }
}

void sendMouse(QWidget& widget, QEvent::Type type, const QPointF& at) {
    const bool isMove = type == QEvent::MouseMove;
    QMouseEvent event(type, at, widget.mapToGlobal(at), isMove ? Qt::NoButton : Qt::LeftButton,
                      type == QEvent::MouseButtonRelease ? Qt::NoButton : Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(&widget, &event);
}

void dragKnob(MainWindow& window, int events) {
    auto* dial = window.findChild<KnobDial*>();
    if (!dial) {
        return;
    }
    Frames frames(window);
    QPointF at(dial->width() / 2.0, dial->height() / 2.0);
    sendMouse(*dial, QEvent::MouseButtonPress, at);
    for (int event = 0; event < events; ++event) {
        // Up and down again, so that every move is another position.
        at.ry() += (event / 20) % 2 == 0 ? -3.0 : 3.0;
        frames.measure([&] { sendMouse(*dial, QEvent::MouseMove, at); });
    }
    sendMouse(*dial, QEvent::MouseButtonRelease, at);
    report("knob dragged: the knob painted", frames.first);
    report("  thereof the window's thread", frames.firstOfThread);
    report("knob dragged: the curves solved and painted", frames.solved);
    report("  thereof the window's thread", frames.solvedOfThread);
}

void wheelValue(MainWindow& window, int events, const char* reference) {
    MapView& view = window.map().view();
    const Part* part = findPartByReference(window.document().job()->stock, reference);
    const DrawnPart* drawn = part ? window.map().scene().layout().part(part->id) : nullptr;
    if (!drawn) {
        return;
    }
    Frames frames(window);
    const QPointF at = view.mapFromScene(drawn->body.center());
    for (int event = 0; event < events; ++event) {
        QWheelEvent wheel(at, view.viewport()->mapToGlobal(at), {}, {0, (event / 5) % 2 == 0 ? 120 : -120}, {}, {},
                          Qt::NoScrollPhase, false);
        frames.measure([&] { QApplication::sendEvent(view.viewport(), &wheel); });
    }
    report("value wheeled: the value painted", frames.first);
    report("  thereof the window's thread", frames.firstOfThread);
    report("value wheeled: the curves solved and painted", frames.solved);
    report("  thereof the window's thread", frames.solvedOfThread);
}

/// Resident memory [MiB]. Source: proc(5), statm in pages.
double residentMebibytes() {
    QFile file("/proc/self/status");
    if (file.open(QIODevice::ReadOnly)) {
        for (const QByteArray& line : file.readAll().split('\n')) {
            if (line.startsWith("VmRSS:")) {
                return line.mid(6).trimmed().split(' ').first().toDouble() / 1024.0;
            }
        }
    }
    return 0.0;
}

void run(int events) {
    const Clock::time_point start = Clock::now();
    MainWindow window;
    window.resize(1600, 1000);
    window.show();
    window.openDemo();
    QCoreApplication::processEvents();
    std::printf("%-46s %6.1f ms\n", "window made, demo open, first frame", millisecondsSince(start));
    rest(1500);
    dragKnob(window, events);
    rest(500);
    wheelValue(window, events, "C4");
    std::printf("%-46s %6.1f MiB\n", "resident memory", residentMebibytes());
}

}  // namespace
}  // namespace ohmwright

int main(int argc, char** argv) {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM") && qEnvironmentVariableIsEmpty("DISPLAY")) {
        qputenv("QT_QPA_PLATFORM", "offscreen");
    }
    const QTemporaryDir own;
    for (const char* each : {"XDG_CONFIG_HOME", "XDG_DATA_HOME"}) {
        qputenv(each, own.path().toLocal8Bit());
    }
    QApplication application(argc, argv);
    QApplication::setApplicationName("ohmwright-benchmark");
    ohmwright::Theme::install();
    constexpr int fewEvents = 200;
    ohmwright::run(argc > 1 ? std::max(1, std::atoi(argv[1])) : fewEvents);
    return 0;
}

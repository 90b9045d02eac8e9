// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pictures.h"

#include "app/checklist/check_list.h"
#include "app/curves/curves_panel.h"
#include "app/history/history_place.h"
#include "app/look/theme.h"
#include "app/papers/papers_place.h"
#include "app/window/main_window.h"

#include <QApplication>
#include <QDeadlineTimer>
#include <QDir>
#include <QEventLoop>
#include <QKeyEvent>
#include <QPixmap>
#include <QTimer>

#include <algorithm>

namespace ohmwright {

namespace {

/// Far more than a solve takes on a slow machine.
constexpr int patienceMilliseconds = 120'000;
/// Until queued paint and layout work is through.
constexpr int settleMilliseconds = 80;

Error unwritable(const QString& path) {
    return {ErrorCode::fileUnreadable, path.toStdString() + " cannot be written: choose another folder.",
            path.toStdString()};
}

void pause(int milliseconds) {
    QEventLoop loop;
    QTimer::singleShot(milliseconds, &loop, &QEventLoop::quit);
    loop.exec();
}

/// Until the figures belong to the job and the selection's own answers are there too.
bool waitForAnswers(MainWindow& window) {
    const QDeadlineTimer deadline(patienceMilliseconds);
    do {
        pause(settleMilliseconds);
    } while ((window.solver().isBusy() || (window.solver().isCurrent() && !window.consequences().isCurrent())) &&
             !deadline.hasExpired());
    return window.solver().isCurrent();
}

/// Signs what comes before the first step at which the meter beeps; high voltage waits for its reading.
void passToFirstBeep(CheckList& list) {
    constexpr int mostSteps = 12;
    for (int k = 0; k < mostSteps && list.step() && !list.words().contains(QObject::tr("red on %1").arg(QString()));
         ++k) {
        for (const QEvent::Type type : {QEvent::KeyPress, QEvent::KeyRelease}) {
            QKeyEvent space(type, Qt::Key_Space, Qt::NoModifier, " ");
            QApplication::sendEvent(&list, &space);
        }
    }
}

Result<void> grab(MainWindow& window, ThemeKind theme, const QSize& size, const QString& path) {
    Theme::current().setKind(theme);
    window.resize(size);
    pause(settleMilliseconds);
    if (!window.grab().save(path)) {
        return unwritable(path);
    }
    return {};
}

/// The place "Papers" with each paper in turn, and each as PDF.
Result<void> picturePapers(MainWindow& window, const QDir& target) {
    PapersPlace& papers = window.papers();
    window.showPlace(Place::papers);
    papers.setPaperSize(PaperSize::a4);
    for (const PaperKind kind : allPaperKinds) {
        papers.choose(kind);
        const QDeadlineTimer deadline(patienceMilliseconds);
        while (!papers.isReady() && !papers.isRefused() && !deadline.hasExpired()) {
            pause(settleMilliseconds);
        }
        if (papers.isRefused()) {
            // Nothing leaves, and the sentence that says why is what there is to be seen.
            return grab(window, ThemeKind::light, {1600, 1000}, target.filePath("papers-refused.png"));
        }
        const QString name = QString::fromUtf8(paperWord(kind).data(), static_cast<qsizetype>(paperWord(kind).size()));
        const QString file = kind == PaperKind::bench ? "bench-sheet" : name;
        if (!papers.savePdf(target.filePath(file + ".pdf"))) {
            return Error{ErrorCode::fileUnreadable, window.refusal().toStdString(), target.path().toStdString()};
        }
        const bool isFirst = kind == allPaperKinds.front();
        for (const auto& [theme, size, suffix] : {std::tuple{ThemeKind::light, QSize(1600, 1000), ""},
                                                  std::tuple{ThemeKind::dark, QSize(1366, 768), "-small"}}) {
            const QString path = target.filePath("papers-" + name + suffix + ".png");
            if (*suffix != '\0' && !isFirst) {
                continue;
            }
            if (const Result<void> grabbed = grab(window, theme, size, path); !grabbed) {
                return grabbed;
            }
        }
    }
    return {};
}

/// The place History as soon as it is worked out.
Result<void> grabHistory(MainWindow& window, const QDir& target) {
    window.showPlace(Place::history);
    const QDeadlineTimer deadline(patienceMilliseconds);
    while (!window.history().isCurrent() && !deadline.hasExpired()) {
        pause(settleMilliseconds);
    }
    for (const auto& [theme, size, name] : {std::tuple{ThemeKind::light, QSize(1600, 1000), "history.png"},
                                            std::tuple{ThemeKind::dark, QSize(1366, 768), "history-small.png"}}) {
        if (const Result<void> grabbed = grab(window, theme, size, target.filePath(name)); !grabbed) {
            return grabbed;
        }
    }
    return {};
}

/// All kinds of curve but those that the first pictures show, two at a time.
Result<void> grabCurves(MainWindow& window, const QDir& target) {
    CurvesPanel& curves = window.curves();
    for (const auto& [left, right, name] : {std::tuple{CurveKind::ladder, CurveKind::harmonics, "level-harmonics"},
                                            std::tuple{CurveKind::wave, CurveKind::noise, "time-noise"},
                                            std::tuple{CurveKind::clip, CurveKind::bias, "clip-bias"}}) {
        curves.showCurveAt(right, CurveSide::right);
        curves.showCurveAt(left, CurveSide::left);
        const QDeadlineTimer deadline(patienceMilliseconds);
        while (!curves.isCurrent() && !deadline.hasExpired()) {
            pause(settleMilliseconds);
        }
        for (const auto& [theme, size, suffix] : {std::tuple{ThemeKind::light, QSize(1600, 1000), ""},
                                                  std::tuple{ThemeKind::dark, QSize(1366, 768), "-small"}}) {
            const QString path = target.filePath(QStringLiteral("curves-%1%2.png").arg(name, suffix));
            if (const Result<void> grabbed = grab(window, theme, size, path); !grabbed) {
                return grabbed;
            }
        }
    }
    curves.showCurveAt(CurveKind::clip, CurveSide::right);
    curves.showCurveAt(CurveKind::response, CurveSide::left);
    return {};
}

}  // namespace

Result<void> writePictures(const QString& jobPath, const QString& folder) {
    const QDir target(folder);
    if (!target.mkpath(".")) {
        return unwritable(folder);
    }
    MainWindow window;
    window.resize(1600, 1000);
    window.show();
    if (!window.openFile(jobPath)) {
        return Error{ErrorCode::fileUnreadable, window.refusal().toStdString(), jobPath.toStdString()};
    }
    if (!window.document().mayEdit()) {
        // Open elsewhere, or not whole: the pictures are of the job, and no window is made to be worked in.
        const Job shown = *window.document().job();
        window.document().setJob(shown, {});
    }
    // The part of the first mod that is on: there the window has the most to show.
    const auto job = window.document().job();
    const auto mod = std::find_if(job->plan.begin(), job->plan.end(), [](const Mod& each) { return each.on; });
    if (mod != job->plan.end()) {
        window.selection().setPart(targetOf(mod->change));
    }
    if (!waitForAnswers(window)) {
        const QString fault = window.solver().fault();
        return Error{ErrorCode::noConvergence,
                     fault.isEmpty() ? "The job was not solved in two minutes." : fault.toStdString(),
                     window.solver().faultPlace().toStdString()};
    }
    const std::tuple<ThemeKind, QSize, const char*> pictures[] = {{ThemeKind::dark, {1600, 1000}, "window-dark.png"},
                                                                  {ThemeKind::light, {1366, 768}, "window-small.png"},
                                                                  {ThemeKind::light, {1600, 1000}, "window-light.png"}};
    for (const auto& [theme, size, name] : pictures) {
        if (const Result<void> grabbed = grab(window, theme, size, target.filePath(name)); !grabbed) {
            return grabbed;
        }
    }
    if (const Result<void> grabbed = grabCurves(window, target); !grabbed) {
        return grabbed;
    }
    window.actions().action("view.sums")->trigger();
    if (QWidget* card = QApplication::activePopupWidget()) {
        pause(settleMilliseconds);
        const bool isSaved = card->grab().save(target.filePath("sums.png"));
        card->close();
        if (!isSaved) {
            return unwritable(target.filePath("sums.png"));
        }
    }
    window.showPlace(Place::draw);
    for (const auto& [theme, size, name] : {std::tuple{ThemeKind::light, QSize(1600, 1000), "draw.png"},
                                            std::tuple{ThemeKind::dark, QSize(1366, 768), "draw-small.png"}}) {
        if (const Result<void> grabbed = grab(window, theme, size, target.filePath(name)); !grabbed) {
            return grabbed;
        }
    }
    window.showPlace(Place::board);
    for (const auto& [theme, size, name] : {std::tuple{ThemeKind::light, QSize(1600, 1000), "board.png"},
                                            std::tuple{ThemeKind::dark, QSize(1366, 768), "board-small.png"}}) {
        if (const Result<void> grabbed = grab(window, theme, size, target.filePath(name)); !grabbed) {
            return grabbed;
        }
    }
    window.showPlace(Place::checkList);
    const QDeadlineTimer deadline(patienceMilliseconds);
    while (!window.checkList().step() && !deadline.hasExpired()) {
        pause(settleMilliseconds);
    }
    passToFirstBeep(window.checkList());
    for (const auto& [theme, size, name] : {std::tuple{ThemeKind::light, QSize(1600, 1000), "check-list.png"},
                                            std::tuple{ThemeKind::dark, QSize(1366, 768), "check-list-small.png"}}) {
        if (const Result<void> grabbed = grab(window, theme, size, target.filePath(name)); !grabbed) {
            return grabbed;
        }
    }
    if (const Result<void> grabbed = grabHistory(window, target); !grabbed) {
        return grabbed;
    }
    window.showPlace(Place::map);
    if (!window.curves().savePictures(folder)) {
        return unwritable(target.filePath("response.png"));
    }
    return picturePapers(window, target);
}

}  // namespace ohmwright

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
#include <functional>
#include <vector>

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

struct Shot {
    ThemeKind theme;
    QSize size;
    QString file;
};

/// Most places are looked at in the large window by day and in the small one by night.
std::vector<Shot> largeAndSmall(const QString& name) {
    return {{ThemeKind::light, QSize(1600, 1000), name + ".png"},
            {ThemeKind::dark, QSize(1366, 768), name + "-small.png"}};
}

Result<void> grabAll(MainWindow& window, const QDir& target, const std::vector<Shot>& shots) {
    for (const Shot& shot : shots) {
        Result<void> grabbed = grab(window, shot.theme, shot.size, target.filePath(shot.file));
        if (!grabbed) {
            return grabbed;
        }
    }
    return {};
}

void waitUntil(const std::function<bool()>& isThere) {
    const QDeadlineTimer deadline(patienceMilliseconds);
    while (!isThere() && !deadline.hasExpired()) {
        pause(settleMilliseconds);
    }
}

/// The place "Papers" with each paper in turn, and each as PDF.
Result<void> picturePapers(MainWindow& window, const QDir& target) {
    PapersPlace& papers = window.papers();
    window.showPlace(Place::papers);
    papers.setPaperSize(PaperSize::a4);
    for (const PaperKind kind : allPaperKinds) {
        papers.choose(kind);
        waitUntil([&papers] { return papers.isReady() || papers.isRefused(); });
        if (papers.isRefused()) {
            // Nothing leaves, and the sentence that says why is what there is to be seen.
            return grab(window, ThemeKind::light, {1600, 1000}, target.filePath("papers-refused.png"));
        }
        const QString name = QString::fromUtf8(paperWord(kind).data(), static_cast<qsizetype>(paperWord(kind).size()));
        const QString file = kind == PaperKind::bench ? "bench-sheet" : name;
        if (!papers.savePdf(target.filePath(file + ".pdf"))) {
            return Error{ErrorCode::fileUnreadable, window.refusal().toStdString(), target.path().toStdString()};
        }
        std::vector<Shot> shots = largeAndSmall("papers-" + name);
        if (kind != allPaperKinds.front()) {
            shots.pop_back();
        }
        if (Result<void> grabbed = grabAll(window, target, shots); !grabbed) {
            return grabbed;
        }
    }
    return {};
}

/// Every place beside the map and the papers, each as soon as it is worked out.
Result<void> grabPlaces(MainWindow& window, const QDir& target) {
    window.showPlace(Place::draw);
    if (Result<void> grabbed = grabAll(window, target, largeAndSmall("draw")); !grabbed) {
        return grabbed;
    }
    window.showPlace(Place::board);
    if (Result<void> grabbed = grabAll(window, target, largeAndSmall("board")); !grabbed) {
        return grabbed;
    }
    window.showPlace(Place::checkList);
    waitUntil([&window] { return window.checkList().step().has_value(); });
    passToFirstBeep(window.checkList());
    if (Result<void> grabbed = grabAll(window, target, largeAndSmall("check-list")); !grabbed) {
        return grabbed;
    }
    window.showPlace(Place::history);
    waitUntil([&window] { return window.history().isCurrent(); });
    return grabAll(window, target, largeAndSmall("history"));
}

/// The sums behind the figures, as they stand over the window.
Result<void> grabSums(MainWindow& window, const QDir& target) {
    window.actions().action("view.sums")->trigger();
    QWidget* card = QApplication::activePopupWidget();
    if (card == nullptr) {
        return {};
    }
    pause(settleMilliseconds);
    const QString path = target.filePath("sums.png");
    const bool isSaved = card->grab().save(path);
    card->close();
    return isSaved ? Result<void>() : unwritable(path);
}

/// All kinds of curve but those that the first pictures show, two at a time.
Result<void> grabCurves(MainWindow& window, const QDir& target) {
    CurvesPanel& curves = window.curves();
    for (const auto& [left, right, name] : {std::tuple{CurveKind::ladder, CurveKind::harmonics, "level-harmonics"},
                                            std::tuple{CurveKind::wave, CurveKind::noise, "time-noise"},
                                            std::tuple{CurveKind::clip, CurveKind::bias, "clip-bias"}}) {
        curves.showCurveAt(right, CurveSide::right);
        curves.showCurveAt(left, CurveSide::left);
        waitUntil([&curves] { return curves.isCurrent(); });
        if (Result<void> grabbed = grabAll(window, target, largeAndSmall(QStringLiteral("curves-%1").arg(name)));
            !grabbed) {
            return grabbed;
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
    const std::vector<Shot> first{{ThemeKind::dark, {1600, 1000}, "window-dark.png"},
                                  {ThemeKind::light, {1366, 768}, "window-small.png"},
                                  {ThemeKind::light, {1600, 1000}, "window-light.png"}};
    if (Result<void> grabbed = grabAll(window, target, first); !grabbed) {
        return grabbed;
    }
    if (Result<void> grabbed = grabCurves(window, target); !grabbed) {
        return grabbed;
    }
    if (Result<void> grabbed = grabSums(window, target); !grabbed) {
        return grabbed;
    }
    if (Result<void> grabbed = grabPlaces(window, target); !grabbed) {
        return grabbed;
    }
    window.showPlace(Place::map);
    if (!window.curves().savePictures(folder)) {
        return unwritable(target.filePath("response.png"));
    }
    return picturePapers(window, target);
}

}  // namespace ohmwright

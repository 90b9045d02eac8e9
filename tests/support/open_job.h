/// An open job with its selection and solver, as the window has them, and what tests of panels read from widgets.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/solver_service.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/document/shop_document.h"
#include "app/look/theme.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>
#include <QDir>
#include <QLabel>
#include <QTest>
#include <QWidget>

namespace ohmwright::test {

/// The demo Harbour Lamp with mod A on, as it is opened at first start.
struct OpenJob {
    OpenJob() { document.setJob(harbourLamp(), {}); }

    /// Solving takes a second or so without optimisation; the limit is for a busy machine.
    [[nodiscard]] bool waitForAnswers() {
        constexpr int patienceMilliseconds = 120000;
        QCoreApplication::processEvents();
        return QTest::qWaitFor([this] { return solver.isCurrent(); }, patienceMilliseconds);
    }
    [[nodiscard]] bool waitForLinear() {
        constexpr int patienceMilliseconds = 60000;
        bool isReady = false;
        const auto once = QObject::connect(&solver, &SolverService::linearReady, [&isReady] { isReady = true; });
        const bool came = QTest::qWaitFor([&isReady] { return isReady; }, patienceMilliseconds);
        QObject::disconnect(once);
        return came;
    }
    [[nodiscard]] const Job& job() const { return *document.job(); }

    JobDocument document;
    Selection selection;
    ShopDocument shop;
    SolverService solver{document, selection};
};

/// What stands in the labels of a widget that are shown, in the order they were made.
inline QStringList shownWords(const QWidget& widget) {
    QStringList words;
    for (const QLabel* label : widget.findChildren<QLabel*>()) {
        if (label->isVisibleTo(&widget) && !label->text().isEmpty()) {
            words << label->text();
        }
    }
    return words;
}

/// Labels whose words need more room than they have, as they are shown now.
inline QStringList clippedWords(const QWidget& widget) {
    QStringList words;
    for (const QLabel* label : widget.findChildren<QLabel*>()) {
        const int needed = label->wordWrap() ? label->heightForWidth(label->width()) : label->sizeHint().height();
        const bool isWide = !label->wordWrap() && label->sizeHint().width() > label->width();
        if (label->isVisibleTo(&widget) && !label->text().isEmpty() && (needed > label->height() || isWide)) {
            words << label->text();
        }
    }
    return words;
}

/// A picture of the widget in a theme, kept beside the build for looking at.
inline QImage takePicture(QWidget& widget, const QString& name, ThemeKind kind) {
    Theme::current().setKind(kind);
    constexpr int layoutMilliseconds = 50;  // layouts inside scroll areas take several rounds of the event loop
    QTest::qWait(layoutMilliseconds);
    const QImage picture = widget.grab().toImage();
    QDir().mkpath(OHMWRIGHT_PICTURES_DIR);
    picture.save(
        QString("%1/%2-%3.png").arg(OHMWRIGHT_PICTURES_DIR, name, kind == ThemeKind::light ? "light" : "dark"));
    Theme::current().setKind(ThemeKind::light);
    return picture;
}

/// How many pixels have exactly this colour.
inline int pixelsOf(const QImage& picture, const QColor& colour) {
    int count = 0;
    for (int y = 0; y < picture.height(); ++y) {
        for (int x = 0; x < picture.width(); ++x) {
            count += picture.pixelColor(x, y) == colour ? 1 : 0;
        }
    }
    return count;
}

}  // namespace ohmwright::test

// Every screen of the program: its pictures for the eye, and what can be measured of them.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/every_screen.h"
#include "app/look/symbols.h"
#include "app/look/theme.h"
#include "tests/app/window/text_recorder.h"

#include <QAbstractButton>
#include <QAccessible>
#include <QComboBox>
#include <QDir>
#include <QPushButton>

namespace ohmwright::test {
namespace {

TEST_F(EveryScreen, HasItsPictureInBothThemesAndThreeSizesAndNoWordIsCut) {
    const QString pictures = QString::fromLocal8Bit(OHMWRIGHT_PICTURES_DIR "/screens");
    ASSERT_TRUE(QDir().mkpath(pictures));
    for (const Screen& screen : screens()) {
        screen.show();
        for (const ThemeKind theme : {ThemeKind::light, ThemeKind::dark}) {
            Theme::current().setKind(theme);
            for (const QSize& size : {QSize(1366, 768), QSize(1600, 1000), QSize(1920, 1080)}) {
                window->resize(size);
                settle();
                const QString name = QString("%1-%2-%3.png")
                                         .arg(QString::fromStdString(screen.name))
                                         .arg(size.width())
                                         .arg(theme == ThemeKind::light ? "light" : "dark");
                EXPECT_TRUE(window->grab().save(pictures + "/" + name)) << name.toStdString();
                for (const QWidget* widget : window->findChildren<QWidget*>()) {
                    if (widget->isVisible()) {
                        EXPECT_LE(excessOf(*widget), 1)
                            << name.toStdString() << ": " << pathOf(*widget) << " " << wordsOf(*widget).toStdString();
                    }
                }
            }
        }
        Theme::current().setKind(ThemeKind::light);
        window->resize(1600, 1000);
    }
}

/// "" of a plain screen, "-x2" where a pixel of the window is four of the screen.
QString densityOf(const QWidget& widget) {
    return widget.devicePixelRatioF() > 1.0 ? QString("-x%1").arg(widget.devicePixelRatioF()) : QString();
}

/// The smallest letters of the look (tokens `type`), px.
constexpr double leastLetters = 12.0;

// In a process of its own also with QT_SCALE_FACTOR=2 (CMakeLists.txt).
TEST_F(EveryScreen, HasItsPictureAtLargerTextAndNothingIsCutOrSmall) {
    const QString pictures = QString::fromLocal8Bit(OHMWRIGHT_PICTURES_DIR "/screens");
    ASSERT_TRUE(QDir().mkpath(pictures));
    for (const Screen& screen : screens()) {
        screen.show();
        for (const double scale : {1.0, 1.15, 1.3}) {
            Theme::current().setTextScale(scale);
            for (const QSize& size : {QSize(1366, 768), QSize(1600, 1000)}) {
                window->resize(size);
                settle();
                const QString name = QString("%1-%2-text%3%4.png")
                                         .arg(QString::fromStdString(screen.name))
                                         .arg(size.width())
                                         .arg(scale * 100)
                                         .arg(densityOf(*window));
                EXPECT_EQ(window->size(), size) << name.toStdString() << ": the words push the window apart";
                EXPECT_TRUE(window->grab().save(pictures + "/" + name));
                for (const QWidget* widget : window->findChildren<QWidget*>()) {
                    if (widget->isVisible()) {
                        EXPECT_LE(excessOf(*widget), 1)
                            << name.toStdString() << ": " << pathOf(*widget) << " " << wordsOf(*widget).toStdString();
                    }
                }
                for (const SeenText& seen : textsOf(*window)) {
                    EXPECT_GE(seen.pixels, leastLetters - 0.5) << name.toStdString() << ": " << seen.text.toStdString();
                    EXPECT_LE(seen.cut, unseenCut) << name.toStdString() << ": " << seen.text.toStdString();
                }
            }
        }
        Theme::current().setTextScale(1.0);
        window->resize(1600, 1000);
    }
}

TEST_F(EveryScreen, TheOtherSymbolsHaveTheirPicturesToo) {
    const QString pictures = QString::fromLocal8Bit(OHMWRIGHT_PICTURES_DIR "/screens");
    ASSERT_TRUE(QDir().mkpath(pictures));
    const SymbolStandard before = symbolStandard();
    showMap();
    const QImage iec = window->grab().toImage();
    setSymbolStandard(SymbolStandard::ieee315);
    settle();
    EXPECT_NE(window->grab().toImage(), iec);
    for (const QSize& size : {QSize(1366, 768), QSize(1600, 1000), QSize(1920, 1080)}) {
        for (const Place place : {Place::map, Place::draw}) {
            window->showPlace(place);
            window->resize(size);
            settle();
            EXPECT_TRUE(window->grab().save(
                QString("%1/%2-%3-ieee315.png").arg(pictures, QString(placeName(place)).toLower()).arg(size.width())));
        }
    }
    setSymbolStandard(before);
}

TEST_F(EveryScreen, EveryControlHasAName) {
    for (const Screen& screen : screens()) {
        screen.show();
        settle();
        for (QWidget* widget : window->findChildren<QWidget*>()) {
            const bool isReached = widget->isVisible() && widget->isEnabled() && widget->focusPolicy() != Qt::NoFocus &&
                                   widget->focusProxy() == nullptr;
            if (!isReached) {
                continue;
            }
            QAccessibleInterface* spoken = QAccessible::queryAccessibleInterface(widget);
            ASSERT_NE(spoken, nullptr) << pathOf(*widget);
            EXPECT_FALSE(spoken->text(QAccessible::Name).isEmpty())
                << screen.name << ": " << pathOf(*widget) << " at " << widget->mapTo(&*window, QPoint()).x() << ","
                << widget->mapTo(&*window, QPoint()).y();
        }
    }
}

// Panels whose first control was made after another panel's were passed over.
TEST_F(EveryScreen, TheKeyboardReachesEveryPanelOfTheMapAndComesBack) {
    showMap();
    window->map().view().setFocus();
    std::set<std::string> reached;
    for (int step = 0; step < 6; ++step) {
        ASSERT_NE(QApplication::focusWidget(), nullptr) << "after " << step << " steps";
        for (const QWidget* widget = QApplication::focusWidget(); widget != &*window; widget = widget->parentWidget()) {
            reached.insert(widget->metaObject()->className());
        }
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_F6);
    }
    for (const char* panel : {"LeftRail", "StageMap", "CurvesPanel", "PartPanel", "KnobRow", "EffectStrip"}) {
        EXPECT_TRUE(reached.contains(std::string("ohmwright::") + panel)) << panel;
    }
    EXPECT_TRUE(window->map().isAncestorOf(QApplication::focusWidget())) << "once round";
}

}  // namespace
}  // namespace ohmwright::test

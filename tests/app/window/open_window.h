/// The window with the demo job open, and what a user reads and presses in it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/curves/curves_panel.h"
#include "app/look/figure_table.h"
#include "app/look/sign_text.h"
#include "app/map/map_scene.h"
#include "app/map/map_view.h"
#include "app/map/stage_map.h"
#include "app/part/part_panel.h"
#include "app/window/main_window.h"

#include <gtest/gtest.h>
#include <QAbstractItemView>
#include <QApplication>
#include <QDir>
#include <QFile>
#include <QLabel>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>

namespace ohmwright::test {

class OpenWindow : public testing::Test {
protected:
    OpenWindow() {
        QSettings().clear();
        window.emplace();
        window->resize(1600, 1000);
        window->show();
        window->activateWindow();
        EXPECT_TRUE(QTest::qWaitForWindowActive(&*window));
        // A copy, so that saving does not change the demo.
        path = folder.filePath("harbour-lamp.ohmjob");
        EXPECT_TRUE(
            QFile::copy(QString(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/harbour-lamp/harbour-lamp.ohmjob", path));
        QFile::setPermissions(path, QFile::ReadOwner | QFile::WriteOwner);
        EXPECT_TRUE(window->openFile(path)) << window->refusal().toStdString();
        // The map is drawn when the event loop is free again.
        QCoreApplication::processEvents();
    }

    /// Another demo with its shop's drawer, likewise a copy.
    [[nodiscard]] QString copyOfDemo(const QString& name) const {
        const QDir demos(QString(OHMWRIGHT_SOURCE_DIR) + "/demo-projects");
        const QDir copies(folder.filePath("demos"));
        const QString file = name + '/' + name + ".ohmjob";
        EXPECT_TRUE(QDir().mkpath(copies.filePath(name)));
        EXPECT_TRUE(QFile::copy(demos.filePath(file), copies.filePath(file)));
        if (!QFile::exists(copies.filePath("drawer.json"))) {
            EXPECT_TRUE(QFile::copy(demos.filePath("drawer.json"), copies.filePath("drawer.json")));
        }
        return copies.filePath(file);
    }

    /// Solving takes a second or so without optimisation; the limit is for a busy machine.
    bool waitForAnswers() {
        constexpr int patienceMilliseconds = 120'000;
        QCoreApplication::processEvents();
        return QTest::qWaitFor([this] { return window->solver().isCurrent() && !window->solver().isBusy(); },
                               patienceMilliseconds);
    }

    template <class Widget>
    [[nodiscard]] Widget* find(const QString& accessibleName) const {
        for (Widget* widget : window->template findChildren<Widget*>()) {
            if (widget->accessibleName() == accessibleName) {
                return widget;
            }
        }
        ADD_FAILURE() << "no widget is called " << accessibleName.toStdString();
        return nullptr;
    }

    [[nodiscard]] const Job& job() { return *window->document().job(); }
    [[nodiscard]] PartId idOf(const char* reference) {
        const Part* part = findPartByReference(job().stock, reference);
        return part ? part->id : PartId();
    }
    [[nodiscard]] bool isOn(const char* letter) {
        for (const Mod& mod : job().plan) {
            if (mod.letter == letter) {
                return mod.on;
            }
        }
        return false;
    }

    void clickPart(const char* reference) {
        MapView& view = window->map().view();
        const DrawnPart* drawn = window->map().scene().layout().part(idOf(reference));
        ASSERT_NE(drawn, nullptr) << reference;
        QTest::mouseClick(view.viewport(), Qt::LeftButton, {}, view.mapFromScene(drawn->body.center()));
        QCoreApplication::processEvents();
    }

    /// Keys go wherever the keyboard is.
    void type(const QString& text) {
        for (const QChar letter : text) {
            ASSERT_NE(QApplication::focusWidget(), nullptr);
            QTest::keyClicks(QApplication::focusWidget(), letter);
        }
    }
    void press(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
        ASSERT_NE(QApplication::focusWidget(), nullptr);
        QTest::keyClick(QApplication::focusWidget(), key, modifiers);
    }

    /// Switches a mod with Space in the mods list.
    void switchMod(int row) {
        auto* list = find<QAbstractItemView>("Mods");
        ASSERT_NE(list, nullptr);
        list->setFocus();
        list->setCurrentIndex(list->model()->index(row, 0));
        QTest::keyClick(list, Qt::Key_Space);
    }

    /// A row of "this change alone" in the part panel.
    [[nodiscard]] FigureRow aloneRow(const QString& label) {
        for (const FigureTable* table : window->partPanel().findChildren<FigureTable*>()) {
            for (const FigureRow& row : table->rows()) {
                if (row.label == label) {
                    return row;
                }
            }
        }
        ADD_FAILURE() << "no row " << label.toStdString();
        return {};
    }

    /// What the cursor column reads out, as one sentence.
    [[nodiscard]] QString cursorWords() const {
        const auto* column = find<QWidget>("Cursor");
        return column ? column->accessibleDescription() : QString();
    }

    [[nodiscard]] bool reads(const QString& words) const {
        for (const QWidget* widget : window->findChildren<QWidget*>()) {
            const auto* label = qobject_cast<const QLabel*>(widget);
            const auto* sign = qobject_cast<const SignText*>(widget);
            const QString text = label ? label->text() : sign ? sign->text() : QString();
            if (text.contains(words) && widget->isVisible()) {
                return true;
            }
        }
        return false;
    }

    QTemporaryDir folder;
    QString path;
    std::optional<MainWindow> window;
};

}  // namespace ohmwright::test

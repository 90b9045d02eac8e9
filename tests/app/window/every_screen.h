/// Every screen of the program, one after the other, with the demo job open.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/board/board_place.h"
#include "app/checklist/check_list.h"
#include "app/history/history_place.h"
#include "app/look/elided_label.h"
#include "app/look/theme.h"
#include "app/map/draw_board.h"
#include "app/papers/papers_place.h"
#include "app/part/target_panel.h"
#include "app/part/walk_panel.h"
#include "app/stages/stage_joiner.h"
#include "core/measure/curve_table.h"
#include "tests/app/window/open_window.h"

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStyleOptionFrame>

#include <functional>

namespace ohmwright::test {

/// What a label, button or empty field says; empty where its words may wrap or are cut with a tip that has them.
inline QString wordsOf(const QWidget& widget) {
    if (const auto* label = qobject_cast<const QLabel*>(&widget)) {
        const bool mayBeCut = dynamic_cast<const ElidedLabel*>(label) != nullptr || label->wordWrap() ||
                              label->textFormat() == Qt::RichText;
        return mayBeCut ? QString() : label->text();
    }
    if (const auto* button = qobject_cast<const QPushButton*>(&widget)) {
        return button->text().remove('&');
    }
    const auto* field = qobject_cast<const QLineEdit*>(&widget);
    return field != nullptr && field->text().isEmpty() ? field->placeholderText() : QString();
}

inline int roomForWords(const QWidget& widget) {
    if (qobject_cast<const QPushButton*>(&widget) != nullptr) {
        return widget.width();
    }
    const auto* field = qobject_cast<const QLineEdit*>(&widget);
    if (field == nullptr) {
        return widget.contentsRect().width();
    }
    constexpr int ownMargins = 4;  // Of a QLineEdit, which asks no style for them.
    QStyleOptionFrame frame;
    frame.initFrom(field);
    frame.lineWidth = field->style()->pixelMetric(QStyle::PM_DefaultFrameWidth, &frame, field);
    return field->style()->subElementRect(QStyle::SE_LineEditContents, &frame, field).width() - ownMargins;
}

/// How much wider the words of a label, button or empty field are than their room [px].
inline int excessOf(const QWidget& widget) {
    int widest = 0;
    for (const QString& line : wordsOf(widget).split('\n')) {
        widest = std::max(widest, widget.fontMetrics().horizontalAdvance(line));
    }
    return widest == 0 ? 0 : widest - roomForWords(widget);
}

inline std::string pathOf(const QWidget& widget) {
    const QWidget* parent = widget.parentWidget();
    return (parent ? std::string(parent->metaObject()->className()) + " > " : "") + widget.metaObject()->className();
}

struct Screen {
    std::string name;
    std::function<void()> show;
};

class EveryScreen : public OpenWindow {
protected:
    ~EveryScreen() override {
        Theme::current().setTextScale(1.0);
        Theme::current().setKind(ThemeKind::light);
    }

    void press(const char* action) {
        window->actions().action(action)->trigger();
        QCoreApplication::processEvents();
    }

    /// With a part of the plan selected, as a technician has it most of the time.
    void showMap() {
        window->showPlace(Place::map);
        emit window->walkPanel().closed();
        emit window->targetPanel().closed();
        clickPart("C4");
        EXPECT_TRUE(waitForAnswers());
        EXPECT_TRUE(QTest::qWaitFor([this] { return window->consequences().isCurrent(); }, 120'000));
    }

    std::vector<Screen> screens() {
        std::vector<Screen> all{
            {"map", [this] { showMap(); }},
            {"targets",
             [this] {
                 showMap();
                 window->curves().cornerDragged(500.0);
             }},
            {"walk",
             [this] {
                 showMap();
                 press("view.walk");
             }},
            {"draw", [this] { window->showPlace(Place::draw); }},
            {"board", [this] { window->showPlace(Place::board); }},
            {"board-solder",
             [this] {
                 window->showPlace(Place::board);
                 window->boardPlace().flip();
             }},
            {"check-list",
             [this] {
                 window->showPlace(Place::checkList);
                 EXPECT_TRUE(QTest::qWaitFor([this] { return window->checkList().step().has_value(); }, 120'000));
             }},
            {"drawer", [this] { window->showPlace(Place::drawer); }},
            {"papers",
             [this] {
                 window->showPlace(Place::papers);
                 EXPECT_TRUE(QTest::qWaitFor(
                     [this] { return window->papers().isReady() || window->papers().isRefused(); }, 120'000));
             }},
            {"history",
             [this] {
                 window->showPlace(Place::history);
                 EXPECT_TRUE(QTest::qWaitFor([this] { return window->history().isCurrent(); }, 120'000));
             }},
            {"join", [this] { press("job.join"); }},
            {"keep",
             [this] {
                 showMap();
                 press("stage.keep");
             }},
        };
        for (const CurveKindName& kind : curveKindNames) {
            all.push_back({"curves-" + std::string(kind.id), [this, id = std::string(kind.id)] {
                               showMap();
                               press(("curves." + id).c_str());
                               EXPECT_TRUE(waitForAnswers());
                               QTest::qWait(200);  // a kind of its own service
                           }});
        }
        all.push_back({"start", [this] {
                           window->document().setJob({}, {});
                           QTest::qWait(1500);  // the demos' curves
                       }});
        return all;
    }

    void settle() {
        for (int turn = 0; turn < 3; ++turn) {
            QCoreApplication::sendPostedEvents();
            QCoreApplication::processEvents();
        }
    }
};

}  // namespace ohmwright::test

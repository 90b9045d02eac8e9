/// Every screen of the program, one after the other, with the demo job open.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/board/board_place.h"
#include "app/checklist/check_list.h"
#include "app/history/history_place.h"
#include "app/look/theme.h"
#include "app/map/draw_board.h"
#include "app/papers/papers_place.h"
#include "app/part/target_panel.h"
#include "app/part/walk_panel.h"
#include "app/stages/stage_joiner.h"
#include "core/measure/curve_table.h"
#include "tests/app/window/open_window.h"

#include <functional>

namespace ohmwright::test {

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

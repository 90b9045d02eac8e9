// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/main_menus.h"

#include "app/look/action_table.h"
#include "app/look/level_units.h"
#include "app/look/settings.h"
#include "core/measure/curve_table.h"

#include <QActionGroup>
#include <QFileInfo>
#include <QMenu>
#include <QMenuBar>

#include <array>
#include <cmath>
#include <string>
#include <utility>

namespace ohmwright {

MainMenus::MainMenus(ActionTable& actions, Settings& settings) : m_actions(actions), m_settings(settings) {}

void MainMenus::fill(QMenuBar& bar, const std::map<Place, QWidget*>& places) {
    fillFile(*bar.addMenu(tr("&File")));
    fillEdit(*bar.addMenu(tr("&Edit")));
    fillView(*bar.addMenu(tr("&View")), places);
    bar.addMenu(tr("&Help"))
        ->addActions(
            {m_actions.action("help.shortcuts"), m_actions.action("help.news"), m_actions.action("help.about")});
}

void MainMenus::fillFile(QMenu& menu) {
    const auto action = [this](const char* id) { return m_actions.action(id); };
    menu.addActions({action("job.draw"), action("job.join"), action("job.open"), action("job.pasteNetlist")});
    auto* recent = new QMenu(&menu);
    connect(recent, &QMenu::aboutToShow, this, [this, recent] { fillRecent(*recent); });
    action("job.recent")->setMenu(recent);
    menu.addAction(action("job.recent"));
    menu.addSeparator();
    menu.addActions({action("job.save"), action("job.saveAs"), action("job.earlier")});
    menu.addSeparator();
    menu.addActions({action("job.exportNetlist"), action("job.exportDrawing"), action("curves.export"),
                     action("curves.copy"), action("paper.benchSheet"), action("paper.drawing")});
    menu.addSeparator();
    menu.addActions({action("shop.choose"), action("app.settings")});
    menu.addSeparator();
    menu.addAction(action("app.quit"));
}

void MainMenus::fillEdit(QMenu& menu) {
    const auto action = [this](const char* id) { return m_actions.action(id); };
    menu.addActions({action("edit.undo"), action("edit.redo"), action("edit.copyDrawing")});
    menu.addSeparator();
    menu.addActions({action("mod.mute"), action("mod.remove")});
    menu.addSeparator();
    menu.addAction(action("stage.keep"));
    QMenu* change = menu.addMenu(tr("&Change part"));
    connect(change, &QMenu::aboutToShow, this, [this, change] {
        change->clear();
        emit changesAsked(change);
        if (change->isEmpty()) {
            change->addAction(tr("Select a part first"))->setEnabled(false);
        }
    });
}

void MainMenus::fillView(QMenu& menu, const std::map<Place, QWidget*>& places) {
    const auto action = [this](const char* id) { return m_actions.action(id); };
    menu.addActions({action("view.holdStock"), action("view.owners"), action("view.probe"), action("view.nextLeg"),
                     action("view.previousLeg")});
    menu.addActions({action("view.nearer"), action("view.farther"), action("view.whole")});
    menu.addSeparator();
    for (const CurveKindName& kind : curveKindNames) {
        menu.addAction(action(("curves." + std::string(kind.id)).c_str()));
    }
    menu.addActions({action("curves.table"), action("curves.pin")});
    menu.addSeparator();
    for (const Place place : allPlaces) {
        action(placeAction(place))->setVisible(places.contains(place));
        menu.addAction(action(placeAction(place)));
    }
    menu.addSeparator();
    action("view.theme")->setMenu(themeMenu(menu));
    action("view.textSize")->setMenu(textSizeMenu(menu));
    action("view.levels")->setMenu(levelsMenu(menu));
    menu.addActions({action("view.sums"), action("view.walk"), action("view.differs")});
    menu.addActions({action("view.theme"), action("view.textSize"), action("view.levels"), action("view.keepStill")});
    menu.addSeparator();
    menu.addActions({action("go.nextPanel"), action("go.previousPanel")});
}

void MainMenus::fillRecent(QMenu& menu) {
    menu.clear();
    for (const QString& path : m_settings.recentFiles()) {
        menu.addAction(QFileInfo(path).fileName().replace('&', "&&"), this, [this, path] { emit recentAsked(path); })
            ->setStatusTip(path);
    }
    if (menu.isEmpty()) {
        menu.addAction(tr("Nothing was opened yet"))->setEnabled(false);
    }
}

QMenu* MainMenus::themeMenu(QMenu& view) {
    auto* menu = new QMenu(&view);
    auto* group = new QActionGroup(menu);
    const std::array choices{std::pair{ThemeChoice::light, tr("&Light")}, std::pair{ThemeChoice::dark, tr("&Dark")},
                             std::pair{ThemeChoice::system, tr("As the des&ktop")}};
    for (const auto& [choice, words] : choices) {
        QAction* item = menu->addAction(words);
        item->setCheckable(true);
        item->setChecked(m_settings.theme() == choice);
        group->addAction(item);
        connect(item, &QAction::triggered, this, [this, choice = choice] {
            m_settings.setTheme(choice);
            applyLookSettings(m_settings);
        });
        connect(menu, &QMenu::aboutToShow, item,
                [this, item, choice = choice] { item->setChecked(m_settings.theme() == choice); });
    }
    return menu;
}

QMenu* MainMenus::levelsMenu(QMenu& view) {
    auto* menu = new QMenu(&view);
    auto* group = new QActionGroup(menu);
    const auto mark = [group] {
        for (QAction* item : group->actions()) {
            item->setChecked(item->data().toInt() == static_cast<int>(LevelUnits::current().unit()));
        }
    };
    for (const LevelUnitName& each : levelUnitNames) {
        QAction* item = menu->addAction(unitWords(each.unit));
        item->setCheckable(true);
        item->setData(static_cast<int>(each.unit));
        group->addAction(item);
        connect(item, &QAction::triggered, this, [unit = each.unit] { LevelUnits::current().setUnit(unit); });
    }
    // The unit is also changed at a plot's axis: wherever that happens, it is remembered here.
    connect(&LevelUnits::current(), &LevelUnits::changed, this, [this, mark] {
        m_settings.setLevelUnit(LevelUnits::current().unit());
        mark();
    });
    mark();
    return menu;
}

QMenu* MainMenus::textSizeMenu(QMenu& view) {
    auto* menu = new QMenu(&view);
    auto* group = new QActionGroup(menu);
    for (const double scale : {1.0, 1.15, 1.3}) {
        QAction* item = menu->addAction(tr("%1 %").arg(100.0 * scale, 0, 'f', 0));
        item->setCheckable(true);
        item->setChecked(std::abs(m_settings.textScale() - scale) < 0.01);
        group->addAction(item);
        connect(item, &QAction::triggered, this, [this, scale] {
            m_settings.setTextScale(scale);
            applyLookSettings(m_settings);
        });
        connect(menu, &QMenu::aboutToShow, item,
                [this, item, scale] { item->setChecked(std::abs(m_settings.textScale() - scale) < 0.01); });
    }
    return menu;
}

}  // namespace ohmwright

/// The menus of the header. Every entry is an action of the table; the choices of theme and text size are the
/// settings'.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/window/place.h"

#include <QObject>

#include <map>

class QMenu;
class QMenuBar;
class QWidget;

namespace ohmwright {

class ActionTable;
class Settings;

class MainMenus : public QObject {
    Q_OBJECT
public:
    /// Both must outlive the menus.
    MainMenus(ActionTable& actions, Settings& settings);

    /// @param places  that this window has: those it has not are hidden.
    void fill(QMenuBar& bar, const std::map<Place, QWidget*>& places);

signals:
    /// A file that was opened before is wanted again.
    void recentAsked(const QString& path);
    /// What can be changed at the selected part is to be put into the menu, which is about to show; left empty when
    /// none is selected.
    void changesAsked(QMenu* menu);

private:
    void fillFile(QMenu& menu);
    void fillEdit(QMenu& menu);
    void fillView(QMenu& menu, const std::map<Place, QWidget*>& places);
    void fillRecent(QMenu& menu);
    QMenu* themeMenu(QMenu& view);
    QMenu* textSizeMenu(QMenu& view);
    QMenu* levelsMenu(QMenu& view);

    ActionTable& m_actions;
    Settings& m_settings;
};

}  // namespace ohmwright

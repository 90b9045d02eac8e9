/// Every action of the program: id, words, keys and icon in one table. Menus, toolbar, shortcuts and help read it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/look/icons.h"

#include <QKeySequence>
#include <QMap>
#include <QObject>
#include <QString>

#include <optional>
#include <span>
#include <vector>

class QAction;
class QWidget;

namespace ohmwright {

/// Where an action's keys work.
enum class KeyScope {
    window,  ///< Everywhere in the window.
    panels,  ///< Only while the map, the curves or the list has focus, never in a field: plain letters.
    held,    ///< While the key is down: no shortcut is set; whoever shows the action listens for the key itself.
};

struct ActionEntry {
    const char* id;    ///< "edit.undo"; the part before the point is the menu.
    const char* text;  ///< Menu text with its mnemonic: "&Undo".
    const char* hint;  ///< One sentence for the status line and the help page.
    const char* keys;  ///< Default keys, portable text, ";" between alternatives; empty when there are none.
    KeyScope scope = KeyScope::window;
    std::optional<IconName> icon = {};
    bool checkable = false;
};

/// In the order of the menus.
std::span<const ActionEntry> actionEntries();

/// A gesture that is no action but stands on the help page: "Wheel, Page Up, Page Down" - "next drawer value".
struct Gesture {
    const char* keys;
    const char* hint;
};
std::span<const Gesture> gestures();

/// The QActions of the table, made once for a window.
class ActionTable : public QObject {
    Q_OBJECT
public:
    explicit ActionTable(QObject* parent = nullptr);

    /// REQUIRES: `id` is in the table.
    [[nodiscard]] QAction* action(const QString& id) const;
    /// All actions of one menu ("edit"), in order.
    [[nodiscard]] std::vector<QAction*> menu(const QString& name) const;

    /// Makes the window-wide keys work in `window`.
    void attachWindow(QWidget* window) const;
    /// Makes the letter keys work while `panel` or a child of it has focus.
    void attachPanel(QWidget* panel) const;

    /// "Undo (Ctrl+Z)": for tool tips and accessible names.
    [[nodiscard]] QString wordsWithKeys(const QString& id) const;
    /// The keys as shown beside the action, "S"; empty when there are none.
    static QString keysText(const ActionEntry& entry);

private:
    QMap<QString, QAction*> m_actions;
};

}  // namespace ohmwright

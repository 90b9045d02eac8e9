// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/action_table.h"

#include "app/look/said_text.h"

#include <QAction>
#include <QStringList>
#include <QWidget>

#include <algorithm>
#include <array>

namespace ohmwright {
namespace {

constexpr auto window = KeyScope::window;
constexpr auto panels = KeyScope::panels;
constexpr auto held = KeyScope::held;

constexpr std::array entries{
    ActionEntry{"job.open", toSay("&Open …"), toSay("Open a job from its file, or a netlist as a new job."), "Ctrl+O",
                window, IconName::open},
    ActionEntry{"job.draw", toSay("&Draw a new unit"), toSay("Draw a unit from nothing: parts, wires, signs."),
                "Ctrl+Shift+N"},
    ActionEntry{"job.join", toSay("&New unit from stages …"),
                toSay("Join stages from the shelf to a new unit's drawing."), "Ctrl+N"},
    ActionEntry{"job.pasteNetlist", toSay("&Paste netlist"),
                toSay("Draw the netlist that was copied as text, as a new job."), "Ctrl+Shift+V"},
    ActionEntry{"job.recent", toSay("Open &recent"), toSay("Open one of the jobs and netlists used last."), ""},
    ActionEntry{"job.save", toSay("&Save job"), toSay("Save the job into its file."), "Ctrl+S", window, IconName::save},
    ActionEntry{"job.saveAs", toSay("Save job &as …"), toSay("Save the job under another name."), "Ctrl+Shift+S"},
    ActionEntry{"job.earlier", toSay("Earlier &versions …"),
                toSay("What the job's file held before: look at one, take it back."), ""},
    ActionEntry{"job.exportNetlist", toSay("&Export netlist …"),
                toSay("Write the circuit, now or in stock, as a netlist."), ""},
    ActionEntry{"curves.export", toSay("Export c&urve …"),
                toSay("Write the curve as a picture (SVG, PNG) or as values (CSV)."), ""},
    ActionEntry{"curves.copy", toSay("&Copy curve"), toSay("Put the curve's picture on the clipboard."),
                "Ctrl+Shift+C"},
    ActionEntry{"job.exportDrawing", toSay("Export the dra&wing …"),
                toSay("Write the map as SVG, PDF or PNG, in print ink."), ""},
    ActionEntry{"shop.choose", toSay("S&hop folder …"),
                toSay("Choose where the shop keeps its drawer, rates, words and jobs."), ""},
    ActionEntry{"app.settings", toSay("Se&ttings …"),
                toSay("Set how values are written, symbols, light, text and the shop folder."), "Ctrl+,"},
    ActionEntry{"app.quit", toSay("&Quit"), toSay("Close the program; unsaved work is asked about."), "Ctrl+Q"},

    ActionEntry{"edit.undo", toSay("&Undo"), toSay("Take the last change back."), "Ctrl+Z", window, IconName::undo},
    ActionEntry{"edit.redo", toSay("&Redo"), toSay("Make the change again that was taken back."), "Ctrl+Y;Ctrl+Shift+Z",
                window, IconName::redo},

    ActionEntry{"edit.copyDrawing", toSay("&Copy the drawing"),
                toSay("Copy the map, in print ink, for another program."), "Ctrl+Shift+D"},

    ActionEntry{"mod.mute", toSay("&Mute mod"), toSay("Switch the selected part's mod off or on."), "M", panels},
    ActionEntry{"mod.swap", toSay("&Swap part …"), toSay("Plan another part or type in this place."), ""},
    ActionEntry{"mod.series", toSay("Add in s&eries …"), toSay("Plan a part in series with the selected one."), ""},
    ActionEntry{"mod.across", toSay("Add a&cross …"), toSay("Plan a part across the selected one."), ""},
    ActionEntry{"mod.lift", toSay("&Lift a leg …"), toSay("Plan one leg of the selected part lifted."), ""},
    ActionEntry{"mod.bridge", toSay("&Bridge"), toSay("Plan a wire across the selected part."), ""},
    ActionEntry{"mod.remove", toSay("Remo&ve mod"), toSay("Take the mod out of the plan."), "Del", panels},

    ActionEntry{"stage.keep", toSay("Keep as a sta&ge …"), toSay("Keep a part of the drawing for the shelf of stages."),
                ""},

    ActionEntry{"view.holdStock",
                toSay("Hold for &stock"),
                toSay("Show the unit as built while the key is down; twice latches."),
                "S",
                held,
                {},
                true},
    ActionEntry{"view.owners",
                toSay("Who o&wns this?"),
                toSay("Say on the map how much a tenth more of each part moves the response at the cursor."),
                "O",
                panels,
                {},
                true},
    ActionEntry{"view.probe",
                toSay("&Probe volts"),
                toSay("Write the volts at the nodes on the map: no signal, against ground."),
                "P",
                panels,
                {},
                true},
    ActionEntry{"view.nextLeg", toSay("Next le&g"),
                toSay("Light the net at the next leg of the selected part, with its volts."), "W", panels},
    ActionEntry{"view.previousLeg", toSay("Le&g before"), toSay("Light the net at the leg before, with its volts."),
                "Shift+W", panels},
    ActionEntry{"view.nearer", toSay("&Nearer"), toSay("Bring the drawing nearer."), "Ctrl++;Ctrl+="},
    ActionEntry{"view.farther", toSay("&Farther"), toSay("Take the drawing farther away."), "Ctrl+-"},
    ActionEntry{"view.whole", toSay("Whole d&rawing"), toSay("Show all that is drawn."), "Ctrl+0"},
    ActionEntry{"view.sums", toSay("Show the s&ums"), toSay("The sums on paper that the selected part is in, or all."),
                "=", panels},
    ActionEntry{"view.walk", toSay("&Walk over the board"),
                toSay("Look at part after part on the board: seen, measured, or not as drawn."), "K", panels},
    ActionEntry{"view.differs", toSay("&Differs on the board …"),
                toSay("Put the drawing right where the selected part is another on the board."), "N", panels},
    ActionEntry{"view.theme", toSay("&Theme"), toSay("Light, dark, or as the desktop is."), "", window, IconName::moon},
    ActionEntry{"view.keepStill",
                toSay("&Keep still"),
                toSay("Nothing pulses: the probes' rings on the board stand."),
                "",
                window,
                {},
                true},
    ActionEntry{"view.textSize", toSay("&Text size"), toSay("Set the text to 100, 115 or 130 %."), ""},
    ActionEntry{"view.levels", toSay("Le&vels in"), toSay("Read levels in mVpk, mVrms, dBV or dBu."), ""},
    ActionEntry{"view.nextLevelUnit", toSay("Next &unit of levels"), toSay("Read levels in the next of their units."),
                "U", panels},

    ActionEntry{"curves.response", toSay("&Response"), toSay("Show level against frequency."), "Ctrl+1"},
    ActionEntry{"curves.clip", toSay("&Clip"), toSay("Show the clip node against pick level."), "Ctrl+2"},
    ActionEntry{"curves.level", toSay("&Level"), toSay("Show the output against pick level, with its slope."),
                "Ctrl+3"},
    ActionEntry{"curves.harmonics", toSay("&Harmonics"), toSay("Show the harmonics at the player's level."), "Ctrl+4"},
    ActionEntry{"curves.time", toSay("&Time"), toSay("Show a period of the output at the player's level."), "Ctrl+5"},
    ActionEntry{"curves.noise", toSay("&Noise"), toSay("Show the noise at the output against frequency."), "Ctrl+6"},
    ActionEntry{"curves.bias", toSay("&Bias"), toSay("Show the voltages of every net with no signal."), "Ctrl+7"},
    ActionEntry{"curves.pin", toSay("Pin &ghost"), toSay("Keep now as a ghost to compare with; up to four."), "G",
                panels},
    ActionEntry{"curves.table", toSay("Values as t&able"),
                toSay("The values of the curve instead of its drawing, and back."), "Ctrl+T"},

    ActionEntry{"place.map", toSay("&Map"), toSay("The drawing, its curves and the selected part."), "Ctrl+M"},
    ActionEntry{"place.draw", toSay("&Draw"), toSay("Draw the unit as it was built: parts, wires, signs, stages."),
                "Ctrl+D"},
    ActionEntry{"place.board", toSay("&Board"),
                toSay("Both sides of the board: photos, legs, nets, pads that were heated."), "B", panels},
    ActionEntry{"place.checkList", toSay("&Check list"), toSay("The work at the bench, a step a screen."), "C", panels},
    ActionEntry{"place.drawer", toSay("&Drawer"), toSay("Parts in stock."), "F7"},
    ActionEntry{"place.papers", toSay("&Papers"), toSay("Sheets for the bench and for the customer."), "F8"},
    ActionEntry{"place.history", toSay("&History"), toSay("Visits of this unit."), "F9"},

    ActionEntry{"paper.benchSheet", toSay("&Bench sheet …"),
                toSay("Print the steps for the bench, or save them as PDF."), "Ctrl+P", window, IconName::print},
    ActionEntry{"paper.drawing", toSay("Print the dra&wing …"), toSay("Print the map on one page, in print ink."),
                "Ctrl+Shift+P"},

    ActionEntry{"go.nextPanel", toSay("&Next panel"), toSay("Move the keyboard to the next panel."), "F6"},
    ActionEntry{"go.previousPanel", toSay("&Previous panel"), toSay("Move the keyboard to the panel before."),
                "Shift+F6"},

    ActionEntry{"help.shortcuts", toSay("&Keys"), toSay("List every key and gesture."), "F1"},
    ActionEntry{"help.news", toSay("&What is new"), toSay("What this version does that the one before did not."), ""},
    ActionEntry{"help.about", toSay("&About Ohmwright"), toSay("Version, licence and the typeface's licence."), ""},
};

constexpr std::array gestureTable{
    Gesture{toSay("Arrows"), toSay("walk the signal path on the map, the rows of a list")},
    Gesture{toSay("Digit, then Enter"), toSay("type a new value for the selected part")},
    Gesture{toSay("Wheel, Page Up, Page Down"), toSay("next or previous drawer value")},
    Gesture{toSay("Ctrl with these"), toSay("next value of the E24 series")},
    Gesture{toSay("Shift with these"), toSay("next value of the E96 series")},
    Gesture{toSay("Alt with these"), toSay("any value, in steps of 1 %")},
    Gesture{toSay("Drag a part up or down"),
            toSay("its value follows; let go, it snaps to a part in the drawer, with Alt not; Esc takes it back")},
    Gesture{toSay("Drag empty ground, middle button, Space and drag"),
            toSay("move the drawing, as Shift with arrows does")},
    Gesture{toSay("Ctrl+wheel on empty ground, + and \u2212"), toSay("bring the drawing nearer, take it farther away")},
    Gesture{toSay("Home on the drawing"), toSay("show all that is drawn")},
    Gesture{toSay("X on the board, also at the bench"), toSay("the other side, mirrored together with pins")},
    Gesture{toSay("Arrows on the board"), toSay("left, right: next leg; up, down: next part; its net lights up")},
    Gesture{toSay("Part and leg typed on the board"), toSay("that leg, as C4 1 or U1 pin 2; Enter goes there")},
    Gesture{toSay("Press on a photo of the board, or Enter"),
            toSay("mark the next leg there, or in the middle of what is seen")},
    Gesture{toSay("Drag a ring, or Ctrl with arrows"), toSay("put the mark of a leg right; Del takes it away")},
    Gesture{toSay("Shift+A to Shift+F"), toSay("switch that mod off or on")},
    Gesture{toSay("Ctrl+Right, Ctrl+Left"),
            toSay("next weaker, next stronger owner of the cursor's frequency, after O")},
    Gesture{toSay("Hold the cursor of the response"), toSay("who owns this frequency, while it is held")},
    Gesture{toSay("Tab, Shift+Tab"), toSay("next or previous control")},
    Gesture{toSay("Menu, Shift+F10"), toSay("what can be done with the selected part, the row, the curve")},
    Gesture{toSay("Ctrl+Right in the check list"), toSay("skip the step; it stays red on paper")},
    Gesture{toSay("Press, or Enter, on a figure"), toSay("show the sum behind it")},
    Gesture{toSay("Alt+1 to Alt+7 in the curves"), toSay("show that kind at the left")},
    Gesture{toSay("Arrows, Home, End in a curve"), toSay("move its cursor; Shift finer")},
    Gesture{toSay("Alt+Left, Alt+Right in the response"), toSay("look for parts that move the corner there")},
    Gesture{toSay("Ctrl+wheel, + and -, 0 in a curve"), toSay("zoom the frequencies; 0 or a double click shows all")},
    Gesture{toSay("E in the clip curve"), toSay("equal scales of both axes, and back")},
    Gesture{toSay("Press, on the words of a level axis"), toSay("the next unit of levels")},
    Gesture{toSay("Del, F2 on a pinned ghost"), toSay("take it away; name it")},
    Gesture{toSay("= on a knob"), toSay("show the sum of its pot")},
    Gesture{toSay("Letters in Draw"), toSay("take the part of that letter; type its value, Enter puts it down")},
    Gesture{toSay("Space in Draw"), toSay("begins a wire, sets a corner, joins a pin")},
    Gesture{toSay(". and , in Draw"), toSay("turn, mirror what is held or picked")},
    Gesture{toSay("Shift+arrows, Alt+arrows in Draw"), toSay("open a box; move what is picked")},
    Gesture{toSay("N, Z, F in Draw"), toSay("name the net, begin a stage, frame a field")},
    Gesture{toSay("Esc"), toSay("one level out")},
};

QAction* makeAction(const ActionEntry& entry, QObject* parent) {
    auto* action = new QAction(saidText(entry.text), parent);
    action->setObjectName(entry.id);
    action->setStatusTip(saidText(entry.hint));
    action->setCheckable(entry.checkable);
    if (entry.icon) {
        action->setIcon(icon(*entry.icon));
    }
    if (entry.scope != KeyScope::held && *entry.keys != '\0') {
        action->setShortcuts(QKeySequence::listFromString(QString(entry.keys).replace(";", "; ")));
        action->setShortcutContext(entry.scope == KeyScope::window ? Qt::WindowShortcut
                                                                   : Qt::WidgetWithChildrenShortcut);
        // A held key must not mute and unmute thirty times a second.
        action->setAutoRepeat(entry.scope == KeyScope::window);
    }
    return action;
}

const ActionEntry& entryOf(const QString& id) {
    const auto found = std::find_if(entries.begin(), entries.end(),
                                    [&](const ActionEntry& entry) { return id == QLatin1String(entry.id); });
    Q_ASSERT_X(found != entries.end(), "ActionTable", qPrintable(id));
    return *found;
}

}  // namespace

std::span<const ActionEntry> actionEntries() {
    return entries;
}

std::span<const Gesture> gestures() {
    return gestureTable;
}

ActionTable::ActionTable(QObject* parent) : QObject(parent) {
    for (const ActionEntry& entry : entries) {
        QAction* action = makeAction(entry, this);
        m_actions.insert(entry.id, action);
        action->setToolTip(wordsWithKeys(entry.id));
    }
}

QAction* ActionTable::action(const QString& id) const {
    Q_ASSERT_X(m_actions.contains(id), "ActionTable", qPrintable(id));
    return m_actions.value(id);
}

std::vector<QAction*> ActionTable::menu(const QString& name) const {
    std::vector<QAction*> actions;
    for (const ActionEntry& entry : entries) {
        if (QString(entry.id).startsWith(name + '.')) {
            actions.push_back(m_actions.value(entry.id));
        }
    }
    return actions;
}

void ActionTable::attachWindow(QWidget* widget) const {
    for (const ActionEntry& entry : entries) {
        if (entry.scope != KeyScope::panels) {
            widget->addAction(m_actions.value(entry.id));
        }
    }
}

void ActionTable::attachPanel(QWidget* panel) const {
    for (const ActionEntry& entry : entries) {
        if (entry.scope == KeyScope::panels) {
            panel->addAction(m_actions.value(entry.id));
        }
    }
}

QString ActionTable::wordsWithKeys(const QString& id) const {
    const ActionEntry& entry = entryOf(id);
    const QString words = saidText(entry.text).remove('&').remove(QStringLiteral(" …"));
    const QString keys = keysText(entry);
    return keys.isEmpty() ? words : QString("%1 (%2)").arg(words, keys);
}

QString ActionTable::keysText(const ActionEntry& entry) {
    return QString(entry.keys).section(';', 0, 0);
}

}  // namespace ohmwright

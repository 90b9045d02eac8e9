// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/action_table.h"

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
    ActionEntry{"job.open", "&Open …", "Open a job from its file, or a netlist as a new job.", "Ctrl+O", window,
                IconName::open},
    ActionEntry{"job.draw", "&Draw a new unit", "Draw a unit from nothing: parts, wires, signs.", "Ctrl+Shift+N"},
    ActionEntry{"job.join", "&New unit from stages …", "Join stages from the shelf to a new unit's drawing.", "Ctrl+N"},
    ActionEntry{"job.pasteNetlist", "&Paste netlist", "Draw the netlist that was copied as text, as a new job.",
                "Ctrl+Shift+V"},
    ActionEntry{"job.recent", "Open &recent", "Open one of the jobs and netlists used last.", ""},
    ActionEntry{"job.save", "&Save job", "Save the job into its file.", "Ctrl+S", window, IconName::save},
    ActionEntry{"job.saveAs", "Save job &as …", "Save the job under another name.", "Ctrl+Shift+S"},
    ActionEntry{"job.earlier", "Earlier &versions …", "What the job's file held before: look at one, take it back.",
                ""},
    ActionEntry{"job.exportNetlist", "&Export netlist …", "Write the circuit, now or in stock, as a netlist.", ""},
    ActionEntry{"curves.export", "Export c&urve …", "Write the curve as a picture (SVG, PNG) or as values (CSV).", ""},
    ActionEntry{"curves.copy", "&Copy curve", "Put the curve's picture on the clipboard.", "Ctrl+Shift+C"},
    ActionEntry{"job.exportDrawing", "Export the dra&wing …", "Write the map as SVG, PDF or PNG, in print ink.", ""},
    ActionEntry{"shop.choose", "S&hop folder …", "Choose where the shop keeps its drawer, rates, words and jobs.", ""},
    ActionEntry{"app.settings", "Se&ttings …", "Set how values are written, symbols, light, text and the shop folder.",
                "Ctrl+,"},
    ActionEntry{"app.quit", "&Quit", "Close the program; unsaved work is asked about.", "Ctrl+Q"},

    ActionEntry{"edit.undo", "&Undo", "Take the last change back.", "Ctrl+Z", window, IconName::undo},
    ActionEntry{"edit.redo", "&Redo", "Make the change again that was taken back.", "Ctrl+Y;Ctrl+Shift+Z", window,
                IconName::redo},

    ActionEntry{"edit.copyDrawing", "&Copy the drawing", "Copy the map, in print ink, for another program.",
                "Ctrl+Shift+D"},

    ActionEntry{"mod.mute", "&Mute mod", "Switch the selected part's mod off or on.", "M", panels},
    ActionEntry{"mod.swap", "&Swap part …", "Plan another part or type in this place.", ""},
    ActionEntry{"mod.series", "Add in s&eries …", "Plan a part in series with the selected one.", ""},
    ActionEntry{"mod.across", "Add a&cross …", "Plan a part across the selected one.", ""},
    ActionEntry{"mod.lift", "&Lift a leg …", "Plan one leg of the selected part lifted.", ""},
    ActionEntry{"mod.bridge", "&Bridge", "Plan a wire across the selected part.", ""},
    ActionEntry{"mod.remove", "Remo&ve mod", "Take the mod out of the plan.", "Del", panels},

    ActionEntry{"stage.keep", "Keep as a sta&ge …", "Keep a part of the drawing for the shelf of stages.", ""},

    ActionEntry{"view.holdStock",
                "Hold for &stock",
                "Show the unit as built while the key is down; twice latches.",
                "S",
                held,
                {},
                true},
    ActionEntry{"view.owners",
                "Who o&wns this?",
                "Say on the map how much a tenth more of each part moves the response at the cursor.",
                "O",
                panels,
                {},
                true},
    ActionEntry{"view.probe",
                "&Probe volts",
                "Write the volts at the nodes on the map: no signal, against ground.",
                "P",
                panels,
                {},
                true},
    ActionEntry{"view.nextLeg", "Next le&g", "Light the net at the next leg of the selected part, with its volts.", "W",
                panels},
    ActionEntry{"view.previousLeg", "Le&g before", "Light the net at the leg before, with its volts.", "Shift+W",
                panels},
    ActionEntry{"view.nearer", "&Nearer", "Bring the drawing nearer.", "Ctrl++;Ctrl+="},
    ActionEntry{"view.farther", "&Farther", "Take the drawing farther away.", "Ctrl+-"},
    ActionEntry{"view.whole", "Whole d&rawing", "Show all that is drawn.", "Ctrl+0"},
    ActionEntry{"view.sums", "Show the s&ums", "The sums on paper that the selected part is in, or all.", "=", panels},
    ActionEntry{"view.walk", "&Walk over the board",
                "Look at part after part on the board: seen, measured, or not as drawn.", "K", panels},
    ActionEntry{"view.differs", "&Differs on the board …",
                "Put the drawing right where the selected part is another on the board.", "N", panels},
    ActionEntry{"view.theme", "&Theme", "Light, dark, or as the desktop is.", "", window, IconName::moon},
    ActionEntry{
        "view.keepStill", "&Keep still", "Nothing pulses: the probes' rings on the board stand.", "", window, {}, true},
    ActionEntry{"view.textSize", "&Text size", "Set the text to 100, 115 or 130 %.", ""},
    ActionEntry{"view.levels", "Le&vels in", "Read levels in mVpk, mVrms, dBV or dBu.", ""},
    ActionEntry{"view.nextLevelUnit", "Next &unit of levels", "Read levels in the next of their units.", "U", panels},

    ActionEntry{"curves.response", "&Response", "Show level against frequency.", "Ctrl+1"},
    ActionEntry{"curves.clip", "&Clip", "Show the clip node against pick level.", "Ctrl+2"},
    ActionEntry{"curves.level", "&Level", "Show the output against pick level, with its slope.", "Ctrl+3"},
    ActionEntry{"curves.harmonics", "&Harmonics", "Show the harmonics at the player's level.", "Ctrl+4"},
    ActionEntry{"curves.time", "&Time", "Show a period of the output at the player's level.", "Ctrl+5"},
    ActionEntry{"curves.noise", "&Noise", "Show the noise at the output against frequency.", "Ctrl+6"},
    ActionEntry{"curves.bias", "&Bias", "Show the voltages of every net with no signal.", "Ctrl+7"},
    ActionEntry{"curves.pin", "Pin &ghost", "Keep now as a ghost to compare with; up to four.", "G", panels},
    ActionEntry{"curves.table", "Values as t&able", "The values of the curve instead of its drawing, and back.",
                "Ctrl+T"},

    ActionEntry{"place.map", "&Map", "The drawing, its curves and the selected part.", "Ctrl+M"},
    ActionEntry{"place.draw", "&Draw", "Draw the unit as it was built: parts, wires, signs, stages.", "Ctrl+D"},
    ActionEntry{"place.board", "&Board", "Both sides of the board: photos, legs, nets, pads that were heated.", "B",
                panels},
    ActionEntry{"place.checkList", "&Check list", "The work at the bench, a step a screen.", "C", panels},
    ActionEntry{"place.drawer", "&Drawer", "Parts in stock.", "F7"},
    ActionEntry{"place.papers", "&Papers", "Sheets for the bench and for the customer.", "F8"},
    ActionEntry{"place.history", "&History", "Visits of this unit.", "F9"},

    ActionEntry{"paper.benchSheet", "&Bench sheet …", "Print the steps for the bench, or save them as PDF.", "Ctrl+P",
                window, IconName::print},
    ActionEntry{"paper.drawing", "Print the dra&wing …", "Print the map on one page, in print ink.", "Ctrl+Shift+P"},

    ActionEntry{"go.nextPanel", "&Next panel", "Move the keyboard to the next panel.", "F6"},
    ActionEntry{"go.previousPanel", "&Previous panel", "Move the keyboard to the panel before.", "Shift+F6"},

    ActionEntry{"help.shortcuts", "&Keys", "List every key and gesture.", "F1"},
    ActionEntry{"help.news", "&What is new", "What this version does that the one before did not.", ""},
    ActionEntry{"help.about", "&About Ohmwright", "Version, licence and the typeface's licence.", ""},
};

constexpr std::array gestureTable{
    Gesture{"Arrows", "walk the signal path on the map, the rows of a list"},
    Gesture{"Digit, then Enter", "type a new value for the selected part"},
    Gesture{"Wheel, Page Up, Page Down", "next or previous drawer value"},
    Gesture{"Ctrl with these", "next value of the E24 series"},
    Gesture{"Shift with these", "next value of the E96 series"},
    Gesture{"Alt with these", "any value, in steps of 1 %"},
    Gesture{"Drag a part up or down",
            "its value follows; let go, it snaps to a part in the drawer, with Alt not; Esc takes it back"},
    Gesture{"Drag empty ground, middle button, Space and drag", "move the drawing, as Shift with arrows does"},
    Gesture{"Ctrl+wheel on empty ground, + and \u2212", "bring the drawing nearer, take it farther away"},
    Gesture{"Home on the drawing", "show all that is drawn"},
    Gesture{"X on the board, also at the bench", "the other side, mirrored together with pins"},
    Gesture{"Arrows on the board", "left, right: next leg; up, down: next part; its net lights up"},
    Gesture{"Part and leg typed on the board", "that leg, as C4 1 or U1 pin 2; Enter goes there"},
    Gesture{"Press on a photo of the board, or Enter", "mark the next leg there, or in the middle of what is seen"},
    Gesture{"Drag a ring, or Ctrl with arrows", "put the mark of a leg right; Del takes it away"},
    Gesture{"Shift+A to Shift+F", "switch that mod off or on"},
    Gesture{"Ctrl+Right, Ctrl+Left", "next weaker, next stronger owner of the cursor's frequency, after O"},
    Gesture{"Hold the cursor of the response", "who owns this frequency, while it is held"},
    Gesture{"Tab, Shift+Tab", "next or previous control"},
    Gesture{"Menu, Shift+F10", "what can be done with the selected part, the row, the curve"},
    Gesture{"Ctrl+Right in the check list", "skip the step; it stays red on paper"},
    Gesture{"Press, or Enter, on a figure", "show the sum behind it"},
    Gesture{"Alt+1 to Alt+7 in the curves", "show that kind at the left"},
    Gesture{"Arrows, Home, End in a curve", "move its cursor; Shift finer"},
    Gesture{"Alt+Left, Alt+Right in the response", "look for parts that move the corner there"},
    Gesture{"Ctrl+wheel, + and -, 0 in a curve", "zoom the frequencies; 0 or a double click shows all"},
    Gesture{"E in the clip curve", "equal scales of both axes, and back"},
    Gesture{"Press, on the words of a level axis", "the next unit of levels"},
    Gesture{"Del, F2 on a pinned ghost", "take it away; name it"},
    Gesture{"= on a knob", "show the sum of its pot"},
    Gesture{"Letters in Draw", "take the part of that letter; type its value, Enter puts it down"},
    Gesture{"Space in Draw", "begins a wire, sets a corner, joins a pin"},
    Gesture{". and , in Draw", "turn, mirror what is held or picked"},
    Gesture{"Shift+arrows, Alt+arrows in Draw", "open a box; move what is picked"},
    Gesture{"N, Z, F in Draw", "name the net, begin a stage, frame a field"},
    Gesture{"Esc", "one level out"},
};

QAction* makeAction(const ActionEntry& entry, QObject* parent) {
    auto* action = new QAction(QString::fromUtf8(entry.text), parent);
    action->setObjectName(entry.id);
    action->setStatusTip(QString::fromUtf8(entry.hint));
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
    const QString words = QString::fromUtf8(entry.text).remove('&').remove(QStringLiteral(" …"));
    const QString keys = keysText(entry);
    return keys.isEmpty() ? words : QString("%1 (%2)").arg(words, keys);
}

QString ActionTable::keysText(const ActionEntry& entry) {
    return QString(entry.keys).section(';', 0, 0);
}

}  // namespace ohmwright

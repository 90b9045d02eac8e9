// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/help_pages.h"

#include "app/look/action_table.h"
#include "app/look/said_text.h"

#include <QDialog>
#include <QDialogButtonBox>
#include <QFile>
#include <QTextBrowser>
#include <QVBoxLayout>

#include <array>

namespace ohmwright {

namespace {

QString row(const QString& keys, const QString& words) {
    return QString("<tr><td style='padding:2px 24px 2px 0'><b>%1</b></td><td style='padding:2px 0'>%2</td></tr>")
        .arg(keys.toHtmlEscaped(), words.toHtmlEscaped());
}

/// Of this version, as the user meets it.
constexpr std::array news{
    toSay("Seven demo jobs, each a unit with its customer's sentence and plans that answer it."),
    toSay("Any unit of your own: joined from stages, drawn part by part, pasted as a netlist."),
    toSay("Stock and now side by side: response, clipping, level, harmonics, time, noise, bias, as curves, as values "
          "and as pictures."),
    toSay("Mods with real parts from the drawer, their shares when they work together, what they upset, and whether it "
          "is more than the spread between two units."),
    toSay("The check list for the bench: what the meter must read, and which mistake a wrong reading comes from."),
    toSay("The board: its photos on both sides, legs marked on them, nets that light up, pads that were heated."),
    toSay("Papers: bench sheet with crops of the photos, way back, customer's sheet, label, quote."),
    toSay("Visits: what was agreed, done, read and left; recipes for the next unit of the kind."),
    toSay("English and German, with the decimal mark of the language: the settings choose it, and the next start "
          "speaks it."),
    toSay("Unsaved work is kept aside and offered after a crash; every job keeps its ten earlier versions."),
};

QString resourceText(const QString& name) {
    QFile file(":/window/" + name);
    return file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
}

}  // namespace

QString keysPage() {
    QString page = QString("<h3>%1</h3><table>").arg(QObject::tr("Keys"));
    for (const ActionEntry& entry : actionEntries()) {
        if (*entry.keys != '\0') {
            page += row(QString(entry.keys).replace(";", ", "), saidText(entry.hint));
        }
    }
    page += QString("</table><h3>%1</h3><table>").arg(QObject::tr("By hand and on the map"));
    for (const Gesture& gesture : gestures()) {
        page += row(saidText(gesture.keys), saidText(gesture.hint));
    }
    return page + QString("</table><p>%1</p>")
                      .arg(QObject::tr("Single letters act while the map, the curves or the mods have the keyboard, "
                                       "never while something is typed."));
}

QString aboutPage() {
    return QObject::tr(
               "<h3>Ohmwright %1</h3>"
               "<p>Shows what a change of parts does to a pedal before the iron is hot.</p>"
               "<p>Free software under the GNU General Public License, version 3 or later; without any warranty.</p>"
               "<p>Built with Qt %2 (LGPL 3), QCustomPlot (GPL 3 or later), Eigen (MPL 2) and JSON for Modern C++ "
               "(MIT). Drawn in the typeface B612 (SIL Open Font License 1.1).</p>"
               "<h3>SIL Open Font License</h3><pre>%3</pre><h3>GNU General Public License</h3><pre>%4</pre>")
        .arg(QStringLiteral(OHMWRIGHT_VERSION), QString(qVersion()),
             resourceText("typeface-licence.txt").toHtmlEscaped(), resourceText("licence.txt").toHtmlEscaped());
}

QString newsPage() {
    QString page = QString("<h3>%1</h3><p>%2</p><ul>")
                       .arg(QObject::tr("What is new in %1").arg(QStringLiteral(OHMWRIGHT_VERSION)),
                            QObject::tr("The first version. What it can do:"));
    for (const char* entry : news) {
        page += QString("<li>%1</li>").arg(saidText(entry).toHtmlEscaped());
    }
    return page + QString("</ul><p>%1</p>").arg(QObject::tr("Nothing leaves this machine."));
}

QString notesPage(const QString& heading, const QStringList& notes) {
    QString page = QString("<h3>%1</h3>").arg(heading.toHtmlEscaped());
    for (const QString& note : notes) {
        page += QString("<p style='margin:4px 0'>%1</p>").arg(note.toHtmlEscaped());
    }
    return page;
}

QWidget* showPage(const QString& title, const QString& page, QWidget* parent) {
    auto* dialog = new QDialog(parent);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->setWindowTitle(title);
    dialog->resize(640, 620);
    auto* text = new QTextBrowser(dialog);
    text->setHtml(page);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, dialog);
    auto* layout = new QVBoxLayout(dialog);
    layout->addWidget(text);
    layout->addWidget(buttons);
    QObject::connect(buttons, &QDialogButtonBox::rejected, dialog, &QDialog::reject);
    dialog->show();
    return dialog;
}

}  // namespace ohmwright

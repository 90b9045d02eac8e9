// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/help_pages.h"

#include "app/look/action_table.h"
#include "app/look/said_text.h"

#include <QDialog>
#include <QDialogButtonBox>
#include <QFile>
#include <QTextBrowser>
#include <QVBoxLayout>

namespace ohmwright {

namespace {

QString row(const QString& keys, const QString& words) {
    return QString("<tr><td style='padding:2px 24px 2px 0'><b>%1</b></td><td style='padding:2px 0'>%2</td></tr>")
        .arg(keys.toHtmlEscaped(), words.toHtmlEscaped());
}

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
    return resourceText("news.html");
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

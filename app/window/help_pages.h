/// Help: every key and gesture from the action table, and what the program is made of.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <QStringList>

class QWidget;

namespace ohmwright {

/// Rich text; the words come from the action table.
QString keysPage();
QString aboutPage();
/// What this version does that the one before did not.
QString newsPage();
/// A paragraph a note of a netlist's reader.
QString notesPage(const QString& heading, const QStringList& notes);

/// A window of its own beside the main one, not modal; Esc closes it. Deletes itself.
QWidget* showPage(const QString& title, const QString& page, QWidget* parent);

}  // namespace ohmwright

/// In which language the window and its papers speak.
///
/// English stands in the sources, in tr() and said(); every other language is one catalogue,
/// resources/languages/*.po, which the translators' usual tools read. One English sentence has one translation,
/// wherever it stands, save where it is said with its meaning (core/base/said_meaning.h).
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLocale>
#include <QString>

#include <string>

namespace ohmwright {

enum class Language { english, german };

/// The language of the machine where the program speaks it, else English.
Language languageOf(const QLocale& machine);

/// "Deutsch": a language by its own name.
QString languageName(Language language);

/// Puts a language in force: the window's texts, core's sentences, the toolkit's own buttons, the decimal mark, dates.
/// Once, before the first window is made, and again only once all windows are gone; main thread only.
void speak(Language language);
/// The one in force.
Language spokenLanguage();

/// A knob's name inside a sentence: English writes it small, German as any noun.
QString nameInSentence(const std::string& name);

}  // namespace ohmwright

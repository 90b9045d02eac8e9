/// What core keeps in English because it is an identity as well (a kind, a verdict, a unit), as the window shows it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/number_text.h"
#include "core/base/said.h"

#include <QLocale>
#include <QString>

#include <string_view>

namespace ohmwright {

/// saidText(verdictWord(verdict)): "yes", "ja".
inline QString saidText(std::string_view word) {
    return QString::fromStdString(said(word));
}

/// For dates and counts: of the language in force, English where none was chosen.
inline QLocale shownLocale() {
    return QLocale(decimalMark() == DecimalMark::comma ? QLocale::German : QLocale::English);
}

/// Between the whole and the broken part of a figure that is shown.
inline QChar decimalSign() {
    return QLatin1Char(static_cast<char>(decimalMark()));
}

/// QString::number() for people: with the decimal mark of this process.
inline QString numberText(double value, char format = 'g', int digits = 6) {
    return QString::number(value, format, digits).replace('.', decimalSign());
}

}  // namespace ohmwright

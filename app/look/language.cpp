// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/language.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/base/said_meaning.h"

#include <QCoreApplication>
#include <QLibraryInfo>
#include <QTranslator>

#include <string>

// As in theme.cpp: a static library drops resources that nobody asks for by name.
static void initialiseCatalogues() {
    Q_INIT_RESOURCE(languages);
}

namespace ohmwright {

namespace {

/// A catalogue that knows sentences alone, not the class in which they stand.
class Catalogue : public QTranslator {
public:
    [[nodiscard]] QString translate(const char* /*context*/, const char* english, const char* meaning,
                                    int count) const override {
        return QTranslator::translate("", english, meaning, count);
    }
};

std::string translated(const char* english) {
    return QCoreApplication::translate("", english).toStdString();
}

std::string translatedMeaning(const char* english, const char* meaning) {
    return QCoreApplication::translate("", english, meaning).toStdString();
}

/// In force from load to unload; live as long as the process.
struct Catalogues {
    QTranslator toolkit;
    Catalogue own;
};

Language processLanguage = Language::english;

Catalogues& catalogues() {
    static Catalogues all;
    return all;
}

/// Of the machine's own country where there is one: paper sizes hang on it.
QLocale localeOf(Language language) {
    const QLocale machine = QLocale::system();
    const bool isEnglish = machine.language() == QLocale::English || machine.language() == QLocale::C;
    if (language == Language::english && isEnglish) {
        return machine;
    }
    return QLocale(language == Language::english ? QLocale::English : QLocale::German, machine.territory());
}

}  // namespace

Language languageOf(const QLocale& machine) {
    return machine.language() == QLocale::German ? Language::german : Language::english;
}

QString languageName(Language language) {
    return language == Language::german ? QStringLiteral("Deutsch") : QStringLiteral("English");
}

Language spokenLanguage() {
    return processLanguage;
}

void speak(Language language) {
    processLanguage = language;
    Catalogues& all = catalogues();
    QCoreApplication::removeTranslator(&all.toolkit);
    QCoreApplication::removeTranslator(&all.own);
    if (language == Language::german) {
        // The toolkit's own catalogue is a package of its own; without it its few buttons stay English.
        if (all.toolkit.load("qtbase_de", QLibraryInfo::path(QLibraryInfo::TranslationsPath))) {
            QCoreApplication::installTranslator(&all.toolkit);
        }
        initialiseCatalogues();
        if (all.own.load("de", ":/languages")) {
            QCoreApplication::installTranslator(&all.own);
        }
    }
    setTranslation(language == Language::english ? nullptr : translated);
    setMeaningTranslation(language == Language::english ? nullptr : translatedMeaning);
    setDecimalMark(language == Language::english ? DecimalMark::point : DecimalMark::comma);
    QLocale::setDefault(localeOf(language));
}

QString nameInSentence(const std::string& name) {
    const QString words = QString::fromStdString(name);
    return spokenLanguage() == Language::german ? words : words.toLower();
}

}  // namespace ohmwright

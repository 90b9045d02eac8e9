// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/settings.h"

#include "app/look/level_units.h"

#include <QDir>
#include <QStandardPaths>

#include <algorithm>
#include <array>
#include <cmath>

namespace ohmwright {
namespace {

const QStringList languageNames{"en", "de"};
const QStringList themeNames{"light", "dark", "system"};
const QStringList symbolNames{"iec60617", "ieee315"};
const QStringList valueNames{"letterAsPoint", "letterBehind"};
constexpr std::array textScales{1.0, 1.15, 1.3};

const std::array<SettingEntry, 11>& table() {
    static const std::array<SettingEntry, 11> entries{{
        {SettingKey::language, "look/language", QString{}},
        {SettingKey::theme, "look/theme", "system"},
        {SettingKey::textScale, "look/textScale", 1.0},
        {SettingKey::symbols, "look/symbols", "iec60617"},
        {SettingKey::values, "look/values", "letterAsPoint"},
        {SettingKey::levelUnit, "look/levelUnit", "mvpk"},
        {SettingKey::keepStill, "look/keepStill", false},
        {SettingKey::recentFiles, "jobs/recent", QStringList{}},
        {SettingKey::windowGeometry, "window/geometry", QByteArray{}},
        {SettingKey::windowState, "window/state", QByteArray{}},
        {SettingKey::shopFolder, "shop/folder", QString{}},
    }};
    return entries;
}

const SettingEntry& entryOf(SettingKey key) {
    return *std::find_if(table().begin(), table().end(), [key](const SettingEntry& entry) { return entry.key == key; });
}

/// The nearest size there is a layout for.
double nearestScale(double scale) {
    return *std::min_element(textScales.begin(), textScales.end(),
                             [scale](double a, double b) { return std::abs(a - scale) < std::abs(b - scale); });
}

}  // namespace

std::span<const SettingEntry> settingEntries() {
    return table();
}

QVariant Settings::value(SettingKey key) const {
    const SettingEntry& entry = entryOf(key);
    return m_file.value(entry.name, entry.standard);
}

void Settings::setValue(SettingKey key, const QVariant& value) {
    m_file.setValue(entryOf(key).name, value);
}

Language Settings::language() const {
    const auto index = languageNames.indexOf(value(SettingKey::language).toString());
    return index < 0 ? languageOf(QLocale::system()) : static_cast<Language>(index);
}

void Settings::setLanguage(Language language) {
    setValue(SettingKey::language, languageNames.at(static_cast<int>(language)));
}

ThemeChoice Settings::theme() const {
    const auto index = themeNames.indexOf(value(SettingKey::theme).toString());
    return index < 0 ? ThemeChoice::system : static_cast<ThemeChoice>(index);
}

void Settings::setTheme(ThemeChoice choice) {
    setValue(SettingKey::theme, themeNames.at(static_cast<int>(choice)));
}

double Settings::textScale() const {
    bool isNumber = false;
    const double scale = value(SettingKey::textScale).toDouble(&isNumber);
    return isNumber ? nearestScale(scale) : 1.0;
}

void Settings::setTextScale(double scale) {
    setValue(SettingKey::textScale, nearestScale(scale));
}

SymbolStandard Settings::symbols() const {
    return value(SettingKey::symbols).toString() == symbolNames.at(1) ? SymbolStandard::ieee315
                                                                      : SymbolStandard::iec60617;
}

void Settings::setSymbols(SymbolStandard standard) {
    setValue(SettingKey::symbols, symbolNames.at(static_cast<int>(standard)));
}

bool Settings::keepsStill() const {
    return value(SettingKey::keepStill).toBool();
}

void Settings::setKeepsStill(bool still) {
    setValue(SettingKey::keepStill, still);
}

LevelUnit Settings::levelUnit() const {
    const std::string id = value(SettingKey::levelUnit).toString().toStdString();
    const auto found = std::find_if(levelUnitNames.begin(), levelUnitNames.end(),
                                    [&id](const LevelUnitName& each) { return each.id == id; });
    return found == levelUnitNames.end() ? LevelUnit::millivoltsPeak : found->unit;
}

void Settings::setLevelUnit(LevelUnit unit) {
    const std::string_view id = levelUnitNames[static_cast<std::size_t>(unit)].id;
    setValue(SettingKey::levelUnit, QString::fromUtf8(id.data(), static_cast<qsizetype>(id.size())));
}

ValueStyle Settings::valueStyle() const {
    return value(SettingKey::values).toString() == valueNames.at(1) ? ValueStyle::letterBehind
                                                                    : ValueStyle::letterAsPoint;
}

void Settings::setValueStyle(ValueStyle style) {
    setValue(SettingKey::values, valueNames.at(static_cast<int>(style)));
}

QStringList Settings::recentFiles() const {
    return value(SettingKey::recentFiles).toStringList();
}

void Settings::addRecentFile(const QString& path) {
    QStringList files = recentFiles();
    files.removeAll(path);
    files.prepend(path);
    setValue(SettingKey::recentFiles, files.mid(0, mostRecentFiles));
}

void Settings::removeRecentFile(const QString& path) {
    QStringList files = recentFiles();
    files.removeAll(path);
    setValue(SettingKey::recentFiles, files);
}

QByteArray Settings::windowGeometry() const {
    return value(SettingKey::windowGeometry).toByteArray();
}

void Settings::setWindowGeometry(const QByteArray& geometry) {
    setValue(SettingKey::windowGeometry, geometry);
}

QByteArray Settings::windowState() const {
    return value(SettingKey::windowState).toByteArray();
}

void Settings::setWindowState(const QByteArray& state) {
    setValue(SettingKey::windowState, state);
}

QString Settings::shopFolder() const {
    const QString chosen = value(SettingKey::shopFolder).toString();
    return chosen.isEmpty()
               ? QDir(QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation)).filePath("Ohmwright shop")
               : chosen;
}

void Settings::setShopFolder(const QString& folder) {
    setValue(SettingKey::shopFolder, folder);
}

void Settings::clearWriting() {
    for (const SettingKey key :
         {SettingKey::theme, SettingKey::textScale, SettingKey::symbols, SettingKey::values, SettingKey::levelUnit}) {
        m_file.remove(entryOf(key).name);
    }
}

void Settings::clear() {
    for (const SettingEntry& entry : table()) {
        m_file.remove(entry.name);
    }
}

ThemeKind themeKindOf(ThemeChoice choice) {
    switch (choice) {
        case ThemeChoice::light:
            return ThemeKind::light;
        case ThemeChoice::dark:
            return ThemeKind::dark;
        case ThemeChoice::system:
            return Theme::systemKind();
    }
    return ThemeKind::light;
}

void applyLookSettings(const Settings& settings) {
    const bool isWrittenElse = settings.valueStyle() != valueStyle() || settings.symbols() != symbolStandard();
    setValueStyle(settings.valueStyle());
    setSymbolStandard(settings.symbols());
    if (isWrittenElse) {
        emit Theme::current().changed();
    }
    Theme::current().setTextScale(settings.textScale());
    Theme::current().setKind(themeKindOf(settings.theme()));
    LevelUnits::current().setUnit(settings.levelUnit());
}

}  // namespace ohmwright

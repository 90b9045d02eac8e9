/// What the program remembers between runs: one table of key and default, typed getters over QSettings.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/look/language.h"
#include "app/look/symbols.h"
#include "app/look/theme.h"
#include "core/base/level_unit.h"
#include "core/base/value_text.h"

#include <QByteArray>
#include <QSettings>
#include <QString>
#include <QStringList>
#include <QVariant>

#include <span>

namespace ohmwright {

enum class ThemeChoice { light, dark, system };

enum class SettingKey {
    language,
    theme,
    textScale,
    symbols,
    values,
    levelUnit,
    recentFiles,
    windowGeometry,
    windowState,
    shopFolder,
    keepStill
};

struct SettingEntry {
    SettingKey key;
    const char* name;  ///< In the file: "look/theme".
    QVariant standard;
};

/// Every setting there is.
std::span<const SettingEntry> settingEntries();

/// A value in the file that makes no sense reads as the default. Main thread only.
class Settings {
public:
    static constexpr int mostRecentFiles = 8;

    /// The user's own file, by the application's and organisation's name.
    Settings() = default;

    /// The machine's, until one is chosen.
    [[nodiscard]] Language language() const;
    void setLanguage(Language language);
    [[nodiscard]] ThemeChoice theme() const;
    void setTheme(ThemeChoice choice);
    /// 1.0, 1.15 or 1.3.
    [[nodiscard]] double textScale() const;
    void setTextScale(double scale);
    [[nodiscard]] SymbolStandard symbols() const;
    void setSymbols(SymbolStandard standard);

    [[nodiscard]] LevelUnit levelUnit() const;
    void setLevelUnit(LevelUnit unit);

    /// Nothing pulses or moves by itself.
    [[nodiscard]] bool keepsStill() const;
    void setKeepsStill(bool still);

    [[nodiscard]] ValueStyle valueStyle() const;
    void setValueStyle(ValueStyle style);

    /// Newest first; paths as given, each once.
    [[nodiscard]] QStringList recentFiles() const;
    void addRecentFile(const QString& path);
    void removeRecentFile(const QString& path);

    [[nodiscard]] QByteArray windowGeometry() const;
    void setWindowGeometry(const QByteArray& geometry);
    [[nodiscard]] QByteArray windowState() const;
    void setWindowState(const QByteArray& state);

    /// Where the shop keeps its drawer, rates, words and jobs; "Ohmwright shop" in the user's documents until it is
    /// chosen. It need not be there yet.
    [[nodiscard]] QString shopFolder() const;
    void setShopFolder(const QString& folder);

    /// Theme, text size, symbols, values and levels back to their defaults.
    void clearWriting();
    /// Back to the defaults, all of them.
    void clear();

private:
    [[nodiscard]] QVariant value(SettingKey key) const;
    void setValue(SettingKey key, const QVariant& value);

    QSettings m_file;
};

/// Light or dark, once the desktop's own colours are known.
ThemeKind themeKindOf(ThemeChoice choice);

/// Puts the remembered theme, text size, symbols, style of values and unit of levels in force. What shows a drawing
/// follows Theme::changed(); what stands written is written anew by whoever wrote it.
void applyLookSettings(const Settings& settings);

}  // namespace ohmwright

/// "How you write things": language, values, levels, symbols, light; asked on the start page, changed in the settings.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

class QGridLayout;

namespace ohmwright {

class ChoiceRow;
class Settings;
class ThemedLabel;

/// Each choice is in force and remembered at once; the language from the next start.
class WritingChoices : public QWidget {
    Q_OBJECT
public:
    /// @param settings  must outlive it.
    explicit WritingChoices(Settings& settings, QWidget* parent = nullptr);

    /// As the settings are now: they may have been changed elsewhere.
    void follow();
    /// All of them back to how they are before anything is chosen.
    void setDefaults();

signals:
    /// The look follows by itself; what stands written does not.
    void changed();

private:
    void putInForce();
    ChoiceRow* add(QGridLayout& grid, const QString& name, const QStringList& choices);

    Settings& m_settings;
    ChoiceRow* m_language;
    ThemedLabel* m_nextStart;
    ChoiceRow* m_values;
    ChoiceRow* m_levels;
    ChoiceRow* m_symbols;
    ChoiceRow* m_light;
    ChoiceRow* m_text;
};

}  // namespace ohmwright

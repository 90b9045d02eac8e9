/// What a person sets once: how things are written, where the shop's folder is. A window beside the main one.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QDialog>

namespace ohmwright {

class Settings;
class ThemedLabel;
class WritingChoices;

/// Not modal; what is chosen is in force at once, so there is nothing to confirm. Esc closes it.
class SettingsPage : public QDialog {
    Q_OBJECT
public:
    /// @param settings  must outlive it.
    explicit SettingsPage(Settings& settings, QWidget* parent = nullptr);

    /// As they are now.
    void follow();

signals:
    /// As WritingChoices::changed().
    void writingChanged();
    void shopFolderAsked();

private:
    Settings& m_settings;
    WritingChoices* m_writing;
    ThemedLabel* m_folder;
};

}  // namespace ohmwright

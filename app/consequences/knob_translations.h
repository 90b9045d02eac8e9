/// Knob translation: where the player's knobs stand now for what they gave in stock, and what was kept equal.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/consequence_service.h"

#include <QWidget>

class QVBoxLayout;

namespace ohmwright {

/// A translation as the rail shows it.
struct TranslationWords {
    QString old;     ///< "old level 5.0"
    QString now;     ///< "new 4.4"; "out of travel"
    QString detail;  ///< "level equal, −0.42 dB remain at 82 Hz"
};
/// Those that ask for another position; a knob that gives what it gave stays as it is.
std::vector<TranslationWords> translationWords(const std::vector<KnobTranslation>& translations);

class KnobTranslations : public QWidget {
    Q_OBJECT
public:
    explicit KnobTranslations(ConsequenceService& consequences, QWidget* parent = nullptr);

private:
    void showAnswers();

    ConsequenceService& m_consequences;
    QVBoxLayout* m_list;
};

}  // namespace ohmwright

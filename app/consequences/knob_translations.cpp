// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/consequences/knob_translations.h"

#include "app/look/panel_title.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "app/look/themed_label.h"
#include "core/base/number_text.h"

#include <QHBoxLayout>
#include <QVBoxLayout>

#include <cmath>

namespace ohmwright {

namespace {

using Section = ConsequenceService::Section;
constexpr int margin = 12;
/// A position that rounds to the same tenth is the same to a hand.
constexpr double sameToAHand = 0.05;

QString position(double value) {
    return text(formatFixed(value, 1));
}

}  // namespace

std::vector<TranslationWords> translationWords(const std::vector<KnobTranslation>& translations) {
    std::vector<TranslationWords> all;
    for (const KnobTranslation& one : translations) {
        if (one.newPosition && std::abs(*one.newPosition - one.oldPosition) < sameToAHand) {
            continue;
        }
        TranslationWords words;
        words.old = QObject::tr("old %1 %2").arg(text(one.knobName), position(one.oldPosition));
        const QString equal = text(one.keptEqualName);
        if (one.newPosition) {
            words.now = QObject::tr("new %1").arg(position(*one.newPosition));
            words.detail = QObject::tr("%1 equal").arg(equal);
        } else {
            words.now = QObject::tr("out of travel");
            words.detail = QObject::tr("%1: at %2 still off by %3 %4")
                               .arg(equal, one.outAt == TravelEnd::belowZero ? "0" : "10",
                                    text(formatFigure(one.reached - one.goal, Sign::always)), saidText(one.unit));
        }
        if (one.remainingLowDb) {
            words.detail =
                QObject::tr("%1, 82 Hz %2 dB").arg(words.detail, text(formatFigure(*one.remainingLowDb, Sign::always)));
        }
        all.push_back(words);
    }
    return all;
}

KnobTranslations::KnobTranslations(ConsequenceService& consequences, QWidget* parent)
    : QWidget(parent), m_consequences(consequences) {
    setAccessibleName(tr("Knob translation"));
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(margin, 8, margin, 10);
    layout->setSpacing(4);
    layout->addWidget(new PanelTitle(tr("Knob translation"), this));
    m_list = new QVBoxLayout;
    m_list->setSpacing(0);
    layout->addLayout(m_list);
    connect(&consequences, &ConsequenceService::ready, this, [this](Section section) {
        if (section == Section::translations) {
            showAnswers();
        }
    });
    connect(&consequences, &ConsequenceService::stateChanged, this, &KnobTranslations::showAnswers);
    showAnswers();
}

void KnobTranslations::showAnswers() {
    while (QLayoutItem* item = m_list->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    const auto add = [this](const QString& words, QColor ThemeColours::*colour, TextRole role) {
        auto* line = new ThemedLabel(role, false, colour, this);
        line->setWordWrap(true);
        line->setText(words);
        m_list->addWidget(line);
        return line;
    };
    const auto translations = m_consequences.translations();
    if (!translations || !m_consequences.isCurrent(Section::translations)) {
        const QString trouble = m_consequences.trouble(Section::translations);
        add(trouble.isEmpty() ? tr("solving") : tr("not current. %1").arg(trouble), &ThemeColours::ink3,
            TextRole::caption);
        return;
    }
    const auto all = translationWords(*translations);
    if (all.empty()) {
        add(tr("Knobs stay where they were."), &ThemeColours::ink2, TextRole::caption);
    }
    for (const TranslationWords& words : all) {
        auto* row = new QWidget(this);
        auto* cells = new QHBoxLayout(row);
        cells->setContentsMargins(0, 4, 0, 0);
        auto* old = new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, row);
        old->setText(words.old);
        auto* now = new ThemedLabel(TextRole::body, true, &ThemeColours::now, row);
        now->setText(words.now);
        cells->addWidget(old, 1);
        cells->addWidget(now);
        m_list->addWidget(row);
        add(words.detail, &ThemeColours::ink3, TextRole::caption);
    }
}

}  // namespace ohmwright

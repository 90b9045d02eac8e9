// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/sum_cards.h"

#include "app/background/consequence_service.h"
#include "app/look/sum_notes.h"

#include <QWidget>

namespace ohmwright {

namespace {

using Section = ConsequenceService::Section;

}  // namespace

SumCards::SumCards(ConsequenceService& consequences, QWidget& window)
    : QObject(&window), m_consequences(consequences), m_window(window) {
    connect(&consequences, &ConsequenceService::ready, this, [this](Section section) {
        if (section == Section::sums) {
            emit changed();
        }
    });
}

NoteCard* SumCards::showFigures(const QStringList& figures, const QRect& beside) {
    std::vector<Note> notes;
    const auto sums = m_consequences.sums();
    if (sums && m_consequences.isCurrent(Section::sums)) {
        notes = sumNotes(sums->stock, sums->now, figures);
        if (notes.empty()) {
            notes = {{tr("No sum on paper"), tr("This figure is solved: no formula of a few parts gives it."), {}}};
        }
    } else {
        notes = {{tr("The sum"),
                  m_consequences.trouble(Section::sums).isEmpty() ? tr("solving: press again in a moment")
                                                                  : m_consequences.trouble(Section::sums),
                  {}}};
    }
    return NoteCard::show(notes, m_window, beside);
}

NoteCard* SumCards::showPart(const PartId& part, const QRect& beside) {
    const auto sums = m_consequences.sums();
    if (!sums || !m_consequences.isCurrent(Section::sums)) {
        return showFigures({}, beside);
    }
    std::vector<Note> notes =
        part.empty() ? sumNotes(sums->stock, sums->now) : sumNotesOfPart(sums->stock, sums->now, part);
    if (notes.empty()) {
        return showFigures({}, beside);
    }
    return NoteCard::show(notes, m_window, beside);
}

std::set<PartId> SumCards::parts() const {
    std::set<PartId> parts;
    if (const auto sums = m_consequences.sums()) {
        for (const auto* side : {&sums->stock, &sums->now}) {
            for (const Sum& sum : *side) {
                parts.insert(sum.parts.begin(), sum.parts.end());
            }
        }
    }
    return parts;
}

}  // namespace ohmwright

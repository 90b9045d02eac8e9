/// Shows the sum behind a figure that was pressed, on a card beside it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <QObject>
#include <QRect>
#include <QStringList>

#include <set>

namespace ohmwright {

class ConsequenceService;
class NoteCard;

/// Where the sums are not there (yet), the card says so.
class SumCards : public QObject {
    Q_OBJECT
public:
    SumCards(ConsequenceService& consequences, QWidget& window);

    /// @param figures  names as look/sum_notes.h takes them.
    /// @param beside  what was pressed, on the screen.
    NoteCard* showFigures(const QStringList& figures, const QRect& beside);
    /// Of a part, or of the whole circuit for an empty id.
    NoteCard* showPart(const PartId& part, const QRect& beside);
    /// Those whose values are in a sum of stock or now.
    [[nodiscard]] std::set<PartId> parts() const;

signals:
    /// parts() may be others.
    void changed();

private:
    ConsequenceService& m_consequences;
    QWidget& m_window;
};

}  // namespace ohmwright

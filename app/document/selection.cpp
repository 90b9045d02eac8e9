// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/document/selection.h"

#include <cmath>
#include <utility>

namespace ohmwright {

void Selection::setPart(const PartId& part) {
    if (part == m_part) {
        return;
    }
    m_part = part;
    emit partChanged();
}

void Selection::setGhost(std::optional<Change> ghost) {
    if (ghost == m_ghost) {
        return;
    }
    m_ghost = std::move(ghost);
    emit ghostChanged();
}

void Selection::setCandidateValues(std::vector<double> values) {
    if (values == m_candidates) {
        return;
    }
    m_candidates = std::move(values);
    emit candidatesChanged();
}

void Selection::setCursorHz(double hz) {
    if (!std::isfinite(hz) || hz <= 0.0 || hz == m_cursorHz) {
        return;
    }
    m_cursorHz = hz;
    emit cursorChanged();
}

void Selection::setHoldsStock(bool holds) {
    if (holds == m_holdsStock) {
        return;
    }
    m_holdsStock = holds;
    emit holdsStockChanged();
}

void Selection::setPinsOwners(bool pins) {
    if (pins != m_pinsOwners) {
        m_pinsOwners = pins;
        emit ownersChanged();
    }
}

void Selection::setHoldsCursor(bool holds) {
    if (holds != m_holdsCursor) {
        m_holdsCursor = holds;
        emit ownersChanged();
    }
}

void Selection::setProbesVolts(bool probes) {
    if (probes != m_probesVolts) {
        m_probesVolts = probes;
        emit probesChanged();
    }
}

}  // namespace ohmwright

/// What the user is looking at and trying: part, ghost, cursor, hold for stock, owners, volts. Not part of the job, not
/// undone.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/mod.h"

#include <QObject>

#include <optional>

namespace ohmwright {

class Selection : public QObject {
    Q_OBJECT
public:
    using QObject::QObject;

    [[nodiscard]] const PartId& part() const { return m_part; }
    [[nodiscard]] const std::optional<Change>& ghost() const { return m_ghost; }
    /// Values of the selected part that the part panel lists; solved for their effect.
    [[nodiscard]] const std::vector<double>& candidateValues() const { return m_candidates; }
    [[nodiscard]] double cursorHz() const { return m_cursorHz; }
    [[nodiscard]] bool holdsStock() const { return m_holdsStock; }
    /// Whether the map says who owns the cursor's frequency: while it is pinned, and while the cursor is held.
    [[nodiscard]] bool showsOwners() const { return m_pinsOwners || m_holdsCursor; }
    [[nodiscard]] bool pinsOwners() const { return m_pinsOwners; }
    /// Whether the map says the voltages at its nodes.
    [[nodiscard]] bool probesVolts() const { return m_probesVolts; }

    void setPart(const PartId& part);
    void setGhost(std::optional<Change> ghost);
    void setCandidateValues(std::vector<double> values);
    void setCursorHz(double hz);
    void setHoldsStock(bool holds);
    void setPinsOwners(bool pins);
    /// The button is down on the response's cursor.
    void setHoldsCursor(bool holds);
    void setProbesVolts(bool probes);

signals:
    void partChanged();
    void ghostChanged();
    void candidatesChanged();
    void cursorChanged();
    void holdsStockChanged();
    void ownersChanged();
    void probesChanged();

private:
    PartId m_part;
    std::optional<Change> m_ghost;
    std::vector<double> m_candidates;
    double m_cursorHz = 110.0;
    bool m_holdsStock = false;
    bool m_pinsOwners = false;
    bool m_holdsCursor = false;
    bool m_probesVolts = false;
};

}  // namespace ohmwright

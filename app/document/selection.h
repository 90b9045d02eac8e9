/// What the user is looking at and trying: part, ghost, cursor, hold for stock. Not part of the job, not undone.
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

    void setPart(const PartId& part);
    void setGhost(std::optional<Change> ghost);
    void setCandidateValues(std::vector<double> values);
    void setCursorHz(double hz);
    void setHoldsStock(bool holds);

signals:
    void partChanged();
    void ghostChanged();
    void candidatesChanged();
    void cursorChanged();
    void holdsStockChanged();

private:
    PartId m_part;
    std::optional<Change> m_ghost;
    std::vector<double> m_candidates;
    double m_cursorHz = 110.0;
    bool m_holdsStock = false;
};

}  // namespace ohmwright

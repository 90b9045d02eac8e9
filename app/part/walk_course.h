/// Where a walk over the board stands, and what lies behind it. Knows no widgets and no document.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <vector>

namespace ohmwright {

class WalkCourse {
public:
    /// Before the first part, nothing behind it.
    void begin();
    /// The part it stands at; empty at the end of the board.
    [[nodiscard]] const PartId& here() const { return m_here; }
    [[nodiscard]] bool canGoBack() const { return !m_behind.empty(); }

    /// The next part after this one that nobody has looked at; empty when there is none up to the board's end.
    [[nodiscard]] PartId next(const Circuit& board) const;
    /// Stands at `part`, empty for the end; the part left is what goBack comes to.
    /// @param hasMadeKnown  the step made a part known that was only drawn: undone, the walk stands there again.
    void stepTo(const PartId& part, bool hasMadeKnown);
    /// Stands at a part that was chosen by hand; the way back stays as it was.
    void standAt(const PartId& part);
    void goBack();

    /// After the circuit changed: goes back to a part whose looking-at was undone, and to the end from one that is
    /// gone. Whether it stands elsewhere now.
    bool follow(const Circuit& board);

private:
    struct Step {
        PartId from;
        bool hasMadeKnown = false;
    };

    PartId m_here;
    std::vector<Step> m_behind;
};

}  // namespace ohmwright

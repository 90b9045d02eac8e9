/// The hand that draws a row (signal_row.h): it goes along the way and keeps in mind which columns are taken.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/signal_row.h"

#include <optional>
#include <set>
#include <vector>

namespace ohmwright {

/// Columns between uprights whose words just do not fit between them.
inline constexpr int wordsBelow = 3;

/// Where a net's line goes on: its end, and whether a part may hang right there.
struct RowCursor {
    int x = 0;
    int y = 0;
    bool upHere = false;
    bool downHere = false;
};

class RowBuilder {
public:
    RowBuilder(const RowInput& input, Progress& progress) : m_input(input), m_progress(progress) {}
    Sketch build(const NetName& start, const std::vector<SignalStep>& way, const std::vector<std::size_t>& zones);

private:
    // What hangs at a net
    /// Gives the net its line with all that leads to supplies; the cursor stands at the line's right end after.
    /// @param skipped  1: what leads up, -1: what leads down finds its place later, since a line runs there.
    RowCursor enter(const NetName& net, RowCursor at, int skipped = 0);
    [[nodiscard]] std::vector<std::size_t> hanging(const NetName& net, bool isUp) const;
    [[nodiscard]] bool holdsSource(const Branch& branch) const;
    [[nodiscard]] int wordsOf(std::size_t branch) const;
    /// The source stands upright, with its coil above it if it has one; what follows in series lies on the line.
    /// @return the column where the line goes on.
    int placeSource(std::size_t index, const NetName& net, GridPoint at);
    /// The net between the standing part of the source's series and the lying one.
    [[nodiscard]] NetName innerNet(const Branch& standing, std::size_t count) const;
    /// Columns that what hangs down needs at its left: short words of a single part may stand below it instead.
    [[nodiscard]] int besideOf(std::size_t branch) const;
    void place(std::size_t index, const NetName& net, GridPoint at, bool isUp);
    void mark(std::size_t index);

    // Series on the line
    [[nodiscard]] std::vector<std::size_t> between(const NetName& a, const NetName& b) const;
    /// All series between the same two nets, one below the other.
    RowCursor passBranches(const SignalStep& step, const RowCursor& at);
    /// This column, or the next that all that stands already leaves free: a border runs through no part.
    [[nodiscard]] int columnBesideAll(int column) const;
    [[nodiscard]] static std::size_t lastOf(const Branch& branch, const NetName& to);
    /// @return the width of the widest.
    int placeRows(const std::vector<std::size_t>& rows, const NetName& from, GridPoint at, int widest);
    /// No wire leads on. Coils that couple stand side by side with their core between.
    RowCursor passLaw(const SignalStep& step, const RowCursor& at);
    /// The branch to ground that is one of a coupling's coils and stands at a net.
    [[nodiscard]] std::optional<std::size_t> coilOf(const Part& coupling, const NetName& net) const;
    [[nodiscard]] bool isCoil(std::size_t branch) const;
    /// The source first, a coil that couples last, or first where the signal comes from its fellow.
    [[nodiscard]] int rank(std::size_t branch) const;

    // Devices (row_devices.cpp)
    RowCursor passDevice(const SignalStep& step, RowCursor at);
    void setPart(std::size_t index, GridPoint at, int quarterTurns, bool mirrored, int span,
                 LabelSide label = LabelSide::automatic);
    /// A supply's or ground's sign for a pin that looks to `dx`, `dy`.
    void sign(const NetName& net, GridPoint pin, int dx, int dy);
    void addSign(const NetName& net, GridPoint at, bool isUp);
    /// A device's net that the way does not follow: its sign, or its line with what hangs at it.
    RowCursor secondary(const NetName& net, GridPoint pin, int dx, int dy, int skipped = 0);
    [[nodiscard]] int upwards(const NetName& net) const;
    RowCursor passUpright(const SignalStep& step, RowCursor at);
    /// A bulk or a screen.
    void passSide(const NetName& net, GridPoint pin);
    RowCursor passOpamp(const SignalStep& step, const RowCursor& at);
    /// What leads from an op-amp's output back to its inputs.
    [[nodiscard]] std::vector<std::size_t> feedbackRows(const Part& part) const;
    RowCursor passPot(const SignalStep& step, const RowCursor& at);
    /// Upright, the wiper to the right.
    RowCursor passPotToWiper(const SignalStep& step, const RowCursor& at);
    /// Upright, the wiper to the left.
    RowCursor passPotFromWiper(const SignalStep& step, const RowCursor& at);
    /// The controlling pins at the left, the source upright.
    RowCursor passControlled(const SignalStep& step, const RowCursor& at);

    const RowInput& m_input;
    Progress& m_progress;
    Sketch m_sketch;
    std::set<const SignalStep*> m_zones;  ///< Steps that a new stage begins with.
    int m_up = -1;    ///< The last column that is taken above the line; words of the next stand to the right of it.
    int m_down = -1;  ///< The same below.
    std::optional<std::size_t> m_lastDown;   ///< The branch that hangs at the last column.
    std::optional<std::size_t> m_coilFirst;  ///< The coil that the signal comes out of.
    int m_clearOfDevice = 0;                 ///< From here on the next device stands clear of the last one's words.
};

}  // namespace ohmwright

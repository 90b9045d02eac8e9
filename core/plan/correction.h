/// Corrections: where the stock drawing is put right because the board is otherwise. Never a mod, and never in one.
///
/// A correction changes Job::stock and keeps what the drawing said, so that papers can say both and it can be taken
/// back. Mods stay as they are: now is always the corrected stock with the plan.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace ohmwright {

enum class CorrectionReason {
    boardDiffers,  ///< The unit was built so: another revision of the board.
    earlierMod,    ///< Somebody changed it before it came in: history of the unit.
    misread,       ///< The drawing was read or entered wrongly: nothing else follows.
};
/// "board differs", "earlier mod", "misread".
std::string_view reasonWord(CorrectionReason reason);
/// Nothing for a word that is none of them.
std::optional<CorrectionReason> reasonOfWord(std::string_view word);

// ---- What is read of a part, on the drawing or on the board -------------------------------------------------------

struct ValueFound {
    double value = 0.0;   ///< SI unit of the part's kind.
    std::string printed;  ///< Marking on the body it was read from; may be empty.

    friend bool operator==(const ValueFound&, const ValueFound&) = default;
};
struct TypeFound {
    Model model;  ///< Whole.
    std::string printed;

    friend bool operator==(const TypeFound&, const TypeFound&) = default;
};
struct ToleranceFound {
    double tolerance = 0.0;  ///< Fraction.

    friend bool operator==(const ToleranceFound&, const ToleranceFound&) = default;
};
/// Of a pot.
struct LawFound {
    Taper taper = Taper::linear;
    double shareAtHalf = 0.5;

    friend bool operator==(const LawFound&, const LawFound&) = default;
};
struct LegFound {
    int pin = 0;  ///< 0-based.
    NetName net;  ///< Where it sits; a new name is a net of its own.

    friend bool operator==(const LegFound&, const LegFound&) = default;
};
struct ReferenceFound {
    std::string reference;

    friend bool operator==(const ReferenceFound&, const ReferenceFound&) = default;
};
struct BoardNoteFound {
    std::string note;  ///< Where it sits, in words.

    friend bool operator==(const BoardNoteFound&, const BoardNoteFound&) = default;
};
/// A part's place in the list of a stage.
struct Seat {
    int stage = 0;
    int place = 0;
    PartId previous, next;  ///< Who sits before and after it; empty at the ends of the list.

    friend bool operator==(const Seat&, const Seat&) = default;
};
/// Whether the part is there at all.
struct PresenceFound {
    std::optional<Part> part;   ///< Whole; absent: it is not there.
    PartId beside;              ///< Of a part more on the board: it is drawn in the stages of this one.
    std::vector<Model> models;  ///< Of a part more: its type, whole, where it has one.
    /// Where a part that is not there stood: for the way back.
    int index = -1;  ///< In Circuit::parts; -1: after the others.
    std::vector<Seat> seats;
    std::optional<Knob> knob;
    int knobIndex = 0;
    std::optional<double> knobPosition;  ///< 0..10; absent where the setting named none.

    friend bool operator==(const PresenceFound&, const PresenceFound&) = default;
};

using Finding = std::variant<ValueFound, TypeFound, ToleranceFound, LawFound, LegFound, ReferenceFound, BoardNoteFound,
                             PresenceFound>;

struct Correction {
    PartId part;
    Finding drawn;  ///< What the drawing says; of the same kind as `found`.
    Finding found;  ///< What stock has instead.
    CorrectionReason reason = CorrectionReason::boardDiffers;
    std::string note;
    std::string who;
    std::string when;             ///< ISO 8601, local time.
    int visit = 1;                ///< In which it was found.
    std::vector<NetName> opened;  ///< Nets that nothing ties to ground since.
    std::string broughtType;      ///< Name of a type that the circuit did not have before; may be empty.

    friend bool operator==(const Correction&, const Correction&) = default;
};

/// "3k9", "1N4148", "±5 %", "15 % log", "leg 2 at n5", "not on the board".
std::string findingWords(const Finding& finding, PartKind kind);

}  // namespace ohmwright

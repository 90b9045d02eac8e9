/// A job: one unit on the bench for one customer. A plain value; this is what a *.ohmjob file holds.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/quantity.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"
#include "core/plan/board.h"
#include "core/plan/correction.h"
#include "core/plan/mod.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

struct UnitCard {
    std::string name;           ///< "Harbour Lamp"
    std::string serial;         ///< "HL-0231"
    std::string boardRevision;  ///< "PB-14 rev 2"
    std::string kind;           ///< "soft-clip op-amp overdrive"

    friend bool operator==(const UnitCard&, const UnitCard&) = default;
};

/// Kept apart from everything else, so that a job can be passed on without it.
struct Customer {
    std::string name;
    std::string contact;

    friend bool operator==(const Customer&, const Customer&) = default;
};

enum class VisitState { draft, quoted, onBench, proven, gone };

/// "draft", "quoted", "on bench", "proven", "gone".
std::string_view visitStateWord(VisitState state);

/// How a step of the work ended. A refused one ends the work: nothing after it opens.
enum class StepResult { passed, failed, skipped, refused };

/// A signature under one step of the check list, with what was read there.
struct StepMark {
    std::string step;  ///< Which one: its key (core/bench/work_log.h); words that a person can read.
    StepResult result = StepResult::passed;
    std::optional<double> reading;  ///< In `unit`; absent where nothing was read or the meter showed none.
    Unit unit = Unit::none;
    std::string read;     ///< What was read, in words: "118 nF", "no reading"; empty where nothing was.
    std::string allowed;  ///< The band then, in words: "108 nF to 132 nF".
    std::string who;
    std::string when;  ///< ISO 8601, local time.

    friend bool operator==(const StepMark&, const StepMark&) = default;
};

/// A paper that was printed or saved; void once the job's hash is another.
struct PrintedPaper {
    std::string kind;  ///< "bench", "way-back", "customer", "label", "quote".
    std::string hash;  ///< stateHash of the job then.
    std::string when;  ///< ISO 8601, local time.

    friend bool operator==(const PrintedPaper&, const PrintedPaper&) = default;
};

/// What a meter showed on the unit: when it came in, when it left, when it came back.
struct UnitReading {
    std::string place;  ///< In words: "Q1 collector", "supply current".
    NetName net;        ///< Volts against ground there; empty: amperes out of the supply.
    double value = 0.0;
    Unit unit = Unit::volt;

    friend bool operator==(const UnitReading&, const UnitReading&) = default;
};

struct Visit {
    int number = 1;
    VisitState state = VisitState::draft;
    std::string date;       ///< ISO 8601 day.
    std::string complaint;  ///< The customer's own sentence.
    /// What the claim check holds against the figures: "fuller", "less squashed" (core/plan/claims.h). Each once, in
    /// the order of asking; one that the shop's table does not know is kept and has no answer.
    std::vector<std::string> words;
    std::string agreed;     ///< What was agreed to do.
    std::string condition;  ///< As the unit came in: scratches, accessories, what others are said to have done.
    std::vector<UnitReading> readings;  ///< Before anything was touched.
    std::vector<StepMark> marks;        ///< What was done at the bench; one a step, in the order of doing.
    std::vector<PrintedPaper> papers;   ///< In the order of printing.

    friend bool operator==(const Visit&, const Visit&) = default;
};

/// What left the shop, frozen: nothing in it is changed later; a correction is a dated note.
struct Departure {
    std::string when;                     ///< ISO 8601, local time.
    Visit visit;                          ///< As it was then; its state is gone.
    Circuit stock;                        ///< As the unit came in to that visit.
    std::vector<Correction> corrections;  ///< Of that stock, as they stood then.
    Plan plan;                            ///< What was done, and what was planned and left.
    Setting setting;
    std::vector<UnitReading> readings;  ///< On leaving.
    std::vector<std::string> notes;     ///< Corrections, each beginning with its date.

    friend bool operator==(const Departure&, const Departure&) = default;
};

/// A state that was pinned to be compared with: what is solved for it is the job's stock with this plan and setting.
struct PinnedState {
    std::string letter;  ///< One of core/plan/pinned.h's, each once.
    std::string name;    ///< "mods A and C"
    Plan plan;
    Setting setting;

    friend bool operator==(const PinnedState&, const PinnedState&) = default;
};

/// Something in the file that this version does not know; kept and written back at its place.
struct UnknownKey {
    std::string path;  ///< "/circuit/parts/p7/colour": keys and, in lists, the entry's id or index.
    std::string json;  ///< Its text.

    friend bool operator==(const UnknownKey&, const UnknownKey&) = default;
};

struct Job {
    std::string shop;  ///< "Tern & Tallow, Quay Street"
    UnitCard unit;
    Customer customer;
    Visit visit;
    Circuit stock;
    std::vector<Correction> corrections;  ///< Of stock, in the order of finding (core/plan/correct.h).
    Plan plan;
    Setting setting;
    std::vector<PinnedState> pinned;    ///< By letter; papers and figures do not depend on them.
    Board board;                        ///< Photos and marked legs; figures do not depend on them.
    std::vector<Departure> departures;  ///< Of the visits before, and of this one once it is gone; by visit number.
    std::vector<UnknownKey> unknown;

    friend bool operator==(const Job&, const Job&) = default;
};

/// Eight hex digits of what the figures and the work depend on (stock, plan, setting), as printed on papers:
/// "7F3A 91C2". Equal states have equal hashes.
std::string stateHash(const Job& job);

/// Whether two serials name the same unit: letter case and spaces aside. An empty one names none.
bool isSameSerial(std::string_view one, std::string_view other);

}  // namespace ohmwright

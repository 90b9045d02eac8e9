/// One step of the work at the bench as a value: what a sheet prints and a check list asks.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/said.h"
#include "core/bench/check.h"
#include "core/plan/board.h"

#include <optional>
#include <string>
#include <vector>

namespace ohmwright {

enum class StepKind {
    photograph,  ///< Before anything is moved.
    discharge,   ///< Supply out, capacitors down, meter on them.
    takeOut,
    moveLeg,
    fit,
    reading,  ///< One check of the meter, power off.
    stop,     ///< "Do not power yet": everything above is signed first.
    powerUp,  ///< Current limited, the supply's current read.
    probe,    ///< Volts at one place.
    tone,     ///< Level at one frequency.
};

/// "discharge", "take out", "must beep" of a reading's check ...
std::string_view stepWords(StepKind kind);

/// A part body as it is drawn beside its step; nothing where there is none to draw.
struct BodyPicture {
    enum class Kind { none, code, bands, diode, polar } kind = Kind::none;
    std::string marking;             ///< On the body: "124".
    std::vector<std::string> bands;  ///< Resistor: colours from the left.
    std::string plainEnd;            ///< Diode: what the anode joins; polar: what the minus joins.
    std::string bandEnd;             ///< Diode: what the cathode joins; polar: what the plus joins.

    friend bool operator==(const BodyPicture&, const BodyPicture&) = default;
};

/// "Must beep", "one leg to U1 pin 2; other leg to one leg of R5 Rg".
struct StepLine {
    std::string word;
    std::string text;
    bool hasBlank = false;  ///< A reading is written beside it.
    bool hasBox = true;     ///< To be signed; a note has none.
    bool isThrow = false;   ///< Says at which throw of a switch the step is done.

    friend bool operator==(const StepLine&, const StepLine&) = default;
};

struct BenchStep {
    StepKind kind = StepKind::fit;
    std::string letter;  ///< Of the mod's triangle; empty for steps of the whole job.
    std::string title;
    std::string english;          ///< The title in English, of which the step's key is made; empty: the title is.
    std::vector<StepLine> lines;  ///< What the hands and eyes do; beeps stand here too, in words for a sheet.
    std::optional<Check> check;   ///< Of a reading, probe or tone: red, black and band.
    /// Of powerUp: the supply's current [A]; of discharge: the volts to be under.
    std::optional<double> low, nominal, high;
    Unit unit = Unit::none;
    BodyPicture picture;
    std::vector<Leg> legs;  ///< Of takeOut, moveLeg and fit: what the iron comes to, pins as the part counts them.
    std::string ifItFails;  ///< The likely mistakes in order, or what to do.
    bool mustBeSigned = true;
    bool blocks = false;  ///< Nothing after it opens before it is done; it can be refused, not skipped.
    bool needsSecondPerson = false;
    bool isEnough = false;     ///< Of the smallest set that tells the plan from every likely mistake.
    double waitSeconds = 0.0;  ///< Before the reading: a capacitor that charges, a supply that falls.
    /// Where the check stands: of a reading or tone in WorkPlan::checkPlans, of a probe in WorkPlan::powered and there
    /// among the card's lines; nowhere when negative.
    int sheet = -1;
    std::size_t line = 0;

    friend bool operator==(const BenchStep&, const BenchStep&) = default;
};

/// Its reading is a sound.
bool isBeeper(const BenchStep& step);

/// Gives a step its title; `words()` says it.
template <class Words>
void entitle(BenchStep& step, const Words& words) {
    step.title = words();
    step.english = inEnglish(words);
}

}  // namespace ohmwright

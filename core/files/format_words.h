/// The words of a job file for the enumerations of a job. A word, once published, never changes its meaning.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/knowledge_words.h"
#include "core/files/json_reader.h"

namespace ohmwright {

inline constexpr std::array<Word<PartKind>, 22> partKindWords{{
    {"resistor", PartKind::resistor},
    {"capacitor", PartKind::capacitor},
    {"inductor", PartKind::inductor},
    {"potentiometer", PartKind::potentiometer},
    {"link", PartKind::link},
    {"diode", PartKind::diode},
    {"bipolar", PartKind::bipolar},
    {"opamp", PartKind::opamp},
    {"voltage source", PartKind::voltageSource},
    {"current source", PartKind::currentSource},
    {"jfet", PartKind::jfet},
    {"mosfet", PartKind::mosfet},
    {"triode", PartKind::triode},
    {"pentode", PartKind::pentode},
    {"switch contact", PartKind::switchContact},
    {"coupling", PartKind::coupling},
    {"voltage-controlled voltage source", PartKind::voltageControlledVoltage},
    {"voltage-controlled current source", PartKind::voltageControlledCurrent},
    {"current-controlled current source", PartKind::currentControlledCurrent},
    {"current-controlled voltage source", PartKind::currentControlledVoltage},
    {"behavioural voltage source", PartKind::behaviouralVoltage},
    {"behavioural current source", PartKind::behaviouralCurrent},
}};

inline constexpr std::array<Word<SourceWave::Shape>, 2> waveShapeWords{{
    {"sine", SourceWave::Shape::sine},
    {"pulse", SourceWave::Shape::pulse},
}};

inline constexpr std::array<Word<Taper>, 3> taperWords{{
    {"linear", Taper::linear},
    {"logarithmic", Taper::logarithmic},
    {"reverse logarithmic", Taper::reverseLogarithmic},
}};

inline constexpr std::array<Word<Knowledge>, 3> knowledgeWords{{
    {knowledgeWord(Knowledge::drawn), Knowledge::drawn},
    {knowledgeWord(Knowledge::seen), Knowledge::seen},
    {knowledgeWord(Knowledge::measured), Knowledge::measured},
}};

inline constexpr std::array<Word<LabelSide>, 5> labelSideWords{{
    {"automatic", LabelSide::automatic},
    {"left", LabelSide::left},
    {"right", LabelSide::right},
    {"above", LabelSide::above},
    {"below", LabelSide::below},
}};

inline constexpr std::array<Word<FlagKind>, 4> flagKindWords{{
    {"ground", FlagKind::ground},
    {"supply", FlagKind::supply},
    {"terminal", FlagKind::terminal},
    {"note", FlagKind::note},
}};

inline constexpr std::array<Word<VisitState>, 5> visitStateWords{{
    {"draft", VisitState::draft},
    {"quoted", VisitState::quoted},
    {"on bench", VisitState::onBench},
    {"proven", VisitState::proven},
    {"gone", VisitState::gone},
}};

inline constexpr std::array<Word<StepResult>, 4> stepResultWords{{
    {"passed", StepResult::passed},
    {"failed", StepResult::failed},
    {"skipped", StepResult::skipped},
    {"refused", StepResult::refused},
}};

inline constexpr std::array<Word<Unit>, 9> unitWords{{
    {"none", Unit::none},
    {"ohm", Unit::ohm},
    {"farad", Unit::farad},
    {"henry", Unit::henry},
    {"volt", Unit::volt},
    {"ampere", Unit::ampere},
    {"hertz", Unit::hertz},
    {"decibel", Unit::decibel},
    {"percent", Unit::percent},
}};

/// By index of Change.
enum class ChangeWord {
    swapValue,
    swapType,
    addInSeries,
    addAcross,
    lift,
    bridge,
    removePart,
    changePot,
    moveLeg,
    addPart,
    combined,
    fitSwitch,
};
inline constexpr std::array<Word<ChangeWord>, 12> changeWords{{
    {"swap value", ChangeWord::swapValue},
    {"swap type", ChangeWord::swapType},
    {"add in series", ChangeWord::addInSeries},
    {"add across", ChangeWord::addAcross},
    {"lift", ChangeWord::lift},
    {"bridge", ChangeWord::bridge},
    {"remove", ChangeWord::removePart},
    {"change pot", ChangeWord::changePot},
    {"move leg", ChangeWord::moveLeg},
    {"add part", ChangeWord::addPart},
    {"combined", ChangeWord::combined},
    {"fit switch", ChangeWord::fitSwitch},
}};

/// By index of Finding.
enum class FindingWord { value, type, tolerance, law, leg, reference, boardNote, presence };
inline constexpr std::array<Word<FindingWord>, 8> findingWordsOfFile{{
    {"value", FindingWord::value},
    {"type", FindingWord::type},
    {"tolerance", FindingWord::tolerance},
    {"law", FindingWord::law},
    {"leg", FindingWord::leg},
    {"reference", FindingWord::reference},
    {"board note", FindingWord::boardNote},
    {"presence", FindingWord::presence},
}};

}  // namespace ohmwright

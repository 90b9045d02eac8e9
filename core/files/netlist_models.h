/// .model cards: the type, and the figures under their Berkeley names.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/netlist_definitions.h"

#include <optional>

namespace ohmwright {

/// Name and type of a .model card. Faults: too few words, a type that the program has no law for.
std::optional<ModelText> readModelHead(const Card& card, NetlistLog& log);

/// The figures. NPN, NJF, NMOS have POLARITY 1, their opposites -1. Names without a law are said as a note.
/// @param constant  set to whether no figure names a parameter.
/// Faults: a level other than 1, what is no number, what makes no law (model_limits.h), a name twice.
std::optional<Model> readModel(const ModelText& text, ParameterScope& scope, NetlistLog& log, bool& constant);

/// A valve of the program's own (KOREN_TRIODE, KOREN_PENTODE): its kind, or nothing.
std::optional<PartKind> valveKind(std::string_view lowerName);
/// Names of the figures that its call takes, upper case.
std::span<const std::string_view> valveParameters(PartKind kind);
/// The law's name of a figure as written in a call.
std::string valveParameterName(PartKind kind, std::string_view written);

}  // namespace ohmwright

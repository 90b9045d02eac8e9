/// Texts of which English has one for two meanings and another language two: "%1 to %2" is a range, and also two places
/// that a meter bridges. All others are said() without a word more.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/said.h"

#include <initializer_list>
#include <string>

namespace ohmwright {

/// Gives the text of the chosen language for an English one in one of its meanings; where the language makes no
/// difference, what it has for the English alone. Called from any thread.
using MeaningTranslation = std::string (*)(const char* english, const char* meaning);

/// As setTranslation(). nullptr tells no meanings apart.
void setMeaningTranslation(MeaningTranslation translation);

/// said(english, fillings) where it means `meaning`: words for the translator, as in
/// saidMeaning("two places", "%1 to %2", {red, black}).
std::string saidMeaning(const char* meaning, const char* english, std::initializer_list<Filling> fillings = {});

}  // namespace ohmwright

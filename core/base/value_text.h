/// Part values as a technician writes them, and back in the house's one style.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/quantity.h"
#include "core/base/result.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// One way to read what was typed or printed.
struct ValueReading {
    Quantity value;
    std::optional<double> toleranceFraction;  ///< 0.05 for a trailing J; absent when not written.
    std::string because;                      ///< "capacitor code, 47 and 4 zeros, in pF"

    friend bool operator==(const ValueReading&, const ValueReading&) = default;
};

/// All sound readings of `text` for a part measured in `expected`; the likeliest first.
///
/// One reading: take it. Two or more: the marking is ambiguous (a bare "470" on a capacitor is 47 pF
/// by code or 470 pF printed) and the user chooses. Never guesses and never returns an empty list. The printed reading
/// is offered only where it is a value of E24: "473" is 47 nF alone. Also ambiguous: "4,700" (comma as point or
/// between thousands), "4.7" on a capacitor (µF or pF), "22m" on a capacitor (old print for µF, or milli).
/// Other bare whole numbers on a capacitor are pF.
///
/// Accepts "4k7", "4.7k", "4,7 kΩ", "4700", "4K7", "R47", "0R47", "1M", "1Meg", "2M2" (Unit::ohm);
/// "47n", "4n7", ".047", "0.047u", "47000p", "473", "104J", "2µ2", "100 nF", "22mfd" (Unit::farad);
/// "2.8H", "100m", "100mH" (Unit::henry); volts, amperes and hertz with SI suffixes. A bare decimal
/// such as ".047" on a capacitor is microfarads by trade custom (common practice, no source).
/// Both Unicode micro U+00B5 and mu U+03BC; decimal comma; trailing tolerance letter (J 5 %, K 10 %, M 20 % ...).
///
/// Errors: invalidInput with a sentence that quotes the text ("1m" in a resistor field asks whether
/// milliohm or megohm is meant; "4k7n", "100nF" for a resistor, "", zero, negative, beyond
/// 0.01 Ω..100 GΩ or 0.1 pF..1 F).
/// Source: letter codes IEC 60062; capacitor code of three characters, same standard.
Result<std::vector<ValueReading>> readValue(std::string_view text, Unit expected);

/// The single reading of `text`.
/// Errors: as readValue; also invalidInput naming all readings when there is more than one.
Result<Quantity> parsePartValue(std::string_view text, Unit expected);

/// A share as it is typed in percent: "5", "5 %", "0,5%".
///
/// @return the share itself: 0.05 for "5 %"; 0 to 1, both ends included.
/// Errors: invalidInput with a sentence that quotes the text: no number, less than 0 or more than 100.
Result<double> parseShare(std::string_view text);

/// The marking of a chip resistor: three digits "472", four "4702", "4R7", or the two-digit index and letter of
/// E96 parts "01C". A separate question, because a bare "472" typed as a value is 472 Ω.
/// Errors: invalidInput; "000" is a link of 0 Ω and no resistor.
/// Source: IEC 60062 (digits), EIA-96 (index and letter).
Result<ValueReading> readChipResistor(std::string_view marking);

/// How part values are written.
enum class ValueStyle {
    letterAsPoint,  ///< 4k7, R68, 470R, 2µ2: IEC 60062.
    letterBehind,   ///< 4.7 k, 0.68 Ω, 470 Ω, 2.2 µ.
};
/// The style of this process: whoever shows values to a person sets it once at start and when the person chooses
/// another. letterAsPoint until then. Any thread.
ValueStyle valueStyle();
void setValueStyle(ValueStyle style);

/// Shop notation, three significant digits at most unless more are needed to tell the value exactly up
/// to five; in letterAsPoint: 3900 ohms "3k9", 0.68 "R68", 1.7 "1R7", 470 "470R", 120 nF "120n", 2.2 uF "2µ2", 4.7 mF
/// "4700µ", 1e6 "1M"; in either style 2.8 henry "2.8 H", 9 volts "9 V". What five digits do not tell exactly is rounded
/// to three. What has up to five digits round-trips through parsePartValue.
std::string formatPartValue(Quantity value, ValueStyle style = valueStyle());

/// With its unit, as an echo of what was read: "120 nF", "4.70 kΩ", "1.70 Ω"; three significant digits, up to
/// five where three do not tell the value. A true minus sign where a decibel is negative.
std::string formatQuantity(Quantity value);

}  // namespace ohmwright

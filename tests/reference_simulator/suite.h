/// The netlists of tests/reference/suite: what each is, and what of it is compared with the reference simulator.
///
/// A comment line of the file tells what is compared:
///     * compare: bias
///     * compare: response FROM TO PER_DECADE            also noise, poles
///     * compare: transfer FROM TO POINTS
///     * compare: settled tone=HZ,HZ level=V,V,V periods=N    N periods are enough for the start-up to be gone
///     * compare: cold tone=HZ level=V periods=N
///     * compare: two-tone tone=HZ,HZ level=V periods=N  whole hertz; N of the common period
///     * temperature: CELSIUS                            27 when it is not said
///     * pole: RE IM,  * zero: RE IM                     closed forms [Hz], s / 2 pi, of a pair the upper one
/// Each may name input=SOURCE and output=NET.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <complex>
#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright::reference {

struct Comparison {
    std::string kind;
    std::vector<double> numbers;
    std::map<std::string, std::vector<double>> lists;  ///< tone, level, periods
    std::string input;                                 ///< Empty: the source with an AC value.
    std::string output = "out";

    /// REQUIRES: the list has an entry.
    [[nodiscard]] double first(const std::string& list) const { return lists.at(list).at(0); }
};

struct SuiteNetlist {
    std::string name;  ///< "bias/zener_supply_9v1"
    std::string text;
    double celsius = 27.0;
    std::vector<Comparison> comparisons;
    std::vector<std::complex<double>> poles, zeros;  ///< Closed forms [Hz].
};

/// The source that drives a netlist, as its line says.
struct DrivenSource {
    std::string name;  ///< "VIN"
    double dc = 0.0;   ///< [V] or [A]
    double acAmplitude = 1.0;
    double acDegrees = 0.0;
};

/// Where the netlists lie.
std::filesystem::path suiteFolder();
/// Names of all netlists, sorted.
std::vector<std::string> suiteNames();
/// Throws std::runtime_error when the file cannot be read or says nothing to compare.
SuiteNetlist loadSuiteNetlist(const std::string& name);
/// The file at a path as it is, without anything to compare.
SuiteNetlist loadNetlistText(const std::filesystem::path& path);

/// Throws std::runtime_error when no line of the top level is that source.
DrivenSource drivenSource(const SuiteNetlist& netlist, const std::string& input);
/// The netlist with its source moving as DC + peak sin(2 pi hertz t).
std::string withSine(const SuiteNetlist& netlist, const DrivenSource& source, double hertz, double peak);
/// The netlist with a second sine in series with that one, of the same peak.
std::string withTwoSines(const SuiteNetlist& netlist, const DrivenSource& source, double firstHz, double secondHz,
                         double peak);

/// "4.7k", "1meg", "100n" as a number.
double suffixedNumber(const std::string& word);

}  // namespace ohmwright::reference

/// Any text as a value, a marking, a netlist's number or a formula; what is accepted is finite, and formulas say the
/// same when written and read again.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/value_text.h"
#include "core/expression/expression.h"

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>
#include <vector>

namespace {

void require(bool truth) {
    if (!truth) {
        std::abort();
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace ohmwright;
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    for (const Unit unit : {Unit::ohm, Unit::farad, Unit::henry, Unit::volt, Unit::hertz}) {
        if (const auto value = parsePartValue(text, unit)) {
            require(std::isfinite(value->si));
        }
    }
    static_cast<void>(readChipResistor(text));
    if (const auto number = readNetlistNumber(text)) {
        require(std::isfinite(*number));
    }
    if (const auto formula = Expression::parse(text)) {
        const auto again = Expression::parse(formula->text());
        require(again.hasValue());
        require(again->variables() == formula->variables());
        std::vector<double> at(formula->variables().size(), 0.7);
        std::vector<double> slopes(at.size());
        const double value = formula->valueAndSlopes(at, slopes);
        const double repeated = again->valueAndSlopes(at, slopes);
        require(value == repeated || (std::isnan(value) && std::isnan(repeated)));
    }
    return 0;
}

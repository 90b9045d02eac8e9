// Any text as a netlist: it is read, or refused in a sentence with a line; what is read is written and read again, and
// solved in bounded work. Nothing may crash, leak or run on.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/setting.h"
#include "core/files/netlist.h"
#include "core/measure/solved_circuit.h"
#include "core/solve/response.h"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

namespace {

constexpr std::size_t largestSolved = 60;  // parts: reading is what is tested, solving comes along

void require(bool truth) {
    if (!truth) {
        std::abort();
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace ohmwright;
    auto netlist = readNetlist(std::string_view(reinterpret_cast<const char*>(data), size));
    if (!netlist) {
        require(!netlist.error().message.empty());
        return 0;
    }
    if (!choosePorts(*netlist, "", "") || netlist->circuit.parts.size() > largestSolved) {
        return 0;
    }
    const Setting setting;
    const std::string text = writeNetlist(netlist->circuit, setting, "again");
    const auto solved = solveCircuit(netlist->circuit, setting);
    if (!solved) {
        require(!solved.error().message.empty());
        return 0;
    }
    const auto again = readNetlist(text);
    require(again.hasValue());
    const double hertz[] = {100.0, 1000.0};
    static_cast<void>(frequencyResponse(*solved->equations, *solved->bias, {netlist->circuit.ports.output}, hertz));
    return 0;
}

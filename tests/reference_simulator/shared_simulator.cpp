// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/reference_simulator/shared_simulator.h"

#include <ngspice/sharedspice.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <iomanip>
#include <sstream>
#include <stdexcept>

namespace ohmwright::reference {

namespace {

// Cards that a netlist may carry and that would run or change something here.
constexpr std::array<std::string_view, 11> leftOutCards{".ac",   ".tran",  ".op",   ".dc",   ".noise", ".options",
                                                        ".plot", ".print", ".temp", ".four", ".option"};

std::string lowered(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(), [](unsigned char c) { return char(std::tolower(c)); });
    return text;
}

std::string firstWordInLowerCase(const std::string& line) {
    std::string word;
    std::istringstream(line) >> word;
    return lowered(word);
}

bool isLeftOut(const std::string& word) {
    return std::find(leftOutCards.begin(), leftOutCards.end(), word) != leftOutCards.end();
}

// The program's own law of the triode (core/devices/triode.h), which the library has to be told: N. L. Koren,
// Glass Audio 5 (1996), with a factor of 2 in the anode current as published, a junction in series with RGI from grid
// to cathode, and fixed capacitances.
constexpr std::array<const char*, 11> triodeLaw{
    ".subckt KOREN_TRIODE a g k params: MU=100 EX=1.4 KG1=1060 KP=600 KVB=300 RGI=2k CCG=0 CGP=0 CCP=0",
    "BE1 e1 0 V=v(a,k)/{KP}*ln(1+exp({KP}*(1/{MU}+v(g,k)/sqrt({KVB}+v(a,k)*v(a,k)))))",
    "BIA a k I=2*(max(v(e1),0)^{EX})/{KG1}",
    "CG1 g k {CCG}",
    "CG2 g a {CGP}",
    "CG3 a k {CCP}",
    "RG1 g gi {RGI}",
    "DG gi k DGRIDLAW temp=27",  // A hot cathode does not feel the room.
    ".model DGRIDLAW D(IS=1n N=1)",
    ".ends",
    "* law of the triode"};

void addTriodeLaw(std::string_view netlist, std::vector<std::string>& lines) {
    const bool called = netlist.find(" KOREN_TRIODE") != std::string_view::npos;
    const bool defined = netlist.find(".subckt KOREN_TRIODE") != std::string_view::npos;
    if (called && !defined) {
        lines.insert(lines.end(), triodeLaw.begin(), triodeLaw.end());
    }
}

int ignoreStatus(char* /*words*/, int /*simulator*/, void* /*self*/) {
    return 0;
}
int ignoreData(pvecvaluesall /*values*/, int /*count*/, int /*simulator*/, void* /*self*/) {
    return 0;
}
int ignoreNewData(pvecinfoall /*vectors*/, int /*simulator*/, void* /*self*/) {
    return 0;
}
int ignoreBackground(bool /*idle*/, int /*simulator*/, void* /*self*/) {
    return 0;
}

std::vector<std::string> listOf(char** names) {
    std::vector<std::string> list;
    for (; names != nullptr && *names != nullptr; ++names) {
        list.emplace_back(*names);
    }
    return list;
}

}  // namespace

std::vector<std::string> simulatorLines(std::string_view netlist, const SimulatorOptions& options) {
    std::vector<std::string> lines;
    std::istringstream text{std::string(netlist)};
    bool leavingOut = false;
    for (std::string line; std::getline(text, line);) {
        const std::string word = lines.empty() ? "" : firstWordInLowerCase(line);
        if (word == ".end") {
            break;
        }
        // A continuation belongs to the card before it.
        leavingOut = isLeftOut(word) || (leavingOut && word.starts_with("+"));
        if (!leavingOut) {
            lines.push_back(line);
        }
    }
    std::ostringstream card;
    card << std::setprecision(12) << ".options temp=" << options.celsius << " tnom=27 reltol=" << options.reltol
         << " abstol=" << options.abstol << " vntol=" << options.vntol << " gmin=1e-12 itl1=1000 itl4=100 "
         << options.further;
    lines.push_back(card.str());
    addTriodeLaw(netlist, lines);
    lines.emplace_back(".end");
    return lines;
}

SharedSimulator& SharedSimulator::only() {
    static SharedSimulator simulator;
    return simulator;
}

SharedSimulator::SharedSimulator() {
    if (ngSpice_Init(hear, ignoreStatus, leave, ignoreData, ignoreNewData, ignoreBackground, this) != 0) {
        complain("The reference simulator does not start");
    }
    command("set noaskquit");
    command("set nomoremode");
}

void SharedSimulator::load(std::string_view netlist, const SimulatorOptions& options) {
    if (m_loaded) {
        command("destroy all");
        command("remcirc");
        m_loaded = false;
    }
    m_spoken.clear();
    m_gaveUp = false;
    std::vector<std::string> lines = simulatorLines(netlist, options);
    m_title = lines.front();
    std::vector<char*> pointers;
    for (std::string& line : lines) {
        pointers.push_back(line.data());
    }
    pointers.push_back(nullptr);
    const int failed = ngSpice_Circ(pointers.data());
    m_loaded = true;
    const bool refused = m_spoken.find("stderr Error") != std::string::npos;
    if (failed != 0 || m_gaveUp || refused) {
        complain("The reference simulator refuses the netlist");
    }
}

void SharedSimulator::run(const std::string& analysis) {
    command("destroy all");
    m_spoken.clear();
    const std::size_t before = plotNames().size();
    command(lowered(analysis));  // The library does not fold the names in a noise analysis.
    // A bias that it finds only by letting the supplies rise in time has turned out false: none is trusted.
    const bool aborted =
        m_spoken.find("aborted") != std::string::npos || m_spoken.find("Transient op") != std::string::npos;
    if (m_gaveUp || aborted || plotNames().size() <= before) {
        complain("The reference simulator has no answer to '" + analysis + "'");
    }
}

std::vector<std::complex<double>> SharedSimulator::complex(const std::string& name) const {
    const std::string wanted = lowered(name);
    // A noise analysis leaves two plots, so each is asked.
    for (const std::string& plot : plotNames()) {
        std::string full = plot;
        full += ".";
        full += wanted;
        const vector_info* vector = ngGet_Vec_Info(full.data());
        if (plot == "const" || vector == nullptr || vector->v_length <= 0) {
            continue;
        }
        std::vector<std::complex<double>> values;
        for (int k = 0; k < vector->v_length; ++k) {
            if (vector->v_compdata != nullptr) {
                values.emplace_back(vector->v_compdata[k].cx_real, vector->v_compdata[k].cx_imag);
            } else {
                values.emplace_back(vector->v_realdata[k], 0.0);
            }
        }
        return values;
    }
    complain("The reference simulator has no vector '" + name + "'");
}

std::vector<double> SharedSimulator::real(const std::string& name) const {
    std::vector<double> values;
    for (const std::complex<double>& value : complex(name)) {
        values.push_back(value.real());
    }
    return values;
}

std::vector<std::string> SharedSimulator::vectorNames() const {
    std::vector<std::string> names;
    for (std::string plot : plotNames()) {
        if (plot == "const") {
            continue;
        }
        for (const std::string& name : listOf(ngSpice_AllVecs(plot.data()))) {
            names.push_back(name);
        }
    }
    return names;
}

void SharedSimulator::command(std::string words) {
    ngSpice_Command(words.data());
}

std::vector<std::string> SharedSimulator::plotNames() const {
    return listOf(ngSpice_AllPlots());
}

void SharedSimulator::complain(const std::string& what) const {
    throw std::runtime_error(what + " (" + m_title + "):\n" + m_spoken);
}

int SharedSimulator::hear(char* words, int /*simulator*/, void* self) {
    // The library puts "stdout " or "stderr " before every line.
    static_cast<SharedSimulator*>(self)->m_spoken.append(words).append("\n");
    return 0;
}

int SharedSimulator::leave(int /*status*/, bool /*unload*/, bool /*quit*/, int /*simulator*/, void* self) {
    static_cast<SharedSimulator*>(self)->m_gaveUp = true;
    return 0;
}

}  // namespace ohmwright::reference

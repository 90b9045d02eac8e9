/// The demo circuits as netlists: in stock, with mods, mistakes and faults as edits of their lines, under conditions.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/netlist.h"
#include "tests/support/csv_rows.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace ohmwright::test {

/// "hz=220;mvpk=100" by name; a value may be a word or two numbers.
using Conditions = std::map<std::string, std::string>;

inline Conditions conditionsOf(const std::string& text) {
    Conditions conditions;
    std::istringstream parts(text);
    for (std::string part; std::getline(parts, part, ';');) {
        const auto equals = part.find('=');
        conditions[part.substr(0, equals)] = part.substr(equals + 1);
    }
    return conditions;
}

inline std::string netlistNumber(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.12g", value);
    return text;
}

/// A demo's netlist, edited line by line. What is not there to be edited ends the test.
class DemoNetlist {
public:
    explicit DemoNetlist(std::vector<std::string> lines) : m_lines(std::move(lines)) {}

    static DemoNetlist stock(const std::string& demo) {
        const std::string folder = std::string(OHMWRIGHT_SOURCE_DIR) + "/tests/reference/";
        std::ifstream file(folder + (demo == "pickup" ? "demos/pickup.cir" : "netlists/demos/" + demo + "-stock.cir"));
        std::vector<std::string> lines;
        for (std::string line; std::getline(file, line);) {
            lines.push_back(line);
        }
        if (lines.empty()) {
            throw std::runtime_error("no netlist of the demo " + demo);
        }
        return DemoNetlist(std::move(lines));
    }

    /// "stock", a state of reference/demos/states.csv, or several of them as "A+B".
    static DemoNetlist inState(const std::string& demo, const std::string& state) {
        static const std::vector<CsvRow> edits = referenceTable("demos/states.csv");
        if (state == "stock") {
            return stock(demo);
        }
        const auto isOf = [&](const CsvRow& row) { return row.at("demo") == demo && row.at("state") == state; };
        const auto first = std::find_if(edits.begin(), edits.end(), isOf);
        if (first == edits.end()) {
            const auto plus = state.rfind('+');
            if (plus == std::string::npos) {
                throw std::runtime_error(demo + " has no state " + state);
            }
            DemoNetlist netlist = inState(demo, state.substr(0, plus));
            netlist.edit(demo, state.substr(plus + 1), edits);
            return netlist;
        }
        DemoNetlist netlist = inState(demo, first->at("on_top_of"));
        netlist.edit(demo, state, edits);
        return netlist;
    }

    /// Battery, load, guitar volume, knobs, devices; conditions that are no part of the circuit are left alone.
    void apply(const Conditions& conditions) {
        for (const auto& [name, text] : conditions) {
            if (name == "battery_v") {
                replace("VBAT", "VBAT bat 0 DC " + text);
            } else if (name == "load_ohm") {
                replace("RLOAD", "RLOAD out 0 " + text);
            } else if (name == "guitar_volume") {
                divide("RVGA pu in", "RVGB in 0", 250e3, std::stod(text) / 10.0);
            } else if (name == "drive") {
                replace("RVR1", "RVR1 rf o1 " + resistance(250e3 * logShare(std::stod(text) / 10.0)));
            } else if (name == "level") {
                divide("RVR2A vt w", "RVR2B w 0", 50e3, logShare(std::stod(text) / 10.0));
            } else if (name == "beta") {
                set("QN200", "BF", text);
            } else if (name == "beta1") {
                set("QA", "BF", text);
            } else if (name == "beta2") {
                set("QB", "BF", text);
            } else if (name == "device") {
                fitJfet(text);
            }
        }
    }

    /// Pickup, guitar volume and cable taken away, an ideal generator at `in`.
    void driveAtJack() {
        for (const char* part : {"LPU", "RPU", "CPU", "RVGA", "RVGB", "CCABLE"}) {
            remove(part);
        }
        replace("VSIG", "VSIG in 0 DC 0 AC 1");
    }

    void remove(const std::string& part) { m_lines.erase(m_lines.begin() + lineOf(part)); }
    void replace(const std::string& part, const std::string& line) { m_lines[std::size_t(lineOf(part))] = line; }
    /// Just before .end.
    void add(const std::string& line) { m_lines.insert(m_lines.end() - 1, line); }

    [[nodiscard]] std::string text() const {
        std::string joined;
        for (const std::string& line : m_lines) {
            joined += line + "\n";
        }
        return joined;
    }

    /// Driven by VSIG.
    [[nodiscard]] static Circuit circuitOf(const std::string& text, const std::string& output) {
        auto netlist = readNetlist(text);
        if (!netlist) {
            throw std::runtime_error(netlist.error().message);
        }
        if (const auto chosen = choosePorts(*netlist, "VSIG", output); !chosen) {
            throw std::runtime_error(chosen.error().message);
        }
        return std::move(netlist->circuit);
    }

private:
    /// The law of a pot of 15 %, as the demos' definitions have it.
    static double logShare(double x) {
        const double a = std::pow(1.0 / 0.15 - 1.0, 2.0);
        return (std::pow(a, x) - 1.0) / (a - 1.0);
    }

    /// A pot's end is never under 1 mohm.
    static std::string resistance(double ohms) { return netlistNumber(std::max(ohms, 1e-3)); }

    void divide(const std::string& upper, const std::string& lower, double track, double share) {
        replace(upper.substr(0, upper.find(' ')), upper + " " + resistance(track * (1.0 - share)));
        replace(lower.substr(0, lower.find(' ')), lower + " " + resistance(track * share));
    }

    void fitJfet(const std::string& device) {
        struct Jfet {
            double pinchOff, saturation;  ///< VTO [V], IDSS [A].
        };
        static const std::map<std::string, Jfet> jfets{
            {"low", {-0.5, 1e-3}}, {"typical", {-1.8, 3e-3}}, {"high", {-4.0, 5e-3}}};
        const Jfet& jfet = jfets.at(device);
        set("JTYP", "VTO", netlistNumber(jfet.pinchOff));
        set("JTYP", "BETA", netlistNumber(jfet.saturation / (jfet.pinchOff * jfet.pinchOff)));
    }

    /// Another value of one parameter of a .model card.
    void set(const std::string& model, const std::string& parameter, const std::string& value) {
        std::string& line = m_lines[std::size_t(lineOf(".model " + model))];
        const auto name = line.find(parameter + "=");
        if (name == std::string::npos) {
            throw std::runtime_error(model + " has no " + parameter);
        }
        const auto from = name + parameter.size() + 1;
        line.replace(from, line.find_first_of(" )", from) - from, value);
    }

    std::ptrdiff_t lineOf(const std::string& beginning) const {
        const auto line = std::find_if(m_lines.begin() + 1, m_lines.end(),
                                       [&](const std::string& each) { return each.rfind(beginning + " ", 0) == 0; });
        if (line == m_lines.end()) {
            throw std::runtime_error("the netlist has no " + beginning);
        }
        return line - m_lines.begin();
    }

    void edit(const std::string& demo, const std::string& state, const std::vector<CsvRow>& edits) {
        for (const CsvRow& row : edits) {
            if (row.at("demo") != demo || row.at("state") != state) {
                continue;
            }
            if (row.at("replaces").empty()) {
                if (!row.at("line").empty()) {
                    add(row.at("line"));
                }
            } else if (row.at("line").empty()) {
                remove(row.at("replaces"));
            } else {
                replace(row.at("replaces"), row.at("line"));
            }
        }
    }

    std::vector<std::string> m_lines;
};

}  // namespace ohmwright::test

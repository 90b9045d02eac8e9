// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_job.h"

#include "core/base/said.h"
#include "core/base/text.h"
#include "core/drawing/arrange.h"
#include "core/drawing/edit.h"

#include <algorithm>
#include <string>
#include <utility>

namespace ohmwright {

namespace {

constexpr std::string_view blanks = " \t\r\n*";

/// A title longer than this is a name and more.
constexpr std::size_t longestName = 40;

/// "Moss Engine, stock", with neither the asterisk of a comment nor what a line of text cannot hold.
std::string unitName(std::string_view title, std::string_view otherwise) {
    const std::size_t first = title.find_first_not_of(blanks);
    if (first == std::string_view::npos) {
        return std::string(otherwise);
    }
    return oneLine(title.substr(first, title.find_last_not_of(blanks) - first + 1));
}

/// "Moss Engine: two-transistor fuzz. All knobs at 10": the name ends at the first colon or full stop.
UnitCard unitCard(const std::string& name) {
    UnitCard unit;
    unit.name = name;
    const std::size_t end = std::min(name.find(": "), name.find(". "));
    if (name.size() > longestName && end != std::string::npos && end > 0) {
        unit.name = name.substr(0, end);
        unit.kind = name.substr(end + 2);
    }
    return unit;
}

bool isDriven(const Part& part) {
    const bool isSource = part.kind == PartKind::voltageSource || part.kind == PartKind::currentSource;
    return isSource && part.acAmplitude != 0.0;
}

}  // namespace

Result<NetlistJob> jobFromNetlist(Netlist netlist, std::string_view name) {
    const auto& parts = netlist.circuit.parts;
    const bool isGuess = std::none_of(parts.begin(), parts.end(), isDriven);
    if (const Result<void> chosen = choosePorts(netlist, {}, {}); !chosen) {
        Error error = chosen.error();
        error.message = said(
            "%1 Write AC 1 on the card of the input alone and call the output net out, then open the netlist again.",
            error.message);
        return error;
    }
    NetlistJob taken;
    taken.job.unit = unitCard(unitName(netlist.title, name));
    taken.job.stock = std::move(netlist.circuit);
    Ports& ports = taken.job.stock.ports;
    ports.clipNode = ports.output;
    taken.notes = std::move(netlist.notes);
    if (isGuess) {
        taken.notes.push_back(
            {0,
             said(
                 "No source has an AC value: %1 is taken as the input. Write AC 1 on the card of another to change it.",
                 ports.source)});
    }
    if (taken.job.stock.parts.size() <= mostPartsOfAMap) {
        Circuit drawn = arrange(taken.job.stock);
        if (isOnSheet(drawn.drawing.size)) {
            taken.job.stock = std::move(drawn);
        } else {
            taken.notes.push_back(
                {0, said("The drawing would be larger than a sheet can be: it is opened as a list.")});
        }
    } else {
        taken.notes.push_back(
            {0, said("The netlist has %1 parts, more than a map of one screen can show (%2): it is opened as a list.",
                     taken.job.stock.parts.size(), mostPartsOfAMap)});
    }
    return taken;
}

bool isNetlistFile(const std::filesystem::path& path, std::string_view text) {
    const std::string extension = inLowerCase(path.extension().string());
    if (extension == ".ohmjob" || extension == ".cir") {
        return extension == ".cir";
    }
    const std::size_t first = text.find_first_not_of(" \t\r\n");
    return first != std::string_view::npos && text[first] != '{';
}

Error inNetlistFile(std::string_view fileName, Error error) {
    constexpr std::string_view lineWord = "line ";
    std::string place(fileName);
    if (error.where.starts_with(lineWord)) {
        const std::string number = error.where.substr(lineWord.size());
        place += ":" + number;
        const std::string before = said("line %1: %2", number, "");
        if (error.message.starts_with(before)) {
            error.message.erase(0, before.size());
        }
    }
    error.message = place + ": " + error.message;
    return error;
}

}  // namespace ohmwright

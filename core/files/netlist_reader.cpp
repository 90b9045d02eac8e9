// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/atomic_file.h"
#include "core/files/netlist_builder.h"

#include <utility>
#include <variant>

namespace ohmwright {

namespace {

constexpr std::size_t longestText = std::size_t{64} << 20U;  // 64 MiB.

/// What lies in subcircuits that nothing calls is no fault of the circuit.
void noteUncalledFault(const NetlistFile& file, const NetlistBuilder& builder, NetlistLog& log) {
    NetlistLog own;
    NetlistBuilder alone(file, own);
    alone.buildUncalled(builder.called());
    if (own.firstFault()) {
        log.note(own.firstFault()->line,
                 "In a subcircuit that nothing calls, so that it does no harm yet: " + own.firstFault()->message);
    }
}

std::variant<Netlist, NetlistNote> readText(std::string_view text) {
    NetlistLog log;
    if (text.size() > longestText) {
        return NetlistNote{1, "The file is longer than 64 MiB, which no circuit is: leave out what is not asked for."};
    }
    const std::unique_ptr<NetlistFile> file = readDefinitions(text, log);
    if (!file) {
        return *log.firstFault();
    }
    NetlistBuilder builder(*file, log);
    builder.buildAll();
    if (log.firstFault()) {
        return *log.firstFault();
    }
    noteUncalledFault(*file, builder, log);
    Netlist netlist = builder.takeNetlist();
    netlist.notes = log.notes();
    return netlist;
}

Result<Netlist> readNamed(std::string_view text, const std::string& before) {
    std::variant<Netlist, NetlistNote> outcome = readText(text);
    if (const auto* fault = std::get_if<NetlistNote>(&outcome)) {
        const std::string line = std::to_string(fault->line);
        return Error{ErrorCode::fileDamaged, before + line + ": " + fault->message, "line " + line};
    }
    return std::get<Netlist>(std::move(outcome));
}

}  // namespace

Result<Netlist> readNetlist(std::string_view text) {
    return readNamed(text, "line ");
}

Result<Netlist> loadNetlist(const std::filesystem::path& path) {
    const Result<std::string> text = readWholeFile(path);
    if (!text) {
        return text.error();
    }
    return readNamed(*text, path.string() + ":");
}

}  // namespace ohmwright

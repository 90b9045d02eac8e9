// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/said.h"
#include "core/files/atomic_file.h"
#include "core/files/netlist_builder.h"
#include "core/files/netlist_title.h"

#include <optional>
#include <utility>

namespace ohmwright {

namespace {

constexpr std::size_t longestText = std::size_t{64} << 20U;  // 64 MiB.

/// What lies in subcircuits that nothing calls is no fault of the circuit.
void noteUncalledFault(const NetlistFile& file, const NetlistBuilder& builder, NetlistLog& log) {
    NetlistLog own;
    NetlistBuilder alone(file, own);
    alone.buildUncalled(builder.called());
    if (own.hasFault()) {
        log.note(own.firstFault().line,
                 said("In a subcircuit that nothing calls, so that it does no harm yet: %1", own.firstFault().message));
    }
}

/// Nothing when the log has a fault.
std::optional<Netlist> readText(std::string_view text, NetlistLog& log) {
    if (text.size() > longestText) {
        log.fault(1, said("The file is longer than 64 MiB, which no circuit is: leave out what is not asked for."));
        return std::nullopt;
    }
    const std::unique_ptr<NetlistFile> file = readDefinitions(text, log);
    if (!file) {
        return std::nullopt;
    }
    NetlistBuilder builder(*file, log);
    builder.buildAll();
    if (log.hasFault()) {
        return std::nullopt;
    }
    noteUncalledFault(*file, builder, log);
    Netlist netlist = builder.takeNetlist();
    noteTitle(netlist.title, netlist.circuit, log);
    netlist.notes = log.notes();
    return netlist;
}

/// @param file  named before the sentence; empty where the text has none.
Result<Netlist> readNamed(std::string_view text, const std::string& file) {
    NetlistLog log;
    std::optional<Netlist> netlist = readText(text, log);
    if (!netlist) {
        const NetlistNote fault = log.firstFault();
        const std::string line = std::to_string(fault.line);
        return Error{ErrorCode::fileDamaged,
                     file.empty() ? said("line %1: %2", line, fault.message) : file + ":" + line + ": " + fault.message,
                     "line " + line};
    }
    return *std::move(netlist);
}

}  // namespace

Result<Netlist> readNetlist(std::string_view text) {
    return readNamed(text, {});
}

NetlistFaults faultsOfNetlist(std::string_view text) {
    NetlistLog log;
    static_cast<void>(readText(text, log));
    return {log.faults(), log.notes()};
}

Result<Netlist> loadNetlist(const std::filesystem::path& path) {
    const Result<std::string> text = readWholeFile(path);
    if (!text) {
        return text.error();
    }
    return readNamed(*text, path.string());
}

}  // namespace ohmwright

/// A netlist taken up as a job: a circuit drawn as a stage map, to be planned on like any other.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/files/netlist.h"
#include "core/plan/job.h"

#include <filesystem>
#include <string_view>
#include <vector>

namespace ohmwright {

struct NetlistJob {
    Job job;
    std::vector<NetlistNote> notes;  ///< The reader's, then what was assumed of the ends (line 0).
};

/// A netlist of more parts has no drawing and is shown as a list. A map of 120 parts is about 150 columns wide, where
/// words of 13 px at the scale of a full screen are 5 px high; above that a list is read faster.
inline constexpr std::size_t mostPartsOfAMap = 120;

/// The ends are those of choosePorts; the drawing and the stages are arrange's (core/drawing/arrange.h); clipping is
/// looked at on the output. The netlist's own sources and loads stand: none of them is the setting's battery or next
/// box. Parts keep their names. The title is the unit's name; of a long one what stands before the first colon or full
/// stop, the rest is its kind.
/// @param name  of the unit, where the netlist has no title.
/// Errors: as choosePorts, followed by what to write into the netlist.
Result<NetlistJob> jobFromNetlist(Netlist netlist, std::string_view name);

/// Whether a file is a netlist and no job: *.cir is one and *.ohmjob none, in any case of letters; of other names the
/// first character decides, since a job is a JSON object.
bool isNetlistFile(const std::filesystem::path& path, std::string_view text);

/// The reader's or the ends' error as "NAME:LINE: ..." or, without a line, "NAME: ...".
Error inNetlistFile(std::string_view fileName, Error error);

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/side_effect_limits.h"

#include "core/base/said.h"
#include "core/files/file_head.h"
#include "core/files/json_reader.h"

#include <array>

namespace ohmwright {

namespace {

constexpr std::string_view limitsFormat = "ohmwright-limits";

/// A key, once published, never changes its meaning.
struct LimitKey {
    std::string_view key;
    EffectLimit SideEffectLimits::*limit;
};

constexpr std::array<LimitKey, 20> limitKeys{{
    {"railRoomVolts", &SideEffectLimits::railRoomVolts},
    {"deviceRoomVolts", &SideEffectLimits::deviceRoomVolts},
    {"bandwidthHz", &SideEffectLimits::bandwidthHz},
    {"potMillivolts", &SideEffectLimits::potMillivolts},
    {"popVolts", &SideEffectLimits::popVolts},
    {"pickupPeakChangeDb", &SideEffectLimits::pickupPeakChangeDb},
    {"cornerShare", &SideEffectLimits::cornerShare},
    {"cornerHz", &SideEffectLimits::cornerHz},
    {"noiseChangeDb", &SideEffectLimits::noiseChangeDb},
    {"resistorShare", &SideEffectLimits::resistorShare},
    {"defaultResistorWatts", &SideEffectLimits::defaultResistorWatts},
    {"deviceWatts", &SideEffectLimits::deviceWatts},
    {"capacitorShare", &SideEffectLimits::capacitorShare},
    {"batteryShare", &SideEffectLimits::batteryShare},
    {"freshBatteryShare", &SideEffectLimits::freshBatteryShare},
    {"supplyMilliamperes", &SideEffectLimits::supplyMilliamperes},
    {"biasShareOff", &SideEffectLimits::biasShareOff},
    {"nextStageVolts", &SideEffectLimits::nextStageVolts},
    {"outputOhmsShare", &SideEffectLimits::outputOhmsShare},
    {"onsetDropDb", &SideEffectLimits::onsetDropDb},
}};

EffectLimit readLimit(JsonReader entry) {
    EffectLimit limit;
    limit.value = entry.number("value");
    limit.source = entry.text("source");
    if (!entry.failed() && limit.value < 0.0) {
        entry.member("value").fail(said("a limit is a number from 0 up."));
    }
    entry.refuseUnknown();
    return limit;
}

SideEffectLimits readMembers(JsonReader& reader) {
    SideEffectLimits limits;
    if (auto entries = reader.memberIfThere("limits")) {
        for (const LimitKey& known : limitKeys) {
            if (auto entry = entries->memberIfThere(known.key)) {
                limits.*known.limit = readLimit(*entry);
            }
        }
        entries->refuseUnknown();
    }
    limits.closeShare = reader.number("closeShare", limits.closeShare);
    if (!reader.failed() && !(limits.closeShare >= 0.0 && limits.closeShare < 1.0)) {
        reader.member("closeShare").fail(said("a share of a limit is a number from 0 up and under 1."));
    }
    reader.refuseUnknown();
    return limits;
}

}  // namespace

Result<SideEffectLimits> readSideEffectLimits(std::string_view text) {
    return readOfKind(text, limitsFormat, sideEffectLimitsVersion, readMembers);
}

std::string writeSideEffectLimits(const SideEffectLimits& limits) {
    JsonNode root = writeHead(limitsFormat, sideEffectLimitsVersion);
    JsonNode entries = JsonNode::object();
    for (const LimitKey& known : limitKeys) {
        const EffectLimit& limit = limits.*known.limit;
        JsonNode entry = JsonNode::object();
        entry.add("value", JsonNode::ofNumber(limit.value));
        entry.add("source", JsonNode::ofText(limit.source));
        entries.add(std::string(known.key), std::move(entry));
    }
    root.add("limits", std::move(entries));
    root.add("closeShare", JsonNode::ofNumber(limits.closeShare));
    return printJson(root);
}

}  // namespace ohmwright

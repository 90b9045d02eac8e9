// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/stock_setting.h"

namespace ohmwright {
namespace {

/// Whether the part at a port is another one, or has another value, than before.
bool isNew(const Circuit& before, const PartId& portBefore, const Part* now) {
    const Part* was = findPart(before, portBefore);
    return now != nullptr && (was == nullptr || was->id != now->id || was->value != now->value);
}

}  // namespace

void takeUpDrawnEnds(const Circuit& stock, Setting& setting) {
    if (const Part* battery = findPart(stock, stock.ports.battery)) {
        setting.batteryVolts = battery->value;
    }
    if (const Part* load = findPart(stock, stock.ports.load)) {
        setting.loadOhms = load->value;
    }
}

Result<void> followDrawnEnds(const Circuit& before, Job& edited) {
    // Knobs are no matter of the ends.
    Setting followed = edited.setting;
    followed.knobs.clear();
    const Part* load = findPart(edited.stock, edited.stock.ports.load);
    if (isNew(before, before.ports.load, load)) {
        followed.loadOhms = load->value;
        if (Result<void> sound = checkSetting(edited.stock, followed); !sound) {
            return sound;
        }
        edited.setting.loadOhms = load->value;
    }
    const Part* battery = findPart(edited.stock, edited.stock.ports.battery);
    if (isNew(before, before.ports.battery, battery)) {
        followed.batteryVolts = battery->value;
        Result<void> sound = checkSetting(edited.stock, followed);
        if (sound) {
            edited.setting.batteryVolts = battery->value;
        } else if (before.ports.battery != battery->id) {
            edited.stock.ports.battery.clear();
        } else {
            return sound;
        }
    }
    return {};
}

void forgetKnobsNotThere(Job& edited) {
    std::erase_if(edited.setting.knobs, [&](const auto& knob) { return !findKnob(edited.stock, knob.first); });
}

}  // namespace ohmwright

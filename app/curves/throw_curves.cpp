// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/throw_curves.h"

#include <QStringList>

#include <algorithm>

namespace ohmwright {

namespace {

/// The switch's letter before a throw where several switches share the plot.
QString nameOf(const SwitchAnswer& answer, const std::string& name, const Plan& plan, bool isOneOfMany) {
    const auto mod = std::find_if(plan.begin(), plan.end(), [&](const Mod& each) { return each.id == answer.modId; });
    const QString word = QString::fromStdString(name);
    return isOneOfMany && mod != plan.end() ? QString::fromStdString(mod->letter) + ' ' + word : word;
}

}  // namespace

std::vector<ThrowCurve> otherThrows(const std::vector<SwitchAnswer>& switches, const Plan& plan) {
    std::vector<ThrowCurve> curves;
    for (const SwitchAnswer& answer : switches) {
        for (std::size_t at = 0; at < std::min(answer.table.throws.size(), answer.responses.size()); ++at) {
            const std::string& name = answer.table.throws[at].name;
            if (name != answer.chosen) {
                curves.push_back({nameOf(answer, name, plan, switches.size() > 1), answer.responses[at]});
            }
        }
    }
    return curves;
}

QString standingThrows(const std::vector<SwitchAnswer>& switches, const Plan& plan) {
    QStringList names;
    for (const SwitchAnswer& answer : switches) {
        names << nameOf(answer, answer.chosen, plan, switches.size() > 1);
    }
    return names.join(QStringLiteral(", "));
}

}  // namespace ohmwright

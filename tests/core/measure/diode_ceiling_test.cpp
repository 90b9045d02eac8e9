// A diode's ceiling against its law by hand.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/diode_ceiling.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

/// 1.752 * 25.865 mV * ln(6.9 uA / 2.52 nA) = 0.3586 V.
TEST(DiodeCeiling, IsThatOfTheJunctionsLaw) {
    const Model diode{"1N4148", PartKind::diode, {{"IS", 2.52e-9}, {"N", 1.752}}, "card", {}};
    EXPECT_NEAR(thermalVoltsAt(300.15), 25.865e-3, 1e-6);
    EXPECT_NEAR(diodeCeilingVolts(diode, 6.9e-6, 300.15), 0.3586, 5e-4);
}

/// Twice the emission coefficient, twice the voltage.
TEST(DiodeCeiling, GrowsWithTheEmissionCoefficient) {
    const Model plain{"D", PartKind::diode, {{"IS", 1e-12}}, "card", {}};
    const Model twice{"D", PartKind::diode, {{"IS", 1e-12}, {"N", 2.0}}, "card", {}};
    EXPECT_NEAR(diodeCeilingVolts(twice, 1e-3, 300.15), 2.0 * diodeCeilingVolts(plain, 1e-3, 300.15), 1e-12);
}

}  // namespace
}  // namespace ohmwright

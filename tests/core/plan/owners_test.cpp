// Owners of a frequency; expected figures of tests/reference/harbour-lamp-figures.csv (influence_per_ten_percent), made
// outside of this program.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/owners.h"

#include "core/plan/apply.h"
#include "core/plan/job.h"
#include "tests/support/csv_rows.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace ohmwright {
namespace {

constexpr double toleranceDb = 0.005;  // a tenth of the reference's own

Job jobWith(const std::string& letter) {
    Job job = test::harbourLamp();
    for (Mod& mod : job.plan) {
        mod.on = mod.letter == letter;
    }
    return job;
}

/// dB for +10 % by the reference's own part names.
std::map<std::string, double> expectedOf(const std::string& state) {
    std::map<std::string, double> expected;
    for (const test::CsvRow& row : test::referenceTable("harbour-lamp-figures.csv")) {
        if (row.at("state") == state && row.at("figure") == "influence_per_ten_percent") {
            expected[row.at("where")] = std::stod(row.at("value"));
        }
    }
    return expected;
}

TEST(Owners, AreThoseOfTheReferenceStrongestFirst) {
    for (const char* state : {"stock", "A"}) {
        const Job job = jobWith(state);
        const auto owners = findOwners(nowCircuit(job).value(), job.setting, 110.0);
        ASSERT_TRUE(owners) << owners.error().message;
        EXPECT_TRUE(std::is_sorted(owners->begin(), owners->end(), [](const Owner& a, const Owner& b) {
            return std::abs(a.dbPerTenPercent) > std::abs(b.dbPerTenPercent);
        }));
        std::map<std::string, double> expected = expectedOf(state);
        ASSERT_GE(expected.size(), 10u);
        // The pots of the netlist are two resistors; in the job each is one part.
        const std::map<std::string, std::string> pots{{"RVR1", "VR1"}, {"RVR2A/RVR2B", "VR2"}};
        for (const auto& [name, db] : expected) {
            const std::string reference = pots.contains(name) ? pots.at(name) : name;
            const auto owner = std::find_if(owners->begin(), owners->end(),
                                            [&](const Owner& each) { return each.reference == reference; });
            if (std::abs(db) < leastOwnedDb) {
                EXPECT_EQ(owner, owners->end()) << state << " " << name;
            } else if (owner == owners->end()) {
                ADD_FAILURE() << state << ": " << name << " is no owner";
            } else {
                EXPECT_NEAR(owner->dbPerTenPercent, db, toleranceDb) << state << " " << name;
            }
        }
        EXPECT_EQ(owners->front().name, "C4 Cg");
    }
}

/// Story: a part was shown as "raises" though more of it lowered the response.
TEST(Owners, ATenthMoreMovesTheResponseByAboutTheFigure) {
    const Job job = jobWith("A");
    const Circuit now = nowCircuit(job).value();
    const auto before = findOwners(now, job.setting, 3000.0);
    ASSERT_TRUE(before);
    const auto owner = std::find_if(before->begin(), before->end(), [](const Owner& o) { return o.reference == "C7"; });
    ASSERT_NE(owner, before->end());
    EXPECT_LT(owner->dbPerTenPercent, 0.0) << "a larger capacitor of a low-pass lowers the treble";
}

TEST(Owners, StrengthsAreQuartersOfADecibel) {
    EXPECT_EQ(ownedStep(0.02), 0);
    EXPECT_EQ(ownedStep(-0.2499), 0);
    EXPECT_EQ(ownedStep(0.25), 1);
    EXPECT_EQ(ownedStep(-0.5), 2);
    EXPECT_EQ(ownedStep(0.75), 3);
    EXPECT_EQ(ownedStep(-11.0), 3);
}

TEST(Owners, AFrequencyThatIsNoneIsRefused) {
    const Job job = jobWith("A");
    for (const double hertz : {0.0, -1.0, std::numeric_limits<double>::quiet_NaN()}) {
        const auto owners = findOwners(job.stock, job.setting, hertz);
        ASSERT_FALSE(owners);
        EXPECT_EQ(owners.error().code, ErrorCode::invalidInput);
    }
}

}  // namespace
}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/correction.h"

#include "tests/support/spoken.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(Correction, ReasonsHaveTheirWords) {
    for (const CorrectionReason reason :
         {CorrectionReason::boardDiffers, CorrectionReason::earlierMod, CorrectionReason::misread}) {
        EXPECT_EQ(reasonOfWord(reasonWord(reason)), reason);
    }
    EXPECT_FALSE(reasonOfWord("other"));
}

TEST(Correction, FindingsAreSaidAsTheShopWritesThem) {
    EXPECT_EQ(findingWords(ValueFound{4700.0, {}}, PartKind::resistor), "4k7");
    EXPECT_EQ(findingWords(ValueFound{47e-9, "473"}, PartKind::capacitor), "47n (printed 473)");
    EXPECT_EQ(findingWords(ValueFound{47e-9, "47n"}, PartKind::capacitor), "47n");
    Model type;
    type.name = "BAT41";
    EXPECT_EQ(findingWords(TypeFound{type, {}}, PartKind::diode), "BAT41");
    EXPECT_EQ(findingWords(ToleranceFound{0.05}, PartKind::resistor), "±5.00 %");
    EXPECT_EQ(findingWords(ToleranceFound{}, PartKind::resistor), "no tolerance");
    EXPECT_EQ(findingWords(LawFound{}, PartKind::potentiometer), "linear");
    EXPECT_EQ(findingWords(LawFound{Taper::logarithmic, 0.15}, PartKind::potentiometer), "log 15 %");
    EXPECT_EQ(findingWords(LegFound{1, "0"}, PartKind::resistor), "leg 2 at ground");
    EXPECT_EQ(findingWords(ReferenceFound{"R19"}, PartKind::resistor), "reference R19");
    EXPECT_EQ(findingWords(BoardNoteFound{"under the pot"}, PartKind::resistor), "“under the pot”");
    EXPECT_EQ(findingWords(PresenceFound{}, PartKind::resistor), "not on the board");
}

TEST(Correction, AFindingIsAskedForWholeAndItsReasonStaysAWordOfTheFile) {
    const test::Spoken german{
        {"leg %1 at %2", "an %2 liegt Bein %1"}, {"%1 (printed %2)", "%1 (Aufdruck %2)"}, {"misread", "verlesen"}};
    EXPECT_EQ(findingWords(LegFound{1, "N7"}, PartKind::resistor), "an N7 liegt Bein 2");
    EXPECT_EQ(findingWords(ValueFound{47e-9, "473"}, PartKind::capacitor), "47n (Aufdruck 473)");
    EXPECT_EQ(reasonWord(CorrectionReason::misread), "misread");
}

}  // namespace
}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/drawer_csv.h"

#include "core/base/number_text.h"
#include "core/files/drawer_file.h"
#include "tests/support/spoken.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

DrawerTable tableOf(const std::string& text) {
    const Result<DrawerTable> table = readDrawerCsv(text);
    EXPECT_TRUE(table) << (table ? "" : table.error().message);
    return table ? *table : DrawerTable();
}

std::string messageOf(const std::string& text) {
    const Result<DrawerTable> table = readDrawerCsv(text);
    return table ? "no error" : table.error().message;
}

Drawer demoDrawer() {
    return *loadDrawer(std::string(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/drawer.json");
}

TEST(DrawerCsv, ReadsValuesAsTheyAreWrittenAtTheBench) {
    const DrawerTable table = tableOf(
        "kind,value,type,quantity,tolerance\n"
        "resistor,4k7,,20,5\n"
        "Capacitor,120n,,6,10 %\n"
        "diode,,1N4148,50,\n"
        "pot,250k,,3,20%\n");
    EXPECT_THAT(table.troubles, IsEmpty());
    ASSERT_EQ(table.lots.size(), 4U);
    EXPECT_EQ(table.lots[0].id, "R-4k7");
    EXPECT_DOUBLE_EQ(table.lots[0].value, 4700);
    EXPECT_DOUBLE_EQ(table.lots[0].tolerance, 0.05);
    EXPECT_EQ(table.lots[1].kind, PartKind::capacitor);
    EXPECT_DOUBLE_EQ(table.lots[1].value, 120e-9);
    EXPECT_EQ(table.lots[2].id, "1N4148");
    EXPECT_EQ(table.lots[3].kind, PartKind::potentiometer);
}

TEST(DrawerCsv, TheFileIsTheSameInEveryLanguage) {
    Drawer drawer = demoDrawer();
    DrawerLot coil;
    coil.id = "L-1";
    coil.kind = PartKind::inductor;
    coil.value = 2.8;
    coil.quantity = 1;
    drawer.lots.push_back(coil);
    const std::string english = writeDrawerCsv(drawer, CsvStyle::commas);
    const test::SpokenInDots dotted;
    setDecimalMark(DecimalMark::comma);
    EXPECT_EQ(writeDrawerCsv(drawer, CsvStyle::commas), english);
    EXPECT_EQ(tableOf(english).lots.size(), drawer.lots.size());
    setDecimalMark(DecimalMark::point);
}

TEST(DrawerCsv, ATroubleIsAskedForWholeInAnotherLanguage) {
    const test::Spoken german({{"line %1: %2", "Zeile %1: %2"},
                               {"%1 needs the name of its type.", "Kein Typ: %1"},
                               {"a diode", "eine Diode"}});
    EXPECT_EQ(tableOf("kind,value,type,quantity\ndiode,,,1\n").troubles.front().message,
              "Zeile 2: Kein Typ: eine Diode");
}

TEST(DrawerCsv, SemicolonsBringDecimalCommas) {
    const DrawerTable table = tableOf(
        "kind;value;quantity;price;pitch_mm\r\n"
        "resistor;4,7k;20;0,02;\r\n"
        "capacitor;2,2 µF;6;1,250;5,08\r\n");
    EXPECT_THAT(table.troubles, IsEmpty());
    ASSERT_EQ(table.lots.size(), 2U);
    EXPECT_DOUBLE_EQ(table.lots[0].value, 4700);
    EXPECT_DOUBLE_EQ(table.lots[0].price, 0.02);
    EXPECT_DOUBLE_EQ(table.lots[1].value, 2.2e-6);
    EXPECT_DOUBLE_EQ(table.lots[1].price, 1.25);
    EXPECT_DOUBLE_EQ(table.lots[1].pitchMillimetres, 5.08);
}

TEST(DrawerCsv, EveryBadLineIsNamedAndTheGoodOnesStay) {
    const DrawerTable table = tableOf(
        "kind,value,type,quantity,price,devices,reserved\n"
        "resistor,4k7,,some,,,\n"
        "resistor,4k7,,20,,,\n"
        "spoon,1,,1,,,\n"
        "\n"
        "capacitor,470,,5,,,\n"
        "resistor,,,5,,,\n"
        "diode,,,5,,,\n"
        "resistor,1k,,5,\"1,250\",,\n"
        "jfet,,2N5457,5,,\"1 idss=3m vp=-1.8 | 2 gain=4\",\n"
        "resistor,2k2,,5,,,HL-0231\n"
        "resistor,3k3,,2,,,HL-0231/1=3\n");
    ASSERT_EQ(table.lots.size(), 1U);
    std::vector<std::string> messages;
    for (const DrawerCsvTrouble& trouble : table.troubles) messages.push_back(trouble.message);
    EXPECT_THAT(messages,
                ElementsAre(HasSubstr("line 2: quantity “some”"), HasSubstr("line 4: kind “spoon”"),
                            testing::AllOf(HasSubstr("line 6: value"), HasSubstr("47.0 pF"), HasSubstr("470 pF")),
                            HasSubstr("line 7: a resistor needs a value"), HasSubstr("line 8: a diode needs the name"),
                            HasSubstr("line 9: price “1,250” can be read in two ways"),
                            HasSubstr("line 10: devices: “gain=4”"), HasSubstr("line 11: reserved"),
                            HasSubstr("line 12: Lot R-3k3: more are reserved (3) than there are (2)")));
}

TEST(DrawerCsv, QuotedCellsMayHoldAnything) {
    const DrawerTable table = tableOf(
        "\xEF\xBB\xBFkind,value,quantity,build\n"
        "resistor,1k,2,\"metal film, \"\"blue\"\",\nbent\"\n"
        "resistor,x,2,\n");
    ASSERT_EQ(table.lots.size(), 1U);
    EXPECT_EQ(table.lots[0].build, "metal film, \"blue\",\nbent");
    ASSERT_EQ(table.troubles.size(), 1U);
    EXPECT_EQ(table.troubles[0].line, 4);
}

TEST(DrawerCsv, WhatIsNoTableIsAnError) {
    EXPECT_THAT(messageOf(""), HasSubstr("empty"));
    EXPECT_THAT(messageOf("a,b\n1,2\n"), HasSubstr("no column \"kind\""));
    EXPECT_THAT(messageOf("kind,quantity\nresistor,1\n"), HasSubstr("neither a column"));
    EXPECT_THAT(messageOf("kind,kind,quantity,value\n"), HasSubstr("twice"));
    EXPECT_THAT(messageOf("kind,value,quantity\nresistor,\"1k,2\n"), HasSubstr("line 2: a cell begins"));
    EXPECT_EQ(tableOf("kind,value,quantity,colour\n").unknownColumns, std::vector<std::string>{"colour"});
}

TEST(DrawerCsv, TheSameIdTwiceIsNamed) {
    const DrawerTable table = tableOf("id,kind,value,quantity\na,resistor,1k,2\na,resistor,2k,2\n,resistor,1k,1\n");
    ASSERT_EQ(table.lots.size(), 2U);
    EXPECT_EQ(table.lots[1].id, "R-1k");
    ASSERT_EQ(table.troubles.size(), 1U);
    EXPECT_THAT(table.troubles[0].message, HasSubstr("line 3"));
}

TEST(DrawerCsv, TheDemoDrawerComesBackFromBothStyles) {
    Drawer drawer = demoDrawer();
    drawer.lots[0].measured = drawer.lots[0].value * 1.00123456789;  // all digits count
    for (const CsvStyle style : {CsvStyle::commas, CsvStyle::semicolons}) {
        const DrawerTable table = tableOf(writeDrawerCsv(drawer, style));
        EXPECT_THAT(table.troubles, IsEmpty());
        ASSERT_EQ(table.lots.size(), drawer.lots.size());
        for (std::size_t k = 0; k < drawer.lots.size(); ++k) {
            DrawerLot lot = table.lots[k];
            EXPECT_NEAR(lot.tolerance, drawer.lots[k].tolerance, 1e-15);  // through per cent and back
            lot.tolerance = drawer.lots[k].tolerance;
            EXPECT_EQ(lot, drawer.lots[k]) << lot.id;
        }
    }
}

TEST(DrawerCsv, MergingKeepsReservations) {
    Drawer drawer{"s", {}};
    drawer.lots = tableOf("id,kind,value,quantity,reserved\na,resistor,1k,5,HL-0231/2=2\n").lots;
    const Drawer merged = mergedInto(drawer, tableOf("id,kind,value,quantity\na,resistor,1k,9\nb,resistor,2k,1\n"));
    ASSERT_EQ(merged.lots.size(), 2U);
    EXPECT_EQ(merged.lots[0].quantity, 9);
    EXPECT_EQ(merged.lots[0].reserved.at("HL-0231/2"), 2);
}

// Every byte cut off, and each byte replaced: an answer, never a crash.
TEST(DrawerCsv, DamageIsAnAnswer) {
    const std::string text = "kind,value,quantity,devices\nresistor,4k7,2,\njfet,\"J\",1,\"1 idss=3m vp=-1.8\"\n";
    for (std::size_t at = 0; at < text.size(); ++at) {
        (void)readDrawerCsv(text.substr(0, at));
        for (const char c : {'"', ',', ';', '\n', '\0', '|', '='}) {
            std::string damaged = text;
            damaged[at] = c;
            (void)readDrawerCsv(damaged);
        }
    }
    SUCCEED();
}

}  // namespace
}  // namespace ohmwright

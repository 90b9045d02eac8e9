// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/drawer_file.h"

#include "core/files/atomic_file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

namespace ohmwright {
namespace {

using testing::HasSubstr;

std::string demoPath() {
    return std::string(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/drawer.json";
}

Drawer demoDrawer() {
    const Result<Drawer> drawer = loadDrawer(demoPath());
    EXPECT_TRUE(drawer) << (drawer ? "" : drawer.error().message);
    return drawer ? *drawer : Drawer();
}

std::string withLots(const std::string& lots) {
    return R"({"format": "ohmwright-drawer", "version": 1, "shop": "s", "lots": [)" + lots + "]}";
}

std::string messageOf(const std::string& text) {
    const Result<Drawer> drawer = readDrawer(text);
    return drawer ? "no error" : drawer.error().message;
}

TEST(DrawerFile, TheDemoDrawerIsCanonicalAndComesBack) {
    const Drawer drawer = demoDrawer();
    EXPECT_EQ(drawer.shop, "Tern & Tallow, Quay Street");
    EXPECT_GE(drawer.lots.size(), 60U);
    const Result<std::string> text = readWholeFile(demoPath());
    ASSERT_TRUE(text);
    EXPECT_EQ(writeDrawer(drawer), *text);
    const Result<Drawer> back = readDrawer(*text);
    ASSERT_TRUE(back);
    EXPECT_EQ(*back, drawer);
}

TEST(DrawerFile, EveryFieldComesBack) {
    DrawerLot lot;
    lot.id = "j \"bag\" ü";
    lot.kind = PartKind::jfet;
    lot.type = "2N5457";
    lot.lot = "24-07";
    lot.quantity = 4;
    lot.printed = "5457";
    lot.build = "TO-92";
    lot.price = 0.35;
    lot.devices = {{"1", {}, 3.1e-3, -1.77}, {"2", {}, {}, -1.2}};
    lot.reserved = {{"PB-0003/1", 2}};
    DrawerLot capacitor;
    capacitor.id = "c";
    capacitor.kind = PartKind::capacitor;
    capacitor.value = 1.2e-7;
    capacitor.quantity = 9;
    capacitor.measured = 1.187e-7;
    capacitor.tolerance = 0.1;
    capacitor.pitchMillimetres = 5;
    capacitor.ratedVolts = 63;
    const Drawer drawer{"shop", {lot, capacitor}};
    const Result<Drawer> back = readDrawer(writeDrawer(drawer));
    ASSERT_TRUE(back) << back.error().message;
    EXPECT_EQ(*back, drawer);
}

TEST(DrawerFile, WhatIsWrongIsNamed) {
    EXPECT_THAT(messageOf("{"), HasSubstr("line 1"));
    EXPECT_THAT(messageOf(R"({"format": "ohmwright-job", "version": 1})"), HasSubstr("another kind of file"));
    EXPECT_THAT(messageOf(withLots(R"({"id": "a", "kind": "resistor", "value": 1000, "quantity": -1})")),
                HasSubstr("quantity"));
    EXPECT_THAT(messageOf(withLots(R"({"id": "a", "kind": "spoon", "quantity": 1})")), HasSubstr("spoon"));
    EXPECT_THAT(messageOf(withLots(R"({"id": "a", "kind": "resistor", "value": 0, "quantity": 1})")),
                HasSubstr("Lot a: its value"));
    EXPECT_EQ(messageOf(withLots(R"({"id": "a", "kind": "resistor", "value": 1000, "quantity": 1})")), "no error");
}

TEST(DrawerFile, ANewerFileIsRefusedKindly) {
    const Result<Drawer> newer = readDrawer(R"({"format": "ohmwright-drawer", "version": 2, "shop": "", "lots": []})");
    ASSERT_FALSE(newer);
    EXPECT_EQ(newer.error().code, ErrorCode::fileNewer);
}

// Every byte cut off: an error or a drawer, never a crash.
TEST(DrawerFile, ACutFileIsAnError) {
    const std::string text = writeDrawer(
        *readDrawer(withLots(R"({"id": "a", "kind": "resistor", "value": 1000, "quantity": 1, "printed": "102"})")));
    for (std::size_t length = 0; length + 2 < text.size(); ++length) {
        EXPECT_FALSE(readDrawer(text.substr(0, length))) << length;
    }
}

TEST(DrawerFile, ADrawerWithAFaultIsNotSaved) {
    const auto path = std::filesystem::temp_directory_path() / "ohmwright-drawer-test.json";
    Drawer drawer = demoDrawer();
    ASSERT_TRUE(saveDrawer(drawer, path));
    EXPECT_EQ(*loadDrawer(path), drawer);
    Drawer wrong = drawer;
    wrong.lots[0].quantity = -1;
    EXPECT_FALSE(saveDrawer(wrong, path));
    EXPECT_EQ(*loadDrawer(path), drawer);
    std::filesystem::remove(path);
}

}  // namespace
}  // namespace ohmwright

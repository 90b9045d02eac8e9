// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/parts/part_library.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Model type(const std::string& name, PartKind kind) {
    Model model;
    model.name = name;
    model.kind = kind;
    return model;
}

PartLibrary library() {
    return {{type("1N4148", PartKind::diode), type("2N3904", PartKind::bipolar), type("red LED", PartKind::diode)}};
}

TEST(PartLibrary, FindsATypeByItsNameHoweverItIsTyped) {
    const PartLibrary types = library();
    ASSERT_TRUE(findModel(types, "1N4148"));
    EXPECT_EQ(findModel(types, "1n4148"), &types.models[0]);
    EXPECT_EQ(findModel(types, "RED led"), &types.models[2]);
}

TEST(PartLibrary, ATypeThatIsNotThereIsNull) {
    const PartLibrary types = library();
    for (const char* name : {"", "1N414", "1N41488", "BC549"}) {
        EXPECT_FALSE(findModel(types, name)) << name;
    }
    EXPECT_FALSE(findModel(PartLibrary(), "1N4148"));
}

TEST(PartLibrary, ListsTheTypesOfAKindInOrder) {
    const std::vector<Model> diodes = modelsOfKind(library(), PartKind::diode);
    ASSERT_EQ(diodes.size(), 2U);
    EXPECT_EQ(diodes[0].name, "1N4148");
    EXPECT_EQ(diodes[1].name, "red LED");
    EXPECT_TRUE(modelsOfKind(library(), PartKind::opamp).empty());
}

}  // namespace
}  // namespace ohmwright

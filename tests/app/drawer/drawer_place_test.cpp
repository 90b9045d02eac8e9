// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/drawer/drawer_place.h"

#include "app/look/sign_text.h"
#include "core/files/drawer_file.h"
#include "tests/support/open_job.h"
#include "tests/support/temporary_folder.h"

#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>
#include <QTableView>

#include <algorithm>

namespace ohmwright::test {
namespace {

class DrawerPlaceTest : public testing::Test {
protected:
    DrawerPlaceTest() {
        open.shop.open(QString::fromStdString((folder / "shop").string()));
        place.resize(1600, 900);
        place.show();
        QCoreApplication::processEvents();
    }
    template <class Widget>
    [[nodiscard]] Widget& named(const QString& name) const {
        for (Widget* widget : place.findChildren<Widget*>()) {
            if (widget->accessibleName() == name) {
                return *widget;
            }
        }
        ADD_FAILURE() << "no widget is called " << name.toStdString();
        return *place.findChild<Widget*>();
    }
    void press(const QString& words) {
        for (QPushButton* button : place.findChildren<QPushButton*>()) {
            if (button->text() == words && button->isVisible()) {
                QTest::mouseClick(button, Qt::LeftButton);
                return;
            }
        }
        ADD_FAILURE() << "no button " << words.toStdString();
    }
    void add(const QString& kind, const QString& value, const QString& quantity) {
        named<QComboBox>("Kind of the new part").setCurrentText(kind);
        QTest::keyClicks(&named<QLineEdit>("Value or type of the new part"), value);
        QTest::keyClicks(&named<QLineEdit>("How many of the new part"), quantity);
        QTest::keyClick(&named<QLineEdit>("How many of the new part"), Qt::Key_Return);
    }
    [[nodiscard]] int rows() const { return named<QTableView>("Drawer").model()->rowCount(); }
    [[nodiscard]] Drawer onDisk() const {
        const auto drawer = loadDrawer(folder / "shop/drawer.json");
        EXPECT_TRUE(drawer) << (drawer ? "" : drawer.error().message);
        return drawer ? *drawer : Drawer();
    }

    TemporaryFolder folder;
    OpenJob open;
    DrawerPlace place{open.document, open.selection, open.shop};
};

TEST_F(DrawerPlaceTest, TheFirstPartMakesTheDrawer) {
    EXPECT_TRUE(shownWords(place).contains("Drawer: assumed stock"));
    add("capacitor", "120n", "3");
    EXPECT_EQ(rows(), 1);
    EXPECT_EQ(onDisk().lots.at(0).quantity, 3);
    EXPECT_FALSE(shownWords(place).contains("Drawer: assumed stock"));
}

TEST_F(DrawerPlaceTest, RemovedAndUndone) {
    add("capacitor", "120n", "3");
    add("diode", "1N4148", "60");
    ASSERT_EQ(rows(), 2);
    auto& table = named<QTableView>("Drawer");
    table.setCurrentIndex(table.model()->index(0, 0));
    press("Remove row");
    EXPECT_EQ(rows(), 1);
    press("Undo");
    EXPECT_EQ(rows(), 2);
    press("Redo");
    EXPECT_EQ(onDisk().lots.at(0).type, "1N4148");
}

TEST_F(DrawerPlaceTest, AValueThatIsNoneIsSaidAndNothingChanges) {
    add("resistor", "4k7n", "3");
    bool isSaid = false;
    for (const SignText* line : place.findChildren<SignText*>()) {
        isSaid = isSaid || line->text().contains("4k7n");
    }
    EXPECT_TRUE(isSaid);
    EXPECT_FALSE(std::filesystem::exists(folder / "shop/drawer.json"));
}

TEST_F(DrawerPlaceTest, ATableIsSeenBeforeItIsTakenAndComesOutAgain) {
    folder.write("parts.csv", "kind;value;quantity\nresistor;4,7k;10\nresistor;blue;3\ncapacitor;100n;4\n");
    ASSERT_TRUE(place.previewTable(QString::fromStdString((folder / "parts.csv").string())));
    EXPECT_TRUE(shownWords(place).contains("parts.csv: 2 lots to take in, 1 lines left out"));
    EXPECT_FALSE(std::filesystem::exists(folder / "shop/drawer.json")) << "nothing is taken yet";
    press("Take 2 lots in");
    EXPECT_EQ(rows(), 2);
    ASSERT_TRUE(place.writeTable(QString::fromStdString((folder / "out.csv").string())));
    const auto back = readDrawerCsv(folder.read("out.csv"));
    ASSERT_TRUE(back);
    EXPECT_EQ(back->lots.size(), 2U);
}

TEST_F(DrawerPlaceTest, ATableWithoutAHeadIsRefused) {
    folder.write("empty.csv", "");
    const auto read = place.previewTable(QString::fromStdString((folder / "empty.csv").string()));
    ASSERT_FALSE(read);
    EXPECT_NE(read.error().message.find("empty.csv"), std::string::npos);
}

TEST_F(DrawerPlaceTest, LooksRightInBothThemes) {
    open.shop.open(QString(OHMWRIGHT_SOURCE_DIR) + "/demo-projects");
    open.selection.setPart("c4");
    for (const ThemeKind kind : {ThemeKind::light, ThemeKind::dark}) {
        EXPECT_FALSE(takePicture(place, "drawer-place", kind).isNull());
    }
    EXPECT_EQ(clippedWords(place), QStringList());
}

TEST_F(DrawerPlaceTest, ASearchThatFindsNothingSaysWhatWasLookedForAndWhatToDo) {
    const auto said = [this](const QString& words) {
        const auto signs = place.findChildren<SignText*>();
        return std::any_of(signs.begin(), signs.end(),
                           [&](SignText* sign) { return sign->isVisible() && sign->text().contains(words); });
    };
    QLineEdit& search = named<QLineEdit>("Search the drawer");
    QTest::keyClicks(&search, "no such part");
    EXPECT_EQ(rows(), 0);
    EXPECT_TRUE(said("\u201cno such part\u201d"));
    EXPECT_TRUE(said("Look for less of it"));
    search.clear();
    EXPECT_GT(rows(), 0);
    EXPECT_FALSE(said("no such part"));
}

}  // namespace
}  // namespace ohmwright::test

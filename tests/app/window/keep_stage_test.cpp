// A part of the open circuit kept for the shelf, and found there again.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/stages/stage_joiner.h"
#include "app/stages/stage_keeper.h"
#include "core/files/stage_shelf.h"
#include "tests/app/window/open_window.h"

#include <QComboBox>
#include <QPushButton>

namespace ohmwright::test {
namespace {

class KeepStage : public OpenWindow {
protected:
    KeepStage() {
        // A job in a folder with a drawer has its shop there.
        EXPECT_TRUE(
            QFile::copy(QString(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/drawer.json", folder.filePath("drawer.json")) ||
            writeDrawer());
        EXPECT_TRUE(window->openFile(path));
        QCoreApplication::processEvents();
    }

    bool writeDrawer() {
        QFile file(folder.filePath("drawer.json"));
        return file.open(QIODevice::WriteOnly) &&
               file.write(R"({"format": "ohmwright-drawer", "version": 1, "shop": "", "lots": []})") > 0;
    }
    [[nodiscard]] QPushButton* button(const QString& words) {
        for (QPushButton* each : window->stageKeeper().findChildren<QPushButton*>()) {
            if (each->text() == words) {
                return each;
            }
        }
        ADD_FAILURE() << "no button " << words.toStdString();
        return nullptr;
    }
    void chooseWhich(const QString& words) {
        auto* box = find<QComboBox>("Which parts");
        ASSERT_NE(box, nullptr);
        const int at = box->findText(words);
        ASSERT_GE(at, 0) << words.toStdString();
        box->setCurrentIndex(at);
    }
};

TEST_F(KeepStage, AStageOfTheDrawingIsKeptAndStandsOnTheShelf) {
    const Job before = job();
    window->actions().action("stage.keep")->trigger();
    ASSERT_TRUE(window->stageKeeper().isVisible());
    chooseWhich("stage Clip stage");
    EXPECT_TRUE(reads("8 parts, input ip, output o1."));
    auto* name = find<QLineEdit>("Name on the shelf");
    EXPECT_EQ(name->text(), "Clip stage");
    name->selectAll();
    QTest::keyClicks(name, "Lamp clip");
    QTest::keyClicks(find<QLineEdit>("What it does, in one line"), "round, with a low corner");
    if (!qEnvironmentVariableIsEmpty("OHMWRIGHT_TEST_PICTURES")) {
        EXPECT_TRUE(window->grab().save(qEnvironmentVariable("OHMWRIGHT_TEST_PICTURES") + "/keep-light.png"));
    }
    QTest::mouseClick(button("Keep it"), Qt::LeftButton);
    EXPECT_TRUE(window->map().isVisible());
    EXPECT_EQ(job(), before);
    const auto kept = readShopStages(std::filesystem::path(folder.path().toStdString()));
    ASSERT_EQ(kept.size(), 1U);
    ASSERT_TRUE(kept[0].piece) << kept[0].fault;
    EXPECT_EQ(kept[0].piece->name, "Lamp clip");
    EXPECT_EQ(kept[0].piece->does, "round, with a low corner");
    // On the shelf of the open job's shop.
    window->actions().action("job.join")->trigger();
    const auto* shelf = find<QAbstractItemView>("Shelf of stages");
    EXPECT_EQ(shelf->model()->index(shelf->model()->rowCount() - 1, 0).data().toString(), "Lamp clip");
}

// Enter did nothing there, neither in a field nor on the button.
TEST_F(KeepStage, EnterKeepsIt) {
    window->actions().action("stage.keep")->trigger();
    chooseWhich("stage Clip stage");
    find<QLineEdit>("What it does, in one line")->setFocus();
    type("round");
    press(Qt::Key_Return);
    EXPECT_TRUE(window->map().isVisible());
    EXPECT_EQ(readShopStages(std::filesystem::path(folder.path().toStdString())).size(), 1U);
}

TEST_F(KeepStage, ATypedNameStaysWhenOtherPartsAreChosenAndTheDrawingIsShownBeforeIt) {
    window->actions().action("stage.keep")->trigger();
    auto* name = find<QLineEdit>("Name on the shelf");
    name->setFocus();
    name->selectAll();
    press(Qt::Key_Delete);
    chooseWhich("stage Clip stage");
    EXPECT_EQ(name->text(), "");
    EXPECT_TRUE(reads("8 parts, input ip, output o1. Give it a name to keep it."));
    EXPECT_FALSE(button("Keep it")->isEnabled());
    type("Mine");
    chooseWhich("the whole unit without its ends");
    EXPECT_EQ(name->text(), "Mine");
}

// A unit that was just drawn has no stages: "the whole unit" was an empty list.
TEST_F(KeepStage, OfADrawingWithoutStagesThereAreItsParts) {
    ASSERT_TRUE(
        window->document().openNetlistText("one transistor\n"
                                           "V1 in 0 AC 1 SIN(0 0.1 220)\nV2 vcc 0 DC 9\n"
                                           "C1 in b 100n\nR1 vcc b 470k\nR2 b 0 100k\n"
                                           "Q1 c b e QX\nR3 vcc c 10k\nR4 e 0 1k\nC2 c out 1u\nR5 out 0 100k\n"
                                           ".model QX NPN(BF=200)\n.end\n"));
    Job bare = job();
    bare.stock.stages.clear();
    window->document().setJob(bare, {});
    window->keepStage({});
    EXPECT_TRUE(reads("8 parts, input in, output out.")) << window->stageKeeper().piece().error().message;
}

TEST_F(KeepStage, ChosenPartsAreOfferedFirstAndWhatIsNoStageIsSaid) {
    window->keepStage({idOf("C4"), idOf("R5")});
    EXPECT_EQ(find<QComboBox>("Which parts")->currentText(), "the 2 chosen on the map");
    QTest::keyClicks(find<QLineEdit>("Name on the shelf"), "Leg");
    EXPECT_TRUE(reads("Only im leads out of the chosen parts."));
    EXPECT_FALSE(button("Keep it")->isEnabled());
    window->keepStage({idOf("R7"), idOf("C7")});
    EXPECT_TRUE(reads("2 parts, input o1, output lp. Give it a name to keep it."));
    QTest::keyClicks(find<QLineEdit>("Name on the shelf"), "Low-pass");
    EXPECT_TRUE(reads("2 parts, input o1, output lp."));
    // The other way round, by naming the input.
    auto* input = find<QComboBox>("Net of its input");
    input->setCurrentIndex(input->findText("lp"));
    EXPECT_TRUE(reads("2 parts, input lp, output o1."));
    press(Qt::Key_Escape);
    EXPECT_TRUE(window->map().isVisible());
}

TEST_F(KeepStage, WithoutAShopFolderNothingIsKeptAndTheWayIsShown) {
    window->keepStage({});
    window->stageKeeper().begin(job().stock, {}, {});
    EXPECT_TRUE(reads("There is no shop folder yet: choose one, and stages are kept there."));
    EXPECT_TRUE(button("Choose the shop's folder \u2026")->isVisible());
    EXPECT_FALSE(button("Keep it")->isEnabled());
    const QTemporaryDir shop;
    window->stageKeeper().setShopFolder(shop.path());
    EXPECT_TRUE(button("Keep it")->isEnabled());
}

}  // namespace
}  // namespace ohmwright::test

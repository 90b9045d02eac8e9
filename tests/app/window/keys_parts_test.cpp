/// Targets, try-on parts, and the nets at a part's legs, by the keyboard alone, with the demo drawer beside the job.
/// Expected figures: 1/(2 pi R C) and 1 + Rf/Rg of the parts that the list names; volts of Small Rooster: the demo's
/// own.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/keys_alone.h"

#include "app/part/target_model.h"
#include "app/part/target_panel.h"
#include "core/plan/apply.h"

#include <gmock/gmock.h>
#include <QListView>
#include <QListWidget>

namespace ohmwright::test {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

class KeysParts : public KeysAlone {
protected:
    KeysParts() {
        EXPECT_TRUE(
            QFile::copy(QString(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/drawer.json", folder.filePath("drawer.json")));
        EXPECT_TRUE(window->openFile(path));
        EXPECT_TRUE(waitForAnswers());
    }

    [[nodiscard]] QAbstractItemModel& answers() { return *find<QListView>("Answers from the drawer")->model(); }
    /// What stands at the lit net.
    [[nodiscard]] std::string litWords() { return window->map().scene().pointedWords().toStdString(); }
};

TEST_F(KeysParts, ATargetIsMetByPartsOfTheDrawer) {
    ASSERT_TRUE(walkTo("C4"));
    key(Qt::Key_A, Qt::ShiftModifier);  // from stock
    ASSERT_TRUE(panelTo("PartPanel"));
    ASSERT_TRUE(tabTo("Find parts …"));
    key(Qt::Key_Space);
    ASSERT_TRUE(tabTo("wanted corner"));
    write("590");
    ASSERT_TRUE(tabTo("wanted plateau gain"));
    write("29");
    key(Qt::Key_Return);
    ASSERT_TRUE(QTest::qWaitFor([this] { return answers().rowCount() > 0; }, patience));
    const QStringList best = answers().index(0, 0).data(TargetModel::figuresRole).toString().split(", ");
    ASSERT_EQ(best.size(), 2);
    EXPECT_NEAR(best[0].section(' ', 0, 0).toDouble(), 590.0, 5.9);
    EXPECT_NEAR(best[1].section(' ', 0, 0).toDouble(), 29.0, 0.1);
    const Job before = job();
    ASSERT_TRUE(tabTo("Answers from the drawer"));
    key(Qt::Key_Down);
    key(Qt::Key_Home);
    EXPECT_TRUE(window->selection().ghost()) << "a chosen answer is tried first";
    EXPECT_EQ(job(), before);
    key(Qt::Key_Return);
    EXPECT_NE(job(), before);
    EXPECT_TRUE(window->partPanel().isVisible());
    key(Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(job(), before);
}

// The strongest owner of 110 Hz with mod A: tests/reference/harbour-lamp-figures.csv, influence_per_ten_percent.
TEST_F(KeysParts, WhereNoPartIsChosenItsPlaceNamesTheOwnersAndLeadsToThem) {
    ASSERT_TRUE(window->selection().part().empty());
    ASSERT_TRUE(QTest::qWaitFor([this] { return find<QListWidget>("Who owns 110 Hz?")->count() > 0; }, patience));
    ASSERT_TRUE(panelTo("PartPanel"));
    ASSERT_TRUE(tabTo("Who owns 110 Hz?"));
    key(Qt::Key_Return);
    EXPECT_EQ(window->selection().part(), idOf("C4"));
    EXPECT_TRUE(window->map().view().hasFocus()) << "as if the part had been pressed there";
    write("150n");
    key(Qt::Key_Return);
    EXPECT_DOUBLE_EQ(findPart(*nowCircuit(job()), "c4")->value, 150e-9);
}

// 3k9 with 9k1 across is 2730; up to 4k7 a leg is lifted and 820R added; 56n with 68n across is 124n by the values
// printed (the lot's measured 67n3 gives 123n).
TEST_F(KeysParts, WhatCanBeHeardFirstStandsUnderTheDrawer) {
    ASSERT_TRUE(walkTo("R5"));
    write("2k7");
    key(Qt::Key_Return);
    EXPECT_TRUE(reads("To hear it first: 9k1 across the old part, 2k73."));
    write("4k7");
    key(Qt::Key_Return);
    EXPECT_TRUE(reads("cannot be tried across: lift one leg and add 820R in series (4k72)"));
    ASSERT_TRUE(walkTo("C4"));
    EXPECT_TRUE(reads("To hear it first: 68n across the old part, 123n."));
}

// Base 1.12, emitter 0.46, collector 4.43 V.
TEST_F(KeysParts, WWalksTheLegsOfAPartAndLightsTheirNetsWithTheirVolts) {
    ASSERT_TRUE(window->openFile(copyOfDemo("small-rooster")));
    ASSERT_TRUE(waitForAnswers());
    ASSERT_TRUE(walkTo("Q1"));
    EXPECT_EQ(litWords(), "");
    key(Qt::Key_W);
    EXPECT_THAT(litWords(), StartsWith("collector at "));
    EXPECT_THAT(litWords(), HasSubstr(": 4.43 V"));
    EXPECT_EQ(window->map().scene().pointedNet(), findPart(job().stock, "q1")->nets[0]);
    EXPECT_TRUE(reads("Q1, collector at "));  // in the status line
    EXPECT_TRUE(window->map().view().accessibleDescription().contains("4.43 V"));
    key(Qt::Key_W);
    EXPECT_THAT(litWords(), StartsWith("base at "));
    EXPECT_THAT(litWords(), HasSubstr("1.12"));
    key(Qt::Key_W);
    EXPECT_THAT(litWords(), StartsWith("emitter at "));
    EXPECT_THAT(litWords(), HasSubstr("0.46"));
    key(Qt::Key_W);
    EXPECT_THAT(litWords(), StartsWith("collector at ")) << "once round";
    key(Qt::Key_W, Qt::ShiftModifier);
    EXPECT_THAT(litWords(), StartsWith("emitter at "));
    for (const ThemeKind kind : {ThemeKind::light, ThemeKind::dark}) {
        Theme::current().setKind(kind);
        QCoreApplication::processEvents();
        EXPECT_THAT(litWords(), StartsWith("emitter at ")) << "what is lit stays lit when the map is drawn anew";
        window->grab().save(QString("%1/map-leg-%2.png").arg(OHMWRIGHT_PICTURES_DIR).arg(static_cast<int>(kind)));
    }
    Theme::current().setKind(ThemeKind::light);
    QCoreApplication::processEvents();

    // Esc is one level out; another part has legs of its own.
    key(Qt::Key_Escape);
    EXPECT_EQ(litWords(), "");
    EXPECT_EQ(window->selection().part(), "q1");
    key(Qt::Key_W);
    key(Qt::Key_Right);
    EXPECT_EQ(litWords(), "");
    key(Qt::Key_W);
    EXPECT_THAT(litWords(), StartsWith("leg 1 at "));
}

TEST_F(KeysParts, WithoutAPartWSaysWhatToDo) {
    ASSERT_TRUE(walkTo("C4"));
    key(Qt::Key_Escape);
    ASSERT_EQ(window->selection().part(), PartId());
    key(Qt::Key_W);
    EXPECT_TRUE(reads("Select a part first"));
    EXPECT_EQ(litWords(), "");
}

TEST_F(KeysParts, TheMenuOfAPartOpensWithoutAMenuKey) {
    ASSERT_TRUE(walkTo("C4"));
    key(Qt::Key_F10, Qt::ShiftModifier);
    ASSERT_NE(QApplication::activePopupWidget(), nullptr);
    ASSERT_TRUE(choose("Who owns this?"));
    EXPECT_TRUE(window->selection().pinsOwners());
}

}  // namespace
}  // namespace ohmwright::test

// The strip with the demo: nothing hidden, nothing cut, warnings first to keep their figures.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/consequences/effect_strip.h"

#include "app/look/note_card.h"
#include "core/plan/edits.h"
#include "tests/support/open_job.h"

#include <QApplication>
#include <QRegularExpression>

namespace ohmwright::test {
namespace {

class EffectStripTest : public testing::Test {
protected:
    EffectStripTest() {
        strip.resize(1600, strip.sizeHint().height());
        strip.show();
    }
    bool wait() {
        QCoreApplication::processEvents();
        return QTest::qWaitFor([this] { return open.solver.isCurrent() && consequences.isCurrent(); }, 120'000);
    }
    QStringList words() const {
        QStringList all;
        for (const StripCell* cell : strip.cells()) {
            all << cell->words();
        }
        return all;
    }
    /// Every effect that the core has found is told by a cell.
    void expectNothingHidden() const {
        QStringList told;
        for (const StripCell* cell : strip.cells()) {
            for (const Note& note : cell->entry().notes) {
                told << note.words;
            }
        }
        for (const SideEffect& effect : consequences.effects()->effects) {
            EXPECT_TRUE(told.contains(QString::fromStdString(effect.sentence))) << effect.id;
        }
    }
    void expectNothingCut() const {
        int right = 0;
        for (const StripCell* cell : strip.cells()) {
            EXPECT_GE(cell->x(), right) << cell->words().toStdString();
            right = cell->geometry().right();
        }
        EXPECT_LE(right, strip.width());
    }

    OpenJob open;
    ConsequenceService consequences{open.document, open.solver, open.shop};
    EffectStrip strip{consequences};
};

TEST_F(EffectStripTest, EveryEffectIsThereAtEveryWidth) {
    ASSERT_TRUE(wait());
    for (const int width : {960, 1366, 1600, 1920}) {
        strip.resize(width, strip.height());
        expectNothingHidden();
        expectNothingCut();
        // 82 Hz breaks up at 101 → 47 mVpk (harbour-lamp-figures.csv, clip_onset): a warning keeps its figure.
        EXPECT_EQ(words().filter("82 Hz: 101 mVpk → 47.0 mVpk").size(), 1) << width;
    }
    EXPECT_FALSE(words().filter(QRegularExpression("^Op-amp speed, 40\\.8 kHz, limit 20\\.0 kHz")).isEmpty());
}

TEST_F(EffectStripTest, FoldedTheyAreLampsWithTheClaims) {
    ASSERT_TRUE(wait());
    strip.setFolded(true);
    strip.setClaimsShown(true);
    strip.resize(1366, strip.sizeHint().height());
    EXPECT_EQ(strip.sizeHint().height(), 34);
    expectNothingHidden();
    expectNothingCut();
    EXPECT_TRUE(words().contains("“fuller”: yes"));
    EXPECT_TRUE(words().contains("“less squashed”: the other way"));
    EXPECT_TRUE(words().contains("Clips earlier, 82 Hz: 101 mVpk → 47.0 mVpk"));
    EXPECT_TRUE(words().contains("Op-amp speed"));
}

TEST_F(EffectStripTest, PressedACellTellsItsSentenceAndItsLimitsSource) {
    ASSERT_TRUE(wait());
    StripCell* next = nullptr;
    for (StripCell* cell : strip.cells()) {
        next = cell->entry().name == "Next stage" ? cell : next;
    }
    ASSERT_NE(next, nullptr);
    next->setFocus();
    QTest::keyClick(next, Qt::Key_Space);
    const auto* card = qobject_cast<NoteCard*>(QApplication::activePopupWidget());
    ASSERT_NE(card, nullptr);
    EXPECT_TRUE(card->text().contains("Peak at the output: 0.05 → 0.06 V, limit 1.20 V at most."));
    EXPECT_TRUE(card->text().contains("Source of the limit: a 12AX7 stage with 1.2 V at its cathode"))
        << card->text().toStdString();
    QTest::keyClick(QApplication::activePopupWidget(), Qt::Key_Escape);
    EXPECT_EQ(QApplication::activePopupWidget(), nullptr);
}

TEST_F(EffectStripTest, OldFiguresAreCalledOld) {
    ASSERT_TRUE(wait());
    // An input that hangs in the air: no bias, no figures.
    Job broken = open.job();
    for (Part& part : broken.stock.parts) {
        if (part.kind == PartKind::opamp) {
            part.nets[0] = "nowhere";
        }
    }
    EXPECT_TRUE(open.document.edit(broken, "Break"));
    EXPECT_TRUE(QTest::qWaitFor([this] { return !words().filter("not current").isEmpty(); }, 5000))
        << words().join('|').toStdString();
    EXPECT_FALSE(words().filter("nowhere").isEmpty()) << "the solver's own sentence";
    open.document.undoStack().undo();
    ASSERT_TRUE(wait());
    EXPECT_TRUE(words().filter("not current").isEmpty());
}

TEST_F(EffectStripTest, StandsInBothThemes) {
    ASSERT_TRUE(wait());
    const QImage light = takePicture(strip, "effect-strip", ThemeKind::light);
    EXPECT_GT(pixelsOf(light, Theme::current().colours().warnSoft), 2000) << "the warning's ground";
    takePicture(strip, "effect-strip", ThemeKind::dark);
}

}  // namespace
}  // namespace ohmwright::test

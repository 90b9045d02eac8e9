// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/status_line.h"

#include "app/look/symbols.h"
#include "app/look/theme.h"

#include "tests/support/open_job.h"

namespace ohmwright::test {
namespace {

TEST(StatusLine, SaysThatItSolvesAndThenHowItWent) {
    OpenJob open;
    StatusLine line(open.solver);
    EXPECT_TRUE(shownWords(line).join('|').contains("solving")) << shownWords(line).join('|').toStdString();
    ASSERT_TRUE(open.waitForAnswers());
    const QString words = shownWords(line).join('|');
    EXPECT_TRUE(words.contains(QRegularExpression("solved in \\d+ ms, current residual \\d+e.\\d+ A")))
        << words.toStdString();
}

TEST(StatusLine, HintsComeBackAfterWords) {
    OpenJob open;
    StatusLine line(open.solver);
    const QString hints = shownWords(line).join('|');
    EXPECT_TRUE(hints.contains("wheel: next value"));
    line.say("bench sheet written");
    EXPECT_TRUE(shownWords(line).contains("bench sheet written"));
    line.say({});
    EXPECT_EQ(shownWords(line).join('|'), hints);
}

// In other places the wheel and the letters do other things.
TEST(StatusLine, HintsOfTheMapAreThereForTheMapAlone) {
    OpenJob open;
    StatusLine line(open.solver);
    line.setHintsShown(false);
    EXPECT_FALSE(shownWords(line).join('|').contains("wheel")) << shownWords(line).join('|').toStdString();
    line.say("stage kept");
    EXPECT_TRUE(shownWords(line).contains("stage kept"));
    line.setHintsShown(true);
    EXPECT_TRUE(shownWords(line).join('|').contains("wheel: next value"));
}

TEST(StatusLine, NamesTheSymbolsInUse) {
    OpenJob open;
    StatusLine line(open.solver);
    EXPECT_TRUE(shownWords(line).join('|').contains("resistors IEC 60617"));
    setSymbolStandard(SymbolStandard::ieee315);
    emit Theme::current().changed();
    EXPECT_TRUE(shownWords(line).join('|').contains("resistors IEEE 315"));
    setSymbolStandard(SymbolStandard::iec60617);
}

}  // namespace
}  // namespace ohmwright::test

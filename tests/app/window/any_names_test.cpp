/// Names with quotes, in other scripts and 500 characters long, wherever the technician may write one: kept to the
/// letter by the file, and shown without pushing the window out of its size.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/job_file.h"
#include "tests/app/window/open_window.h"
#include "tests/support/open_job.h"

namespace ohmwright::test {
namespace {

const std::string quoted = "\"The 'Lamp'\" <b>&amp; \\ %1 \t;";
const std::string foreign = "ハーバーランプ Ωμέγα مصباح лампа 🎸";
const std::string longest = "W" + std::string(248, 'w') + " " + std::string(250, 'M');

Job named(Job job, const std::string& name) {
    job.shop = name;
    job.unit = {name, name, name, name};
    job.customer = {name, name};
    job.visit.complaint = name;
    job.visit.agreed = name;
    job.visit.condition = name;
    for (Part& part : job.stock.parts) {
        part.role = name;
        part.boardNote = name;
        part.printed = name;
    }
    findPart(job.stock, "c4")->reference = name;
    for (Knob& knob : job.stock.knobs) {
        knob.name = name;
    }
    for (Stage& stage : job.stock.stages) {
        stage.name = name;
    }
    for (Mod& mod : job.plan) {
        mod.name = name;
    }
    return job;
}

class AnyNames : public OpenWindow, public testing::WithParamInterface<std::string> {
protected:
    /// Words that do not fit where they stand and are not told anywhere else.
    [[nodiscard]] QStringList cutOff() const {
        QStringList words;
        for (const QLabel* label : window->findChildren<QLabel*>()) {
            const bool isCut = !label->wordWrap() && label->sizeHint().width() > label->width() + 1;
            if (isCut && label->isVisible() && label->toolTip().isEmpty()) {
                words << label->text().left(60);
            }
        }
        return words;
    }
};

TEST_P(AnyNames, AreKeptToTheLetterAndFitIntoTheWindow) {
    const Job job = named(harbourLamp(), GetParam());
    const QString file = folder.filePath("named.ohmjob");
    ASSERT_TRUE(saveJob(job, file.toStdString()));
    ASSERT_TRUE(window->openFile(file)) << window->refusal().toStdString();
    EXPECT_EQ(*window->document().job(), job);
    window->selection().setPart("c4");
    for (const QSize size : {QSize(1366, 768), QSize(1920, 1080)}) {
        window->resize(size);
        for (const Place place : allPlaces) {
            window->showPlace(place);
            QTest::qWait(50);
            // What comes from behind the window is laid out when it is there.
            (void)QTest::qWaitFor([this] { return cutOff().isEmpty(); });
            EXPECT_EQ(window->size(), size) << "a name pushes the window apart in place " << static_cast<int>(place);
            EXPECT_EQ(cutOff().join(" | ").toStdString(), "") << "in place " << static_cast<int>(place);
            window->grab().save(QString("%1/any-names-%2-%3-%4.png")
                                    .arg(OHMWRIGHT_PICTURES_DIR)
                                    .arg(GetParam().size())
                                    .arg(static_cast<int>(place))
                                    .arg(size.width()));
        }
    }
    EXPECT_TRUE(waitForAnswers());
    ASSERT_TRUE(window->document().saveAs(folder.filePath("again.ohmjob")));
    const Result<LoadedJob> again = loadJob(folder.filePath("again.ohmjob").toStdString());
    ASSERT_TRUE(again);
    EXPECT_EQ(again->job, job);
}

INSTANTIATE_TEST_SUITE_P(Names, AnyNames, testing::Values(quoted, foreign, longest));

}  // namespace
}  // namespace ohmwright::test

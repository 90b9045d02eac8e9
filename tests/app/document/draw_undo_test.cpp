// Random edits of a drawing through the document: undone to the start, the job is what it was, bit for bit; made again,
// it is what it became.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/document/job_document.h"
#include "core/files/job_file.h"
#include "core/plan/drawing_edits.h"
#include "tests/support/demo_job.h"
#include "tests/support/random_hand.h"

#include <gtest/gtest.h>

#include <cstdlib>

namespace ohmwright {
namespace {

/// OHMWRIGHT_RANDOM_EDITS asks for more by hand.
int editCount() {
    const char* asked = std::getenv("OHMWRIGHT_RANDOM_EDITS");
    return asked ? std::atoi(asked) : 300;
}

TEST(DrawUndo, AllTheWayBackIsTheStart) {
    for (const bool fromNothing : {true, false}) {
        JobDocument document;
        document.setJob(fromNothing ? Job() : test::jobIn(test::harbourLampPath()), {});
        const std::string start = writeJob(*document.job());
        test::RandomHand hand(fromNothing ? 11 : 12);
        int refused = 0;
        QObject::connect(&document, &JobDocument::refused, &document, [&refused] { ++refused; });
        for (int step = 0; step < editCount() / 2; ++step) {
            document.edit(withDrawing(*document.job(), hand.edit(document.job()->stock)), "Draw");
        }
        // A third is refused, half of a long run's: a hand without eyes puts parts on one another, and the sheet fills
        // up. With more it would draw too little.
        EXPECT_LT(refused, editCount() * 3 / 10);
        const std::string end = writeJob(*document.job());
        EXPECT_NE(end, start);
        const int steps = document.undoStack().count();
        EXPECT_GT(steps, editCount() / 20);
        while (document.undoStack().canUndo()) {
            document.undoStack().undo();
        }
        EXPECT_EQ(writeJob(*document.job()), start);
        while (document.undoStack().canRedo()) {
            document.undoStack().redo();
        }
        EXPECT_EQ(writeJob(*document.job()), end);
    }
}

}  // namespace
}  // namespace ohmwright

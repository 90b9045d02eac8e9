// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/make_paper.h"

#include "app/papers/bench_sheet.h"
#include "app/papers/customer_papers.h"

namespace ohmwright {

Paper layOut(const PaperAnswers& answers, PaperSize size, const StepPhotos& photos) {
    switch (answers.kind) {
        case PaperKind::bench:
            return benchSheet(answers, size, photos);
        case PaperKind::wayBack:
            return wayBackSheet(answers, size, photos);
        case PaperKind::customer:
            return customerSheet(answers, size);
        case PaperKind::label:
            return lidLabel(answers, size);
        case PaperKind::quote:
            break;
    }
    return quoteSheet(answers, size);
}

}  // namespace ohmwright

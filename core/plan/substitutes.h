/// What can stand for a part that is out of stock, ranked by what it does to the figures and not by its value.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/measure/figure_name.h"
#include "core/parts/drawer.h"
#include "core/parts/part_library.h"
#include "core/plan/job.h"

#include <cstddef>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

/// A figure as planned and with the substitute.
struct SubstituteFigure {
    std::string id;  ///< Of a figure, or "dc:NET" of a net that the part touches.
    std::string unit;
    std::optional<double> planned, withIt;
};

struct Substitute {
    std::string lot;     ///< DrawerLot::id
    double value = 0.0;  ///< SI; 0 of a part with a type.
    std::string type;    ///< Empty of a part with a value.
    std::vector<SubstituteFigure> figures;
    double score = 0.0;  ///< Root of the sum of squares of the changes: a step is 0.1 dB, 1 % or 50 mV of DC.
    std::string
        consequence;  ///< "2N5088 instead of QN200: collector −1.43 V, response at 82.41 Hz +0.4 dB; R3 5k6 → 3k9"
    std::vector<std::string> warnings;  ///< Class-2 ceramic for film, lower rating, polarised, leg order.
};

struct SubstituteRequest {
    PartId part;
    Drawer drawer;
    PartLibrary knownTypes;           ///< Types that the circuit does not hold are looked up here.
    std::vector<FigureName> watched;  ///< Empty: responses at 82, 330 Hz, 1 and 3 kHz.
    std::size_t most = 8;
};

/// Lots of the part's kind that the job can take, other than its own value or type, each put into the planned circuit
/// and solved; values up to a factor of 2 off. Best first. A lot that leaves the circuit without an answer is left out.
/// Errors: invalidInput when there is no such part, or it is none that is bought; of the solver for the plan itself;
/// cancelled.
Result<std::vector<Substitute>> findSubstitutes(const Job& job, const SubstituteRequest& request,
                                                const std::stop_token& stop = {});

}  // namespace ohmwright

// Compiled for AVX-512F; see CMakeLists.txt.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/sparse_kernels_loops.h"

namespace ohmwright {

const KernelSet& widestKernels() {
    // Real numbers gain nothing: few circuits have right-hand sides by the eight.
    static const KernelSet set{wideKernels().real, wideKernels().complex, localKernels.lanes,
                               localKernels.factorFrequencies};
    return set;
}

}  // namespace ohmwright

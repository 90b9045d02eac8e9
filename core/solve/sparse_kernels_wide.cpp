// Compiled for AVX2 and FMA; see CMakeLists.txt.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/sparse_kernels_loops.h"

namespace ohmwright {

const KernelSet& wideKernels() {
    return localKernels;
}

}  // namespace ohmwright

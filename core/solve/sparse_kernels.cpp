// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/sparse_kernels.h"

#include "core/solve/sparse_kernels_loops.h"

namespace ohmwright {

EliminationLists listsOf(const EliminationOrder& order) {
    return {order.start.data(),
            order.lower.data(),
            order.slotOfPosition.data(),
            order.products.data(),
            order.firstProduct.data(),
            order.firstLateProduct.data(),
            order.size,
            order.earlySteps};
}

const KernelSet& plainKernels() {
    return localKernels;
}

const KernelSet& kernelSet() {
#ifdef OHMWRIGHT_WIDE_KERNELS
    static const bool wide = __builtin_cpu_supports("avx2") != 0 && __builtin_cpu_supports("fma") != 0;
    return wide ? wideKernels() : plainKernels();
#else
    return plainKernels();
#endif
}

}  // namespace ohmwright

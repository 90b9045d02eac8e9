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

std::vector<const KernelSet*> usableKernels() {
    std::vector<const KernelSet*> usable{&plainKernels()};
#ifdef OHMWRIGHT_WIDE_KERNELS
    if (__builtin_cpu_supports("avx2") != 0 && __builtin_cpu_supports("fma") != 0) {
        usable.push_back(&wideKernels());
        if (__builtin_cpu_supports("avx512f") != 0) {
            usable.push_back(&widestKernels());
        }
    }
#endif
    return usable;
}

const KernelSet& kernelSet() {
    static const KernelSet& best = *usableKernels().back();
    return best;
}

}  // namespace ohmwright

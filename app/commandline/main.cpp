// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/command_line.h"

#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <string>
#include <vector>

#include <sys/resource.h>

namespace {

/// No call takes over 1 GiB: what asks for more ends with a sentence, not with the machine.
constexpr rlim_t mostBytes = rlim_t{1000} << 20U;

void limitMemory() {
#ifndef __SANITIZE_ADDRESS__  // Its shadow is larger by far.
    rlimit limit{};
    if (getrlimit(RLIMIT_DATA, &limit) != 0) return;
    limit.rlim_cur = std::min(limit.rlim_max, mostBytes);
    setrlimit(RLIMIT_DATA, &limit);
#endif
}

void endAHang() {
    std::cerr << "ohmwright-cli: no answer in time: this file is larger than what can be worked on; take parts or text "
                 "out of it."
              << std::endl;
    std::_Exit(static_cast<int>(ohmwright::ExitStatus::unsolvable));
}

}  // namespace

int main(int argc, char** argv) {
    limitMemory();
    const std::vector<std::string> args(argv + (argc > 0 ? 1 : 0), argv + argc);
    return static_cast<int>(ohmwright::runCommandLine(args, std::cout, std::cerr, endAHang));
}

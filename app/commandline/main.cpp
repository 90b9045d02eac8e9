// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/command_line.h"

#include <cstdlib>
#include <iostream>
#include <string>
#include <vector>

namespace {

void endAHang() {
    std::cerr << "ohmwright-cli: no answer in time: this file is larger than what can be worked on; take parts or text "
                 "out of it."
              << std::endl;
    std::_Exit(static_cast<int>(ohmwright::ExitStatus::unsolvable));
}

}  // namespace

int main(int argc, char** argv) {
    const std::vector<std::string> args(argv + (argc > 0 ? 1 : 0), argv + argc);
    return static_cast<int>(ohmwright::runCommandLine(args, std::cout, std::cerr, endAHang));
}

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/command_line.h"

#include <iostream>
#include <string>
#include <vector>

int main(int argc, char** argv) {
    const std::vector<std::string> args(argv + (argc > 0 ? 1 : 0), argv + argc);
    return static_cast<int>(ohmwright::runCommandLine(args, std::cout, std::cerr));
}

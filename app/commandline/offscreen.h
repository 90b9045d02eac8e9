/// What fonts and painters need of a program that has no window.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <memory>

class QApplication;

namespace ohmwright {

/// Lives while something is painted; where an application is running already it makes none. Needs no display.
class Offscreen {
public:
    Offscreen();
    Offscreen(const Offscreen&) = delete;
    Offscreen& operator=(const Offscreen&) = delete;
    ~Offscreen();

private:
    std::array<char, 14> m_name = {"ohmwright-cli"};
    std::array<char*, 2> m_arguments = {m_name.data(), nullptr};
    int m_argumentCount = 1;
    std::unique_ptr<QApplication> m_application;
};

}  // namespace ohmwright

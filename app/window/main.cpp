// The program with the window: ohmwright [FILE], ohmwright --pictures DIR FILE.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/icons.h"
#include "app/look/language.h"
#include "app/look/settings.h"
#include "app/look/theme.h"
#include "app/window/main_window.h"
#include "app/window/pictures.h"

#include <QApplication>

#include <iostream>
#include <string>
#include <string_view>
#include <vector>

namespace {

constexpr int wrongCall = 2;
constexpr int failed = 3;

const char* const help =
    "ohmwright [FILE]                 opens the window, on a job (*.ohmjob) or a netlist (*.cir) if one is named\n"
    "ohmwright --pictures DIR FILE    writes the window, its curves and the bench sheet into DIR; needs no display\n"
    "ohmwright --help, --version\n"
    "\n"
    "Figures without a window: ohmwright-cli --help\n";

struct Call {
    std::string pictures;
    std::string file;
    bool wantsHelp = false;
    bool wantsVersion = false;
    std::string fault;
};

Call readCall(const std::vector<std::string>& arguments) {
    Call call;
    for (std::size_t i = 0; i < arguments.size(); ++i) {
        const std::string& argument = arguments[i];
        if (argument == "--help" || argument == "-h") {
            call.wantsHelp = true;
        } else if (argument == "--version") {
            call.wantsVersion = true;
        } else if (argument == "--pictures") {
            if (i + 1 == arguments.size()) {
                call.fault = "--pictures: name the folder to write into.";
            } else {
                call.pictures = arguments[++i];
            }
        } else if (argument.starts_with("-") && argument.size() > 1) {
            call.fault = argument + ": there is no such option; see ohmwright --help.";
        } else if (!call.file.empty()) {
            call.fault = argument + ": one file at a time; " + call.file + " was named already.";
        } else {
            call.file = argument;
        }
    }
    if (!call.pictures.empty() && call.file.empty() && call.fault.empty()) {
        call.fault = "--pictures: name the job or netlist to draw, as in ohmwright --pictures DIR FILE.";
    }
    return call;
}

}  // namespace

int main(int argc, char** argv) {
    const Call call = readCall(std::vector<std::string>(argv + (argc > 0 ? 1 : 0), argv + argc));
    // Answered before QApplication, which needs a display.
    if (!call.fault.empty()) {
        std::cerr << call.fault << '\n';
        return wrongCall;
    }
    if (call.wantsHelp) {
        std::cout << help;
        return 0;
    }
    if (call.wantsVersion) {
        std::cout << "ohmwright " << OHMWRIGHT_VERSION << '\n';
        return 0;
    }
    const bool drawsPictures = !call.pictures.empty();
    if (drawsPictures) {
        qputenv("QT_QPA_PLATFORM", "offscreen");
    }
    QApplication application(argc, argv);
    QApplication::setOrganizationName("ohmwright");
    QApplication::setApplicationName(drawsPictures ? "ohmwright-pictures" : "ohmwright");
    QApplication::setApplicationDisplayName("Ohmwright");
    QApplication::setDesktopFileName("ohmwright");
    ohmwright::Theme::install();
    QApplication::setWindowIcon(ohmwright::markIcon());
    ohmwright::speak(ohmwright::Settings().language());
    if (drawsPictures) {
        const auto written =
            ohmwright::writePictures(QString::fromStdString(call.file), QString::fromStdString(call.pictures));
        if (!written) {
            std::cerr << written.error().message << '\n';
            return failed;
        }
        return 0;
    }
    ohmwright::applyLookSettings(ohmwright::Settings());
    ohmwright::MainWindow window;
    window.show();
    if (!call.file.empty()) {
        window.openFile(QString::fromStdString(call.file));
    }
    return QApplication::exec();
}

/// What was asked for on the command line, before anything is read or checked.
///
/// Figures stay texts here: they are read with the house's own rules (`1k`, `100m`) once their unit is known.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/quantity.h"
#include "core/base/result.h"

#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// An option's text; empty when it was not given.
struct Request {
    std::string file;
    std::string lines;
    std::string input;
    std::string output;
    std::vector<std::string> settings;  ///< "drive=3", one an entry.
    std::string temperature;
    std::string variant;
    std::string out;
    std::string format = "csv";

    std::string from;
    std::string to;
    std::string perDecade;
    std::string points;
    std::string at;
    std::string side = "in";

    std::string tone;
    std::string tones;
    std::string order;
    std::string level;
    std::string periods;
    std::string rate;
    std::string count;
    bool cold = false;
    bool settled = false;

    std::string part;
    std::string value;
    std::string want;
    std::string parts;
    std::string drawer;
    std::string shop;
    std::string figures;
    std::string curve;
    std::string words;

    std::vector<std::string> readings;  ///< "Q1 collector=8.9", one an entry.
    std::string visit;
    std::string when;
    std::string complaint;
    std::string agreed;
    std::string condition;
    std::string state;
    std::string note;
    std::string serial;
    std::string recipe;
    std::string name;
    std::vector<std::string> trims;  ///< "A=half-way", one an entry.

    std::string stage;
    std::string does;
    std::string supply;
    std::string half;
    std::vector<std::string> stages;  ///< Ids of the shelf or files, in signal order.

    std::string table;  ///< CSV file of lots.

    std::string reason;  ///< Of a correction.
    std::string who;
    std::string type;
    std::string models;  ///< File of part data.
    std::string printed;
    std::string tolerance;
    std::string law;
    std::string leg;
    std::string net;  ///< Of a part more: one a leg.
    std::string reference;
    std::string boardNote;
    std::string more;  ///< Kind of a part that the drawing has not.
    std::string beside;
    std::string number;
    std::string boardSide = "part";  ///< "part" or "solder".
    std::string photo;               ///< File of a picture; empty: the photo is taken away.
    bool missing = false;
    std::vector<std::string> against;  ///< Job files of other revisions.

    std::string kind;
    std::string paper = "a4";
};

/// An option that is wrong, as an error of the call: "--tone: choose 1 mHz to 1 GHz."
Error refuseOption(std::string_view option, const std::string& sentence);

/// The option's figure in `unit`, plain ("1e3", "82.41") or as the house reads values ("1k", "100 mV").
/// Errors: invalidInput naming the option.
Result<double> readFigure(std::string_view option, const std::string& text, Unit unit);

/// As readFigure; `otherwise` when the option was not given.
Result<double> readFigureOr(std::string_view option, const std::string& text, Unit unit, double otherwise);

/// What a figure may be, both ends included.
struct FigureRange {
    double lowest = 0.0;
    double highest = 0.0;
    const char* words = "";  ///< "1 µHz to 1 THz"
};

/// Errors: invalidInput naming the option and the range.
Result<double> requireInside(std::string_view option, double figure, const FigureRange& range);

/// A whole number from `lowest` to `highest`; `otherwise` when the option was not given.
/// Errors: invalidInput naming the option and the range.
Result<int> readCountOr(std::string_view option, const std::string& text, int lowest, int highest, int otherwise);

/// "82.41,110,1k".
Result<std::vector<double>> readFigureList(std::string_view option, const std::string& text, Unit unit);

/// The computer's clock, local time: "2026-11-24", "2026-11-24T18:05:00".
std::string dayOfToday();
std::string timeOfNow();
/// "R5,C4" as two texts; each as it stands, an empty one too.
std::vector<std::string> splitAtCommas(const std::string& text);

}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/reference_simulator/suite.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <fstream>
#include <iomanip>
#include <sstream>
#include <stdexcept>
#include <utility>

namespace ohmwright::reference {

namespace {

std::string lowered(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(), [](unsigned char c) { return char(std::tolower(c)); });
    return text;
}

std::vector<std::string> wordsOf(const std::string& line) {
    std::vector<std::string> words;
    std::istringstream stream(line);
    for (std::string word; stream >> word;) {
        words.push_back(word);
    }
    return words;
}

std::vector<std::string> linesOf(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) {
        lines.push_back(line);
    }
    return lines;
}

std::vector<double> numberList(const std::string& text) {
    std::vector<double> numbers;
    std::istringstream stream(text);
    for (std::string word; std::getline(stream, word, ',');) {
        numbers.push_back(suffixedNumber(word));
    }
    return numbers;
}

Comparison comparisonFrom(const std::vector<std::string>& words) {
    Comparison comparison;
    comparison.kind = words.at(0);
    for (std::size_t k = 1; k < words.size(); ++k) {
        const std::size_t equals = words[k].find('=');
        const std::string key = words[k].substr(0, equals);
        if (equals == std::string::npos) {
            comparison.numbers.push_back(suffixedNumber(words[k]));
        } else if (key == "input") {
            comparison.input = words[k].substr(equals + 1);
        } else if (key == "output") {
            comparison.output = words[k].substr(equals + 1);
        } else {
            comparison.lists[key] = numberList(words[k].substr(equals + 1));
        }
    }
    return comparison;
}

void readDirective(const std::string& line, SuiteNetlist& netlist) {
    const std::vector<std::string> words = wordsOf(line);
    if (words.size() < 3 || words[0] != "*") {
        return;
    }
    const std::vector<std::string> rest(words.begin() + 2, words.end());
    if (words[1] == "compare:") {
        netlist.comparisons.push_back(comparisonFrom(rest));
    } else if (words[1] == "temperature:") {
        netlist.celsius = suffixedNumber(rest[0]);
    } else if (words[1] == "pole:" || words[1] == "zero:") {
        auto& list = words[1] == "pole:" ? netlist.poles : netlist.zeros;
        list.emplace_back(suffixedNumber(rest.at(0)), suffixedNumber(rest.at(1)));
    }
}

bool isNumber(const std::string& word) {
    return !word.empty() && word.find_first_of("0123456789") <= 1;
}

// What follows the nets: "DC 1 AC 2 30", "0.5 AC 1", "12".
void readSourceWords(const std::vector<std::string>& words, DrivenSource& source) {
    for (std::size_t k = 3; k < words.size(); ++k) {
        const std::string word = lowered(words[k]);
        const bool numberNext = k + 1 < words.size() && isNumber(words[k + 1]);
        if (word == "dc" && numberNext) {
            source.dc = suffixedNumber(words[++k]);
        } else if (word == "ac") {
            if (numberNext) {
                source.acAmplitude = suffixedNumber(words[++k]);
            }
            if (numberNext && k + 1 < words.size() && isNumber(words[k + 1])) {
                source.acDegrees = suffixedNumber(words[++k]);
            }
        } else if (isNumber(word)) {
            source.dc = suffixedNumber(word);
        }
    }
}

bool isSourceWithAc(const std::vector<std::string>& words) {
    const int first = words.empty() ? 0 : std::tolower(static_cast<unsigned char>(words[0][0]));
    const auto isAc = [](const std::string& word) { return lowered(word) == "ac"; };
    return (first == 'v' || first == 'i') && std::any_of(words.begin(), words.end(), isAc);
}

}  // namespace

std::filesystem::path suiteFolder() {
    return std::filesystem::path(OHMWRIGHT_SOURCE_DIR) / "tests" / "reference" / "suite";
}

std::vector<std::string> suiteNames() {
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(suiteFolder())) {
        if (entry.path().extension() == ".cir") {
            names.push_back(entry.path().lexically_relative(suiteFolder()).replace_extension().generic_string());
        }
    }
    std::sort(names.begin(), names.end());
    return names;
}

SuiteNetlist loadNetlistText(const std::filesystem::path& path) {
    std::ifstream file(path);
    std::ostringstream text;
    text << file.rdbuf();
    if (!file) {
        throw std::runtime_error("cannot read " + path.string());
    }
    return {.name = path.stem().string(), .text = text.str()};
}

SuiteNetlist loadSuiteNetlist(const std::string& name) {
    SuiteNetlist netlist = loadNetlistText(suiteFolder() / (name + ".cir"));
    netlist.name = name;
    for (const std::string& line : linesOf(netlist.text)) {
        readDirective(line, netlist);
    }
    if (netlist.comparisons.empty()) {
        throw std::runtime_error(name + " says nothing to compare: add a line '* compare: ...'");
    }
    return netlist;
}

DrivenSource drivenSource(const SuiteNetlist& netlist, const std::string& input) {
    for (const std::string& line : linesOf(netlist.text)) {
        const std::vector<std::string> words = wordsOf(line);
        const bool named = !words.empty() && !input.empty() && lowered(words[0]) == lowered(input);
        if (named || (input.empty() && isSourceWithAc(words))) {
            DrivenSource source{.name = words[0]};
            readSourceWords(words, source);
            return source;
        }
    }
    throw std::runtime_error(netlist.name + " has no source to drive");
}

std::string withSine(const SuiteNetlist& netlist, const DrivenSource& source, double hertz, double peak) {
    std::ostringstream text;
    text << std::setprecision(15);
    for (const std::string& line : linesOf(netlist.text)) {
        const std::vector<std::string> words = wordsOf(line);
        text << line;
        if (!words.empty() && words[0] == source.name) {
            text << " SIN(" << source.dc << ' ' << peak << ' ' << hertz << ')';
        }
        text << '\n';
    }
    return text.str();
}

std::string withTwoSines(const SuiteNetlist& netlist, const DrivenSource& source, double firstHz, double secondHz,
                         double peak) {
    SuiteNetlist inSeries = netlist;
    std::ostringstream text;
    text << std::setprecision(15);
    for (const std::string& line : linesOf(netlist.text)) {
        const std::vector<std::string> words = wordsOf(line);
        if (words.size() < 3 || words[0] != source.name) {
            text << line << '\n';
            continue;
        }
        text << words[0] << ' ' << words[1] << " secondtone";
        for (std::size_t k = 3; k < words.size(); ++k) {
            text << ' ' << words[k];
        }
        text << "\nVSECONDTONE secondtone " << words[2] << " SIN(0 " << peak << ' ' << secondHz << ")\n";
    }
    inSeries.text = text.str();
    return withSine(inSeries, source, firstHz, peak);
}

double suffixedNumber(const std::string& word) {
    static constexpr std::array<std::pair<std::string_view, double>, 9> suffixes{{{"meg", 1e6},
                                                                                  {"f", 1e-15},
                                                                                  {"p", 1e-12},
                                                                                  {"n", 1e-9},
                                                                                  {"u", 1e-6},
                                                                                  {"m", 1e-3},
                                                                                  {"k", 1e3},
                                                                                  {"g", 1e9},
                                                                                  {"t", 1e12}}};
    std::size_t length = 0;
    const double number = std::stod(word, &length);
    const std::string rest = lowered(word.substr(length));
    for (const auto& [suffix, factor] : suffixes) {
        if (rest.starts_with(suffix)) {
            return number * factor;
        }
    }
    return number;
}

}  // namespace ohmwright::reference

// Whole files: the demos, files that are damaged at random, and files that are too large.
// The demos' part counts are counted in their text, line by line; their bias voltages stand in tests/reference.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/bias.h"

#include "netlist_text.h"

#include <gmock/gmock.h>

#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>

namespace ohmwright {
namespace {

const std::filesystem::path demos = std::filesystem::path(OHMWRIGHT_SOURCE_DIR) / "tests/reference/netlists/demos";

std::string textOf(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

struct Demo {
    const char* name;
    std::size_t parts;   ///< With those of its calls.
    std::size_t models;  ///< .model cards, and one a valve.
    std::size_t calls;
};

constexpr Demo demoFiles[] = {
    {"harbour-lamp-stock", 61, 4, 1}, {"quarry-bell-stock", 51, 5, 1},     {"small-rooster-stock", 21, 1, 0},
    {"moss-engine-stock", 25, 2, 0},  {"paper-boat-stock", 21, 1, 0},      {"night-ferry-stock", 22, 1, 0},
    {"night-ferry-linear", 25, 0, 0}, {"night-ferry-reference", 27, 1, 1}, {"three-hills-stock", 54, 2, 1},
};

Netlist demo(const std::string& name) {
    Result<Netlist> netlist = loadNetlist(demos / (name + ".cir"));
    EXPECT_TRUE(netlist.hasValue()) << (netlist ? "" : netlist.error().message);
    return netlist ? *netlist : Netlist{};
}

TEST(NetlistReader, TheDemosAreReadWithEveryPart) {
    for (const Demo& one : demoFiles) {
        Netlist netlist = demo(one.name);
        EXPECT_EQ(netlist.circuit.parts.size(), one.parts) << one.name;
        EXPECT_EQ(netlist.circuit.models.size(), one.models) << one.name;
        EXPECT_EQ(netlist.calls.size(), one.calls) << one.name;
        EXPECT_TRUE(netlist.notes.empty()) << one.name << "\n" << notesOf(netlist);
        ASSERT_TRUE(choosePorts(netlist, "", "").hasValue()) << one.name;
        EXPECT_EQ(netlist.circuit.ports.source, "VSIG");
        EXPECT_EQ(netlist.circuit.ports.output, "out");
    }
}

TEST(NetlistReader, HarbourLampAsItStandsInItsFile) {
    const Netlist netlist = demo("harbour-lamp-stock");
    EXPECT_THAT(netlist.title, testing::StartsWith("Harbour Lamp, stock"));
    EXPECT_DOUBLE_EQ(partOf(netlist, "R5").value, 3900.0);
    EXPECT_EQ(partOf(netlist, "R5").nets, (std::vector<NetName>{"leg", "0"}));
    EXPECT_EQ(partOf(netlist, "XU1A.EI").nets, (std::vector<NetName>{"XU1A.b1", "0", "XU1A.a", "im"}));
    EXPECT_EQ(partOf(netlist, "XU1A.DH").model, "DCLAMP");
    EXPECT_THAT(netlist.calls[0].nets, testing::ElementsAre("ip", "im", "o1", "vcc", "0"));
    EXPECT_THAT(netlist.calls[0].pins, testing::ElementsAre("ip", "im", "o", "vp", "vn"));
    EXPECT_DOUBLE_EQ(modelOf(netlist, "2N3904").parameters.at("IKF"), 66.78e-3);
}

/// Net voltages of a demo at rest.
std::map<std::string, double> biasOf(const std::string& name) {
    Netlist netlist = demo(name);
    EXPECT_TRUE(choosePorts(netlist, "", "").hasValue()) << name;
    const Result<Equations> equations = Equations::compile(netlist.circuit, Setting{});
    EXPECT_TRUE(equations.hasValue()) << name << (equations ? "" : equations.error().message);
    const Result<OperatingPoint> point = equations ? solveBias(*equations) : equations.error();
    EXPECT_TRUE(point.hasValue()) << name << (point ? "" : point.error().message);
    std::map<std::string, double> volts;
    for (const NetName& net : netlist.topNets) {
        volts[net] = point ? point->x[static_cast<std::size_t>(equations->indexOfNet(net))] : 0.0;
    }
    return volts;
}

TEST(NetlistReader, TheDemosHaveTheirBias) {
    std::ifstream file(demos.parent_path() / "demo_bias.csv");
    std::map<std::string, std::map<std::string, double>> solved;
    std::string line;
    std::getline(file, line);
    int rows = 0;
    while (std::getline(file, line)) {
        std::istringstream fields(line);
        std::string name, net, volts, tolerance;
        std::getline(fields, name, ',');
        std::getline(fields, net, ',');
        std::getline(fields, volts, ',');
        std::getline(fields, tolerance);
        // Night Ferry's own valve law and the same law written as B sources give one bias.
        const bool valve = name == "night-ferry";
        for (const std::string& form : {std::string("-stock"), std::string(valve ? "-reference" : "-stock")}) {
            if (solved[name + form].empty()) {
                solved[name + form] = biasOf(name + form);
            }
            ASSERT_EQ(solved[name + form].count(net), 1u) << name << " " << net;
            EXPECT_NEAR(solved[name + form][net], std::stod(volts), std::stod(tolerance)) << name << form << " " << net;
        }
        ++rows;
    }
    EXPECT_EQ(rows, 100);
}

TEST(NetlistReader, AFileThatIsNotThereIsSaid) {
    const Result<Netlist> missing = loadNetlist(demos / "no-such-file.cir");
    ASSERT_FALSE(missing.hasValue());
    EXPECT_EQ(missing.error().code, ErrorCode::fileUnreadable);
    EXPECT_FALSE(loadNetlist(demos).hasValue());
}

TEST(NetlistReader, AFaultBeginsWithFileAndLine) {
    const std::filesystem::path path = std::filesystem::path(testing::TempDir()) / "ohmwright-netlist-fault.cir";
    std::ofstream(path) << "title\nR1 a 0 1k\nR2 a 0 4k7\n";
    const Result<Netlist> netlist = loadNetlist(path);
    std::filesystem::remove(path);
    ASSERT_FALSE(netlist.hasValue());
    EXPECT_EQ(netlist.error().message.find(path.string() + ":3: R2: "), 0u) << netlist.error().message;
    EXPECT_EQ(netlist.error().where, "line 3");
}

TEST(NetlistReader, AHundredThousandPartsAreReadAtOnce) {
    std::string text;
    for (int index = 0; index < 100'000; ++index) {
        const std::string number = std::to_string(index);
        text += "R" + number + " n" + number + " n" + std::to_string(index + 1) + " 1k\n";
    }
    EXPECT_EQ(sound(text).circuit.parts.size(), 100'000u);
    EXPECT_THAT(faultOf(text + "X1 a 0 S\n.subckt S p q\n" + text + ".ends\n"), testing::HasSubstr("200,000 parts"));
}

TEST(NetlistReader, ManyFaultsDoNotMultiply) {
    // Names to propose were once gathered for each of them: 80,000 times 80,000.
    std::string text;
    for (int index = 0; index < 80'000; ++index) {
        const std::string number = std::to_string(index);
        text += "F" + number + " a 0 NO" + number + " 1\nV" + number + " a" + number + " 0 1\n";
    }
    EXPECT_THAT(faultOf(text), testing::StartsWith("line 2: F0 follows"));
    text.clear();
    for (int index = 0; index < 80'000; ++index) {
        const std::string number = std::to_string(index);
        text += "D" + number + " a 0 NO" + number + "\n.model D" + number + " D\n";
    }
    EXPECT_THAT(faultOf(text), testing::StartsWith("line 2: D0 names"));
}

TEST(NetlistReader, NoFileIsTooOddToBeAnswered) {
    const std::string long200(200, 'n');
    EXPECT_EQ(faultOf("R1 " + long200 + " 0 1\n"), "read");
    EXPECT_THAT(faultOf("R1 " + long200 + "n 0 1\n"), testing::HasSubstr("200 characters"));
    EXPECT_THAT(faultOf("R1 a 0 {" + std::string(100'000, '(') + "1" + std::string(100'000, ')') + "}\n"),
                testing::StartsWith("line 2: R1"));
    EXPECT_THAT(faultOf("R1 a 0 " + std::string(900'000, '9') + "\n"), testing::StartsWith("line 2: R1"));
    EXPECT_THAT(faultOf(std::string(3'000'000, '(')), testing::StartsWith("line 2"));
    EXPECT_THAT(faultOf("V1 a 0 SIN(" + std::string(900'000, '1') + ")"), testing::StartsWith("line 2"));
    EXPECT_THAT(readNetlist(std::string((std::size_t{64} << 20U) + 1, '+')).error().message,
                testing::HasSubstr("64 MiB"));
    std::string wide = "X1 a 0 S\n.subckt S p q\n";
    wide += "R1 p q {1" + std::string(50'000, ' ') + "}\n.ends\n";
    std::string callers;
    for (int index = 2; index < 3'000; ++index) {
        callers += "X" + std::to_string(index) + " a 0 S\n";
    }
    EXPECT_THAT(faultOf(wide + callers), testing::HasSubstr("too large"));
}

/// A change that a damaged disk, a slipped hand or a wrong program makes.
void damage(std::string& text, std::mt19937& random) {
    constexpr std::string_view odd = "(){}='\"+-*/;,.$\\\0\xFF\xC2 \t\r\n0123456789kKmMxXrRqQ";
    const auto below = [&random](std::size_t count) {
        return std::uniform_int_distribution<std::size_t>(0, count - 1)(random);
    };
    if (text.empty()) {
        text = "x";
    }
    const std::size_t at = below(text.size());
    switch (below(7)) {
        case 0:
            text[at] = odd[below(odd.size())];
            break;
        case 1:
            text.erase(at, 1 + below(12));
            break;
        case 2:
            text.insert(at, 1, odd[below(odd.size())]);
            break;
        case 3:
            text.insert(at, text.substr(below(text.size()), 1 + below(60)));
            break;
        case 4:
            text.resize(at);
            break;
        case 5: {
            const std::size_t line = text.find('\n', at);
            if (line != std::string::npos) {
                text.erase(at, line + 1 - at);
            }
            break;
        }
        default:
            text[at] = static_cast<char>(random() & 0xFFU);
            break;
    }
}

TEST(NetlistReader, TenThousandDamagedFilesAreAnswered) {
    std::vector<std::string> sources;
    for (const Demo& one : demoFiles) {
        sources.push_back(textOf(demos / (std::string(one.name) + ".cir")));
    }
    sources.push_back(
        "all kinds\n.param a={b*2} b=3 c='a+b'\nR1 in out {a*1k}\nR2 out 0 R=1k tc1=1m\nC1 out 0 {c*1n} ic=1\nL1 in x "
        "1m\n"
        "L2 y 0 4m\nK1 L1 L2 0.99\nV1 in 0 DC 1 AC 1 90 SIN(0 1 1k 0 0 0)\nI1 x 0 PULSE(0 1 0 1n 1n 1m 2m)\n"
        "E1 y 0 in out 2\nG1 x 0 y 0 1m\nF1 x 0 V1 2\nH1 z 0 V1 5\nB1 w 0 V=tanh(v(in,out))*{a}+i(V1)\nR3 z w 1\n"
        "D1 in x DX 2 off\nQ1 x y z 0 QX area=2\nJ1 x y z JX\nM1 x y z 0 MX W=1u L=1u\nX1 in out S r={a}\n"
        "X2 in x out KOREN_TRIODE MU=100 KP={600}\n.model DX D(IS=1e-14 N={1+1})\n.model QX PNP(BF=100)\n"
        ".model JX NJF(VTO=-2)\n.model MX PMOS(KP=1m)\n.global vcc\n.subckt S p q params: r=1 n={r*2}\nR1 p m {r}\n"
        "R2 m q {n}\nD1 m vcc DI\n.model DI D(N={n})\n.subckt T a b\nR1 a b {r}\n.ends T\nX1 p q T\n.ends S\n"
        "R9 vcc 0 1k\n.control\nrun\n.endc\n.options temp=1\n.end\n");
    EXPECT_EQ(readNetlist(sources.back()).hasValue(), true) << readNetlist(sources.back()).error().message;
    std::mt19937 random(20260314);
    int faults = 0;
    for (int round = 0; round < 10'000; ++round) {
        std::string text = sources[static_cast<std::size_t>(round) % sources.size()];
        const unsigned changes = 1 + random() % 4;
        for (unsigned change = 0; change < changes; ++change) {
            damage(text, random);
        }
        Result<Netlist> netlist = readNetlist(text);
        if (netlist) {
            static_cast<void>(choosePorts(*netlist, "", ""));
            continue;
        }
        ++faults;
        EXPECT_THAT(netlist.error().message, testing::MatchesRegex("line [0-9]+: .+"));
        EXPECT_LT(netlist.error().message.size(), 1000u);
    }
    EXPECT_GT(faults, 3'000);
    EXPECT_LT(faults, 9'990);
}

}  // namespace
}  // namespace ohmwright

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/model_limits.h"

#include "core/base/said.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

namespace ohmwright {

namespace {

enum class Bound { any, aboveZero, notNegative, underOne, share, oneOrMore, aboveAbsoluteZero };

struct Parameter {
    std::string_view name;
    Bound bound;
};

/// What one kind's law reads of the model, what such cards have beside it, and what it reads of the device.
struct Card {
    std::span<const Parameter> parameters;
    std::span<const std::string_view> ignored;
    std::span<const Parameter> device;
};

using enum Bound;

/// What every card may state.
constexpr Parameter commonParameters[] = {{"POLARITY", any}, {"LEVEL", any}, {"TNOM", aboveAbsoluteZero}};

constexpr Parameter diodeParameters[] = {
    {"IS", aboveZero},    {"N", aboveZero},   {"RS", notNegative}, {"CJO", notNegative}, {"CJ0", notNegative},
    {"VJ", aboveZero},    {"M", underOne},    {"FC", underOne},    {"TT", notNegative},  {"BV", notNegative},
    {"IBV", notNegative}, {"NBV", aboveZero}, {"EG", any},         {"XTI", any},         {"IKF", notNegative},
    {"ISR", notNegative}, {"NR", aboveZero},  {"KF", notNegative}, {"AF", any}};
constexpr std::string_view diodeIgnored[] = {"IKR",  "JSW",  "NS",   "CJSW", "CJP",  "VJSW",   "PHP",  "MJSW",
                                             "FCS",  "NZ",   "TBV1", "TBV2", "TCV",  "IBVL",   "NBVL", "TIKF",
                                             "TRS1", "TRS2", "TM1",  "TM2",  "TTT1", "TTT2",   "TLEV", "TLEVC",
                                             "CTA",  "CTP",  "TPB",  "TPHP", "JTUN", "JTUNSW", "NTUN", "VP"};

constexpr Parameter bipolarParameters[] = {
    {"IS", aboveZero},    {"BF", aboveZero},    {"BR", aboveZero},    {"NF", aboveZero},    {"NR", aboveZero},
    {"VAF", notNegative}, {"VAR", notNegative}, {"IKF", notNegative}, {"IKR", notNegative}, {"NKF", aboveZero},
    {"ISE", notNegative}, {"ISC", notNegative}, {"NE", aboveZero},    {"NC", aboveZero},    {"RB", notNegative},
    {"RC", notNegative},  {"RE", notNegative},  {"RBM", notNegative}, {"IRB", notNegative}, {"CJE", notNegative},
    {"CJC", notNegative}, {"CJS", notNegative}, {"VJE", aboveZero},   {"VJC", aboveZero},   {"VJS", aboveZero},
    {"MJE", underOne},    {"MJC", underOne},    {"MJS", underOne},    {"XCJC", share},      {"FC", underOne},
    {"TF", notNegative},  {"TR", notNegative},  {"XTF", notNegative}, {"VTF", notNegative}, {"ITF", notNegative},
    {"EG", any},          {"XTI", any},         {"XTB", any},         {"KF", notNegative},  {"AF", any}};
constexpr std::string_view bipolarIgnored[] = {"PTF",  "ISS",   "NS",   "NK",   "ISE2", "SUBS",     "QCO",  "RCO",
                                               "VO",   "GAMMA", "TRE1", "TRE2", "TRB1", "TRB2",     "TRC1", "TRC2",
                                               "TRM1", "TRM2",  "VG",   "CN",   "D",    "QUASIMOD", "TLEV", "TLEVC"};

constexpr Parameter opampParameters[] = {
    {"GAIN", aboveZero}, {"GBW", aboveZero},      {"ILIM", aboveZero},    {"SR", aboveZero},     {"CP", aboveZero},
    {"ROUT", aboveZero}, {"CLAMP_IS", aboveZero}, {"CLAMP_N", aboveZero}, {"RIN", notNegative},  {"IQ", notNegative},
    {"HEADROOM_P", any}, {"HEADROOM_N", any},     {"POLE2", notNegative}, {"IOUT", notNegative}, {"IB", any},
    {"VOS", any},        {"EN", notNegative},     {"FCE", notNegative},   {"IN", notNegative},   {"FCI", notNegative}};

constexpr Parameter jfetParameters[] = {
    {"VTO", any},         {"VT0", any},        {"BETA", aboveZero}, {"LAMBDA", any},  {"B", any},
    {"RD", notNegative},  {"RS", notNegative}, {"IS", notNegative}, {"N", aboveZero}, {"CGS", notNegative},
    {"CGD", notNegative}, {"PB", aboveZero},   {"M", underOne},     {"FC", underOne}, {"VTOTC", any},
    {"BETATCE", any},     {"TCV", any},        {"BEX", any},        {"XTI", any},     {"EG", any},
    {"KF", notNegative},  {"AF", any}};
constexpr std::string_view jfetIgnored[] = {"ISR", "NR", "ALPHA", "VK", "NLEV", "GDSNOI"};

constexpr Parameter mosfetParameters[] = {
    {"VTO", any},        {"VT0", any},          {"KP", aboveZero},     {"LAMBDA", any},       {"GAMMA", notNegative},
    {"PHI", aboveZero},  {"IS", notNegative},   {"JS", notNegative},   {"N", aboveZero},      {"RD", notNegative},
    {"RS", notNegative}, {"RG", notNegative},   {"RSH", notNegative},  {"CBD", notNegative},  {"CBS", notNegative},
    {"CJ", notNegative}, {"MJ", underOne},      {"CJSW", notNegative}, {"MJSW", underOne},    {"PB", aboveZero},
    {"FC", underOne},    {"CGSO", notNegative}, {"CGDO", notNegative}, {"CGBO", notNegative}, {"TOX", notNegative},
    {"UO", aboveZero},   {"U0", aboveZero},     {"NSUB", notNegative}, {"NSS", any},          {"TPG", any},
    {"LD", notNegative}, {"W", aboveZero},      {"L", aboveZero},      {"KF", notNegative},   {"AF", any}};
constexpr std::string_view mosfetIgnored[] = {"TT",   "RDS",  "RB",    "ETA",  "KAPPA", "THETA",
                                              "VMAX", "XJ",   "DELTA", "NFS",  "NEFF",  "UCRIT",
                                              "UEXP", "UTRA", "XQC",   "NLEV", "GDSNOI"};

constexpr Parameter triodeParameters[] = {
    {"LAW", any},         {"MU", aboveZero},    {"EX", oneOrMore},     {"KG1", aboveZero}, {"KP", aboveZero},
    {"KVB", aboveZero},   {"RGI", notNegative}, {"IS", aboveZero},     {"N", aboveZero},   {"CCG", notNegative},
    {"CGP", notNegative}, {"CCP", notNegative}, {"RNEQ", notNegative}, {"G", aboveZero},   {"GAMMA", oneOrMore},
    {"C", aboveZero},     {"GG", notNegative},  {"XI", oneOrMore},     {"CG", aboveZero},  {"IG0", notNegative}};

constexpr Parameter pentodeParameters[] = {
    {"MU", aboveZero},     {"EX", oneOrMore},    {"KG1", aboveZero},   {"KG2", aboveZero}, {"KP", aboveZero},
    {"KVB", aboveZero},    {"RGI", notNegative}, {"IS", aboveZero},    {"N", aboveZero},   {"CCG", notNegative},
    {"CPG1", notNegative}, {"CCP", notNegative}, {"RNEQ", notNegative}};

constexpr Parameter areaAndNumber[] = {{"AREA", aboveZero}, {"M", aboveZero}};
constexpr Parameter mosfetDevice[] = {
    {"AREA", aboveZero}, {"M", aboveZero},    {"W", aboveZero},    {"L", aboveZero},     {"AD", notNegative},
    {"AS", notNegative}, {"PD", notNegative}, {"PS", notNegative}, {"NRD", notNegative}, {"NRS", notNegative}};

Card cardOf(PartKind kind) {
    switch (kind) {
        case PartKind::diode:
            return {diodeParameters, diodeIgnored, areaAndNumber};
        case PartKind::bipolar:
            return {bipolarParameters, bipolarIgnored, areaAndNumber};
        case PartKind::opamp:
            return {opampParameters, {}, {}};
        case PartKind::jfet:
            return {jfetParameters, jfetIgnored, areaAndNumber};
        case PartKind::mosfet:
            return {mosfetParameters, mosfetIgnored, mosfetDevice};
        case PartKind::triode:
            return {triodeParameters, {}, areaAndNumber};
        case PartKind::pentode:
            return {pentodeParameters, {}, areaAndNumber};
        default:
            return {};
    }
}

const Parameter* find(std::span<const Parameter> parameters, std::string_view name) {
    const auto found = std::find_if(parameters.begin(), parameters.end(),
                                    [name](const Parameter& parameter) { return parameter.name == name; });
    return found == parameters.end() ? nullptr : &*found;
}

std::string_view faultUnder(const Parameter* parameter, double value) {
    constexpr double absoluteZero = -273.15;  // °C
    if (!std::isfinite(value)) {
        return toSay("is no number");
    }
    switch (parameter ? parameter->bound : any) {
        case any:
            return {};
        case aboveZero:
            return value > 0.0 ? "" : toSay("must be above 0");
        case notNegative:
            return value >= 0.0 ? "" : toSay("must not be negative");
        case underOne:
            return value >= 0.0 && value < 1.0 ? "" : toSay("must be from 0 to under 1");
        case share:
            return value >= 0.0 && value <= 1.0 ? "" : toSay("must be from 0 to 1");
        case oneOrMore:
            return value >= 1.0 ? "" : toSay("must be 1 or more");
        case aboveAbsoluteZero:
            return value > absoluteZero ? "" : toSay("must be above -273.15");
    }
    return {};
}

/// Names that mean the same on Berkeley cards; the law's own stands second.
struct OtherName {
    PartKind kind;
    std::string_view other, own;
};
constexpr OtherName otherNames[] = {
    {PartKind::diode, "CJ0", "CJO"},  {PartKind::diode, "CJ", "CJO"},   {PartKind::diode, "PB", "VJ"},
    {PartKind::diode, "MJ", "M"},     {PartKind::bipolar, "VA", "VAF"}, {PartKind::bipolar, "VB", "VAR"},
    {PartKind::bipolar, "IK", "IKF"}, {PartKind::bipolar, "PE", "VJE"}, {PartKind::bipolar, "ME", "MJE"},
    {PartKind::bipolar, "PC", "VJC"}, {PartKind::bipolar, "MC", "MJC"}, {PartKind::bipolar, "CCS", "CJS"},
    {PartKind::bipolar, "PS", "VJS"}, {PartKind::bipolar, "MS", "MJS"}, {PartKind::jfet, "VT0", "VTO"},
    {PartKind::mosfet, "VT0", "VTO"}, {PartKind::mosfet, "U0", "UO"},
};

}  // namespace

std::string_view faultOfParameter(PartKind kind, std::string_view name, double value) {
    const std::string_view own = lawName(kind, name);
    const Parameter* parameter = find(cardOf(kind).parameters, own);
    return faultUnder(parameter ? parameter : find(commonParameters, own), value);
}

std::string_view faultOfDeviceParameter(PartKind kind, std::string_view name, double value) {
    return faultUnder(find(cardOf(kind).device, name), value);
}

std::string_view lawName(PartKind kind, std::string_view name) {
    const auto found = std::find_if(std::begin(otherNames), std::end(otherNames),
                                    [&](const OtherName& entry) { return entry.kind == kind && entry.other == name; });
    return found == std::end(otherNames) ? name : found->own;
}

std::vector<std::string> unknownParameters(const Model& model) {
    const Card card = cardOf(model.kind);
    std::vector<std::string> unknown;
    for (const auto& [name, value] : model.parameters) {
        const std::string_view own = lawName(model.kind, name);
        if (!find(card.parameters, own) && !find(commonParameters, own) &&
            std::find(card.ignored.begin(), card.ignored.end(), own) == card.ignored.end()) {
            unknown.push_back(name);
        }
    }
    return unknown;
}

std::vector<std::string> ignoredParameters(const Model& model) {
    const Card card = cardOf(model.kind);
    std::vector<std::string> ignored;
    for (const auto& [name, value] : model.parameters) {
        if (value != 0.0 && std::find(card.ignored.begin(), card.ignored.end(), name) != card.ignored.end()) {
            ignored.push_back(name);
        }
    }
    return ignored;
}

bool isDeviceParameter(PartKind kind, std::string_view name) {
    return find(cardOf(kind).device, name) != nullptr;
}

}  // namespace ohmwright

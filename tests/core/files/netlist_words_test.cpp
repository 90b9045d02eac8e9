// How a card falls into words. No outside source: the rules are the program's own.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_words.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

/// "R1|a|0|R:=1k": the words of a card, a name and its value joined with `:=`, or the fault.
std::string wordsOf(const std::string& text,
                    std::optional<std::vector<Word>> (*split)(const CardText&, NetlistLog&) = splitWords) {
    NetlistLog log;
    const auto words = split({text, {{0, 7}}}, log);
    if (!words) {
        return log.hasFault() ? "fault" : "nothing said";
    }
    std::string joined;
    for (const Word& word : *words) {
        joined += (joined.empty() ? "" : "|") + word.text + (word.assigns ? ":=" + word.value : "");
    }
    return joined;
}

struct Split {
    const char* text;
    const char* words;
};

TEST(NetlistWords, BlanksBracketsAndCommasPartWords) {
    constexpr Split splits[] = {
        {"R1 a 0 1k", "R1|a|0|1k"},
        {"  R1   a 0 1k  ", "R1|a|0|1k"},
        {"R1 a 0 R=1k", "R1|a|0|R:=1k"},
        {"R1 a 0 R = 1k", "R1|a|0|R:=1k"},
        {"R1 a 0 R= 1k tc1 =2", "R1|a|0|R:=1k|tc1:=2"},
        {"R1 a 0 {2 * x}", "R1|a|0|{2 * x}"},
        {"R1 a 0 R={2 * {x}}", "R1|a|0|R:={2 * {x}}"},
        {"R1 a 0 '2 * x'", "R1|a|0|{2 * x}"},
        {"R1 a 0 R=sqrt(2)*3", "R1|a|0|R:=sqrt(2)*3"},
        {"R1 a 0 R=(1 + 2)", "R1|a|0|R:=(1 + 2)"},
        {"V1 a 0 SIN(0 1 1k)", "V1|a|0|SIN|0|1|1k"},
        {"V1 a 0 SIN(0,1,1k)", "V1|a|0|SIN|0|1|1k"},
        {"V1 a 0 SIN ( 0 , 1 )", "V1|a|0|SIN|0|1"},
        {".model D1 D(IS=1e-14,N=1)", ".model|D1|D|IS:=1e-14|N:=1"},
        {".model D1 D IS=1e-14, N=1", ".model|D1|D|IS:=1e-14|N:=1"},
        {"E1 a 0 (b, c) 2", "E1|a|0|b|c|2"},
        {"R1 a 0 4,7k", "R1|a|0|4,7k"},
        {"R1 n+ v- 1", "R1|n+|v-|1"},
    };
    for (const Split& one : splits) {
        EXPECT_EQ(wordsOf(one.text), one.words) << one.text;
    }
}

TEST(NetlistWords, WhatDoesNotCloseIsAFault) {
    for (const char* text : {"(", ")", "{", "}", "'", "a=", "=a", "a==b", "a=b=c", "({)}", "a={"}) {
        EXPECT_EQ(wordsOf(text), "fault") << text;
    }
}

TEST(NetlistWords, AParameterGoesOnToTheNextName) {
    constexpr Split splits[] = {
        {".param a=1", "a:=1"},
        {".param a=1 b=2", "a:=1|b:=2"},
        {".param a = 1 + 2 b = 2 * a", "a:=1 + 2|b:=2 * a"},
        {".param a={1 + 2}, b='2*a'", "a:={1 + 2}|b:={2*a}"},
        {".param a=max(1, 2) b=3", "a:=max(1, 2)|b:=3"},
    };
    for (const Split& one : splits) {
        EXPECT_EQ(wordsOf(one.text, splitAssignments), one.words) << one.text;
    }
    for (const char* text : {".param", ".param a", ".param =1", ".param a=", ".param b a=1"}) {
        EXPECT_EQ(wordsOf(text, splitAssignments), "fault") << text;
    }
}

TEST(NetlistWords, ALawIsTheRestOfItsCard) {
    EXPECT_EQ(wordsOf("B1 a 0 V=v(b) * 2 + i(V1)", splitLawCard), "B1|a|0|V:=v(b) * 2 + i(V1)");
    EXPECT_EQ(wordsOf("B1 a 0 I = {v(b, c)}", splitLawCard), "B1|a|0|I:={v(b, c)}");
    EXPECT_EQ(wordsOf("B1 a 0 V='v(b)'", splitLawCard), "B1|a|0|V:={v(b)}");
}

}  // namespace
}  // namespace ohmwright

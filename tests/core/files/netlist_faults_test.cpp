/// Files that are wrong, each with the line and a word of what is said. No outside source: the rules are the program's
/// own.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "netlist_text.h"

#include "tests/support/spoken.h"

#include <gmock/gmock.h>

#include <array>

namespace ohmwright {
namespace {

TEST(NetlistFaults, ASentenceIsAskedForWholeInAnotherLanguage) {
    const test::Spoken german(
        {{"line %1: %2", "Zeile %1: %2"},
         {"%1 has a negative value: no %2 has one; write it without the minus sign.", "Negativ: %1 (%2)"},
         {"resistor", "Widerstand"},
         {"%1 gives %2, but %3 has %4: %5.", "%3 hat %4 (%5), %1 nennt %2"},
         {"1 net", "1 Netz"},
         {"%1 pins", "%1 Anschlüsse"},
         {"%1 and %2", "%1 und %2"}});
    EXPECT_EQ(readCards("R1 a 0 -5\n").error().message, "Zeile 2: Negativ: R1 (Widerstand)");
    EXPECT_EQ(readCards("R1 a 0 -5\n").error().where, "line 2");
    EXPECT_EQ(readCards(".subckt two a b\nR1 a b 1k\n.ends\nX1 in two\n").error().message,
              "Zeile 5: \"two\" hat 2 Anschlüsse (a und b), X1 nennt 1 Netz");
}

struct BadFile {
    const char* cards;  ///< From line 2 on.
    int line;
    const char* words;  ///< In the message.
};

constexpr BadFile numbers[] = {
    {"R1 a 0 4k7\n", 2, "4.7k"},
    {"R1 a 0 4k7\n", 2, "4k"},
    {"R1 a 0 0x10\n", 2, "16"},
    {"R1 a 0 4,7k\n", 2, "4.7k"},
    {"R1 a 0 4,700\n", 2, "4700"},
    {"R1 a 0 2M2\n", 2, "2.2"},
    {"C1 a 0 4n7\n", 2, "4.7n"},
    {"L1 a 0 0x1F\n", 2, "31"},
    {"V1 a 0 DC 4k7\n", 2, "4.7k"},
    {"V1 a 0 4,7\n", 2, "4.7"},
    {"R1 a 0 abc\n", 2, "\'abc\'"},
    {"R1 a 0 --5\n", 2, "R1"},
    {"R1 a 0 1e\n+ 5\n", 3, "too many"},
    {"R1 a 0 1e\n", 2, "1e3"},
    {"R1 a 0 1ek\n", 2, "1k"},
    {"R1 a 0 {(-2)**0.5}\n", 2, "not whole"},
    {".param p={(0-2)**0.5}\nR1 a 0 1k\n", 2, "not whole"},
    {"R1 a 0 1f\n", 2, "choose one from"},
    {"R1 a 0 1e19\n", 2, "choose one from"},
    {"C1 a 0 1e-25\n", 2, "choose one from"},
    {"L1 a 0 1e10\n", 2, "choose one from"},
    {"R1 a 0 1..5\n", 2, "R1"},
    {"R1 a 0 1e999\n", 2, "too large"},
    {"R1 a 0 nan\n", 2, "nan"},
    {"R1 a 0 inf\n", 2, "inf"},
    {"V1 a 0 1e400\n", 2, "too large"},
    {"R1 a 0 {1e300*1e300}\n", 2, "finite"},
    {"R1 a 0 {1/0}\n", 2, "finite"},
    {"R1 a 0 {sqrt(-1)}\n", 2, "finite"},
    {"R1 a 0 {ln(0)}\n", 2, "finite"},
    {"R1 a 0 25mil\n", 2, "25m"},
    {"R1 a 0 -1k\n", 2, "negative"},
    {"C1 a 0 -1u\n", 2, "negative"},
    {"L1 a 0 -1m\n", 2, "negative"},
    {"R1 a 0 {1-2}\n", 2, "negative"},
    {"R1 a 0 {}\n", 2, "R1"},
    {"R1 a 0 {1+}\n", 2, "R1"},
    {"R1 a 0 {foo}\n", 2, "foo"},
    {"R1 a 0 {foo(2)}\n", 2, "foo"},
    {"R1 a 0 {v(a)*2}\n", 2, "circuit"},
    {"R1 a 0 'x*2'\n", 2, "x"},
    {"R1 a 0 1 k\n", 2, "\"k\""},
    {".param r=1k\nR1 a 0 r\n", 3, "{r}"},
    {".param r=1k\nV1 a 0 r\n", 3, "{r}"},
};

constexpr BadFile lines[] = {
    {"+ R1 a 0 1k\n", 2, "+"},
    {"* comment\n+ 1k\n", 3, "+"},
    {"\n\n+ tc1=0\n", 4, "+"},
    {"R1 a 0 {1k\n", 2, "never closed"},
    {"R1 a 0 1k)\n", 2, "nothing opens"},
    {"R1 a 0 1k}\n", 2, "nothing opens"},
    {"V1 a 0 SIN(0 1 1k\n", 2, "never closed"},
    {"R1 a 0 '1k\n", 2, "never closed"},
    {"R1 a 0\n+ {1k\n+ *2\n", 3, "never closed"},
    {".model D1N D(IS=1e-14\nD1 a 0 D1N\n", 2, "never closed"},
    {".model D1N D IS=1e-14)\nD1 a 0 D1N\n", 2, "nothing opens"},
    {"R1 a 0 1k\n.ends\n", 3, ".subckt"},
    {"R1 a 0 1k\n\x01\x02\x03\n", 3, "no text"},
    {"R\xff\xfe a 0 1k\n", 2, "no text"},
    {"R1 a 0 =1k\n", 2, "too few"},
    {"R1 a 0 2*500\n", 2, "{2*500}"},
    {"= 5\n", 2, "="},
    {"(R1 a 0 1k)\n", 2, "no element"},
    {"{}\n", 2, "no element"},
    {"R1 a 0 R==1k\n", 2, "R"},
    {"R1 a 0 R=\n", 2, "No value"},
    {"R1 a 0 1k tc1=\n", 2, "No value"},
    {"X1 a b S r=1=2\n", 2, "="},
};

constexpr BadFile cards[] = {
    {"", 1, "no parts"},
    {"\n\n\n", 1, "no parts"},
    {"* only comments\n", 1, "no parts"},
    {".end\n", 1, "no parts"},
    {".end\nR1 a 0 1k\n", 1, "no parts"},
    {".model D1N D(IS=1e-14)\n", 2, "no parts"},
    {".param a=1\n.end\n", 2, "no parts"},
    {"S1 a 0 b 0 SW\n", 2, "no element"},
    {"T1 a 0 b 0 Z0=50\n", 2, "no element"},
    {"W1 a 0 V1 SW\n", 2, "no element"},
    {"U1 a b c\n", 2, "no element"},
    {"1N4148 a 0\n", 2, "no element"},
    {"# comment\n", 2, "no element"},
    {"// comment\n", 2, "no element"},
    {"R1\n", 2, "too few"},
    {"R1 a\n", 2, "too few"},
    {"R1 a 0\n", 2, "no value"},
    {"C1 a 0\n", 2, "no value"},
    {"L1 a\n", 2, "too few"},
    {"R1 a 0 1k 2k\n", 2, "too many"},
    {"C1 a 0 CMOD 10u\n", 2, "too many"},
    {"R1 a 0 1k R=2k\n", 2, "two values"},
    {"R1 a 0 1k foo=3\n", 2, "foo"},
    {"R1 a 0 1k m=0\n", 2, "M=0"},
    {"R1 a 0 1k m=-1\n", 2, "M=-1"},
    {"R1 {a} 0 1k\n", 2, "formula"},
    {"R1 1,2 0 1k\n", 2, "comma"},
    {"R1 a 0 1k\nR1 b 0 2k\n", 3, "line 2"},
    {"R1 a 0 1k\nr1 b 0 2k\n", 3, "twice"},
    {"V1 a 0 1\nR1 a 0 1k\nC1 a 0 1n\nC1 a 0 2n\n", 5, "line 4"},
    {"V1\n", 2, "too few"},
    {"V1 a\n", 2, "too few"},
    {"V1 a 0 DC\n", 2, "after DC"},
    {"V1 a 0 DC AC 1\n", 2, "after DC"},
    {"V1 a 0 DC foo\n", 2, "foo"},
    {"V1 a 0 foo\n", 2, "foo"},
    {"V1 a 0 5 6\n", 2, "two DC"},
    {"V1 a 0 5 DC 6\n", 2, "two DC"},
    {"V1 a 0 AC 1 AC 2\n", 2, "two AC"},
    {"V1 a 0 AC 4k7\n", 2, "4.7k"},
    {"V1 a 0 SIN(0 1)\n", 2, "too few numbers"},
    {"V1 a 0 SIN()\n", 2, "too few numbers"},
    {"V1 a 0 SIN\n", 2, "too few numbers"},
    {"V1 a 0 SIN(0 1 1k 0 0 0 0)\n", 2, "too many"},
    {"V1 a 0 SIN(0 1 x)\n", 2, "no number"},
    {"V1 a 0 SIN(0 1 -1k)\n", 2, "negative"},
    {"V1 a 0 SIN(0 1 1k -1m)\n", 2, "negative"},
    {"V1 a 0 PULSE(0)\n", 2, "too few numbers"},
    {"V1 a 0 PULSE(0 1 0 0 0 1 2 3)\n", 2, "too many"},
    {"V1 a 0 PULSE(0 1 0 -1n)\n", 2, "negative rise"},
    {"V1 a 0 SIN(0 1 1k) PULSE(0 1)\n", 2, "two ways"},
    {"V1 a 0 EXP(0 1 1n 1n)\n", 2, "EXP"},
    {"V1 a 0 PWL(0 0 1 1)\n", 2, "PWL"},
    {"I1 a 0 SFFM(0 1 1k)\n", 2, "SFFM"},
    {"I1 a 0 AM(1 1 1k)\n", 2, "AM"},
    {"V1 a 0 file=x\n", 2, "file"},
    {"V1 a 0 1 r=5\n", 2, "r=5"},
    {"E1 a 0 b 0\n", 2, "too few"},
    {"E1 a 0 b 0 2 3\n", 2, "too many"},
    {"E1 a 0 value={v(b)*2}\n", 2, "B source"},
    {"E1 a 0 POLY(1) b 0 0 1\n", 2, "B source"},
    {"E1 a 0 TABLE {v(b)} = (0,0) (1,1)\n", 2, "B source"},
    {"G1 a 0 cur='v(b)*2'\n", 2, "I=FORMULA"},
    {"G1 a 0 b 0 x\n", 2, "'x'"},
    {"E1 a 0 b 0 1 max=3\n", 2, "max=3"},
    {"F1 a 0 V9 2\nV1 a 0 1\n", 2, "V9"},
    {"F1 a 0 R1 2\nR1 a 0 1\n", 2, "no voltage source"},
    {"H1 a 0 V9\n", 2, "too few"},
    {"H1 a 0 I1 5\nI1 a 0 1\n", 2, "no voltage source"},
    {"F1 a 0 POLY(1) V1 0 2\n", 2, "B source"},
    {"K1 L1 L2 0.9\nL1 a 0 1m\n", 2, "L2"},
    {"K1 L1 0.9\n", 2, "too few"},
    {"K1 L1 L2 1.5\nL1 a 0 1m\nL2 b 0 1m\n", 2, "between -1 and 1"},
    {"K1 L1 L2 -1.01\nL1 a 0 1m\nL2 b 0 1m\n", 2, "between -1 and 1"},
    {"K1 L1 L2 0\nL1 a 0 1m\nL2 b 0 1m\n", 2, "not be 0"},
    {"K1 L1 L2\nL1 a 0 1m\nL2 b 0 1m\n", 2, "too few"},
    {"K1 L1 L1 0.5\nL1 a 0 1m\n", 2, "itself"},
    {"K1 L1 R2 0.5\nL1 a 0 1m\nR2 a 0 1\n", 2, "no inductor"},
    {"K1 L1 L2 0.5\nK2 L2 L1 0.6\nL1 a 0 1m\nL2 b 0 1m\n", 3, "second time"},
    {"L1 a 0 1\nL2 b 0 1\nL3 c 0 1\nK1 L1 L2 0.99\nK2 L2 L3 0.99\nK3 L1 L3 -0.5\n", 7, "cannot be"},
    {"L1 a 0 1\nL2 b 0 1\nL3 c 0 1\nK1 L1 L2 0.99\nK2 L2 L3 0.99\n", 6, "cannot be"},
    {"K1 L1 L2 x\nL1 a 0 1m\nL2 b 0 1m\n", 2, "'x'"},
    {"B1 a 0 2*v(b)\n", 2, "V=FORMULA"},
    {"B1 a 0\n", 2, "V=FORMULA"},
    {"B1 a\n", 2, "too few"},
    {"B1 a 0 V=\nR1 a 0 1\n", 2, "formula"},
    {"B1 a 0 X=v(a)\n", 2, "V=FORMULA"},
    {"B1 a 0 V=v(a)*\nR1 a 0 1\n", 2, "B1"},
    {"B1 a 0 V=v(nowhere)\nR1 a 0 1\n", 2, "nowhere"},
    {"B1 a 0 V=i(V9)\nR1 a 0 1\n", 2, "V9"},
    {"B1 a 0 V=i(R1)\nR1 a 0 1\n", 2, "R1"},
    {"B1 a 0 V=foo(v(a))\nR1 a 0 1\n", 2, "foo"},
    {"B1 a 0 V=v(a)+unknown\nR1 a 0 1\n", 2, "unknown"},
    {"B1 a 0 V=1 I=2\nR1 a 0 1\n", 2, "second"},
    {"B1 a 0 V=1/0\nR1 a 0 1\n", 2, "without a value"},
    {"B1 a 0 V=v(a\nR1 a 0 1\n", 2, "never closed"},
    {"B1 a 0 b V=1\nR1 a 0 1\n", 2, "too many"},
};

constexpr BadFile devices[] = {
    {"D1 a 0\n", 2, "too few"},
    {"D1 a 0 NONE\n", 2, "NONE"},
    {"D1 a 0 NONE\n.model OTHER D\n", 2, "OTHER"},
    {"D1 a 0 QX\n.model QX NPN\n", 2, "NPN"},
    {"Q1 c b QX\n.model QX NPN\n", 2, "too few"},
    {"Q1 c b e NONE\n", 2, "NONE"},
    {"Q1 c b e DX\n.model DX D\n", 2, "type D"},
    {"Q1 c b e s NONE\n", 2, "NONE"},
    {"Q1 c b e QX 2 3\n.model QX NPN\n", 2, "too many"},
    {"J1 d g JX\n.model JX NJF\n", 2, "too few"},
    {"J1 d g s MX\n.model MX NMOS\n", 2, "NMOS"},
    {"M1 d g s MX\n.model MX NMOS\n", 2, "too few"},
    {"M1 d g s b MX 5\n.model MX NMOS\n", 2, "too many"},
    {"M1 d g s b MX W=-1u\n.model MX NMOS\n", 2, "above 0"},
    {"M1 d g s b MX L=0\n.model MX NMOS\n", 2, "above 0"},
    {"D1 a 0 DX 0\n.model DX D\n", 2, "above 0"},
    {"D1 a 0 DX area=-2\n.model DX D\n", 2, "above 0"},
    {"D1 a 0 DX 2 area=2\n.model DX D\n", 2, "twice"},
    {"D1 a 0 DX W=1u\n.model DX D\n", 2, "W=1u"},
    {"D1 a 0 DX foo\n.model DX D\n", 2, "foo"},
    {".model\nR1 a 0 1\n", 2, "name and a type"},
    {".model DX\nR1 a 0 1\n", 2, "name and a type"},
    {".model DX XYZ(IS=1)\nR1 a 0 1\n", 2, "XYZ"},
    {".model SX SW(RON=1)\nR1 a 0 1\n", 2, "SW"},
    {".model RX R(TC1=1)\nR1 a 0 1\n", 2, "\"R\""},
    {".model MX VDMOS(KP=1)\nR1 a 0 1\n", 2, "VDMOS"},
    {".model DX D(IS)\nR1 a 0 1\n", 2, "IS"},
    {".model DX D(IS 1e-14)\nR1 a 0 1\n", 2, "IS"},
    {".model DX D(IS=)\nR1 a 0 1\n", 2, "No value"},
    {".model DX D(IS=4k7)\nR1 a 0 1\n", 2, "4.7k"},
    {".model DX D(IS=abc)\nR1 a 0 1\n", 2, "abc"},
    {".model DX D(IS=0)\nR1 a 0 1\n", 2, "above 0"},
    {".model DX D(N=0)\nR1 a 0 1\n", 2, "above 0"},
    {".model DX D(RS=-1)\nR1 a 0 1\n", 2, "negative"},
    {".model DX D(M=1)\nR1 a 0 1\n", 2, "under 1"},
    {".model DX D(IS=1e-14\n+ N=-1)\nR1 a 0 1\n", 3, "above 0"},
    {".model QX NPN(BF=-5)\nR1 a 0 1\n", 2, "above 0"},
    {".model QX NPN(BF=100 BF=200)\nR1 a 0 1\n", 2, "twice"},
    {".model QX NPN(IS=1e999)\nR1 a 0 1\n", 2, "too large"},
    {".model MX NMOS(LEVEL=3)\nR1 a 0 1\n", 2, "LEVEL"},
    {".model JX NJF(LEVEL=2)\nR1 a 0 1\n", 2, "LEVEL"},
    {".model JX NJF(BETA=0)\nR1 a 0 1\n", 2, "above 0"},
    {".model DX D(IS={x})\nR1 a 0 1\n", 2, "x"},
    {".model DX D\n.model dx D\nR1 a 0 1\n", 3, "line 2"},
};

constexpr BadFile dotCards[] = {
    {".include models.lib\nR1 a 0 1\n", 2, "write the subcircuit"},
    {".inc \"models.lib\"\nR1 a 0 1\n", 2, "write the subcircuit"},
    {".lib models.lib TT\nR1 a 0 1\n", 2, "write the subcircuit"},
    {".INCLUDE models.lib\nR1 a 0 1\n", 2, "write the subcircuit"},
    {".func f(x)={x*2}\nR1 a 0 1\n", 2, ".func"},
    {".step param r 1 2 3\nR1 a 0 1\n", 2, ".step"},
    {".if (a)\nR1 a 0 1\n", 2, ".if"},
    {".foo\nR1 a 0 1\n", 2, ".foo"},
    {".\nR1 a 0 1\n", 2, "not known"},
    {".endc\nR1 a 0 1\n", 2, ".control"},
    {"R1 a 0 1\n.control\nrun\n", 3, ".endc"},
    {".global\nR1 a 0 1\n", 2, "no net"},
    {".param\nR1 a 0 1\n", 2, "NAME=VALUE"},
    {".param a\nR1 a 0 1\n", 2, "no value"},
    {".param a=\nR1 a 0 1\n", 2, "No value"},
    {".param =5\nR1 a 0 1\n", 2, "NAME=VALUE"},
    {".param a=1 b\nR1 a 0 1\n", 2, "a"},
    {".param a=1 a=2\nR1 a 0 1\n", 2, "twice"},
    {".param a=1\n.param A=2\nR1 a 0 1\n", 3, "line 2"},
    {".param 2a=1\nR1 a 0 1\n", 2, "name"},
    {".param a={a}\nR1 a 0 1\n", 2, "itself"},
    {".param a={b} b={a}\nR1 a 0 1\n", 2, "circle"},
    {".param a={b}\n.param b={c}\n.param c={a+1}\nR1 a 0 1\n", 4, "a, b and c"},
    {".param a={1/0}\nR1 a 0 {a}\n", 2, "a"},
    {".param a=4k7\nR1 a 0 {a}\n", 2, "4.7k"},
    {".param a={nope}\nR1 a 0 1\n", 2, "nope"},
    {".param a=1e999\nR1 a 0 1\n", 2, "too large"},
};

constexpr BadFile subcircuits[] = {
    {"X1 a b\nR1 a 0 1\n", 2, "\"b\""},
    {"X1\nR1 a 0 1\n", 2, "no subcircuit"},
    {"X1 a 0 NONE\n", 2, "NONE"},
    {"X1 a 0 NONE\n.subckt OTHER p q\nR1 p q 1\n.ends\n", 2, "OTHER"},
    {"X1 a S\n.subckt S p q\nR1 p q 1\n.ends\n", 2, "p and q"},
    {"X1 a b c S\n.subckt S p q\nR1 p q 1\n.ends\n", 2, "3 nets"},
    {"X1 a b S r=2\n.subckt S p q\nR1 p q 1\n.ends\n", 2, "\"r\""},
    {"X1 a b S x=2\n.subckt S p q r=1\nR1 p q {r}\n.ends\n", 2, "are r"},
    {"X1 a b S r=2 r=3\n.subckt S p q r=1\nR1 p q {r}\n.ends\n", 2, "twice"},
    {"X1 a b S r=4k7\n.subckt S p q r=1\nR1 p q {r}\n.ends\n", 2, "4.7k"},
    {"X1 a b S r={y}\n.subckt S p q r=1\nR1 p q {r}\n.ends\n", 2, "y"},
    {"X1 a b S r=-1\n.subckt S p q r=1\nR1 p q {r}\n.ends\n", 4, "call X1"},
    {"X1 a b S params: r\n.subckt S p q r=1\nR1 p q {r}\n.ends\n", 2, "NAME=VALUE"},
    {"X1 a b S\nX1 b c S\n.subckt S p q\nR1 p q 1\n.ends\n", 3, "twice"},
    {"X1 a b S\n.subckt S p q\nX2 p q S\n.ends\n", 4, "itself"},
    {"X1 a b S\n.subckt S p q\nX2 p q T\n.ends\n.subckt T p q\nX3 p q S\n.ends\n", 7, "itself"},
    {"X1 a b S\n.subckt S p q\nR1 p q 1\n", 3, ".ends"},
    {"X1 a b S\n.subckt S p q\nR1 p q 1\n.end\n", 3, ".ends"},
    {"X1 a b S\n.subckt S p q\nR1 p q 1\n.ends T\n", 5, "\"T\""},
    {"R1 a 0 1\n.subckt\n.ends\n", 3, "no name"},
    {"R1 a 0 1\n.subckt S\n.ends\n", 3, "no pins"},
    {"R1 a 0 1\n.subckt S p p\nR1 p 0 1\n.ends\n", 3, "twice"},
    {"R1 a 0 1\n.subckt S p 0\nR1 p 0 1\n.ends\n", 3, "Ground"},
    {"R1 a 0 1\n.subckt S p gnd\nR1 p 0 1\n.ends\n", 3, "Ground"},
    {"R1 a 0 1\n.subckt S p params: r\nR1 p 0 1\n.ends\n", 3, "DEFAULT"},
    {"R1 a 0 1\n.subckt S p r=1 r=2\nR1 p 0 1\n.ends\n", 3, "twice"},
    {"R1 a 0 1\n.subckt S p\nR1 p 0 1\n.ends\n.subckt s p\nR1 p 0 1\n.ends\n", 6, "line 3"},
    {"X1 a b S\n.subckt S p q\nR1 p q 1\nR1 p q 2\n.ends\n", 5, "line 4"},
    {"X1 a b S\n.subckt S p q\nD1 p q NONE\n.ends\n", 4, "call X1"},
    {"X1 a b S\n.subckt S p q\nF1 p q V1 2\nR1 p q 1\n.ends\nV1 a 0 1\n", 4, "V1"},
    {"X1 a b S\n.subckt S p q\nB1 p q V=v(a)\nR1 p q 1\n.ends\nV1 a 0 1\n", 4, "subcircuit"},
    {"X1 a b S\n.subckt S p q\nS1 p q\n.ends\n", 4, "no element"},
    {"X1 a b IN\n.subckt S p q\n.subckt IN p q\nR1 p q 1\n.ends\nX9 p q IN\n.ends\n", 2, "IN"},
    {"X1 a b KOREN_TRIODE MU=100\n", 2, "anode, grid and cathode"},
    {"X1 a g k KOREN_TRIODE FOO=100\n", 2, "FOO"},
    {"X1 a g k KOREN_TRIODE MU=0\n", 2, "above 0"},
    {"X1 a g k KOREN_TRIODE MU=4k7\n", 2, "4.7k"},
    {"X1 a g k KOREN_TRIODE MU=1 mu=2\n", 2, "twice"},
    {"X1 a g k KOREN_PENTODE MU=10\n", 2, "4 pins"},
    {"X1 a s g k KOREN_PENTODE KG9=10\n", 2, "KG9"},
};

template <std::size_t Count>
void expectFaults(const BadFile (&files)[Count]) {
    for (const BadFile& file : files) {
        const Result<Netlist> netlist = readCards(file.cards);
        EXPECT_FALSE(netlist.hasValue()) << file.cards;
        if (netlist) {
            continue;
        }
        const std::string line = "line " + std::to_string(file.line);
        EXPECT_EQ(netlist.error().where, line) << file.cards << netlist.error().message;
        EXPECT_THAT(netlist.error().message, testing::StartsWith(line + ": ")) << file.cards;
        EXPECT_THAT(netlist.error().message, testing::HasSubstr(file.words)) << file.cards;
        EXPECT_EQ(netlist.error().code, ErrorCode::fileDamaged) << file.cards;
        EXPECT_LT(netlist.error().message.size(), 600u) << file.cards;
        EXPECT_EQ(std::count(netlist.error().message.begin(), netlist.error().message.end(), '\n'), 0) << file.cards;
    }
}

TEST(NetlistFaults, NumbersThatAreNone) {
    expectFaults(numbers);
}

TEST(NetlistFaults, LinesThatCannotBeRead) {
    expectFaults(lines);
}

TEST(NetlistFaults, CardsThatAreWrong) {
    expectFaults(cards);
}

TEST(NetlistFaults, DevicesAndModels) {
    expectFaults(devices);
}

TEST(NetlistFaults, CardsWithADot) {
    expectFaults(dotCards);
}

TEST(NetlistFaults, Subcircuits) {
    expectFaults(subcircuits);
}

TEST(NetlistFaults, TheFirstLineIsNamedWhenSeveralAreWrong) {
    EXPECT_THAT(faultOf("R1 a 0 x\nR2 a 0 y\n"), testing::HasSubstr("line 2"));
    EXPECT_THAT(faultOf("X1 a b S\nR9 a 0 x\n.subckt S p q\nR1 p q y\n.ends\n"), testing::HasSubstr("line 3"));
    EXPECT_THAT(faultOf("R1 a 0 x\n.model D1 XX\n"), testing::HasSubstr("line 2"));
}

TEST(NetlistFaults, TheTextItselfIsNone) {
    const auto message = [](std::string_view text) {
        const Result<Netlist> netlist = readNetlist(text);
        return netlist ? std::string("read") : netlist.error().message;
    };
    using namespace std::string_view_literals;
    EXPECT_THAT(message(""), testing::HasSubstr("line 1: The file has no parts"));
    EXPECT_THAT(message("only a title"), testing::HasSubstr("line 1: The file has no parts"));
    EXPECT_THAT(message("title\nR1 a 0 1\0k\n"sv), testing::HasSubstr("line 2: A zero byte"));
    EXPECT_THAT(message("\xFF\xFEt\0i\0"sv), testing::HasSubstr("UTF-16"));
    EXPECT_THAT(message("\x7f"
                        "ELF\x02\x01\x01\0\0\0"sv),
                testing::HasSubstr("no text"));
}

std::string linesOf(const std::vector<NetlistNote>& faults) {
    std::string text;
    for (const NetlistNote& fault : faults) {
        text += (text.empty() ? "" : " ") + std::to_string(fault.line);
    }
    return text;
}

// A file with ten slips was corrected in ten rounds.
TEST(NetlistFaults, AllOfAFileAreFoundAtOnce) {
    const auto found = faultsOfNetlist(
        "title\nR1 a 0 4k7\nR2 a 0\nC1 a 0 -1n\nR3 a 0 1M\nQ1 a b 0 NONE\n.fancy\nF1 a 0 VX 2\nR1 a 0 1k\nL1 a 0 1m\n");
    EXPECT_EQ(linesOf(found.faults), "2 3 4 6 7 8");
    ASSERT_EQ(found.notes.size(), 1U);
    EXPECT_EQ(found.notes[0].line, 5);
    EXPECT_TRUE(faultsOfNetlist("title\nR1 a 0 1k\n").faults.empty());
}

TEST(NetlistFaults, WhatFollowsFromAnotherFaultIsNotOne) {
    const auto found = faultsOfNetlist(
        "title\nV1 a 0 4k7\nF1 b 0 V1 2\nL1 c 0 4k7\nL2 d 0 1\nK1 L1 L2 0.9\n.model QX NPM(BF=100)\nQ1 a b 0 QX\n"
        "R1 e 0\nB1 a 0 I=v(e)+i(V1)\n.param p=1/0\nR4 a 0 {p}\nX1 a b NONE\n");
    EXPECT_EQ(linesOf(found.faults), "2 4 7 9 11 13");
    EXPECT_TRUE(found.notes.empty());
}

TEST(NetlistFaults, OfAVeryWrongFileTheFirstAreFound) {
    std::string text = "title\n";
    for (int k = 0; k < 1000; ++k) {
        text += "R" + std::to_string(k) + " a 0 4k7\n";
    }
    const auto found = faultsOfNetlist(text);
    ASSERT_EQ(found.faults.size(), 201U);
    EXPECT_EQ(found.faults[199].line, 201);
    EXPECT_THAT(found.faults.back().message, testing::HasSubstr("More lines are wrong"));
}

// Two nets became one: the one written so, and m of the call X1, which goes by that name.
TEST(NetlistFaults, ANetWrittenAsOneInsideACallIsRefused) {
    const std::string sub = ".subckt S a\nR1 a m 1k\nR2 m 0 1k\n.ends\n";
    EXPECT_THAT(faultOf("R9 X1.M 0 1k\nX1 in S\n" + sub), testing::HasSubstr("two"));
    EXPECT_THAT(faultOf("X1 in S\nR9 x1.m 0 1k\n" + sub), testing::StartsWith("line 3: The net \"x1.m\""));
    EXPECT_EQ(faultOf("X1 in S\nR9 x2.m 0 1k\n" + sub), "read");
    EXPECT_EQ(faultOf("X1 in S\nB1 o 0 V=2*v(x1.m)\nR9 o 0 1k\n" + sub), "read");  // Reading it is no second net.
}

}  // namespace
}  // namespace ohmwright

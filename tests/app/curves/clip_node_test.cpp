// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/clip_node.h"

#include "tests/app/curves/sample_answers.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(ClipNode, NamesATransistorsPinByItsWordAndAPassiveNodeByItsNet) {
    Circuit circuit = test::sampleJob()->stock;
    circuit.ports.clipNode = "lp";
    EXPECT_EQ(clipNodeWords(circuit).toStdString(), "net lp");
    Part transistor;
    transistor.reference = "Q1";
    transistor.kind = PartKind::bipolar;
    transistor.nets = {"lp", "b1", "0"};
    circuit.parts.push_back(transistor);
    EXPECT_EQ(clipNodeWords(circuit).toStdString(), "Q1 collector");
}

}  // namespace
}  // namespace ohmwright

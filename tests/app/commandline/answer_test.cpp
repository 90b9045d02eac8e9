// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/answer.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace ohmwright {
namespace {

Answer twoTables() {
    Answer answer;
    answer.tables.push_back({{"node", "voltage_v"}, {{std::string("o1"), 4.46091766281}, {std::string("0"), -0.0}}});
    answer.tables.push_back({{"part", "current_a"}, {{std::string("Q1, \"left\""), Cell()}}});
    answer.closing = {{"thd_percent", 10.5}};
    return answer;
}

QJsonObject parsed(const std::string& json) {
    QJsonParseError error;
    const QJsonDocument document = QJsonDocument::fromJson(QByteArray::fromStdString(json), &error);
    EXPECT_EQ(error.error, QJsonParseError::NoError) << error.errorString().toStdString() << json;
    return document.object();
}

TEST(Answer, CsvHasATableAfterAnotherAndClosingFiguresLast) {
    EXPECT_EQ(writeAnswer(twoTables(), OutputFormat::csv),
              "node,voltage_v\n"
              "o1,4.46091766281\n"
              "0,0\n"
              "\n"
              "part,current_a\n"
              "\"Q1, \"\"left\"\"\",\n"
              "thd_percent,10.5\n");
}

TEST(Answer, JsonIsOneObjectWithAnArrayUnderEachColumn) {
    const QJsonObject object = parsed(writeAnswer(twoTables(), OutputFormat::json));
    EXPECT_EQ(object.size(), 5);
    EXPECT_EQ(object["node"].toArray().at(0).toString(), "o1");
    EXPECT_DOUBLE_EQ(object["voltage_v"].toArray().at(0).toDouble(), 4.46091766281);
    EXPECT_EQ(object["part"].toArray().at(0).toString(), "Q1, \"left\"");
    EXPECT_TRUE(object["current_a"].toArray().at(0).isNull());
    EXPECT_DOUBLE_EQ(object["thd_percent"].toDouble(), 10.5);
}

TEST(Answer, JsonTextKeepsEverySignAndLineEnd) {
    const std::string odd = "R\"1\\\n\t\x01µΩ";
    Answer answer;
    answer.tables.push_back({{"part"}, {{odd}}});
    const QJsonObject object = parsed(writeAnswer(answer, OutputFormat::json));
    EXPECT_EQ(object["part"].toArray().at(0).toString().toStdString(), odd);
}

TEST(Answer, WhatIsNoNumberIsNullInJsonAndAWordInCsv) {
    Answer answer;
    answer.tables.push_back({{"magnitude_db"}, {{-std::numeric_limits<double>::infinity()}, {std::nan("")}}});
    EXPECT_EQ(writeAnswer(answer, OutputFormat::csv), "magnitude_db\n-inf\nnan\n");
    const QJsonObject object = parsed(writeAnswer(answer, OutputFormat::json));
    EXPECT_TRUE(object["magnitude_db"].toArray().at(0).isNull());
    EXPECT_TRUE(object["magnitude_db"].toArray().at(1).isNull());
}

TEST(Answer, FiguresKeepTwelveDigitsAndAPlainMinus) {
    Answer answer;
    answer.tables.push_back({{"v"}, {{-1.0 / 3.0}, {1.2e-9}, {1e300}, {48000.0}}});
    EXPECT_EQ(writeAnswer(answer, OutputFormat::csv), "v\n-0.333333333333\n1.2e-09\n1e+300\n48000\n");
}

TEST(Answer, AnEmptyTableStillNamesItsColumns) {
    Answer answer;
    answer.tables.push_back({{"severity", "place"}, {}});
    EXPECT_EQ(writeAnswer(answer, OutputFormat::csv), "severity,place\n");
    EXPECT_TRUE(parsed(writeAnswer(answer, OutputFormat::json))["place"].toArray().isEmpty());
}

}  // namespace
}  // namespace ohmwright

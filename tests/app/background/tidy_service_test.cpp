// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/tidy_service.h"

#include "core/drawing/arrange.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>
#include <QTest>

namespace ohmwright::test {
namespace {

TEST(TidyService, AnswersForTheLatestRequestAlone) {
    TidyService service;
    int answers = 0;
    QObject::connect(&service, &TidyService::ready, [&answers] { ++answers; });
    const auto lamp = std::make_shared<const Job>(harbourLamp());
    service.start(lamp, {});
    service.start(lamp, {lamp->stock.parts[4].id});
    EXPECT_TRUE(service.isRunning());
    ASSERT_TRUE(QTest::qWaitFor([&] { return !service.isRunning(); }, 60000));
    EXPECT_EQ(answers, 1);
    EXPECT_EQ(service.answer().job, lamp);
    EXPECT_EQ(service.answer().chosen, std::vector<PartId>{lamp->stock.parts[4].id});
    EXPECT_EQ(service.answer().drawn.circuit, rejoin(arrange(lamp->stock, {lamp->stock.parts[4].id})).circuit);

    service.start(lamp, {});
    ASSERT_TRUE(QTest::qWaitFor([&] { return !service.isRunning(); }, 60000));
    EXPECT_EQ(service.answer().drawn.circuit, rejoin(arrange(lamp->stock)).circuit);
}

}  // namespace
}  // namespace ohmwright::test

// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/drawer/import_view.h"

#include "tests/support/open_job.h"

#include <QListWidget>
#include <QPushButton>

namespace ohmwright::test {
namespace {

TEST(ImportView, ShowsWhatComesInAndWhyLinesAreLeftOut) {
    const auto table = readDrawerCsv("kind,value,quantity,colour\nresistor,4k7,10,x\nresistor,blue,3,\n");
    ASSERT_TRUE(table) << table.error().message;
    ImportView view;
    view.show("parts.csv", *table, {});
    EXPECT_TRUE(shownWords(view).contains("parts.csv: 1 lots to take in, 1 lines left out"));
    QStringList lines;
    auto* list = view.findChild<QListWidget*>();
    for (int row = 0; row < list->count(); ++row) {
        lines << list->item(row)->text();
    }
    EXPECT_TRUE(lines[0].startsWith("left out, line 3")) << lines[0].toStdString();
    EXPECT_TRUE(lines[1].contains("colour"));
    EXPECT_EQ(lines[2].toStdString(), "4k7, 10 of them, new");
}

TEST(ImportView, ATableWithoutASoundLineCannotBeTaken) {
    const auto table = readDrawerCsv("kind,value,quantity\nresistor,blue,3\n");
    ASSERT_TRUE(table);
    ImportView view;
    view.show("parts.csv", *table, {});
    EXPECT_FALSE(view.findChild<QPushButton*>()->isEnabled());
}

}  // namespace
}  // namespace ohmwright::test

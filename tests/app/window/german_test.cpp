// The window in German: what the catalogue knows is shown in it, and figures have a decimal comma.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/board/board_view.h"
#include "app/look/language.h"
#include "tests/app/window/every_screen.h"
#include "tests/app/window/text_recorder.h"

#include <QAbstractButton>
#include <QAbstractItemView>
#include <QAction>
#include <QComboBox>
#include <QHash>
#include <QHeaderView>
#include <QLineEdit>
#include <QMenu>
#include <QRegularExpression>
#include <QSet>

namespace ohmwright::test {
namespace {

/// From before the window is made until it is gone.
struct SpeaksGerman {
    SpeaksGerman() { speak(Language::german); }
    ~SpeaksGerman() { speak(Language::english); }
    SpeaksGerman(const SpeaksGerman&) = delete;
    SpeaksGerman& operator=(const SpeaksGerman&) = delete;
};

QString wholeFile(const QString& path) {
    QFile file(path);
    EXPECT_TRUE(file.open(QIODevice::ReadOnly)) << path.toStdString();
    return QString::fromUtf8(file.readAll());
}

/// What stands between quotes in a file of JSON or PO, line by line.
QString unquoted(QString words) {
    return words.replace("\\n", "\n").replace("\\\"", "\"").replace("\\\\", "\\");
}

/// English and German of the catalogue, read without the program: where both differ.
QHash<QString, QString> catalogue() {
    QHash<QString, QString> german;
    static const QRegularExpression quoted("\"((?:[^\"\\\\]|\\\\.)*)\"");
    QString english;
    QString translation;
    bool isEnglish = false;
    const auto keep = [&] {
        if (!english.isEmpty() && english != translation) {
            german.insert(english, translation);
        }
    };
    for (const QString& line : wholeFile(QString(OHMWRIGHT_SOURCE_DIR) + "/resources/languages/de.po").split('\n')) {
        const QRegularExpressionMatch found = quoted.match(line);
        if (line.startsWith('#') || !found.hasMatch()) {
            continue;
        }
        if (line.startsWith("msgid")) {
            keep();
            english.clear();
            translation.clear();
            isEnglish = true;
        } else if (line.startsWith("msgstr")) {
            isEnglish = false;
        }
        (isEnglish ? english : translation) += unquoted(found.captured(1));
    }
    keep();
    return german;
}

class German : public SpeaksGerman, public EveryScreen {
protected:
    German() : m_german(catalogue()) {
        for (const QString& translation : m_german) {
            m_isGerman.insert(translation);
        }
        // What stands in the job's own file is whatever its user calls it.
        static const QRegularExpression quoted("\"((?:[^\"\\\\]|\\\\.)*)\"");
        for (auto found = quoted.globalMatch(wholeFile(path)); found.hasNext();) {
            m_own.insert(unquoted(found.next().captured(1)));
        }
    }

    void read(const QString& text, const std::string& where) {
        QString plain = text;
        if (plain.contains("</")) {
            plain.remove(QRegularExpression("<[^>]*>"));
        }
        m_spoken += m_isGerman.contains(plain) ? 1 : 0;
        const bool isEnglish = m_german.contains(plain) && !m_isGerman.contains(plain) && !m_own.contains(plain);
        EXPECT_FALSE(isEnglish) << where << ": \"" << plain.toStdString() << "\" is \""
                                << m_german.value(plain).toStdString() << "\" in the catalogue";
        // "4.43 V": where an own text is quoted, its figures stand as they were typed.
        static const QRegularExpression pointed(
            "(?<![\\w.:/-])\\d+\\.\\d+ ?(?:V|mV|mVpk|mVrms|dB|dBV|dBu|Hz|kHz|mA|µA|%|Ω|kΩ|MΩ|nF|µF|pF|ms)\\b");
        const QRegularExpressionMatch found = pointed.match(plain);
        EXPECT_FALSE(found.hasMatch() && !isOfTheJob(found.captured()))
            << where << ": a decimal point in \"" << plain.toStdString() << "\"";
    }

    void readRows(const QAbstractItemModel& model, const std::string& where) {
        for (int column = 0; column < model.columnCount(); ++column) {
            read(model.headerData(column, Qt::Horizontal).toString(), where + " head");
            for (int row = 0; row < std::min(model.rowCount(), 60); ++row) {
                const QModelIndex cell = model.index(row, column);
                read(cell.data().toString(), where + " row");
                read(cell.data(Qt::AccessibleTextRole).toString(), where + " row as it is spoken");
            }
        }
    }

    void readWidget(const QWidget& widget, const std::string& where) {
        read(widget.toolTip(), where + " tip");
        read(widget.accessibleName(), where + " name");
        read(widget.accessibleDescription(), where + " description");
        if (const auto* label = qobject_cast<const QLabel*>(&widget)) {
            read(label->text(), where);
        } else if (const auto* button = qobject_cast<const QAbstractButton*>(&widget)) {
            read(button->text(), where);
        } else if (const auto* sign = qobject_cast<const SignText*>(&widget)) {
            read(sign->text(), where);
        } else if (const auto* field = qobject_cast<const QLineEdit*>(&widget)) {
            read(field->placeholderText(), where + " placeholder");
        } else if (const auto* box = qobject_cast<const QComboBox*>(&widget)) {
            for (int item = 0; item < box->count(); ++item) {
                read(box->itemText(item), where + " item");
            }
        } else if (const auto* view = qobject_cast<const QAbstractItemView*>(&widget); view && view->model()) {
            readRows(*view->model(), where);
        }
    }

    [[nodiscard]] int spoken() const { return m_spoken; }

private:
    [[nodiscard]] bool isOfTheJob(const QString& words) const {
        return std::any_of(m_own.begin(), m_own.end(), [&](const QString& own) { return own.contains(words); });
    }

    QHash<QString, QString> m_german;
    QSet<QString> m_isGerman;
    QSet<QString> m_own;
    int m_spoken = 0;
};

TEST_F(German, IsWhatEveryScreenShowsWhereTheCatalogueKnowsItAndFiguresHaveAComma) {
    for (const Screen& screen : screens()) {
        screen.show();
        settle();
        for (const QWidget* widget : window->findChildren<QWidget*>()) {
            if (widget->isVisible()) {
                readWidget(*widget, screen.name + ", " + widget->metaObject()->className());
            }
        }
    }
    EXPECT_GT(spoken(), 50) << "texts of the catalogue";
}

// German words are longer: "Bauteil und Bein, etwa C4 1" was cut.
TEST_F(German, HasRoomOnEveryScreenOfTheSmallestWindow) {
    window->resize(1366, 768);
    for (const Screen& screen : screens()) {
        screen.show();
        settle();
        EXPECT_EQ(window->size(), QSize(1366, 768)) << screen.name << ": the words push the window apart";
        for (const QWidget* widget : window->findChildren<QWidget*>()) {
            if (widget->isVisible()) {
                EXPECT_LE(excessOf(*widget), 1)
                    << screen.name << ": " << pathOf(*widget) << " " << wordsOf(*widget).toStdString();
            }
        }
        for (const SeenText& seen : textsOf(*window)) {
            EXPECT_LE(seen.cut, unseenCut) << screen.name << ": " << seen.text.toStdString();
        }
    }
}

/// A leg has the name that is shown, and the one that its data sheet prints.
TEST_F(German, ALegIsFoundByItsGermanNameAndByItsEnglishOne) {
    window->showPlace(Place::board);
    BoardPlace& board = window->boardPlace();
    const std::pair<QString, Leg> typed[] = {{"D1 Ringbein", {"d1", 1}},   {"d1 bein ohne ring", {"d1", 0}},
                                             {"q1 Kollektor", {"q1", 0}},  {"Q1 collector", {"q1", 0}},
                                             {"C4 Bein 2", {"c4", 1}},     {"C4 leg 2", {"c4", 1}},
                                             {"VR1 Schleifer", {"vr1", 1}}};
    for (const auto& [words, leg] : typed) {
        QTest::keyClicks(&board.view(), words.left(1));
        auto* field = board.findChild<QLineEdit*>();
        QTest::keyClicks(field, words.mid(1));
        QTest::keyClick(field, Qt::Key_Return);
        EXPECT_EQ(board.leg(), leg) << words.toStdString();
    }
}

TEST_F(German, IsWhatMenusSay) {
    showMap();
    for (const QAction* action : window->findChildren<QAction*>()) {
        const std::string where = "action " + action->objectName().toStdString();
        read(action->text(), where);
        read(action->toolTip(), where + " tip");
        read(action->statusTip(), where + " hint");
    }
}

}  // namespace
}  // namespace ohmwright::test

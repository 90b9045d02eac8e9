// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/drawer/drawer_place.h"

#include "app/background/shop_jobs.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/document/shop_document.h"
#include "app/drawer/drawer_model.h"
#include "app/drawer/import_view.h"
#include "app/drawer/lot_cells.h"
#include "app/drawer/need_lists.h"
#include "app/look/elided_label.h"
#include "app/look/hint_field.h"
#include "app/look/said_text.h"
#include "app/look/sign_text.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "core/files/atomic_file.h"

#include <QComboBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLineEdit>
#include <QPainter>
#include <QPushButton>
#include <QShortcut>
#include <QStackedWidget>
#include <QTableView>
#include <QVBoxLayout>

namespace ohmwright {

namespace {

constexpr int margin = 14;
constexpr int needsWidth = 380;

QString tableFilter() {
    return QObject::tr("Tables (*.csv);;All files (*)");
}

}  // namespace

DrawerPlace::DrawerPlace(JobDocument& document, Selection& selection, ShopDocument& shop, QWidget* parent)
    : QWidget(parent),
      m_document(document),
      m_shop(shop),
      m_jobs(new ShopJobs(shop, this)),
      m_model(new DrawerModel(shop, this)),
      m_title(new ThemedLabel(TextRole::panelTitle, true, &ThemeColours::ink, this)),
      m_folder(new ElidedLabel(TextRole::caption, false, &ThemeColours::ink3, this)),
      m_search(new HintField(tr("Search: 120n, film, CF-12"), this)),
      m_undo(new QPushButton(tr("Undo"), this)),
      m_redo(new QPushButton(tr("Redo"), this)),
      m_import(new QPushButton(tr("Table in …"), this)),
      m_export(new QPushButton(tr("Table out …"), this)),
      m_choose(new QPushButton(tr("Shop folder …"), this)),
      m_pages(new QStackedWidget(this)),
      m_table(new QTableView(m_pages)),
      m_importView(new ImportView(m_pages)),
      m_kind(new QComboBox(this)),
      m_value(new HintField(tr("4k7, or a type"), this)),
      m_quantity(new HintField(tr("how many"), this)),
      m_add(new QPushButton(tr("Add"), this)),
      m_remove(new QPushButton(tr("Remove row"), this)),
      m_message(new SignText(this)) {
    m_table->setModel(m_model);
    m_table->setAccessibleName(tr("Drawer"));
    m_table->setFrameShape(QFrame::NoFrame);
    m_table->setTabKeyNavigation(false);  // Tab leads on; arrows walk the cells.
    m_table->setShowGrid(false);
    m_table->setSelectionMode(QAbstractItemView::SingleSelection);
    m_table->setEditTriggers(QAbstractItemView::AnyKeyPressed | QAbstractItemView::EditKeyPressed |
                             QAbstractItemView::DoubleClicked | QAbstractItemView::SelectedClicked);
    m_table->verticalHeader()->hide();
    m_table->verticalHeader()->setDefaultSectionSize(28);
    m_table->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    m_table->horizontalHeader()->setSectionResizeMode(DrawerModel::build, QHeaderView::Stretch);
    m_table->horizontalHeader()->setHighlightSections(false);
    m_pages->addWidget(m_table);
    m_pages->addWidget(m_importView);

    auto* left = new QVBoxLayout;
    left->setContentsMargins(0, 0, 0, 0);
    left->setSpacing(0);
    left->addLayout(buildHead());
    left->addWidget(m_pages, 1);
    left->addLayout(buildAddRow());
    auto* needs = new NeedLists(document, selection, shop, this);
    needs->setFixedWidth(needsWidth);
    auto* line = new QFrame(this);
    line->setFixedWidth(1);
    line->setAutoFillBackground(true);
    line->setBackgroundRole(QPalette::Midlight);
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addLayout(left, 1);
    layout->addWidget(line);
    layout->addWidget(needs);
    connectWidgets();
    showHead();
    connect(&Theme::current(), &Theme::changed, this, &DrawerPlace::arrange);
}

QBoxLayout* DrawerPlace::buildHead() {
    m_search->setAccessibleName(tr("Search the drawer"));
    m_search->setClearButtonEnabled(true);
    auto* words = new QVBoxLayout;
    words->setSpacing(2);
    words->addWidget(m_title);
    words->addWidget(m_folder);
    auto* tools = new QHBoxLayout;
    tools->setSpacing(8);
    for (QWidget* widget : std::initializer_list<QWidget*>{m_search, m_undo, m_redo, m_import, m_export, m_choose}) {
        tools->addWidget(widget);
    }
    m_head = new QBoxLayout(QBoxLayout::LeftToRight);
    m_head->setContentsMargins(margin, 10, margin, 10);
    m_head->setSpacing(8);
    m_head->addLayout(words, 1);
    m_head->addLayout(tools);
    return m_head;
}

QHBoxLayout* DrawerPlace::buildAddRow() {
    // As the table's column names them; kinds that are bought.
    for (const char* kind :
         {"resistor", "capacitor", "inductor", "potentiometer", "diode", "bipolar", "jfet", "mosfet"}) {
        m_kind->addItem(saidText(kind), kind);
    }
    m_kind->setAccessibleName(tr("Kind of the new part"));
    m_value->setAccessibleName(tr("Value or type of the new part"));
    m_quantity->setAccessibleName(tr("How many of the new part"));
    auto* row = new QHBoxLayout;
    row->setContentsMargins(margin, 8, margin, 8);
    row->setSpacing(8);
    for (QWidget* widget : std::initializer_list<QWidget*>{m_kind, m_value, m_quantity, m_add, m_remove}) {
        row->addWidget(widget);
    }
    row->addWidget(m_message, 1);
    return row;
}

void DrawerPlace::connectWidgets() {
    connect(m_search, &QLineEdit::textChanged, this, &DrawerPlace::search);
    connect(m_undo, &QPushButton::clicked, this, [this] { m_shop.undoStack().undo(); });
    connect(m_redo, &QPushButton::clicked, this, [this] { m_shop.undoStack().redo(); });
    connect(m_import, &QPushButton::clicked, this, &DrawerPlace::askImport);
    connect(m_export, &QPushButton::clicked, this, &DrawerPlace::askExport);
    connect(m_choose, &QPushButton::clicked, this, &DrawerPlace::shopFolderAsked);
    connect(m_add, &QPushButton::clicked, this, &DrawerPlace::addLot);
    connect(m_value, &QLineEdit::returnPressed, this, &DrawerPlace::addLot);
    connect(m_quantity, &QLineEdit::returnPressed, this, &DrawerPlace::addLot);
    connect(m_remove, &QPushButton::clicked, this, &DrawerPlace::removeLot);
    connect(new QShortcut(QKeySequence::Delete, m_table, nullptr, nullptr, Qt::WidgetShortcut), &QShortcut::activated,
            this, &DrawerPlace::removeLot);
    connect(m_model, &DrawerModel::refused, this, &DrawerPlace::say);
    connect(m_importView, &ImportView::taken, this, &DrawerPlace::takeTable);
    connect(m_importView, &ImportView::left, this, [this] { m_pages->setCurrentWidget(m_table); });
    connect(&m_shop, &ShopDocument::refused, this, &DrawerPlace::say);
    connect(&m_shop, &ShopDocument::shopChanged, this, [this] {
        say({});
        showHead();
    });
    // The stack moves on after the command has announced the shop.
    connect(&m_shop.undoStack(), &QUndoStack::indexChanged, this, &DrawerPlace::showHead);
    connect(&m_document, &JobDocument::saveStateChanged, this, [this] {
        if (isVisible()) {
            m_jobs->read();
        }
    });
}

void DrawerPlace::showHead() {
    const Shop& shop = *m_shop.shop();
    const bool isAssumed = m_model->isAssumed();
    const QString name = shop.drawer ? text(shop.drawer->shop) : QString();
    m_title->setText(isAssumed        ? tr("Drawer: assumed stock")
                     : name.isEmpty() ? tr("Drawer")
                                      : tr("Drawer of %1").arg(name));
    const QStringList faults = m_shop.faults();
    m_folder->setText(
        !faults.isEmpty() ? faults.first()
        : isAssumed
            ? tr("preferred values, nothing is counted; add a part and the drawer is kept in %1").arg(m_shop.folder())
            : m_shop.folder());
    m_undo->setEnabled(m_shop.undoStack().canUndo());
    m_redo->setEnabled(m_shop.undoStack().canRedo());
    m_undo->setToolTip(m_shop.undoStack().undoText());
    m_redo->setToolTip(m_shop.undoStack().redoText());
    m_export->setEnabled(!isAssumed);
    m_remove->setEnabled(!isAssumed);
    arrange();
}

/// The title has the tools beside it, or below where they leave it no room.
void DrawerPlace::arrange() {
    const int room = m_table->width() - 2 * margin - m_head->spacing();
    const int tools = m_head->itemAt(1)->sizeHint().width();
    const bool isWide = tools + m_title->sizeHint().width() <= room;
    m_head->setDirection(isWide ? QBoxLayout::LeftToRight : QBoxLayout::TopToBottom);
}

void DrawerPlace::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    arrange();
}

void DrawerPlace::say(const QString& sentence) {
    m_message->setSentence(sentence, sentence.isEmpty() ? SignKind::none : SignKind::care);
}

void DrawerPlace::search(const QString& words) {
    m_model->setFilter(words);
    say(m_model->rowCount() > 0 || words.trimmed().isEmpty()
            ? QString()
            : tr("Nothing in the drawer has \u201c%1\u201d in its value, type, lot, print, build or kind. Look for "
                 "less of "
                 "it, or add the part below.")
                  .arg(words.trimmed()));
}

void DrawerPlace::addLot() {
    const Result<DrawerLot> lot = lotFromWords(m_kind->currentData().toString(), m_value->text(), m_quantity->text());
    if (!lot) {
        say(text(lot.error().message));
        return;
    }
    const Drawer present = m_shop.shop()->drawer.value_or(Drawer());
    if (m_shop.editDrawer(withLot(present, *lot), tr("Add %1").arg(text(displayName(*lot))))) {
        m_value->clear();
        m_quantity->clear();
        m_table->scrollToBottom();
    }
}

void DrawerPlace::removeLot() {
    const DrawerLot* lot = m_model->lotAt(m_table->currentIndex().row());
    if (lot == nullptr || m_model->isAssumed()) {
        say(tr("Select the row that is to go."));
        return;
    }
    Drawer drawer = *m_shop.shop()->drawer;
    const QString words = tr("Remove %1").arg(text(displayName(*lot)));
    std::erase_if(drawer.lots, [id = lot->id](const DrawerLot& each) { return each.id == id; });
    m_shop.editDrawer(drawer, words);
}

void DrawerPlace::askImport() {
    const QString path = QFileDialog::getOpenFileName(this, tr("A table of parts"), m_shop.folder(), tableFilter());
    if (!path.isEmpty()) {
        if (const Result<void> read = previewTable(path); !read) {
            say(text(read.error().message));
        }
    }
}

Result<void> DrawerPlace::previewTable(const QString& path) {
    const Result<std::string> bytes = readWholeFile(std::filesystem::path(path.toStdU16String()));
    if (!bytes) {
        return bytes.error();
    }
    Result<DrawerTable> table = readDrawerCsv(*bytes);
    if (!table) {
        Error error = table.error();
        error.message = QFileInfo(path).fileName().toStdString() + ": " + error.message;
        return error;
    }
    m_imported = *std::move(table);
    m_importView->show(QFileInfo(path).fileName(), m_imported, m_shop.shop()->drawer.value_or(Drawer()));
    m_pages->setCurrentWidget(m_importView);
    return {};
}

void DrawerPlace::takeTable() {
    const Drawer merged = mergedInto(m_shop.shop()->drawer.value_or(Drawer()), m_imported);
    if (m_shop.editDrawer(merged, tr("Take %1 lots in").arg(m_imported.lots.size()))) {
        m_pages->setCurrentWidget(m_table);
    }
}

void DrawerPlace::askExport() {
    QString path =
        QFileDialog::getSaveFileName(this, tr("The drawer as a table"), m_shop.folder() + "/drawer.csv", tableFilter());
    if (!path.isEmpty()) {
        if (const Result<void> written = writeTable(path); !written) {
            say(text(written.error().message));
        }
    }
}

Result<void> DrawerPlace::writeTable(const QString& path) {
    return replaceFile(std::filesystem::path(path.toStdU16String()),
                       writeDrawerCsv(m_shop.shop()->drawer.value_or(Drawer())));
}

void DrawerPlace::paintEvent(QPaintEvent*) {
    QPainter(this).fillRect(rect(), Theme::current().colours().panel);
}

void DrawerPlace::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    m_jobs->read();
}

}  // namespace ohmwright

/// The place "Drawer": parts in stock as a table, in and out as CSV, and what jobs need of them.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/files/drawer_csv.h"

#include <QWidget>

class QBoxLayout;
class QComboBox;
class QHBoxLayout;
class QLabel;
class QLineEdit;
class QPushButton;
class QStackedWidget;
class QTableView;

namespace ohmwright {

class DrawerModel;
class ImportView;
class JobDocument;
class Selection;
class ShopDocument;
class ShopJobs;
class SignText;

class DrawerPlace : public QWidget {
    Q_OBJECT
public:
    DrawerPlace(JobDocument& document, Selection& selection, ShopDocument& shop, QWidget* parent = nullptr);

    /// Reads a table and shows it before anything is taken. Errors: as readWholeFile and readDrawerCsv.
    Result<void> previewTable(const QString& path);
    /// Writes the drawer as a table. Errors: fileUnreadable.
    Result<void> writeTable(const QString& path);

signals:
    /// The shop's folder is to be chosen.
    void shopFolderAsked();

protected:
    void resizeEvent(QResizeEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void showEvent(QShowEvent* event) override;

private:
    QBoxLayout* buildHead();
    void arrange();
    QHBoxLayout* buildAddRow();
    void connectWidgets();
    void showHead();
    void say(const QString& sentence);
    void search(const QString& words);
    void addLot();
    void removeLot();
    void askImport();
    void askExport();
    void takeTable();

    JobDocument& m_document;
    ShopDocument& m_shop;
    ShopJobs* m_jobs;
    DrawerModel* m_model;
    QLabel* m_title;
    QLabel* m_folder;
    QLineEdit* m_search;
    QPushButton* m_undo;
    QPushButton* m_redo;
    QPushButton* m_import;
    QPushButton* m_export;
    QPushButton* m_choose;
    QStackedWidget* m_pages;
    QBoxLayout* m_head = nullptr;
    QTableView* m_table;
    ImportView* m_importView;
    DrawerTable m_imported;
    QComboBox* m_kind;
    QLineEdit* m_value;
    QLineEdit* m_quantity;
    QPushButton* m_add;
    QPushButton* m_remove;
    SignText* m_message;
};

}  // namespace ohmwright

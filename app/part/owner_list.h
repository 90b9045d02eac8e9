/// Where no part is chosen: the parts that own the cursor's frequency, strongest first, each to be chosen.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/owner_service.h"

#include <QListWidget>
#include <QWidget>

class QLabel;

namespace ohmwright {

class PanelTitle;

class OwnerList : public QWidget {
    Q_OBJECT
public:
    OwnerList(JobDocument& document, Selection& selection, QWidget* parent = nullptr);

signals:
    void partChosen(const ohmwright::PartId& part);

protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    void showWhetherThereAreParts();
    void showOwners();
    void fill(const std::vector<Owner>& owners);
    void choose(const QListWidgetItem* row);

    JobDocument& m_document;
    Selection& m_selection;
    OwnerService m_owners;
    QLabel* m_hint;
    QWidget* m_answer;
    PanelTitle* m_question;
    QLabel* m_note;
    QListWidget* m_rows;
};

}  // namespace ohmwright

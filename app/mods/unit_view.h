/// The unit on the bench: name, customer, serial and board, visit, save state, the customer's words.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

class QLabel;

namespace ohmwright {

class JobDocument;

/// Follows the document.
class UnitView : public QWidget {
    Q_OBJECT
public:
    explicit UnitView(JobDocument& document, QWidget* parent = nullptr);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void show(const JobDocument& document);

    QLabel* m_name;
    QLabel* m_customer;
    QLabel* m_board;
    QLabel* m_visit;
    QLabel* m_complaint;
};

}  // namespace ohmwright

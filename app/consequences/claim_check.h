/// Claim check: the customer's words held against the figures; words are added from the shop's table and taken out.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/consequence_service.h"

#include <QWidget>

#include <vector>

class QMenu;
class QPushButton;
class QVBoxLayout;

namespace ohmwright {

class ClaimRow;

/// Follows the document's words and the service's answers. Adding and taking out are undoable edits.
class ClaimCheckPanel : public QWidget {
    Q_OBJECT
public:
    ClaimCheckPanel(JobDocument& document, ConsequenceService& consequences, QWidget* parent = nullptr);

    /// In the order of asking.
    [[nodiscard]] const std::vector<ClaimRow*>& rows() const { return m_rows; }
    /// The words that are not held yet, each with what it would be held against.
    QMenu* buildWordMenu(QWidget* parent);

private:
    void followWords();
    void showAnswers();

    JobDocument& m_document;
    ConsequenceService& m_consequences;
    QVBoxLayout* m_list;
    QPushButton* m_add;
    std::vector<ClaimRow*> m_rows;
    std::vector<std::string> m_shownWords;
};

}  // namespace ohmwright

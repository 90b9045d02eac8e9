/// A part of the open circuit kept in the shop's folder as a stage of one's own: which parts, by which nets, under
/// which name, and how it will be drawn. No dialog.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/stage_file.h"

#include <QString>
#include <QWidget>

#include <vector>

class QComboBox;
class QLineEdit;
class QPushButton;
class QVBoxLayout;

namespace ohmwright {

class SmallDrawing;
class ThemedLabel;

class StageKeeper : public QWidget {
    Q_OBJECT
public:
    explicit StageKeeper(QWidget* parent = nullptr);

    /// @param parts  that are chosen on the map; empty: a stage of the drawing is offered.
    /// @param shopFolder  empty: one is to be chosen first.
    void begin(const Circuit& circuit, const std::vector<PartId>& parts, const QString& shopFolder);
    void setShopFolder(const QString& folder);
    /// As it would be kept now. Errors: of takePiece.
    [[nodiscard]] Result<StagePiece> piece() const;

signals:
    void kept(const QString& words);
    void shopFolderAsked();
    void closed();

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    void buildFields(QVBoxLayout& column);
    void chooseParts();
    void follow();
    void keep();
    [[nodiscard]] std::vector<PartId> parts() const;

    Circuit m_circuit;
    std::vector<PartId> m_chosen;
    QString m_shopFolder;
    bool m_isFilling = false;
    QComboBox* m_which = nullptr;
    QComboBox* m_input = nullptr;
    QComboBox* m_output = nullptr;
    QLineEdit* m_name = nullptr;
    QLineEdit* m_does = nullptr;
    ThemedLabel* m_sentence = nullptr;
    SmallDrawing* m_drawing = nullptr;
    QPushButton* m_keep = nullptr;
    QPushButton* m_folder = nullptr;
};

}  // namespace ohmwright

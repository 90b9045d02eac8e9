/// The parameters of a model in two columns, and where they come from.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <QWidget>

class QGridLayout;
class QLabel;

namespace ohmwright {

class ModelCard : public QWidget {
    Q_OBJECT
public:
    explicit ModelCard(QWidget* parent = nullptr);

    void show(const Model& model);

private:
    QGridLayout* m_grid;
    QLabel* m_source;
    Model m_model;
};

}  // namespace ohmwright

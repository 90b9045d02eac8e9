// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/history/sentence_list.h"

#include <QVBoxLayout>

namespace ohmwright {

SentenceList::SentenceList(QWidget* parent) : QWidget(parent) {
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(4);
    hide();
}

void SentenceList::setSentences(const std::vector<SignedSentence>& sentences) {
    if (sentences == m_sentences) {
        return;
    }
    m_sentences = sentences;
    while (QLayoutItem* item = layout()->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    for (const SignedSentence& sentence : sentences) {
        auto* line = new SignText(this);
        line->setSentence(sentence.words, sentence.sign);
        layout()->addWidget(line);
        line->show();  // At once: the panel may be on the screen already.
    }
    setVisible(!sentences.empty());
}

}  // namespace ohmwright

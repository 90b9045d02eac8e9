/// Sentences under each other, each with its sign.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/look/sign_text.h"

#include <QString>
#include <QWidget>

#include <vector>

namespace ohmwright {

struct SignedSentence {
    QString words;
    SignKind sign = SignKind::none;

    friend bool operator==(const SignedSentence&, const SignedSentence&) = default;
};

class SentenceList : public QWidget {
    Q_OBJECT
public:
    explicit SentenceList(QWidget* parent = nullptr);

    void setSentences(const std::vector<SignedSentence>& sentences);
    [[nodiscard]] const std::vector<SignedSentence>& sentences() const { return m_sentences; }

private:
    std::vector<SignedSentence> m_sentences;
};

}  // namespace ohmwright

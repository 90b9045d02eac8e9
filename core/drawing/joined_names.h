/// Names that are one each when pieces are joined: ids, references, nets, knobs, stages, types.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <cstddef>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// What a piece's own names have become.
class PieceNames {
public:
    /// Of names that the piece does not have: as they stand.
    [[nodiscard]] NetName net(const NetName& own) const;
    [[nodiscard]] PartId part(const PartId& own) const;

    [[nodiscard]] Part renamed(const Part& own) const;
    /// @param index  of the stage in its piece: two of one name become two.
    [[nodiscard]] Stage renamed(const Stage& own, std::size_t index) const;
    [[nodiscard]] Knob renamed(const Knob& own) const;

private:
    friend class Namer;
    std::map<NetName, NetName> m_nets;
    std::map<PartId, PartId> m_parts;
    std::map<PartId, std::string> m_references;
    std::map<PartId, std::vector<std::string>> m_pins;  ///< Of halves of a dual op-amp.
    std::map<std::string, std::string> m_models;
    std::map<std::string, std::string> m_knobIds;
    std::map<std::string, std::string> m_knobNames;
    std::vector<std::string> m_stages;  ///< By index.
};

/// Gives names out, a piece after the other.
class Namer {
public:
    /// @param output  the piece whose output net keeps its name; no other takes it.
    explicit Namer(const Circuit& output);

    /// @param input  what its input has become; empty: it has a name of its own.
    PieceNames namesFor(const Circuit& piece, const NetName& input);

    [[nodiscard]] const std::vector<Model>& models() const { return m_models; }
    /// What halves of dual op-amps that are over draw from the supply; call it once, at the end.
    [[nodiscard]] std::vector<Part> spareHalves();
    /// "U1", "U2": bodies of dual op-amps.
    [[nodiscard]] const std::vector<std::string>& chips() const { return m_chips; }

private:
    /// One half of a dual op-amp that was given out.
    struct OpenChip {
        std::string name;   ///< "U1"
        std::string model;  ///< As it is called in the joined circuit.
    };

    void nameNets(const Circuit& piece, const NetName& input, PieceNames& names);
    void nameModels(const Circuit& piece, PieceNames& names);
    void nameParts(const Circuit& piece, PieceNames& names);
    void nameKnobsAndStages(const Circuit& piece, PieceNames& names);
    std::string referenceFor(const Part& part, std::map<std::string, std::string>& chipsOfPiece);
    std::string nextNumbered(const std::string& letters);
    /// The half that it becomes, with its pins: one that is open, else the first of a new body.
    std::string nextHalf(const Part& part, const PieceNames& names, std::vector<std::string>& pins);

    NetName m_lastOutput;
    std::set<std::string> m_usedNets;
    std::set<std::string> m_usedIds;
    std::set<std::string> m_usedReferences;
    std::set<std::string> m_usedKnobIds;
    std::set<std::string> m_usedKnobNames;
    std::set<std::string> m_usedStages;
    std::map<std::string, int> m_lastNumbers;  ///< By the letters of a reference.
    std::vector<Model> m_models;
    std::vector<OpenChip> m_openChips;
    std::vector<std::string> m_chips;
};

}  // namespace ohmwright

/// An independent circuit simulator in this process: libngspice, through its shared-library interface.
///
/// Tests and benchmarks only; nothing under core/ or app/ may link it. The library has one state a process, so there
/// is one object; it is not thread-safe. Names of nets and vectors are folded to lower case by the library.
///
/// Trusted options: reltol 1e-6, abstol 1e-12, vntol 1e-9. Tighter abstol finds states that are none.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <complex>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright::reference {

/// How a netlist is to be solved.
struct SimulatorOptions {
    double celsius = 27.0;  ///< Of every part.
    double reltol = 1e-6;
    double abstol = 1e-12;  ///< [A]
    double vntol = 1e-9;    ///< [V]
    /// Further options: "method=gear"
    std::string further;
};

class SharedSimulator {
public:
    /// The only one; starts the library at the first call. Throws std::runtime_error when it does not start.
    static SharedSimulator& only();

    /// Forgets whatever was loaded and reads a netlist, its analysis cards left out.
    /// Throws std::runtime_error with the library's own words when it refuses.
    void load(std::string_view netlist, const SimulatorOptions& options = {});

    /// Runs one analysis: "op", "ac dec 20 20 20k", "noise v(out) vin dec 20 20 20k", "dc vin -1 1 0.01",
    /// "tran 5u 50m 45m 5u". Results of the one before are gone.
    /// Throws std::runtime_error when it ends without an answer.
    void run(const std::string& analysis);

    /// A vector of the last analysis: "v(out)", "vbat#branch", "frequency", "@q1[ic]". Complex ones give real parts.
    /// Throws std::runtime_error when there is none.
    [[nodiscard]] std::vector<double> real(const std::string& name) const;
    [[nodiscard]] std::vector<std::complex<double>> complex(const std::string& name) const;
    /// Every vector that the last analysis made.
    [[nodiscard]] std::vector<std::string> vectorNames() const;

    /// What the library said since the last load or run: for messages.
    [[nodiscard]] const std::string& spoken() const { return m_spoken; }

    SharedSimulator(const SharedSimulator&) = delete;
    SharedSimulator& operator=(const SharedSimulator&) = delete;

private:
    SharedSimulator();
    ~SharedSimulator() = default;

    void command(std::string words);
    [[nodiscard]] std::vector<std::string> plotNames() const;
    [[noreturn]] void complain(const std::string& what) const;

    static int hear(char* words, int simulator, void* self);
    static int leave(int status, bool unload, bool quit, int simulator, void* self);

    std::string m_spoken;
    std::string m_title;
    bool m_loaded = false;
    bool m_gaveUp = false;
};

/// The netlist as the library is to have it: no analysis or option cards, ours before `.end`.
std::vector<std::string> simulatorLines(std::string_view netlist, const SimulatorOptions& options);

}  // namespace ohmwright::reference

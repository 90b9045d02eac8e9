// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_laws.h"

#include "core/devices/constants.h"
#include "core/devices/model_parameters.h"
#include "core/files/netlist_names.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ohmwright {

namespace {

std::string num(double value) {
    return formulaNumber(value);
}

/// The text of a subcircuit as it grows, and what its lines share.
class Lines {
public:
    Lines(const Model& model, const SubcircuitOptions& options) : m_model(model), m_options(options) {}

    void comment(const std::string& words) { m_text += "* " + words + "\n"; }
    void open(const std::string& pins) { m_text += ".subckt " + m_options.name + " " + pins + "\n"; }
    void element(const std::string& card) { m_text += card + "\n"; }
    void element(const std::string& nameAndNets, double value) { element(nameAndNets + " " + netlistNumber(value)); }
    /// A conductance that makes no noise.
    void conductance(const std::string& name, const std::string& plus, const std::string& minus, double siemens) {
        const std::string nets = plus + " " + minus;
        element(name + " " + nets + " " + nets, siemens);
    }
    /// The models stand behind the subcircuit.
    void diodeModel(const std::string& ending, const std::string& figures) {
        m_models += ".model " + diodeName(ending) + " D(" + figures + " TNOM=" + netlistNumber(celsius()) + ")\n";
    }
    [[nodiscard]] std::string diodeName(const std::string& ending) const { return m_options.helperName + ending; }
    std::string close() { return m_text + ".ends " + m_options.name + "\n" + m_models; }

    [[nodiscard]] double figure(const std::string& name, double fallback) const {
        return parameterOr(m_model, name, fallback);
    }
    [[nodiscard]] bool has(const std::string& name) const { return states(m_model, name); }
    [[nodiscard]] double kelvin() const { return m_options.kelvin; }
    [[nodiscard]] double devices() const { return m_options.devices > 0.0 ? m_options.devices : 1.0; }

private:
    [[nodiscard]] double celsius() const {
        constexpr double freezingKelvin = 273.15;
        return m_options.kelvin == nominalKelvin ? 27.0 : m_options.kelvin - freezingKelvin;
    }

    const Model& m_model;
    const SubcircuitOptions& m_options;
    std::string m_text;
    std::string m_models;
};

constexpr double flickerAmperes = 1.0;  ///< In the diodes that flicker: so much that their shot noise is next to none.

/// A diode that carries the current; `name` is of it and of its net.
void addFlickerDiode(Lines& lines, const std::string& name, const std::string& ending) {
    lines.element("I" + name + " 0 " + name + " DC", flickerAmperes);
    lines.element("D" + name + " " + name + " 0 " + lines.diodeName("_FLICKER" + ending));
}

/// Two diodes with the same current: the difference of their voltages is noise alone, `power`/f.
/// @param power  [V^2], at 1 Hz.
void addFlickerPair(Lines& lines, const std::string& ending, double power) {
    const double thermal = thermalVolts(lines.kelvin());
    // Each makes KF I/f beside its own resistance Vt/I.
    const double kf = power * flickerAmperes / (2.0 * thermal * thermal);
    addFlickerDiode(lines, "F" + ending + "A", ending);
    addFlickerDiode(lines, "F" + ending + "B", ending);
    lines.diodeModel("_FLICKER" + ending, "IS=10f N=1 AF=1 KF=" + netlistNumber(kf));
}

/// Shot noise that a flicker pair adds [V^2/Hz].
double flickerPairWhite(double kelvin) {
    const double thermal = thermalVolts(kelvin);
    return 4.0 * elementaryCharge * thermal * thermal / flickerAmperes;
}

/// Resistance whose thermal noise has this power [V^2/Hz].
double noiseOhms(double power, double kelvin) {
    return power / (4.0 * boltzmann * kelvin);
}

/// EN and FCE in series with the non-inverting input; returns the net behind them.
std::string addInputNoise(Lines& lines) {
    const double density = lines.figure("EN", 0.0);
    const double flicker = density * density * lines.figure("FCE", 0.0);
    double white = density * density;
    std::string net = "ip";
    if (flicker > 0.0) {
        white = std::max(white - flickerPairWhite(lines.kelvin()), 0.0);
    }
    if (white > 0.0) {
        lines.element("RN ip a", noiseOhms(white, lines.kelvin()));
        net = "a";
    }
    if (flicker > 0.0) {
        addFlickerPair(lines, "V", flicker);
        lines.element("EN " + net + " b FVA FVB 1");
        net = "b";
    }
    return net;
}

constexpr double noiseSiemens = 1e-6;  ///< Turns a noise voltage of parts that nothing else is on into a current.

/// @param white, flicker  [V^2/Hz] and [V^2], before the transconductance.
void addCurrentNoiseAt(Lines& lines, const std::string& input, double white, double flicker) {
    if (white > 0.0) {
        lines.element("RN" + input + " n" + input + " 0", noiseOhms(white, lines.kelvin()));
        lines.element("GN" + input + " " + input + " 0 n" + input + " 0", noiseSiemens);
    }
    if (flicker > 0.0) {
        addFlickerPair(lines, input, flicker);
        lines.element("GF" + input + " " + input + " 0 F" + input + "A F" + input + "B", noiseSiemens);
    }
}

/// IN and FCI: a noise current at each input.
void addInputCurrentNoise(Lines& lines) {
    const double density = lines.figure("IN", 0.0) / noiseSiemens;
    const double flicker = density * density * lines.figure("FCI", 0.0);
    if (density > 0.0) {
        const double white = density * density - (flicker > 0.0 ? flickerPairWhite(lines.kelvin()) : 0.0);
        addCurrentNoiseAt(lines, "ip", white, flicker);
        addCurrentNoiseAt(lines, "im", white, flicker);
    }
}

/// The gain node x between its clamps, and the copy of it that the output shows; returns the net of the copy.
std::string addGainNode(Lines& lines, const std::string& input) {
    const double farads = lines.figure("CP", 100e-9);
    const double siemens = 2.0 * std::numbers::pi * lines.figure("GBW", 3e6) * farads;
    const double limit = lines.has("SR") ? lines.figure("SR", 13e6) * farads : lines.figure("ILIM", 1.3);
    const double offset = lines.figure("VOS", 0.0);
    const std::string difference = "v(" + input + ",im)";
    const std::string drive = offset == 0.0 ? difference : "(" + difference + "+" + num(offset) + ")";
    lines.element("BT 0 x I=" + num(limit) + "*tanh(" + num(siemens) + "*" + drive + "/" + num(limit) + ")");
    lines.conductance("GX", "x", "0", siemens / lines.figure("GAIN", 2e5));
    lines.element("CX x 0", farads);
    const std::string clamp = lines.diodeName("_CLAMP");
    lines.element("EH h1 0 vp 0 1");
    lines.element("VH h1 h DC", lines.figure("HEADROOM_P", 1.9));
    lines.element("DH x h " + clamp);
    lines.element("EL l1 0 vn 0 1");
    lines.element("VL l l1 DC", lines.figure("HEADROOM_N", 1.9));
    lines.element("DL l x " + clamp);
    lines.diodeModel("_CLAMP", "IS=" + netlistNumber(lines.figure("CLAMP_IS", 1e-12)) +
                                   " N=" + netlistNumber(lines.figure("CLAMP_N", 1.0)));
    const double pole = lines.figure("POLE2", 0.0);
    if (!(pole > 0.0)) {
        return "x";
    }
    lines.element("GY 0 y x 0 1");
    lines.conductance("GYL", "y", "0", 1.0);
    lines.element("CY y 0", 1.0 / (2.0 * std::numbers::pi * pole));
    return "y";
}

void addOutput(Lines& lines, const std::string& stage) {
    const double ohms = lines.figure("ROUT", 100.0);
    const double limit = lines.figure("IOUT", 0.0);
    if (limit > 0.0) {
        lines.element("BO o 0 I=" + num(limit) + "*tanh(v(o," + stage + ")/" + num(ohms * limit) + ")");
    } else {
        lines.element("GO o 0 o " + stage, 1.0 / ohms);
    }
}

// --- valves ---

/// RGI, RNEQ and the fixed capacitances; the nets that the grid's voltage and current are taken from.
struct GridNets {
    std::string sensed = "g";   ///< Behind the resistance that makes the noise and carries no current.
    std::string current = "g";  ///< Behind RGI.
};

GridNets addGrid(Lines& lines, double gridOhms, const char* gridToAnode) {
    GridNets nets;
    const double devices = lines.devices();
    if (const double noise = lines.figure("RNEQ", 0.0); noise > 0.0) {
        // The law's noise is that of the nominal temperature.
        lines.element("RN g gn", noise / devices * (nominalKelvin / lines.kelvin()));
        nets.sensed = "gn";
    }
    if (gridOhms > 0.0) {
        lines.element("RGI g gi", gridOhms / devices);
        nets.current = "gi";
    }
    const auto capacitance = [&](const char* name, const char* ends) {
        if (const double farads = lines.figure(name, 0.0); farads > 0.0) {
            lines.element(std::string(name) + " " + ends, farads * devices);
        }
    };
    capacitance("CCG", "g k");
    capacitance(gridToAnode, "g a");
    capacitance("CCP", "a k");
    return nets;
}

/// Grid current of a diode. A cathode is hot, whatever the room is: N Vt is that of the nominal temperature.
void addGridDiode(Lines& lines, const std::string& net) {
    const double emission = lines.figure("N", 1.0) * nominalKelvin / lines.kelvin();
    lines.element("DG " + net + " k " + lines.diodeName("_GRID"));
    lines.diodeModel(
        "_GRID", "IS=" + netlistNumber(lines.figure("IS", 1e-9) * lines.devices()) + " N=" + netlistNumber(emission));
}

std::string volts(const std::string& plus) {
    return "v(" + plus + ",k)";
}

/// max(ln(1 + exp(softness x))/softness, 0)^exponent
std::string softPower(double softness, const std::string& x, double exponent) {
    return "(ln(1+exp(" + num(softness) + "*" + x + "))/" + num(softness) + ")**" + num(exponent);
}

void addFirstTriode(Lines& lines) {
    const GridNets grid = addGrid(lines, lines.figure("RGI", 2000.0), "CGP");
    const std::string kp = num(lines.figure("KP", 600.0));
    lines.element("BE e 0 V=v(a,k)/" + kp + "*ln(1+exp(" + kp + "*(1/" + num(lines.figure("MU", 100.0)) + "+" +
                  volts(grid.sensed) + "/sqrt(" + num(lines.figure("KVB", 300.0)) + "+v(a,k)*v(a,k)))))");
    lines.element("BA a k I=" + num(lines.devices() * 2.0 / lines.figure("KG1", 1060.0)) + "*max(v(e),0)**" +
                  num(lines.figure("EX", 1.4)));
    addGridDiode(lines, grid.current);
}

void addSecondTriode(Lines& lines) {
    const GridNets grid = addGrid(lines, lines.figure("RGI", 0.0), "CGP");
    const double devices = lines.devices();
    const std::string drive = "(v(a,k)/" + num(lines.figure("MU", 100.0)) + "+" + volts(grid.sensed) + ")";
    const std::string cathode = num(devices * lines.figure("G", 2.242e-3)) + "*" +
                                softPower(lines.figure("C", 3.4), drive, lines.figure("GAMMA", 1.26));
    const std::string gridCurrent =
        num(devices * lines.figure("GG", 6.177e-4)) + "*" +
        softPower(lines.figure("CG", 9.901), volts(grid.current), lines.figure("XI", 1.314)) + "+" +
        num(devices * lines.figure("IG0", 0.0));
    lines.element("BA a k I=" + cathode + "-(" + gridCurrent + ")");
    lines.element("BG " + grid.current + " k I=" + gridCurrent);
    constexpr double junctionGmin = 1e-12;  // [S] as across every junction; see core/solve/equations.h
    lines.conductance("GG", grid.current, "k", junctionGmin);
}

}  // namespace

std::string opampSubcircuit(const Model& model, const SubcircuitOptions& options) {
    Lines lines(model, options);
    lines.comment("op-amp " + options.name + ": pins + - out V+ V-");
    lines.comment("a saturating transconductance into the gain node x, clamps inside the supplies, a copy of x behind");
    lines.comment("the output resistance");
    if (lines.figure("EN", 0.0) > 0.0) {
        lines.comment("RN carries no current; its thermal noise is the amplifier's");
    }
    lines.open("ip im o vp vn");
    const std::string input = addInputNoise(lines);
    if (const double siemens = inverseOrNone(model, "RIN"); siemens > 0.0) {
        lines.conductance("GIN", "ip", "im", siemens);
    }
    const std::string stage = addGainNode(lines, input);
    addOutput(lines, stage);
    lines.element("IQ vp vn DC", lines.figure("IQ", 1.4e-3));
    if (const double bias = lines.figure("IB", 0.0); bias != 0.0) {
        lines.element("IBP ip 0 DC", bias);
        lines.element("IBM im 0 DC", bias);
    }
    addInputCurrentNoise(lines);
    return lines.close();
}

std::string triodeSubcircuit(const Model& model, const SubcircuitOptions& options) {
    Lines lines(model, options);
    lines.comment("triode " + options.name + ": pins anode grid cathode");
    lines.open("a g k");
    // As devices/triode.h tells the two laws apart.
    if (lines.figure("LAW", lines.has("G") ? 2.0 : 1.0) == 2.0) {
        addSecondTriode(lines);
    } else {
        addFirstTriode(lines);
    }
    return lines.close();
}

std::string pentodeSubcircuit(const Model& model, const SubcircuitOptions& options) {
    Lines lines(model, options);
    lines.comment("pentode " + options.name + ": pins anode screen grid cathode");
    lines.open("a s g k");
    const GridNets grid = addGrid(lines, lines.figure("RGI", 1000.0), "CPG1");
    const std::string kp = num(lines.figure("KP", 60.0));
    const std::string mu = num(lines.figure("MU", 11.0));
    const std::string exponent = num(lines.figure("EX", 1.35));
    // Down to 1 nV the published formula; below, what it tends to: max(Vs/MU + Vg, 0).
    const std::string screen = "max(v(s,k),1n)";
    lines.element("BE e 0 V=" + screen + "/" + kp + "*ln(1+exp(" + kp + "*(1/" + mu + "+(" + volts(grid.sensed) +
                  "+(min(v(s,k),1n)-1n)/" + mu + ")/" + screen + ")))");
    lines.element("BA a k I=" + num(lines.devices() * 2.0 / lines.figure("KG1", 600.0)) + "*max(v(e),0)**" + exponent +
                  "*atan(v(a,k)/" + num(lines.figure("KVB", 24.0)) + ")");
    lines.element("BS s k I=" + num(lines.devices() / lines.figure("KG2", 4200.0)) + "*max(v(s,k)/" + mu + "+" +
                  volts("g") + ",0)**" + exponent);
    addGridDiode(lines, grid.current);
    return lines.close();
}

}  // namespace ohmwright

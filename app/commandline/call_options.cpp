// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/call_options.h"

#include "core/drawing/edit_lines.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <array>
#include <sstream>

namespace ohmwright {

namespace {

constexpr const char* programName = "ohmwright-cli";

constexpr Options operator|(Options a, Options b) {
    return static_cast<Options>(static_cast<std::uint64_t>(a) | static_cast<std::uint64_t>(b));
}
constexpr bool has(Options all, Options one) {
    return (static_cast<std::uint64_t>(all) & static_cast<std::uint64_t>(one)) != 0;
}

// ---- The verbs -----------------------------------------------------------------------------------------------

constexpr std::array<Verb, 38> verbs = {{
    {"response", "Small-signal response from the input to the output: frequency_hz,magnitude_db,phase_deg",
     Options::grid | Options::at, Ends::both, "stock", false, answerResponse},
    {"bias", "DC voltage of every node (node,voltage_v) and current into every part (part,terminal,current_a)",
     Options::none, Ends::none, "stock", false, answerBias},
    {"noise",
     "Noise density at the output: frequency_hz,output_v_per_rthz,input_referred_v_per_rthz (empty where the input "
     "does "
     "not reach the output)",
     Options::grid | Options::at, Ends::both, "stock", false, answerNoise},
    {"waveform", "Wave at the output for a tone, bias included: time_s,input_v,output_v",
     Options::toneAlone | Options::level | Options::wave, Ends::both, "stock", false, answerWaveform},
    {"harmonics",
     "Harmonics of the settled wave: harmonic,amplitude_v_peak,level_db_re_fundamental,phase_deg and thd_percent",
     Options::toneAlone | Options::level | Options::count, Ends::both, "stock", false, answerHarmonics},
    {"transfer", "DC sweep of the input source: input_v,output_v", Options::sweep, Ends::both, "stock", false,
     answerTransfer},
    {"poles", "Poles of the circuit and zeros to the output, s / 2 pi: kind,real_hz,imag_hz", Options::none, Ends::both,
     "stock", false, answerPoles},
    {"influence", "Change at the output for 10 % more of each part, to first order: part,db_per_ten_percent",
     Options::at, Ends::both, "stock", false, answerInfluence},
    {"impedance", "Impedance at the input or the output: frequency_hz,magnitude_ohm,phase_deg",
     Options::grid | Options::at | Options::side, Ends::input, "stock", false, answerImpedance},
    {"ladder",
     "Settled output against the level of a tone: "
     "input_v_peak,output_v_rms,fundamental_v_peak,peak_pos_v,peak_neg_v,slope_db_per_db",
     Options::toneAlone | Options::rungs, Ends::both, "stock", false, answerLadder},
    {"two-tone", "What two tones make of each other: frequency_hz,level_db_re_first_tone",
     Options::tonePair | Options::level, Ends::both, "stock", false, answerTwoTone},
    {"try-on", "What to clip across a part to try a value: clip_across,gives or in_series,gives", Options::tryOn,
     Ends::both, "stock", true, answerTryOn},
    {"targets", "Parts of the drawer that give wanted figures: rank,parts,figures...,swaps,in_stock", Options::targets,
     Ends::both, "now", true, answerTargets},
    {"side-effects", "What the plan upsets: effect,stock,now,limit,margin,unit,state,sentence", Options::shop,
     Ends::both, "now", true, answerSideEffects},
    {"throws",
     "Each throw of the plan's switch: throw,level_dbv,jump_db,peak_positive_v,peak_negative_v,thd_percent and contact "
     "steps from,to,part,step_v",
     Options::none, Ends::both, "now", true, answerThrows},
    {"figures", "Every figure of a job, stock beside now: figure,unit,stock,now,change", Options::none, Ends::both,
     "now", true, answerFigures},
    {"spread", "What tolerance does between two units: frequency_hz,low_db,high_db", Options::grid | Options::at,
     Ends::both, "now", true, answerSpread},
    {"curve",
     "Stock, now and their difference along one kind of curve: what it is read against, then each quantity; "
     "as --out FILE.svg or FILE.png a picture",
     Options::curve, Ends::both, "now", true, answerCurve},
    {"shares", "Each mod alone, and its fair share of what all do together: figure,mod,alone,share", Options::figures,
     Ends::both, "now", true, answerShares},
    {"claims", "A customer's words against figures: word,verdict,figure,stock,now,limit",
     Options::words | Options::shop, Ends::both, "now", true, answerClaims},
    {"knobs", "Old knob positions as new ones: knob,old,new,kept_equal", Options::none, Ends::both, "now", true,
     answerKnobs},
    {"sums",
     "Formulas behind the numbers, with values: figure,formula,with_values,result,unit,solved,difference (dB, else "
     "percent),approximation",
     Options::none, Ends::both, "now", true, answerSums},
    {"steps", "The order of work for the mods that are on: step,mod,kind,red,black,expect_low,expect_high,unit",
     Options::none, Ends::both, "now", true, answerSteps},
    {"probes", "What a voltmeter reads at the pins, with bands: place,what,low,nominal,high,unit", Options::none,
     Ends::both, "now", true, answerProbes},
    {"progress", "How the work of each mod that is on stands: mod,progress,steps,signed", Options::none, Ends::both,
     "now", true, answerProgress},
    {"intake", "What to read on a unit that comes in, and --read judged: place,unit,low,nominal,high,read,verdict",
     Options::readings, Ends::none, "stock", true, answerIntake},
    {"returned", "A unit that comes back against what it left with: place,unit,left,back,limit,verdict",
     Options::readings | Options::visit, Ends::none, "now", true, answerReturned},
    {"recipe-compare",
     "A recipe on this unit before it is applied: known_part,here,certainty,role; mod,applied,how_sure,change; "
     "difference,what,unit,there,here_now,sentence; red,black,reading_unit,as_drawn,as_in_recipe",
     Options::recipe | Options::drawer, Ends::none, "stock", true, answerRecipeCompare},
    {"corrections", "Where the board is another than its drawing: number,part,found,drawn,reason,visit,when,who,note",
     Options::none, Ends::none, "stock", true, answerCorrections},
    {"earlier", "What the job's file held before, newest first: number,written,until_now", Options::none, Ends::none,
     "stock", true, answerEarlier},
    {"walk",
     "The parts to look at on the board, in signal order: step,stage,part,value,printed,known,measured,drawing,where",
     Options::none, Ends::none, "stock", true, answerWalk},
    {"board",
     "Every leg on the board and the nets: part,leg,net,net_name,x,y,place,times_heated,where; of_net,legs,names",
     Options::boardSide, Ends::none, "now", true, answerBoard},
    {"which-revision",
     "Which stored drawing a board is of, by readings on it: rank,drawing,misfit; "
     "of,reading,unit,read,expected,low,high,pull",
     Options::spots | Options::shop, Ends::none, "stock", true, answerWhichRevision},
    {"drawer", "The parts in stock: lot,kind,value,type,quantity,free,printed,measured", Options::drawer, Ends::both,
     "now", true, answerDrawer},
    {"pick-list",
     "The parts that the mods that are on take: mod,place,lot,printed,sentence; with --shop also what its open jobs "
     "are "
     "short of: part,needed,there,missing,jobs",
     Options::drawer, Ends::both, "now", true, answerPickList},
    {"substitutes", "What can stand for a part, best first: lot,value,type,score,consequence",
     Options::drawer | Options::part, Ends::both, "now", true, answerSubstitutes},
    {"device-pick",
     "Which measured device to fit, best first: lot,device,output_v,stage_gain_db,balance,trimmed_ohm,trimmed_gain_db",
     Options::drawer | Options::part, Ends::both, "now", true, answerDevicePick},
    {"quote", "The plan as a price: kind,mod,what,minutes,price and minutes, total", Options::drawer, Ends::both, "now",
     true, answerQuote},
}};

constexpr std::array<WritingVerb, 19> writingVerbs = {{
    {"card", "The job with the visit's card written: words, readings on coming in, state: a job file",
     Options::readings | Options::complaint | Options::card, writeCard},
    {"depart", "The job with the unit gone and what left frozen: a job file", Options::readings | Options::when,
     writeDeparted},
    {"next-visit", "The job of the unit's next visit, its stock being the unit as it left: a job file",
     Options::day | Options::complaint, writeNextVisit},
    {"visit", "The job as it was when an earlier visit ended: a job file", Options::requiredVisit, writeEarlierVisit},
    {"correct", "The job with a dated note beside the frozen record of a visit: a job file",
     Options::requiredVisit | Options::note | Options::day, writeCorrection},
    {"recipe-take", "The mods that are on as a recipe for other units: a recipe file", Options::trims | Options::day,
     writeRecipeTaken},
    {"recipe-apply", "The job with a recipe's mods in its plan, its trims solved for this unit: a job file",
     Options::recipe | Options::drawer, writeRecipeApplied},
    {"seen", "The job with parts marked as seen on the board: a job file", Options::seenParts, writeSeen},
    {"printed", "The job with a printed paper in its visit's list: a job file", Options::paperKind | Options::when,
     writePrinted},
    {"found", "The job with its drawing put right by what the board has, and why: a job file",
     Options::found | Options::when, writeFound},
    {"take-back", "The job with such a correction taken back, as drawn again: a job file", Options::number,
     writeTakenBack},
    {"earlier-version", "What the job's file held before, one of what earlier counts: a job file", Options::number,
     writeEarlierVersion},
    {"measured", "The job with what a meter read of a part: a job file", Options::readValue, writeMeasured},
    {"photo", "The job with a photo of its board, copied beside it: a job file", Options::boardSide | Options::photo,
     writePhoto},
    {"mark-leg", "The job with a leg's place marked on a photo of the board: a job file",
     Options::boardSide | Options::boardLeg | Options::legPlace, writeLegMarked},
    {"unmark-leg", "The job with such a mark taken away: a job file", Options::boardSide | Options::boardLeg,
     writeLegUnmarked},
    {"stage-keep",
     "A stage of the circuit, or parts of it, as a piece that join takes: a stage file; with --shop it is kept there "
     "too",
     Options::keptStage, writeKeptStage},
    {"drawer-table", "The drawer as a table for a spreadsheet: a CSV file that --table reads back", Options::drawer,
     writeDrawerTable},
    {"drawer-merge", "The drawer with the lots of a table: a lot of the same id is replaced: a drawer file",
     Options::drawer | Options::table, writeDrawerMerged},
}};

// ---- Options -------------------------------------------------------------------------------------------------

void addFile(CLI::App& call, Request& request, bool jobsOnly) {
    call.add_option("FILE", request.file, jobsOnly ? "Job file (*.ohmjob)" : "Netlist (*.cir) or job file (*.ohmjob)")
        ->required();
}

void addOut(CLI::App& call, Request& request) {
    call.add_option("--out", request.out, "File to write; default: standard output");
}

void addFormat(CLI::App& call, Request& request) {
    call.add_option("--format", request.format, "csv or json (one object, an array under each column's name)")
        ->check(CLI::IsMember({"csv", "json"}))
        ->capture_default_str();
}

void addState(CLI::App& call, Request& request, const std::string& defaultVariant) {
    call.add_option("--input", request.input,
                    "Independent source that is the input; default: the only one with an AC value, a job's pickup");
    call.add_option("--output", request.output,
                    "Node that is the output, as X1.n2 inside a call; default: \"out\", a job's own");
    call.add_option("--set", request.settings,
                    "Jobs only. NAME=VALUE: a knob's id (0..10), pick-level, tone, battery, load, source=pickup|jack; "
                    "may repeat")
        ->allow_extra_args(false);
    call.add_option("--temperature", request.temperature, "Degrees Celsius, -50 to 125; default 27, or the job's");
    call.add_option("--variant", request.variant,
                    "Jobs only. stock, now (the mods that are on) or letters such as A+B; default: " + defaultVariant);
}

void addGrid(CLI::App& call, Request& request) {
    call.add_option("--from", request.from, "Lowest frequency in Hz; default 20");
    call.add_option("--to", request.to, "Highest frequency in Hz; default 20000");
    call.add_option("--per-decade", request.perDecade, "Points a decade, FROM * 10^(k/N); default 100");
}

void addAt(CLI::App& call, Request& request, bool isAlone) {
    CLI::Option* at =
        call.add_option("--at", request.at,
                        isAlone ? "The frequency in Hz, as in 1k" : "These frequencies instead, as in 82.41,110,1k");
    if (isAlone) at->required();
}

void addWave(CLI::App& call, Request& request) {
    call.add_option("--periods", request.periods, "Periods to write; default 1");
    call.add_option("--rate", request.rate, "Samples a second; default 48000 or 256 a period, whichever is finer");
    CLI::Option* settled = call.add_flag("--settled", request.settled, "The periodic steady state (default)");
    call.add_flag("--cold", request.cold, "From the bias on, the tone rising from 0 at t = 0")->excludes(settled);
}

void addSweep(CLI::App& call, Request& request) {
    call.add_option("--from", request.from, "Lowest value of the source in V; default: 1 V under its own DC value");
    call.add_option("--to", request.to, "Highest value of the source in V; default: 1 V over its own DC value");
    call.add_option("--points", request.points, "Values, both ends among them; default 401");
}

void addRungs(CLI::App& call, Request& request) {
    call.add_option("--from", request.from, "Lowest peak of the tone in V; default 1 mV");
    call.add_option("--to", request.to, "Highest peak of the tone in V; default 1 V");
    call.add_option("--points", request.points, "Levels, equally spaced in dB, both ends among them; default 401");
}

void addTonePair(CLI::App& call, Request& request) {
    call.add_option("--tones", request.tones,
                    "Both frequencies in Hz, as in 82.4,123.6; their ratio one of whole numbers")
        ->required();
    call.add_option("--order", request.order, "Highest order of the products; default 5");
}

void addShop(CLI::App& call, Request& request) {
    call.add_option("--shop", request.shop,
                    "Folder of the shop: drawer, words, rates, limits and jobs; default: the one that the job lies in");
}

void addDrawer(CLI::App& call, Request& request) {
    addShop(call, request);
    call.add_option("--drawer", request.drawer,
                    "Drawer to look into (*.json, *.csv); default: drawer.json in the job's folder or the one above");
}

void addTryOn(CLI::App& call, Request& request) {
    call.add_option("--part", request.part, "Reference of the part, as in R5")->required();
    call.add_option("--value", request.value, "Value to try, as in 2k7; of a diode the type")->required();
    addDrawer(call, request);
}

void addTargets(CLI::App& call, Request& request) {
    call.add_option("--want", request.want,
                    "FIGURE=VALUE, as in gain_leg_corner=590,plateau_gain=29; also response@HZ, stage_gain@HZ")
        ->required();
    call.add_option("--parts", request.parts, "References of the parts that may change, as in R5,C4")->required();
    addDrawer(call, request);
}

/// Options of the unit's stays and its papers.
void addVisitOptions(CLI::App& call, Options options, Request& request) {
    if (has(options, Options::readings))
        call.add_option("--read", request.readings,
                        "PLACE=VALUE as the verb probes names places, as in \"Q1 collector=8.9\" or "
                        "\"supply current=3.9m\"; may repeat")
            ->allow_extra_args(false);
    if (has(options, Options::visit))
        call.add_option("--visit", request.visit, "Number of the visit; default: the last that has ended");
    if (has(options, Options::requiredVisit))
        call.add_option("--visit", request.visit, "Number of a visit that has ended")->required();
    if (has(options, Options::when))
        call.add_option("--when", request.when, "Time, as in 2026-11-24T18:05:00; default: now");
    if (has(options, Options::day)) call.add_option("--date", request.when, "Day, as in 2026-11-24; default: today");
    if (has(options, Options::complaint))
        call.add_option("--complaint", request.complaint, "The customer's own sentence");
    if (has(options, Options::card)) {
        call.add_option("--agreed", request.agreed, "What was agreed to do");
        call.add_option("--condition", request.condition, "As the unit came in, and what came with it");
        call.add_option("--state", request.state, "The visit's state; each asks for what it needs")
            ->check(CLI::IsMember({"draft", "quoted", "on bench", "proven"}));
    }
    if (has(options, Options::note))
        call.add_option("--note", request.note, "The correction, a sentence or two")->required();
    if (has(options, Options::seenParts))
        call.add_option("--parts", request.parts,
                        "References of the parts, as in D1,D2; default: all that the mods that are on work on");
    if (has(options, Options::paperKind))
        call.add_option("--kind", request.kind, "bench, way-back, customer, label or quote")->required();
}

/// What the board has in place of what the drawing says.
void addFoundOptions(CLI::App& call, Options options, Request& request) {
    if (has(options, Options::spots)) {
        call.add_option("--read", request.readings,
                        "PLACE=VOLTS at a pin, powered, or PLACE,PLACE=OHMS (or none), unpowered, as in "
                        "\"Q1 collector=4.43\" and \"R2 leg 1,ground=55.1k\"; may repeat")
            ->required()
            ->allow_extra_args(false);
        call.add_option("--against", request.against, "Job file of another revision; default: the shop's; may repeat")
            ->allow_extra_args(false);
    }
    if (has(options, Options::number))
        call.add_option("--number", request.number,
                        "As the verb corrections counts them, default the last; as earlier counts, default the newest");
    if (has(options, Options::readValue)) {
        call.add_option("--part", request.part, "Reference of the part, as in R5")->required();
        call.add_option("--value", request.value, "What the meter read, as in 3.91k; default: nothing any more");
    }
    if (!has(options, Options::found)) return;
    call.add_option("--part", request.part, "Reference of the part, as in R5")->required();
    call.add_option("--value", request.value, "Its value, as in 2k7");
    call.add_option("--type", request.type, "Its type, as in 1N4148; of the unit, its plan or --models");
    call.add_option("--models", request.models, "File of part data (*.json) with more types");
    call.add_option("--printed", request.printed, "Marking on the body that value or type was read from");
    call.add_option("--tolerance", request.tolerance, "In percent");
    call.add_option("--law", request.law, "Of a pot: linear, \"log 15\" or \"reverse log 10\"");
    call.add_option("--leg", request.leg, "Number of a leg that sits elsewhere, with --net");
    call.add_option("--net", request.net, "Net of that leg; of a part more one net a leg, as in \"o1,0\"");
    call.add_option("--reference", request.reference, "Reference printed on the board");
    call.add_option("--board-note", request.boardNote, "Where it sits, in words");
    call.add_flag("--missing", request.missing, "It is not on the board");
    call.add_option("--more", request.more, "Kind of a part that the drawing has not, as in resistor; --part names it");
    call.add_option("--beside", request.beside, "Part in whose stage a part more is drawn");
    call.add_option("--reason", request.reason, "\"board differs\", \"earlier mod\" or misread")->required();
    call.add_option("--note", request.note, "A sentence beside it");
    call.add_option("--who", request.who, "Who found it");
}

/// The board: a side, a photo of it, a leg and its place.
void addBoardOptions(CLI::App& call, Options options, Request& request) {
    if (has(options, Options::boardSide))
        call.add_option("--side", request.boardSide, "part or solder")
            ->check(CLI::IsMember({"part", "solder"}))
            ->capture_default_str();
    if (has(options, Options::photo))
        call.add_option("--photo", request.photo, "Picture of the side (*.jpg, *.png); default: no photo any more");
    if (has(options, Options::boardLeg)) {
        call.add_option("--part", request.part, "Reference of the part, as in C4")->required();
        call.add_option("--leg", request.leg, "Leg as the verb board names it, as in \"leg 1\", 2 or base")->required();
    }
    if (has(options, Options::legPlace))
        call.add_option("--at", request.at, "X,Y in pixels of the photo, as in 1220,640")->required();
}

void addRecipeOptions(CLI::App& call, Options options, Request& request) {
    if (has(options, Options::recipe))
        call.add_option("--recipe", request.recipe, "Recipe file, as recipe-take writes it")->required();
    if (!has(options, Options::trims)) return;
    call.add_option("--name", request.name, "Name of the recipe; default: the unit's and the mods' letters");
    call.add_option("--trim", request.trims,
                    "MOD=RULE, a value that is solved anew for every unit: A=half-way or A=4.9 (volts at the output of "
                    "the device that the part feeds), A=gain_leg_corner=590 (a figure); may repeat")
        ->allow_extra_args(false);
}

void addVerb(CLI::App& program, const Verb& verb, Request& request) {
    CLI::App& call = *program.add_subcommand(verb.name, verb.summary);
    addFile(call, request, verb.jobsOnly);
    if (has(verb.options, Options::grid)) addGrid(call, request);
    if (has(verb.options, Options::at)) addAt(call, request, !has(verb.options, Options::grid));
    if (has(verb.options, Options::side))
        call.add_option("--side", request.side, "in: what the input source sees; out: between output and ground")
            ->check(CLI::IsMember({"in", "out"}))
            ->capture_default_str();
    if (has(verb.options, Options::toneAlone))
        call.add_option("--tone", request.tone, "Frequency in Hz, 0.001 to 1e9")->required();
    if (has(verb.options, Options::tonePair)) addTonePair(call, request);
    if (has(verb.options, Options::level))
        call.add_option("--level", request.level,
                        has(verb.options, Options::tonePair) ? "Peak of each tone in V, as in 0.1 or 100m"
                                                             : "Peak of the input source in V, as in 0.1 or 100m")
            ->required();
    if (has(verb.options, Options::wave)) addWave(call, request);
    if (has(verb.options, Options::count))
        call.add_option("--count", request.count, "Harmonics to give, the fundamental among them; default 9");
    if (has(verb.options, Options::sweep)) addSweep(call, request);
    if (has(verb.options, Options::rungs)) addRungs(call, request);
    if (has(verb.options, Options::tryOn)) addTryOn(call, request);
    if (has(verb.options, Options::targets)) addTargets(call, request);
    if (has(verb.options, Options::drawer)) addDrawer(call, request);
    if (has(verb.options, Options::shop)) addShop(call, request);
    if (has(verb.options, Options::part))
        call.add_option("--part", request.part, "Reference of the part, as in Q1")->required();
    if (has(verb.options, Options::figures))
        call.add_option(
            "--figures", request.figures,
            "Ids as the verb figures lists them, or response@95 for the response at 95 Hz; default: level and "
            "four responses");
    if (has(verb.options, Options::curve))
        call.add_option("--kind", request.curve, "response, clip, level, harmonics, time, noise or bias")->required();
    if (has(verb.options, Options::words))
        call.add_option("--words", request.words, "The customer's words, as in \"fuller,less squashed\"")->required();
    addVisitOptions(call, verb.options, request);
    addFoundOptions(call, verb.options, request);
    addBoardOptions(call, verb.options, request);
    addRecipeOptions(call, verb.options, request);
    addState(call, request, verb.defaultVariant);
    addOut(call, request);
    addFormat(call, request);
}

void addKeptStage(CLI::App& call, Request& request) {
    CLI::Option* zone =
        call.add_option("--stage", request.stage, "Name of the stage as it is drawn, as in \"Clip stage\"");
    call.add_option("--parts", request.parts, "References of the parts instead, as in R7,C7")->excludes(zone);
    call.add_option("--name", request.name, "Name on the shelf; default: the stage's own");
    call.add_option("--does", request.does, "What it does, in one line");
    call.add_option("--input", request.input, "Net that is its input; default: found");
    call.add_option("--output", request.output, "Net that is its output; default: found");
    call.add_option("--supply", request.supply, "Net of its 9 V; default: found");
    call.add_option("--half", request.half, "Net of its half supply; default: found");
    call.add_option("--shop", request.shop, "Folder of the shop that keeps it under its name");
}

void addWritingVerb(CLI::App& program, const WritingVerb& verb, Request& request) {
    CLI::App& call = *program.add_subcommand(verb.name, verb.summary);
    addFile(call, request, true);
    addVisitOptions(call, verb.options, request);
    addFoundOptions(call, verb.options, request);
    addBoardOptions(call, verb.options, request);
    addRecipeOptions(call, verb.options, request);
    if (has(verb.options, Options::drawer)) addDrawer(call, request);
    if (has(verb.options, Options::keptStage)) addKeptStage(call, request);
    if (has(verb.options, Options::table))
        call.add_option("--table", request.table,
                        "Table of lots (*.csv): kind, value or type, quantity; more may be there")
            ->required();
    addOut(call, request);
}

void addHistory(CLI::App& program, Request& request) {
    CLI::App& call = *program.add_subcommand("history",
                                             "All visits of a unit out of a folder of job files: "
                                             "visit,state,came,left,complaint,work,file and part,visits_worked");
    call.add_option("FOLDER", request.file, "Folder with job files, here or in folders below")->required();
    call.add_option("--serial", request.serial, "Serial number of the unit, as in HL-0231")->required();
    addOut(call, request);
    addFormat(call, request);
}

void addStageShop(CLI::App& call, Request& request) {
    call.add_option("--shop", request.shop, "Folder of the shop, whose own stages are taken too");
}

void addStages(CLI::App& program, Request& request) {
    CLI::App& call =
        *program.add_subcommand("stages", "The stages that the verb join takes: stage,from,name,does,knobs,fault");
    addStageShop(call, request);
    addOut(call, request);
    addFormat(call, request);
}

void addJoin(CLI::App& program, Request& request) {
    CLI::App& call = *program.add_subcommand(
        "join", "A new unit of stages in signal order, a source before them and a supply and output added: a job file");
    call.add_option("STAGE", request.stages, "Ids as the verb stages lists them, or files (*.json)")->required();
    call.add_option("--name", request.name, "Name of the unit");
    addStageShop(call, request);
    addOut(call, request);
}

void addArrange(CLI::App& program, Request& request) {
    CLI::App& call = *program.add_subcommand(
        "arrange",
        "The circuit placed and drawn anew as a stage map, a netlist made a job: a job file; bends, crossings "
        "and stages are said beside it");
    addFile(call, request, false);
    call.add_option("--parts", request.parts,
                    "References of the parts to lay out anew, as in R5,C4, where the rest stands; else all");
    addOut(call, request);
}

void addDraw(CLI::App& program, Request& request) {
    CLI::App& call = *program.add_subcommand(
        "draw", "The drawing of a unit after edits that are written in a file, one a line: a job file");
    call.add_option("LINES", request.lines, "Text file with an edit a line, as below")->required();
    call.footer(editLineGrammar());
    call.add_option("--onto", request.file, "Job that is drawn on; a new unit without it");
    call.add_option("--name", request.name, "Name of the new unit");
    call.add_option("--models", request.models,
                    "File of part data (*.json): types that the parts can be of, beside those of the program");
    addOut(call, request);
}

void addCheck(CLI::App& program, Request& request) {
    CLI::App& call =
        *program.add_subcommand("check", "Everything wrong or doubtful in the file: severity,place,message");
    addFile(call, request, false);
    addOut(call, request);
    addFormat(call, request);
}

void addExport(CLI::App& program, Request& request) {
    CLI::App& call = *program.add_subcommand("export", "The circuit as a netlist that reads back to the same figures");
    addFile(call, request, false);
    addState(call, request, "stock");
    addOut(call, request);
}

void addSheet(CLI::App& program, Request& request) {
    CLI::App& call = *program.add_subcommand("sheet", "Print a sheet of the job as PDF");
    addFile(call, request, true);
    call.add_option("--kind", request.kind, "bench, way-back, customer, label or quote")->required();
    call.add_option("--paper", request.paper, "a4 or letter")->capture_default_str();
    addDrawer(call, request);
    addState(call, request, "now");
    call.add_option("--out", request.out, "PDF to write")->required();
}

void addMap(CLI::App& program, Request& request) {
    CLI::App& call = *program.add_subcommand("map", "The drawing with its mods as a picture: SVG, PDF or PNG");
    addFile(call, request, true);
    addState(call, request, "now");
    call.add_option("--out", request.out, "Picture to write; its ending says which kind")->required();
}

// ---- What was typed ------------------------------------------------------------------------------------------

std::string verbNames(const CLI::App& program) {
    std::string names;
    for (const CLI::App* verb : program.get_subcommands({})) names += (names.empty() ? "" : ", ") + verb->get_name();
    return names;
}

/// CLI11 says of an unknown verb only that one is required.
std::string whyNotParsed(const CLI::App& program, const CLI::ParseError& error, const std::vector<std::string>& args) {
    const auto chosen = program.get_subcommands();
    if (!chosen.empty())
        return std::string(error.what()) + "; see " + programName + " " + chosen.front()->get_name() + " --help.";
    if (args.empty() || args.front().starts_with("-")) return "Name a verb first: " + verbNames(program) + ".";
    return "There is no verb “" + args.front() + "”: choose from " + verbNames(program) + ".";
}

/// An option with nothing behind it is no option that was left out.
const CLI::Option* emptyOption(const CLI::App& call) {
    for (const CLI::Option* option : call.get_options()) {
        const auto& results = option->results();
        if (option->nonpositional() &&
            std::any_of(results.begin(), results.end(), [](const std::string& text) { return text.empty(); }))
            return option;
    }
    return nullptr;
}

Error wrongCall(const std::string& sentence) {
    return {ErrorCode::invalidInput, sentence, ""};
}

}  // namespace

const Verb* findVerb(const std::string& name) {
    const auto* verb = std::find_if(verbs.begin(), verbs.end(), [&name](const Verb& one) { return name == one.name; });
    return verb == verbs.end() ? nullptr : verb;
}

const WritingVerb* findWritingVerb(const std::string& name) {
    const auto* verb = std::find_if(writingVerbs.begin(), writingVerbs.end(),
                                    [&name](const WritingVerb& one) { return name == one.name; });
    return verb == writingVerbs.end() ? nullptr : verb;
}

Result<std::variant<ReadCall, HelpText>> readCall(const std::vector<std::string>& args) {
    CLI::App program("Figures of a circuit, and of the mods planned for it, without a display.", programName);
    program.set_version_flag("--version", std::string(programName) + " " OHMWRIGHT_VERSION);
    program.require_subcommand(1);
    Request request;
    for (const Verb& verb : verbs) addVerb(program, verb, request);
    for (const WritingVerb& verb : writingVerbs) addWritingVerb(program, verb, request);
    addHistory(program, request);
    addStages(program, request);
    addJoin(program, request);
    addDraw(program, request);
    addArrange(program, request);
    addCheck(program, request);
    addExport(program, request);
    addSheet(program, request);
    addMap(program, request);
    program.footer(
        "Figures may have the suffixes p n u m k M G, as in 4k7 or 100m.\n"
        "Exit status: 0 answered, 2 the call is wrong, 3 the file is wrong, 4 the circuit cannot be solved.");
    try {
        // CLI11 takes the arguments from the back.
        std::vector<std::string> reversed(args.rbegin(), args.rend());
        // "help" and "help draw" are what a hand types first.
        if (!reversed.empty() && reversed.back() == "help") {
            reversed.pop_back();
            reversed.insert(reversed.begin(), "--help");
        }
        program.parse(reversed);
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() != static_cast<int>(CLI::ExitCodes::Success))
            return wrongCall(whyNotParsed(program, error, args));
        std::ostringstream help;
        program.exit(error, help, help);
        return std::variant<ReadCall, HelpText>(HelpText{help.str()});
    }
    const CLI::App& call = *program.get_subcommands().front();
    if (const CLI::Option* option = emptyOption(call))
        return wrongCall(option->get_name() + ": nothing stands behind it; see " + programName + " " + call.get_name() +
                         " --help.");
    return std::variant<ReadCall, HelpText>(ReadCall{call.get_name(), request});
}

}  // namespace ohmwright

// The notation as editors need it for colours and folds. Every text is a sheet to it: what is wrong
// is told by the server, so whatever fits nowhere else is a run of characters.

/** A word of the notation, in upper and lower case alike. */
const word = (text) => new RegExp([...text].map((it) => `[${it}${it.toUpperCase()}]`).join(""));
const words = (...texts) => choice(...texts.map(word));

const ACCIDENTAL = "(##|#|♯♯|♯|x|𝄪|bb|b|♭♭|♭|𝄫|♮)?";
const DEGREE = "(VII|VI|IV|V|III|II|I|vii|vi|iv|v|iii|ii|i)";

const notes = ($) => repeat(choice($._bar_sign, $.text, $.pitch, $.rest, $._word));
const numerals = ($) => repeat(choice($._bar_sign, $.text, $.numeral, $._word));

module.exports = grammar({
  name: "bicinium",

  extras: ($) => [/[^\S\r\n]|\uFEFF/, $.comment],

  rules: {
    sheet: ($) => seq(optional($._line), repeat($._next_line), repeat(choice($.cantus, $.exercise))),

    cantus: ($) => prec.right(seq($.cantus_line, repeat($._next_line))),
    exercise: ($) => prec.right(seq($.exercise_line, repeat($._next_line))),

    cantus_line: ($) => seq(alias($._cantus, $.opener), optional($.name), repeat($._anything)),
    exercise_line: ($) => seq(alias($._exercise, $.opener), repeat($._anything)),

    _next_line: ($) => seq(/\r\n|\n|\r/, optional($._line)),
    _line: ($) =>
      choice(
        $.text_setting,
        $.rulebook,
        $.meter,
        $.species,
        $.points,
        $.key,
        $.licence,
        $.cantus_row,
        $.voice_row,
        $.harmony_row,
        $.other_line,
      ),

    text_setting: ($) => seq(alias(words("use", "by", "deadline"), $.setting), repeat($._anything)),
    rulebook: ($) => seq(alias(word("rulebook"), $.setting), optional($.name), repeat($._anything)),
    meter: ($) => seq(alias(word("meter"), $.setting), optional(alias($._fraction, $.number)), repeat($._anything)),
    species: ($) => seq(alias(word("species"), $.setting), optional(alias($._species, $.number)), repeat($._anything)),
    points: ($) => seq(alias(word("points"), $.setting), optional(alias($._points, $.number)), repeat($._anything)),
    key: ($) =>
      seq(alias(word("key"), $.setting), repeat(choice(alias($._tonic, $.pitch), $.mode, $._anything))),
    licence: ($) =>
      seq(
        alias(word("allow"), $.setting),
        optional($.name),
        repeat(choice(alias(words("at", "to", "because"), $.joint), alias($._place, $.number), $._anything)),
      ),

    cantus_row: ($) => seq(alias(word("line"), $.voice), notes($)),
    voice_row: ($) => prec.right(seq($.voice, optional($._role), notes($))),
    harmony_row: ($) => seq(alias(word("harmony"), $.voice), numerals($)),
    other_line: ($) =>
      prec.right(choice(seq($._run, optional($._role), notes($)), seq($._bar_sign, notes($)), seq($.text, notes($)))),

    name: ($) => prec(1, $._run),
    _role: ($) =>
      choice(seq(alias($._cantus, $.role), optional($.name)), alias(word("counter"), $.role)),

    _bar_sign: ($) => choice("|", "(", ")", $.hold, $.hole),
    _anything: ($) => choice($.text, $._run, "|", "(", ")", $.hole),

    // Where two of these match the same characters, the earlier one is meant.
    comment: () => token(/\/\/[^\r\n]*/),
    text: () => token(choice(/"[^"\r\n]*"?/, /[“”„«»][^“”„«»"\r\n]*[“”«»]/)),
    voice: () => token(words("soprano", "mezzo", "alto", "tenor", "baritone", "bass")),
    _cantus: () => token(word("cantus")),
    _exercise: () => token(word("exercise")),
    mode: () =>
      token(words("major", "minor", "ionian", "dorian", "phrygian", "lydian", "mixolydian", "aeolian")),
    rest: () => token(word("rest")),
    hold: () => "-",
    hole: () => "?",
    _species: () => token(/[1-5]/),
    _points: () => token(/1000|[1-9][0-9]?[0-9]?/),
    _fraction: () => token(/[0-9]+\/[0-9]+/),
    _place: () => token(/[0-9]+(\.[0-9]+)?/),
    _tonic: () => token(new RegExp(`[A-G]${ACCIDENTAL}`)),
    pitch: () => token(new RegExp(`[A-G]${ACCIDENTAL}([0-9][,;.:!]*)?`)),
    numeral: () => token(new RegExp(`${DEGREE}[°øo+]?[0-9/]*`)),
    _run: () => token(/(\/?[^\s\uFEFF|()?"\/])+|\//),
    _word: () => token(/(\/?[^\s\uFEFF|()?"\/-])+|\//),
  },
});


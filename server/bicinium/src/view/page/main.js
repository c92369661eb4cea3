// The page: what it shows, and how its parts work together.

import { Ghosts } from "./ghosts.js";
import { Listening } from "./listening.js";
import { findings, harmonies, harmony, openings } from "./lists.js";
import { Score } from "./score.js";
import { ask, listen, post } from "./server.js";

const by = (id) => document.getElementById(id);
let sheet = null; // what is in the sheet
let shown = null; // the exercise on the page, as it stands
let number = 1;
let asked = 0;

const score = new Score(by("score"), { chosen: say, entered: enter });
const listening = new Listening({
  from: () => score.chosen?.at ?? null,
  light: (tick) => score.light(tick),
});
const ghosts = new Ghosts(by("ghosts"), {
  show: tryOut,
  listen: (spot) => listening.playAround(spot.at),
  close: (spot) => {
    if (!shown) return;
    asItStands();
    by("score").focus();
    score.choose(spot.voice, spot.at);
  },
});

function width() {
  const millimetres = by("score").clientWidth * 25.4 / 96;
  return Math.round(Math.min(Math.max(millimetres, 60), 240));
}

function exercisePath(rest = "") {
  const show = [...document.querySelectorAll("#show input:checked")].map((it) => it.value);
  return `exercise.json?number=${number}&width=${width()}&show=${show.join(",")}${rest}`;
}

/** Brings the page in line with the newest edition. */
async function refresh() {
  const mine = ++asked;
  const [contents, exercise] = await Promise.all([ask("sheet.json"), ask(exercisePath())]);
  if (mine !== asked) return;
  if (!contents) return lost();
  sheet = contents;
  showSheet();
  const numbers = sheet.exercises.map((it) => it.number);
  if (numbers.length > 0 && !numbers.includes(number)) {
    number = numbers[0];
    return refresh();
  }
  showExercise(exercise);
}

function showSheet() {
  by("name").textContent = sheet.name;
  by("trouble").hidden = sheet.trouble === null;
  by("trouble").textContent = sheet.trouble ? `The sheet cannot be shown: ${sheet.trouble}.` : "";
  by("exercise").replaceChildren(...sheet.exercises.map((it) => new Option(entry(it), it.number)));
  by("exercise").value = number;
  by("enter").textContent = sheet.editor ? "Enter goes to the note in the editor, and lists what may stand in a hole" : "Enter lists what may stand in a hole";
}

function entry({ number: nth, title, faults }) {
  const told = faults === 0 ? "" : faults === 1 ? " – 1 fault" : ` – ${faults} faults`;
  return `${nth}. ${title}${told}`;
}

function showExercise(exercise) {
  const isOther = shown?.number !== exercise?.number;
  shown = exercise;
  if (isOther) {
    score.clear();
    by("said").textContent = "";
  }
  if (!exercise) {
    listening.stop();
    ghosts.leave();
    by("score").replaceChildren();
    ["findings", "open", "harmonies"].forEach((id) => by(id).replaceChildren());
    return;
  }
  document.title = `${exercise.title} – bicinium`;
  listening.take(exercise, isOther);
  const spot = ghosts.spot;
  const place = spot && spot.number === exercise.number && exercise.open.find((it) => it.voice === spot.voice && it.at === spot.at);
  if (place) {
    showLists(exercise);
    look(place);
  } else if (spot) {
    ghosts.leave();
  } else {
    asItStands();
  }
}

function asItStands() {
  listening.take(shown, false);
  showLists(shown);
  picture(shown);
}

/** Draws an exercise, with the notes of a voice that begin at these ticks as ghosts. */
function picture(exercise, voice = 0, ticks = []) {
  score.show(exercise.svg, exercise.number);
  ticks.forEach((tick) => score.haunt(voice, tick));
  by("words").textContent = exercise.words;
}

function showLists(exercise) {
  const choose = (voice, at) => score.choose(voice, at);
  const hear = (stretch, chord) => listening.playWith(stretch, chord);
  showFindings(exercise.findings, exercise.findings.length ? "What was found" : "Nothing was found");
  by("open-section").hidden = exercise.open.length === 0;
  by("open").replaceChildren(...openings(exercise.open, look));
  by("harmony-section").hidden = exercise.harmonies.length === 0;
  by("harmonies").replaceChildren(...harmonies(exercise.harmonies, exercise.bar, { choose, hear }));
}

function showFindings(found, head) {
  by("findings").replaceChildren(...findings(found, (voice, at) => score.choose(voice, at)));
  by("findings-head").textContent = head;
}

/** Says what is chosen, and what its bar stands for. */
function say(label, { at }) {
  const stretch = shown?.harmonies.find((it) => it.at <= at && at < it.end);
  by("said").textContent = stretch ? `${label}. ${harmony(stretch)}.` : label;
}

/** Somebody wants more of a sign: the editor goes there, and of a hole it is listed what it may become. */
async function enter({ voice, at }) {
  const place = shown.open.find((it) => it.voice === voice && it.at === at);
  if (place) look(place);
  if (!sheet.editor) return;
  const { done, why } = await post(`select?number=${shown.number}&voice=${voice}&at=${at}`);
  if (!done) by("said").textContent = why;
}

/** Lists what may stand in an open place of the exercise. */
function look({ voice, at, said }) {
  ghosts.open({ number: shown.number, voice, at }, said, sheet.editor);
}

/** Shows a choice as ghost notes; nothing shows the exercise as it stands. */
async function tryOut(choice, ticks) {
  if (choice === null) return asItStands();
  const before = shown;
  const tried = await ask(exercisePath(choice.replace(/^number=\d+/, "")));
  if (!tried || before !== shown || !ghosts.spot) return;
  picture(tried, ghosts.spot.voice, ticks);
  showFindings(tried.findings, tried.findings.length ? "What would be found with this" : "Nothing would be found with this");
  listening.take(tried, false);
}

/** Follows the cursor of the editor. */
async function follow(spot) {
  if (spot.number !== number) {
    number = spot.number;
    await refresh();
  }
  score.choose(spot.voice, spot.at);
}

function lost() {
  by("trouble").hidden = false;
  by("trouble").textContent = "Nobody answers any more: the program that showed this page has ended.";
}

by("print").hidden = window !== window.top; // who holds the page in a frame has no paper for it
by("print").addEventListener("click", () => window.print());
by("show").addEventListener("change", refresh);
by("exercise").addEventListener("change", () => {
  number = Number(by("exercise").value);
  refresh();
});
by("score").addEventListener("keydown", (event) => {
  if (event.key !== " ") return;
  event.preventDefault();
  listening.toggle();
});
let seen = 0;
new ResizeObserver(() => {
  if (seen && Math.abs(width() - seen) > 4) refresh();
  seen = width();
}).observe(by("score"));

listen({ edition: refresh, cursor: follow, lost });

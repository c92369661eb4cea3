// The page: what it shows, and what its controls do.

import { Player } from "./player.js";
import { Score } from "./score.js";

const by = (id) => document.getElementById(id);
const player = new Player();
const score = new Score(by("score"), (label) => { by("said").textContent = label; });
let shown = null; // the exercise on the page
let number = 1;

async function ask(path) {
  const answer = await fetch(path);
  return answer.ok ? answer.json() : null;
}

function width() {
  const millimetres = by("score").clientWidth * 25.4 / 96;
  return Math.round(Math.min(Math.max(millimetres, 60), 240));
}

async function showSheet() {
  const sheet = await ask("sheet.json");
  if (!sheet) return;
  by("name").textContent = sheet.name;
  by("trouble").hidden = sheet.trouble === null;
  by("trouble").textContent = sheet.trouble ? `The sheet cannot be read: ${sheet.trouble}.` : "";
  const options = sheet.exercises.map((it) => new Option(entry(it), it.number));
  by("exercise").replaceChildren(...options);
  const numbers = sheet.exercises.map((it) => it.number);
  if (!numbers.includes(number)) number = numbers[0] ?? 1;
  by("exercise").value = number;
  await showExercise();
}

function entry({ number, title, faults }) {
  const told = faults === 0 ? "" : faults === 1 ? " – 1 fault" : ` – ${faults} faults`;
  return `${number}. ${title}${told}`;
}

async function showExercise() {
  const show = [...document.querySelectorAll("#show input:checked")].map((it) => it.value);
  const exercise = await ask(`exercise.json?number=${number}&width=${width()}&show=${show.join(",")}`);
  if (!exercise) {
    shown = null;
    by("score").replaceChildren();
    return;
  }
  const isOther = shown?.number !== exercise.number;
  shown = exercise;
  document.title = `${exercise.title} – bicinium`;
  if (isOther) {
    player.stop();
    score.clear();
    by("said").textContent = "";
    by("from").value = 1;
    by("to").value = exercise.bars;
  }
  by("from").max = by("to").max = exercise.bars;
  [by("upper").textContent, by("lower").textContent] = exercise.voices;
  score.show(exercise.svg, exercise.number);
  by("words").textContent = exercise.words;
  showFindings(exercise.findings);
  sayPlaying();
}

function showFindings(findings) {
  const items = findings.map((finding) => {
    const button = document.createElement("button");
    const level = document.createElement("span");
    level.className = "level";
    level.textContent = `${finding.number}. ${finding.level}, ${finding.rule}`;
    button.type = "button";
    button.append(level, document.createElement("br"), finding.message);
    button.disabled = finding.at === null;
    button.addEventListener("click", () => score.choose(finding.voice ?? 0, finding.at));
    const item = document.createElement("li");
    item.className = finding.level;
    item.append(button);
    return item;
  });
  by("findings").replaceChildren(...items);
  by("findings-head").textContent = findings.length ? "What was found" : "Nothing was found";
}

function play() {
  if (player.isPlaying) {
    player.stop();
  } else if (shown?.notes.length) {
    start();
  }
  sayPlaying();
}

function start() {
  const { bar, bars, beat, notes } = shown;
  const isLooped = by("loop").checked;
  const first = Math.min(Math.max(Number(by("from").value) || 1, 1), bars);
  const last = Math.min(Math.max(Number(by("to").value) || bars, first), bars);
  const again = isLooped ? (first - 1) * bar : null;
  const to = isLooped ? last * bar : bars * bar;
  let from = score.chosen?.at ?? again ?? 0;
  if (isLooped && (from < again || from >= to)) from = again;
  const ticksPerSecond = Number(by("tempo").value) * beat / 60;
  player.play(notes, { from, to, again, ticksPerSecond, onEnd: sayPlaying });
  requestAnimationFrame(follow);
}

function follow() {
  score.light(player.tick);
  if (player.isPlaying) requestAnimationFrame(follow);
}

function sayPlaying() {
  by("play").textContent = player.isPlaying ? "Stop" : "Play";
}

function balance() {
  const value = Number(by("balance").value);
  player.loudness = [Math.min(1, 1 - value), Math.min(1, 1 + value)];
}

function tempo() {
  by("tempo-said").textContent = `${by("tempo").value} beats a minute`;
}

by("play").addEventListener("click", play);
by("print").addEventListener("click", () => window.print());
by("tempo").addEventListener("input", tempo);
by("balance").addEventListener("input", balance);
by("show").addEventListener("change", showExercise);
by("exercise").addEventListener("change", () => {
  number = Number(by("exercise").value);
  showExercise();
});
by("score").addEventListener("keydown", (event) => {
  if (event.key !== " ") return;
  event.preventDefault();
  play();
});
let seen = 0;
new ResizeObserver(() => {
  if (seen && Math.abs(width() - seen) > 4) showExercise();
  seen = width();
}).observe(by("score"));

tempo();
new EventSource("events").addEventListener("message", showSheet);

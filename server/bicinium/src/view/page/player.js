// Plays notes in time. Times of the music are ticks, 64 to a whole note. Knows no page.

import { desk, tone } from "./sound.js";

const AHEAD = 0.25; // how many seconds are scheduled beforehand
const SIDES = [-0.3, 0.3, 0]; // of the voices, and of what goes with them
const BESIDE = 0.3; // how loud that is
const FADE = 0.05; // how many seconds it takes to fall silent

/** Has notes sound on the desks of their voices, from one tick to another, the first of them at an instant. */
export function perform(context, desks, notes, { begin, end, at, ticksPerSecond }) {
  const within = notes.map(({ voice, midi, at: onset, lasts }) =>
    ({ voice, midi, from: Math.max(onset, begin), to: Math.min(onset + lasts, end) }));
  return within.filter(({ from, to }) => from < to).map(({ voice, midi, from, to }) =>
    tone(context, desks[voice], midi, at + (from - begin) / ticksPerSecond, (to - from) / ticksPerSecond));
}

export class Player {
  #context = null;
  #desks = [];
  #timer = 0;
  #tones = new Set();
  #run = null;
  #loudness = [1, 1];

  /** Whether it plays. */
  get isPlaying() {
    return this.#run !== null;
  }

  /** How loud the voices are, 0 to 1 each. */
  set loudness(values) {
    this.#loudness = values;
    values.forEach((value, voice) => this.#desks[voice]?.gain.setTargetAtTime(value, this.#context.currentTime, 0.03));
  }

  /** Plays notes from one tick to another (of voice 2 what goes with them, softly), over and over if `again` says from which tick on. */
  play(notes, { from, to, again, ticksPerSecond, onEnd }) {
    this.stop();
    this.#context ??= new AudioContext();
    this.#context.resume();
    this.#desks = SIDES.map((side, index) => desk(this.#context, side, this.#loudness[index] ?? BESIDE));
    const start = this.#context.currentTime + 0.08;
    this.#run = { notes, from, to, again, ticksPerSecond, onEnd, start, done: 0, round: 0 };
    this.#timer = setInterval(() => this.#schedule(), 60);
    this.#schedule();
  }

  /** Falls silent. */
  stop() {
    clearInterval(this.#timer);
    const now = this.#context?.currentTime ?? 0;
    this.#desks.forEach((it) => it.gain.setTargetAtTime(0, now, FADE / 5));
    this.#tones.forEach((it) => it.stop(now + FADE));
    this.#tones.clear();
    this.#run = null;
  }

  /** The tick that is heard now; null if nothing is. */
  get tick() {
    if (!this.#run) return null;
    const { from, to, again, ticksPerSecond, start } = this.#run;
    const passed = Math.max(0, this.#context.currentTime - start) * ticksPerSecond;
    if (from + passed < to || again === null) return Math.min(from + passed, to);
    return again + ((from + passed - to) % (to - again));
  }

  #schedule() {
    const run = this.#run;
    const horizon = (this.#context.currentTime + AHEAD - run.start) * run.ticksPerSecond;
    while (run.done < horizon) {
      const begin = run.round === 0 ? run.from : run.again;
      this.#round(begin, run.to, run.done);
      run.done += run.to - begin;
      run.round += 1;
      if (run.again === null) break;
    }
    const isOver = run.again === null && this.#context.currentTime > run.start + run.done / run.ticksPerSecond + 0.1;
    if (isOver) {
      this.stop();
      run.onEnd();
    }
    if (run.again === null && run.round > 0) run.done = Math.max(run.done, run.to - run.from);
  }

  /** All notes of one round, which begins so many ticks after the start. */
  #round(begin, end, after) {
    const { notes, ticksPerSecond, start } = this.#run;
    const at = start + after / ticksPerSecond;
    for (const sound of perform(this.#context, this.#desks, notes, { begin, end, at, ticksPerSecond })) {
      this.#tones.add(sound);
      sound.onended = () => this.#tones.delete(sound);
    }
  }
}

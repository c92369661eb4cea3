// The controls for listening: what is played from where, how fast, how loud, how often. Knows no score.

import { Player } from "./player.js";

const by = (id) => document.getElementById(id);

export class Listening {
  #player = new Player();
  #music = null;
  #from;
  #light;

  /** `from` tells the tick that is chosen, or null; `light` takes the tick that is heard, or null. */
  constructor({ from, light }) {
    this.#from = from;
    this.#light = light;
    by("play").addEventListener("click", () => this.toggle());
    by("tempo").addEventListener("input", () => this.#sayTempo());
    by("balance").addEventListener("input", () => this.#balance());
    this.#sayTempo();
  }

  /** Takes an exercise to play; whether it is another one than before. */
  take(music, isOther) {
    this.#music = music;
    by("from").max = by("to").max = music.bars;
    if (isOther) {
      this.stop();
      by("from").value = 1;
      by("to").value = music.bars;
    }
    [by("upper").textContent, by("lower").textContent] = music.voices;
  }

  /** Plays, or stops. */
  toggle() {
    if (this.#player.isPlaying) this.stop();
    else if (this.#music?.notes.length) this.#start();
  }

  /** Plays the bar around a tick, with those beside it. */
  playAround(tick) {
    const { bar, bars } = this.#music;
    const here = Math.floor(tick / bar);
    const [from, to] = [Math.max(here - 1, 0) * bar, Math.min(here + 2, bars) * bar];
    this.#play({ from, to, again: null });
  }

  /** Plays a stretch with a chord under it. */
  playWith({ at, end }, chord) {
    const beside = chord.map((midi) => ({ voice: 2, at, lasts: end - at, midi }));
    this.#play({ from: at, to: end, again: null }, [...this.#music.notes, ...beside]);
  }

  /** Falls silent. */
  stop() {
    this.#player.stop();
    this.#say();
  }

  #start() {
    const { bar, bars } = this.#music;
    const isLooped = by("loop").checked;
    const first = Math.min(Math.max(Number(by("from").value) || 1, 1), bars);
    const last = Math.min(Math.max(Number(by("to").value) || bars, first), bars);
    const again = isLooped ? (first - 1) * bar : null;
    const to = isLooped ? last * bar : bars * bar;
    let from = this.#from() ?? again ?? 0;
    if (isLooped && (from < again || from >= to)) from = again;
    this.#play({ from, to, again });
  }

  #play(stretch, notes = this.#music.notes) {
    const ticksPerSecond = Number(by("tempo").value) * this.#music.beat / 60;
    this.#player.play(notes, { ...stretch, ticksPerSecond, onEnd: () => this.#say() });
    this.#say();
    requestAnimationFrame(() => this.#follow());
  }

  #follow() {
    this.#light(this.#player.tick);
    if (this.#player.isPlaying) requestAnimationFrame(() => this.#follow());
  }

  #say() {
    by("play").textContent = this.#player.isPlaying ? "Stop" : "Play";
  }

  #sayTempo() {
    by("tempo-said").textContent = `${by("tempo").value} beats a minute`;
  }

  #balance() {
    const value = Number(by("balance").value);
    this.#player.loudness = [Math.min(1, 1 - value), Math.min(1, 1 + value)];
  }
}

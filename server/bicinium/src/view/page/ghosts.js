// What an open place may become: a list to go through, each choice shown as ghost notes and to be heard
// before one of them is written. Knows neither pictures nor sound.

import { ask, post } from "./server.js";

export class Ghosts {
  #place;
  #show;
  #listen;
  #close;
  #spot = null;
  #edition = 0;
  #choices = [];
  #asked = 0;

  /**
   * `show` takes a query for an exercise with a choice tried, and the onsets of its notes, or nothing for
   * the exercise as it stands; `listen` plays what is tried; `close` is called when the list goes away.
   */
  constructor(place, { show, listen, close }) {
    this.#place = place;
    this.#show = show;
    this.#listen = listen;
    this.#close = close;
    place.querySelector("#choices").addEventListener("change", () => this.#tryChosen());
    place.querySelector("#hear").addEventListener("click", () => listen(this.#spot));
    place.querySelector("#write").addEventListener("click", () => this.#write());
    place.querySelector("#leave").addEventListener("click", () => this.leave());
    place.addEventListener("keydown", (event) => this.#key(event));
  }

  /** The open place that is looked at; null if none is. */
  get spot() {
    return this.#spot;
  }

  /** Lists what may stand at a spot, which is called like this; the choice of a text is kept. */
  async open(spot, said, hasEditor, text = this.#chosen?.text) {
    const asked = ++this.#asked;
    const isSame = this.#isAt(spot);
    this.#spot = spot;
    this.#place.hidden = false;
    this.#say("#ghosts-head", `What may stand in ${said}`);
    if (!isSame) this.#list([], "Looking …");
    this.#place.querySelector("#write").hidden = !hasEditor;
    this.#place.querySelector("#alone").hidden = hasEditor;
    const found = await ask(`openings.json?${query(spot)}`);
    if (asked !== this.#asked) return;
    this.#edition = found?.edition ?? 0;
    const told = found === null ? "This cannot be told now." : summary(found);
    this.#list(found?.choices ?? [], told);
    const index = Math.max(this.#choices.findIndex((it) => it.text === text), 0);
    const input = this.#place.querySelectorAll("#choices input")[index];
    if (!input) {
      this.#show(null);
      return;
    }
    input.checked = true;
    if (!isSame) input.focus();
    await this.#tryChosen();
  }

  /** Closes the list; the exercise is shown as it stands. */
  leave() {
    if (!this.#spot) return;
    const spot = this.#spot;
    this.#asked += 1;
    this.#spot = null;
    this.#place.hidden = true;
    this.#list([], "");
    this.#close(spot);
  }

  get #chosen() {
    const index = [...this.#place.querySelectorAll("#choices input")].findIndex((it) => it.checked);
    return index < 0 ? null : { ...this.#choices[index], index };
  }

  #isAt({ number, voice, at }) {
    const now = this.#spot;
    return now !== null && now.number === number && now.voice === voice && now.at === at;
  }

  async #tryChosen() {
    const chosen = this.#chosen;
    if (chosen) await this.#show(`${query(this.#spot)}&choice=${chosen.index}`, chosen.notes);
  }

  async #write() {
    const chosen = this.#chosen;
    if (!chosen) return;
    const { done, why } = await post(`write?${query(this.#spot)}&choice=${chosen.index}&edition=${this.#edition}`);
    if (done) this.leave();
    else this.#say("#ghosts-told", why);
  }

  #key(event) {
    if (event.key === "Escape") this.leave();
    else if (event.key === "Enter" && event.target.matches("input")) this.#write();
    else return;
    event.preventDefault();
  }

  #list(choices, told) {
    this.#choices = choices;
    this.#say("#ghosts-told", told);
    this.#place.querySelector("#choices").replaceChildren(...choices.map(choice));
    this.#place.querySelectorAll("#hear, #write").forEach((it) => { it.disabled = choices.length === 0; });
  }

  #say(where, text) {
    this.#place.querySelector(where).textContent = text;
  }
}

function choice({ text, detail }) {
  const label = document.createElement("label");
  const input = document.createElement("input");
  const name = document.createElement("b");
  input.type = "radio";
  input.name = "choice";
  name.textContent = text;
  label.append(input, name, ` ${detail.startsWith(`${text}: `) ? detail.slice(text.length + 2) : detail}`);
  return label;
}

function summary({ all, choices }) {
  if (choices.length === 0) return all ? "Nothing: from no pitch can the end be reached." : "Nothing was found in the time.";
  return all ? "From each the end can be reached without a fault; the best comes first."
    : "From each the end can be reached without a fault; there may be more.";
}

function query({ number, voice, at }) {
  return `number=${number}&voice=${voice}&at=${at}`;
}

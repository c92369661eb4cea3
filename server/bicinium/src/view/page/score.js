// The score on the page: which note is chosen, which sound. Knows pictures and ids, no sound.

const VOICES = ["upper", "lower"];
const REACH = 24; // pixels from a note that still mean it

export class Score {
  #place;
  #signs = [[], []]; // what stands in each voice, in order of time
  #chosen = null;
  #onChosen;
  #onEntered;

  /** `chosen` is told what a chosen sign is called and where it stands, `entered` that more is wanted of it. */
  constructor(place, { chosen, entered }) {
    this.#place = place;
    this.#onChosen = chosen;
    this.#onEntered = entered;
    place.addEventListener("click", (event) => {
      const sign = this.#near(event.clientX, event.clientY);
      if (!sign) return;
      this.choose(sign.voice, sign.at);
      entered(sign);
    });
    place.addEventListener("keydown", (event) => this.#key(event));
  }

  /** What is chosen: voice and tick; null if nothing is. */
  get chosen() {
    return this.#chosen;
  }

  /** Shows the score of an exercise. */
  show(svg, number) {
    const parsed = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
    this.#place.replaceChildren(document.importNode(parsed, true));
    this.#signs = VOICES.map((voice, index) => {
      const prefix = `x${number}-${voice}-`;
      const elements = [...this.#place.querySelectorAll(`[id^="${prefix}"]`)];
      const signs = elements.map((element) => ({ element, voice: index, at: Number(element.id.slice(prefix.length)) }));
      return signs.sort((a, b) => a.at - b.at);
    });
    const before = this.#chosen;
    this.#chosen = null;
    if (before) this.choose(before.voice, before.at);
  }

  /** Forgets what is chosen. */
  clear() {
    this.#chosen?.element.classList.remove("chosen");
    this.#chosen?.element.querySelector(".halo")?.remove();
    this.#chosen = null;
  }

  /** Chooses what a voice has at a tick. */
  choose(voice, tick) {
    const sign = this.#sounding(voice, tick);
    this.clear();
    if (!sign) return;
    this.#chosen = sign;
    sign.element.classList.add("chosen");
    sign.element.prepend(frame(sign.element, "halo"));
    this.#place.setAttribute("aria-activedescendant", sign.element.id);
    const calm = matchMedia("(prefers-reduced-motion: reduce)").matches;
    sign.element.scrollIntoView({ block: "nearest", inline: "nearest", behavior: calm ? "auto" : "smooth" });
    this.#onChosen(sign.element.getAttribute("aria-label") ?? "", sign);
  }

  /** Shows what a voice begins at a tick as something that is only tried. */
  haunt(voice, tick) {
    const element = this.#signs[voice].find((sign) => sign.at === tick)?.element;
    if (!element) return;
    element.prepend(frame(element, "outline"));
    element.classList.add("ghost");
  }

  /** Lights up what sounds at a tick; nothing if it is null. */
  light(tick) {
    const now = tick === null ? [] : [0, 1].map((voice) => this.#sounding(voice, tick)?.element);
    for (const lit of this.#place.querySelectorAll(".sounding")) {
      if (!now.includes(lit)) lit.classList.remove("sounding");
    }
    now.forEach((element) => element?.classList.add("sounding"));
  }

  #sounding(voice, tick) {
    return this.#signs[voice].findLast((sign) => sign.at <= tick) ?? this.#signs[voice][0];
  }

  /** What is nearest to a point of the window; nothing if that is far away. */
  #near(x, y) {
    const far = (low, high, at) => Math.max(low - at, 0, at - high);
    const away = (sign) => {
      const box = sign.element.getBoundingClientRect();
      return Math.hypot(far(box.left, box.right, x), far(box.top, box.bottom, y));
    };
    const signs = this.#signs.flat().map((sign) => [away(sign), sign]);
    const [distance, sign] = signs.reduce((best, next) => (next[0] < best[0] ? next : best), [REACH, null]);
    return distance < REACH ? sign : null;
  }

  #key(event) {
    if (event.key === "Enter" && this.#chosen) {
      event.preventDefault();
      this.#onEntered(this.#chosen);
      return;
    }
    const now = this.#chosen ?? this.#signs[0][0] ?? this.#signs[1][0];
    if (!now) return;
    const row = this.#signs[now.voice];
    const index = row.indexOf(now);
    const steps = this.#chosen ? 1 : 0;
    const goals = {
      ArrowRight: row[Math.min(index + steps, row.length - 1)],
      ArrowLeft: row[Math.max(index - steps, 0)],
      ArrowUp: this.#sounding(0, now.at),
      ArrowDown: this.#sounding(1, now.at),
      Home: row[0],
      End: row.at(-1),
    };
    const goal = goals[event.key];
    if (!goal) return;
    event.preventDefault();
    this.choose(goal.voice, goal.at);
  }
}

/** What lies behind a sign that stands out, a little larger than it. */
function frame(element, name) {
  const { x, y, width, height } = element.getBBox();
  const rect = document.createElementNS("http://www.w3.org/2000/svg", "rect");
  const values = { x: x - 0.4, y: y - 0.4, width: width + 0.8, height: height + 0.8, rx: 0.5 };
  Object.entries(values).forEach(([name, value]) => rect.setAttribute(name, value));
  rect.classList.add(name);
  return rect;
}

// What stands below the score: findings, places that are still open, harmonies; each leads to its place.
// Knows no pictures.

/** The findings, as items of a list. `choose` takes a voice and a tick. */
export function findings(found, choose) {
  return found.map((finding) => {
    const level = document.createElement("span");
    level.className = "level";
    level.textContent = `${finding.number}. ${finding.level}, ${finding.rule}`;
    const act = finding.at === null ? null : () => choose(finding.voice ?? 0, finding.at);
    const item = entry(act, level, document.createElement("br"), finding.message);
    item.className = finding.level;
    return item;
  });
}

/** The places that are still open. `look` takes one of them. */
export function openings(open, look) {
  return open.map((place) => entry(() => look(place), `${capitalized(place.said)}: ${place.what}`));
}

/**
 * What every bar stands for, and what else it could. `choose` takes a voice and a tick, `hear` a stretch and
 * the chord that is to sound with it.
 */
export function harmonies(stretches, bar, { choose, hear }) {
  return stretches.map((stretch) => {
    const place = `Bar ${Math.floor(stretch.at / bar) + 1}`;
    const item = entry(() => choose(1, stretch.at), place);
    item.append(...stretch.heard.map(({ numeral, chord }) => {
      const button = pressed(() => hear(stretch, chord), numeral);
      button.setAttribute("aria-label", `Listen to ${place.toLowerCase()} with ${numeral}`);
      return button;
    }));
    return item;
  });
}

/** "V; could also be VII or III". */
export function harmony({ heard }) {
  const [numeral, ...others] = heard.map((it) => it.numeral);
  if (others.length === 0) return numeral;
  const last = others.at(-1);
  const first = others.slice(0, -1).join(", ");
  return `${numeral}; could also be ${first ? `${first} or ${last}` : last}`;
}

function entry(act, ...content) {
  const item = document.createElement("li");
  item.append(pressed(act, ...content));
  return item;
}

function pressed(act, ...content) {
  const button = document.createElement("button");
  button.type = "button";
  button.append(...content);
  button.disabled = act === null;
  if (act) button.addEventListener("click", act);
  return button;
}

function capitalized(text) {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

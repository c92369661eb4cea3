// What the page asks of its server. Knows no answers.

/** The data behind a path; null if there are none, or if nobody answers any more. */
export async function ask(path) {
  try {
    const answer = await fetch(path);
    return answer.ok ? await answer.json() : null;
  } catch {
    return null;
  }
}

/** Has the editor do something; whether it is done, and if not, why. */
export async function post(path) {
  try {
    const answer = await fetch(path, { method: "POST" });
    if (answer.ok) return await answer.json();
  } catch {
    // Nobody is there any more.
  }
  return { done: false, why: "The editor does not answer." };
}

/** Calls these with the number of every edition, with the note at the cursor, and when the line is cut. */
export function listen({ edition, cursor, lost }) {
  const events = new EventSource("events");
  events.addEventListener("message", ({ data }) => edition(Number(data)));
  events.addEventListener("cursor", ({ data }) => cursor(JSON.parse(data)));
  events.addEventListener("error", lost);
}

// Goes through the page in a browser and tells what is seen, as one JSON object.
import { writeFileSync } from "node:fs";
import { createRequire } from "node:module";

const [, , driver, chromiumPath, address, sheet, changed] = process.argv;
const { chromium } = createRequire(driver)("./");

/**
 * The notes of an exercise as the page plays them, half a note a second: for each its pitch in hertz by zero
 * crossings; when anything is heard, in seconds; and the loudest moment.
 */
async function measured(path) {
  const [{ desk }, { perform }] = [await import("./sound.js"), await import("./player.js")];
  const { notes, bars, bar } = await (await fetch(path)).json();
  const [rate, lead] = [48_000, 0.5];
  const play = async (loudness) => {
    const context = new OfflineAudioContext(2, (bars * bar / 32 + 2 * lead) * rate, rate);
    const desks = loudness.map((own, voice) => desk(context, voice ? 0.3 : -0.3, own));
    perform(context, desks, notes, { begin: 0, end: bars * bar, at: lead, ticksPerSecond: 32 });
    const sound = await context.startRendering();
    return [sound.getChannelData(0), sound.getChannelData(1)];
  };
  const hertz = (wave, from, to) => {
    const crossings = [];
    for (let at = Math.round(from * rate); at < to * rate; at += 1) {
      const [before, now] = [wave[at - 1], wave[at]];
      if (before < 0 && now >= 0) crossings.push(at - 1 + before / (before - now));
    }
    return (crossings.length - 1) * rate / (crossings.at(-1) - crossings[0]);
  };
  const alone = [(await play([1, 0]))[0], (await play([0, 1]))[0]];
  const heard = notes.map(({ voice, at, lasts }) => {
    const [from, to] = [lead + at / 32, lead + (at + lasts) / 32];
    return hertz(alone[voice], from + 0.1, to - 0.1);
  });
  const both = await play([1, 1]);
  const sounds = [...both[0]].map((it) => Math.abs(it) > 0.002);
  const steps = both[0].slice(1).map((it, at) => Math.abs(it - both[0][at]));
  return {
    notes: heard,
    midi: notes.map((it) => it.midi),
    from: sounds.indexOf(true) / rate - lead,
    to: sounds.lastIndexOf(true) / rate - lead,
    lasts: bars * bar / 32,
    loudest: Math.max(...both.map((it) => it.reduce((peak, sample) => Math.max(peak, Math.abs(sample)), 0))),
    steepest: steps.reduce((most, step) => Math.max(most, step), 0),
  };
}

const lit = () => [...document.querySelectorAll(".sounding")].map((element) => element.id);
const browser = await chromium.launch({
  executablePath: chromiumPath,
  args: ["--no-sandbox", "--autoplay-policy=no-user-gesture-required"],
});
const page = await browser.newPage({ viewport: { width: 1200, height: 900 } });
const seen = { errors: [] };
page.on("console", (message) => message.type() === "error" && seen.errors.push(message.text()));
page.on("pageerror", (error) => seen.errors.push(String(error)));
await page.goto(address);
await page.waitForSelector("#score svg");

const box = await page.locator("#x1-lower-64").boundingBox();
await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
seen.clicked = await page.textContent("#said");
await page.focus("#score");
await page.keyboard.press("ArrowRight");
seen.right = await page.textContent("#said");
await page.keyboard.press("ArrowUp");
seen.up = await page.textContent("#said");

await page.keyboard.press("Space");
await page.waitForFunction(() => document.querySelector("#x1-upper-128.sounding"));
seen.playing = await page.evaluate(lit);
await page.keyboard.press("Space");
await page.waitForFunction(() => document.querySelectorAll(".sounding").length === 0);
seen.button = await page.textContent("#play");

// The first bar again and again: what was heard comes back, and nothing behind it.
await page.check("#loop");
await page.fill("#to", "1");
await page.fill("#tempo", "200");
await page.evaluate(() => {
  window.heard = [];
  new MutationObserver(() => {
    const now = [...document.querySelectorAll("#score .sounding")].map((element) => element.id).join(" ");
    if (now && now !== window.heard.at(-1)) window.heard.push(now);
  }).observe(document.getElementById("score"), { subtree: true, attributes: true, attributeFilter: ["class"] });
});
await page.click("#play");
await page.waitForFunction(() => window.heard.filter((it) => it.includes("x1-lower-0")).length > 2);
seen.loop = await page.evaluate(() => [...new Set(window.heard.flatMap((it) => it.split(" ")))].sort());
await page.click("#play");

await page.click("#findings button");
seen.finding = await page.textContent("#said");
seen.sound = await page.evaluate(measured, "exercise.json?number=1&width=180&show=");
await page.evaluate(() => {
  const words = document.querySelector("#words");
  new MutationObserver(() => {
    if (words.textContent.includes("Mill")) window.drawn ??= Date.now();
  }).observe(words, { childList: true });
});
const written = Date.now();
writeFileSync(sheet, changed);
await page.waitForFunction(() => window.drawn);
seen.milliseconds = await page.evaluate(() => window.drawn) - written;
seen.words = await page.textContent("#words");
await page.setViewportSize({ width: 390, height: 844 });
await page.waitForFunction(() => document.querySelector("#score svg").getBoundingClientRect().width < 390);
seen.overflow = await page.evaluate(() => document.documentElement.scrollWidth > innerWidth);
await browser.close();
console.log(JSON.stringify(seen));

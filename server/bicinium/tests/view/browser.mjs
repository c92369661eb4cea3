// Goes through the page in a browser and tells what is seen, as one JSON object.
import { writeFileSync } from "node:fs";
import { createRequire } from "node:module";

const [, , driver, chromiumPath, address, sheet, changed] = process.argv;
const { chromium } = createRequire(driver)("./");

/** The pitch of a tone of the page in hertz by its zero crossings, and its loudest moment. */
async function measured() {
  const { desk, tone } = await import("./sound.js");
  const rate = 48_000;
  const context = new OfflineAudioContext(1, 2 * rate, rate);
  tone(context, desk(context, 0), 57, 0, 2);
  const wave = (await context.startRendering()).getChannelData(0);
  const crossings = [];
  for (let at = rate / 10; at < 1.8 * rate; at += 1) {
    const [before, now] = [wave[at - 1], wave[at]];
    if (before < 0 && now >= 0) crossings.push(at - 1 + before / (before - now));
  }
  const hertz = (crossings.length - 1) * rate / (crossings.at(-1) - crossings[0]);
  return { hertz, loudest: Math.max(...wave.map(Math.abs)) };
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
seen.sound = await page.evaluate(measured);
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

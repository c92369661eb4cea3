// Tries what may stand in open places on the page of a file, and tells what is seen, as one JSON object.
import { createRequire } from "node:module";

const [, , driver, chromiumPath, address] = process.argv;
const { chromium } = createRequire(driver)("./");
const browser = await chromium.launch({
  executablePath: chromiumPath,
  args: ["--no-sandbox", "--autoplay-policy=no-user-gesture-required"],
});
const page = await browser.newPage({ viewport: { width: 1000, height: 900 } });
const seen = { errors: [] };
page.on("console", (message) => message.type() === "error" && seen.errors.push(message.text()));
page.on("pageerror", (error) => seen.errors.push(String(error)));
// Whatever begins to sound is written down, in hertz.
await page.addInitScript(() => {
  window.tones = [];
  const start = OscillatorNode.prototype.start;
  OscillatorNode.prototype.start = function (...when) {
    window.tones.push(Math.round(this.frequency.value));
    return start.apply(this, when);
  };
});
await page.goto(address);
await page.waitForSelector("#open button");
seen.open = await page.locator("#open button").allTextContents();

const ghosts = () => page.evaluate(() => [...document.querySelectorAll("#score .ghost")].map((it) => it.id));
// By keyboard alone: to the hole, Enter, the next choice, listen, away.
await page.focus("#score");
await page.keyboard.press("Home");
await page.keyboard.press("ArrowRight");
await page.keyboard.press("Enter");
await page.waitForSelector("#score .ghost");
seen.hole = await page.locator("#choices label").allTextContents();
await page.keyboard.press("ArrowDown");
await page.waitForFunction(() => document.querySelectorAll("#choices input")[1].checked);
seen.ghosts = await ghosts();
await page.click("#hear");
await page.waitForFunction(() => document.querySelector(".ghost.sounding"));
seen.heard = await page.evaluate(() => [...document.querySelectorAll(".ghost.sounding")].map((it) => it.id));
seen.alone = await page.locator("#alone").innerText();
seen.writes = await page.locator("#write").isVisible();
await page.keyboard.press("Escape");
await page.waitForFunction(() => document.querySelector("#ghosts").hidden);
seen.after = (await page.textContent("#said")).split(".")[0];

// What a bar could also stand for is heard with it.
await page.click("#harmony-section summary");
const bar = page.locator("#harmonies li:has(button:nth-of-type(3))").first();
seen.harmonies = await bar.locator("button").allTextContents();
const other = bar.locator("button").nth(2);
seen.called = await other.getAttribute("aria-label");
await page.evaluate(() => { window.tones = []; });
await other.click();
await page.waitForFunction(() => document.querySelector("#score .sounding"));
seen.tones = await page.evaluate(() => window.tones);
await page.click("#play");

await page.click("#open button:has-text('blank bar')");
await page.waitForSelector("#score .ghost");
seen.blank = (await ghosts()).slice(0, 1);
await browser.close();
console.log(JSON.stringify(seen));

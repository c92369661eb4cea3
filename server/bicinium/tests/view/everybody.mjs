// Looks at the page as different people do: by the rules of accessibility, at three widths, in light and
// dark, without movement, and on paper. Tells what is seen, as one JSON object.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const [, , driver, chromiumPath, address, rules] = process.argv;
const { BICINIUM_PICTURES } = process.env;
const { chromium } = createRequire(driver)("./");
const browser = await chromium.launch({ executablePath: chromiumPath, args: ["--no-sandbox"] });
const seen = { violations: [], passes: 0, overflowing: [] };

async function look(width, colorScheme) {
  const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme, reducedMotion: "reduce", bypassCSP: true });
  const page = await context.newPage();
  await page.goto(address);
  await page.waitForSelector("#score svg");
  await page.click("#open button");
  await page.waitForSelector("#score .ghost");
  await page.click("#harmony-section summary");
  const name = `${width} ${colorScheme}`;
  if (await page.evaluate(() => document.documentElement.scrollWidth > innerWidth)) seen.overflowing.push(name);
  if (BICINIUM_PICTURES) {
    await page.screenshot({ path: `${BICINIUM_PICTURES}/page-${width}-${colorScheme}.png`, fullPage: true });
  }
  await page.evaluate(readFileSync(rules, "utf8"));
  const found = await page.evaluate(() => window.axe.run());
  seen.passes = Math.max(seen.passes, found.passes.length);
  seen.violations.push(...found.violations.map((it) => ({
    name, rule: it.id, nodes: it.nodes.map((node) => `${node.target}: ${node.failureSummary}`),
  })));
  return page;
}

for (const width of [390, 800, 1400]) {
  for (const scheme of ["light", "dark"]) await look(width, scheme);
}
const page = await look(1000, "light");
seen.moving = await page.evaluate(() => {
  const elements = [...document.querySelectorAll("*")].map((it) => getComputedStyle(it));
  return elements.some((it) => parseFloat(it.transitionDuration) > 0 || it.animationName !== "none");
});
await page.keyboard.press("Escape");
const options = BICINIUM_PICTURES ? { path: `${BICINIUM_PICTURES}/printed.pdf` } : {};
seen.pdf = (await page.pdf({ ...options, format: "A4" })).length;
await page.emulateMedia({ media: "print" });
seen.printed = await page.evaluate(() => [...document.querySelectorAll("main > *, header")]
  .filter((it) => it.getBoundingClientRect().height > 0).map((it) => it.id || it.tagName));
await browser.close();
console.log(JSON.stringify(seen));

// Goes through the sheet with VS Code in a browser, by its own keys and commands, and tells what is seen.
import { readFileSync, writeFileSync } from "node:fs";

import { Window, use } from "./vscode-window.mjs";

const { BICINIUM_SHEET, BICINIUM_STORY, BICINIUM_PICTURE } = process.env;
const FINDING = "Fifths in a row";
const story = { more: {}, without_hints: true };

/** A window with the sheet in it. */
class SheetWindow extends Window {
  /** The rows of the panel of problems; each ends with its rule and its place. */
  async problems() {
    const rows = await this.page.locator(".markers-panel .monaco-list-row").allInnerTexts();
    const form = /^([\s\S]*?)\nbicinium\s*[a-z-]+\s*\[Ln (\d+), Col (\d+)\]/;
    const read = (row) => {
      const [, message, line, column] = row.match(form) ?? [];
      return message && { message, line: Number(line) - 1, column: Number(column) - 1 };
    };
    return rows.map(read).filter(Boolean);
  }

  async finding() {
    return (await this.problems()).find((it) => it.message.startsWith(FINDING));
  }

  async saved(before) {
    await this.keyboard.press("Control+s");
    return this.wait("another text", () => {
      const text = readFileSync(BICINIUM_SHEET, "utf8");
      return text !== before && text;
    });
  }
}

function shown(problems) {
  return problems.map(({ line, message }) => ({ line, message }));
}

async function hover(window) {
  const { line, column } = await window.finding();
  story.hovered = [line, column];
  await window.goTo(line + 1, column + 1);
  await window.command("Show or Focus Hover");
  const text = () => window.page.locator(".monaco-hover:not(.hidden) .hover-contents").allInnerTexts();
  story.hover = await window.wait("the hover", async () => {
    const shown = (await text()).join("\n");
    return shown.includes("lower voice") && shown;
  });
}

async function mend(window) {
  const before = readFileSync(BICINIUM_SHEET, "utf8");
  await window.keyboard.press("Escape");
  await window.keyboard.press("Escape");
  await window.keyboard.press("Control+.");
  await window.page.locator(".action-widget .monaco-list-row.action", { hasText: "Write" }).first().waitFor();
  await window.page.waitForTimeout(300);
  await window.keyboard.press("Enter");
  await window.page.waitForTimeout(500);
  story.fixed = await window.saved(before);
}

async function layOut(window) {
  await window.command("Format Document");
  await window.page.waitForTimeout(500);
  story.formatted = await window.saved(story.fixed);
}

async function complete(window) {
  const line = story.formatted.split("\n").findIndex((it) => it.includes("?"));
  await window.goTo(line + 1, story.formatted.split("\n")[line].indexOf("?") + 2);
  await window.keyboard.press("Control+Space");
  const rows = window.page.locator(".suggest-widget.visible .monaco-list-row .label-name");
  story.more.completion = await window.wait("choices", async () => {
    const labels = await rows.allInnerTexts();
    return labels.length > 0 && labels;
  });
  await window.keyboard.press("Escape");
}

async function colours(window) {
  const word = (text) => window.page.locator(".view-line span[class^=mtk]", { hasText: text }).first();
  // A word that is drawn anew while it is looked at has no colour.
  const colour = async (text) => {
    for (let tried = 0; tried < 20; tried++) {
      const seen = await word(text).evaluate((it) => getComputedStyle(it).color);
      if (seen) return seen;
      await window.page.waitForTimeout(100);
    }
    return "";
  };
  story.more.colours = {
    keyword: await colour(/^\s*soprano$/),
    pitch: await colour(/^F4$/),
    comment: await colour("Windmill"),
  };
}

/** Figures and harmonies as they are drawn between the notes: each has a rule of its own. */
async function hints(window) {
  const drawn = window.page.locator(".view-line span[class*=dyn-rule], .view-line span[class*=ced-]");
  story.more.hints = await window.wait("the hints", async () => {
    const texts = (await drawn.allInnerTexts()).map((it) => it.trim()).filter((it) => it !== "");
    return texts.length > 0 && texts;
  });
}

async function states(window) {
  const drawn = window.page.locator(".codelens-decoration");
  story.more.states = await window.wait("the states", async () => {
    const texts = (await drawn.allInnerTexts()).flatMap((it) => it.split("|")).map((it) => it.trim());
    return texts.some((it) => it.includes("hole")) && texts;
  });
}

/** How a given note looks, and how a written one. */
async function tokens(window) {
  const line = (text) => window.page.locator(".view-line", { hasText: text }).first();
  const look = (row, note) =>
    line(row)
      .locator("span[class^=mtk]", { hasText: note })
      .first()
      .evaluate((it) => getComputedStyle(it).color + getComputedStyle(it).fontStyle)
      .catch(() => "");
  story.more.tokens = await window.wait("the tokens", async () => {
    const looks = { given: await look("soprano", /^F4$/), written: await look("counter", /^F3$/) };
    return looks.given !== looks.written && looks;
  });
}

async function outline(window) {
  await window.goTo(1, 1);
  await window.keyboard.press("Control+Shift+o");
  const rows = window.page.locator(".quick-input-list .monaco-list-row .label-name");
  story.more.outline = await window.wait("the outline", async () => {
    const names = await rows.allInnerTexts();
    return names.length > 3 && names;
  });
  await window.keyboard.press("Escape");
}

async function definition(window) {
  const lines = story.formatted.split("\n");
  const from = lines.findIndex((it) => it.includes("soprano cantus mill-song"));
  await window.goTo(from + 1, lines[from].indexOf("mill-song") + 2);
  await window.keyboard.press("F12");
  story.more.definitions = await window.wait("the definition", async () => {
    const line = lines[(await window.place()).line - 1];
    return line.startsWith("cantus") && line;
  });
}

async function goThrough(window) {
  await window.open();
  await window.command("Problems: Focus on Problems View");
  await window.wait("the findings", () => window.finding());
  story.findings = shown(await window.problems());
  await colours(window);
  await hover(window);
  if (BICINIUM_PICTURE) {
    await window.page.screenshot({ path: BICINIUM_PICTURE, clip: { x: 352, y: 36, width: 926, height: 700 } });
  }
  await mend(window);
  await layOut(window);
  await window.wait("the end of the finding", async () => !(await window.finding()) && (await window.problems()).length > 0);
  await window.page.waitForTimeout(1000);
  story.left = shown(await window.problems());
  await complete(window);
  await hints(window);
  await states(window);
  await tokens(window);
  await outline(window);
  await definition(window);
}

await use(story, (page) => goThrough(new SheetWindow(page)));
writeFileSync(BICINIUM_STORY, JSON.stringify(story));

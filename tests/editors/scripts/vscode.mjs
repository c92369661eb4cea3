// Goes through the sheet with VS Code in a browser, by its own keys and commands, and tells what is seen.
import { execFileSync, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";

const { BICINIUM_EDITORS, BICINIUM_SHEET, BICINIUM_STORY, BICINIUM_PICTURE, CHROMIUM, HOME } = process.env;
const require = createRequire(join(BICINIUM_EDITORS, "vscode/package.json"));
const { chromium } = require("playwright-core");

const SETTINGS = {
  "security.workspace.trust.enabled": false,
  "workbench.startupEditor": "none",
  "telemetry.telemetryLevel": "off",
  "update.mode": "none",
  "extensions.autoCheckUpdates": false,
  "git.enabled": false,
  "chat.disableAIFeatures": true,
  "chat.commandCenter.enabled": false,
  "workbench.secondarySideBar.defaultVisibility": "hidden",
  "workbench.tips.enabled": false,
  "editor.minimap.enabled": false,
  "files.insertFinalNewline": false,
};
/** High enough to show all problems at once. */
const WINDOW = { width: 1280, height: 1300 };
const FINDING = "Fifths in a row";
const story = { more: {}, without_hints: true };
const data = join(HOME, "code-server");
const folders = ["--user-data-dir", data, "--extensions-dir", join(HOME, "extensions")];

function version() {
  return execFileSync("code-server", ["--version"], { encoding: "utf8" }).match(/with Code (\S+)/)[1];
}

/** Starts VS Code and returns its process and address. */
async function start() {
  mkdirSync(join(data, "User"), { recursive: true });
  writeFileSync(join(data, "User/settings.json"), JSON.stringify(SETTINGS));
  const install = spawn("code-server", [...folders, "--install-extension", process.argv[2]], { stdio: "inherit" });
  await once(install, "exit");
  const options = ["--auth", "none", "--bind-addr", "127.0.0.1:0", "--disable-telemetry", "--disable-update-check"];
  const server = spawn("code-server", [...options, "--disable-getting-started-override", ...folders]);
  const address = await new Promise((resolve, reject) => {
    let said = "";
    server.once("exit", () => reject(new Error(`VS Code did not start: ${said}`)));
    server.stdout.on("data", (piece) => {
      said += piece;
      const found = said.match(/listening on (http:\S+?)\/?\s/);
      if (found) {
        resolve(found[1]);
      }
    });
  });
  return { server, address };
}

class Window {
  constructor(page) {
    this.page = page;
    this.keyboard = page.keyboard;
  }

  /** Waits until `read` gives something. */
  async wait(what, read) {
    for (let left = 600; left > 0; left -= 1) {
      const value = await read();
      if (value) {
        return value;
      }
      await this.page.waitForTimeout(100);
    }
    throw new Error(`waited in vain for ${what}`);
  }

  async command(name) {
    await this.keyboard.press("F1");
    await this.page.waitForSelector(".quick-input-widget input");
    await this.keyboard.type(name);
    await this.page.locator(".quick-input-list .monaco-list-row", { hasText: name }).first().click();
  }

  async open() {
    await this.page.getByRole("treeitem", { name: /mill\.bicinium/ }).first().dblclick({ timeout: 60000 });
    await this.page.waitForSelector(".monaco-editor .view-line");
  }

  async goTo(line, column) {
    await this.page.locator(".monaco-editor .view-lines").first().click();
    await this.keyboard.press("Control+g");
    await this.page.waitForSelector(".quick-input-widget input");
    await this.keyboard.type(`${line}:${column}`);
    await this.keyboard.press("Enter");
    await this.wait("the place", async () => {
      const place = await this.place();
      if (place.line === line && place.column === column) {
        return true;
      }
      // VS Code takes wide signs for two columns here, and hints are no columns at all.
      await this.keyboard.press(place.column < column ? "ArrowRight" : "ArrowLeft");
      return false;
    });
  }

  /** Where the cursor is, as the status bar says. */
  async place() {
    const told = this.page.locator(".statusbar-item", { hasText: /Ln \d+, Col \d+/ }).first();
    const [, line, column] = (await told.innerText()).match(/Ln (\d+), Col (\d+)/);
    return { line: Number(line), column: Number(column) };
  }

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

const { server, address } = await start();
const browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox", "--disable-gpu"] });
const page = await browser.newPage({ viewport: WINDOW });
try {
  story.editor = `VS Code ${version()}`;
  await page.goto(`${address}/?folder=${dirname(BICINIUM_SHEET)}`);
  await page.waitForSelector(".monaco-workbench", { timeout: 60000 });
  await goThrough(new Window(page));
} catch (why) {
  story.why = String(why);
  await page.screenshot({ path: join(HOME, "failed.png") }).catch(() => undefined);
  process.exitCode = 1;
} finally {
  writeFileSync(BICINIUM_STORY, JSON.stringify(story));
  await browser.close();
  server.kill();
  await once(server, "exit");
}

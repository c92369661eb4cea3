// Goes through what the package brings to VS Code beside the findings: commands, a snippet, settings, the
// walkthrough. Tells what is seen.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import { Window, use } from "./vscode-window.mjs";

const { BICINIUM_STORY, BICINIUM_PICTURE, HOME } = process.env;
const story = {};

class PackageWindow extends Window {
  /** What stands in an editor, with blanks as such. */
  async lines() {
    const lines = await this.page.locator(".view-line").allInnerTexts();
    return lines.map((it) => it.replaceAll("\u00a0", " "));
  }

  async picture(name) {
    if (BICINIUM_PICTURE) await this.page.screenshot({ path: BICINIUM_PICTURE.replace(".png", `-${name}.png`) });
  }
}

/** A new sheet, the fault in it, and the page of its rule. */
async function begin(window) {
  await window.command("Bicinium: New Sheet");
  await window.wait("the new sheet", async () => (await window.lines()).some((it) => it.includes("first-song")));
  await window.page.locator(".squiggly-error").first().waitFor();
  await window.keyboard.press("F8");
  const told = window.page.locator(".marker-widget");
  story.fault = await window.wait("the fault", async () => (await told.count()) > 0 && told.first().innerText());
  await window.picture("fault");
  await window.keyboard.press("Escape");
  await window.command("Bicinium: Show the Rule Behind a Finding");
  story.rule = await window.wait("the page of the rule", async () => {
    for (const frame of window.page.frames()) {
      const head = frame.locator("strong");
      if ((await head.count().catch(() => 0)) > 0) return head.first().innerText();
    }
  });
  await window.picture("rule");
}

/** A snippet at the end of the sheet. */
async function insert(window) {
  await window.page.locator(".tab", { hasText: /^mill\.bicinium/ }).first().click();
  await window.wait("the sheet", async () => (await window.lines()).some((it) => it.includes("Windmill")));
  await window.page.locator(".monaco-editor .view-lines").first().click();
  await window.keyboard.press("Control+End");
  await window.keyboard.press("Enter");
  await window.keyboard.type("exercise-below");
  const offered = window.page.locator(".suggest-widget.visible .monaco-list-row", { hasText: "exercise-below" });
  await offered.first().waitFor();
  await window.keyboard.press("Enter");
  story.snippet = await window.wait("the snippet", async () => {
    const lines = (await window.lines()).filter((it) => it.trim() !== "");
    const at = lines.findIndex((it) => it.includes('exercise "title"'));
    return at >= 0 && lines.slice(at).map((it) => it.trim().split(/\s+/).slice(0, 2).join(" "));
  });
  await window.keyboard.press("Escape");
}

/** How many figures and harmonies are drawn. */
async function hints(window) {
  const drawn = window.page.locator(".view-line span[class*=dyn-rule], .view-line span[class*=ced-]");
  return (await drawn.allInnerTexts()).filter((it) => it.trim() !== "").length;
}

/** Puts another text into the settings, as somebody does who edits them. */
async function write(window, settings) {
  await window.command("Preferences: Open User Settings (JSON)");
  const block = window.page.locator(".monaco-modal-editor-block");
  await block.locator(".view-line", { hasText: "telemetry" }).first().waitFor();
  await block.locator(".view-lines").first().click();
  await window.keyboard.press("Control+a");
  await window.keyboard.insertText(settings);
  await window.keyboard.press("Control+s");
  await block.locator(".tab.dirty").first().waitFor({ state: "detached" });
  await window.keyboard.press("Escape");
  await block.first().waitFor({ state: "detached" });
  await window.wait("the sheet", async () => (await window.lines()).some((it) => it.includes("Windmill")));
}

/** Hints are switched off in the settings, and on again. */
async function set(window) {
  const before = readFileSync(join(HOME, "code-server/User/settings.json"), "utf8");
  await window.wait("the hints", () => hints(window));
  const off = Object.fromEntries(["intervals", "harmonies", "suspensions"].map((it) => [`bicinium.hints.${it}`, false]));
  await write(window, JSON.stringify({ ...JSON.parse(before), ...off }));
  story.hintsGo = await window.wait("the end of the hints", async () => (await hints(window)) === 0);
  await write(window, before);
  story.hintsCome = await window.wait("the hints again", async () => (await hints(window)) > 0);
}

/** The server begins anew, and its log is shown. */
async function restart(window) {
  const marks = window.page.locator(".squiggly-error, .squiggly-warning");
  await window.command("Bicinium: Restart the Server");
  story.findings = await window.wait("the findings", async () => (await marks.count()) > 0);
  await window.command("Bicinium: Show the Log of the Server");
  story.log = await window.wait("the log", async () => {
    const panel = window.page.locator(".panel .composite.title, .part.panel .title");
    const chosen = window.page.locator(".part.panel select, .part.panel .monaco-select-box");
    const said = [...(await panel.allInnerTexts()), ...(await chosen.allInnerTexts())].join(" ");
    return /output/i.test(said) && said.includes("Bicinium");
  });
  await window.picture("log");
}

async function walk(window) {
  await window.command("Welcome: Open Walkthrough...");
  await window.page.locator(".quick-input-list .monaco-list-row", { hasText: "Your first exercise" }).first().click();
  const steps = window.page.locator(".gettingStartedContainer .step-title");
  story.steps = await window.wait("the walkthrough", async () => {
    const titles = (await steps.allInnerTexts()).map((it) => it.trim()).filter(Boolean);
    return titles.length > 3 && titles;
  });
  await window.picture("walkthrough");
}

async function goThrough(window) {
  await window.open();
  await set(window);
  await begin(window);
  await insert(window);
  await restart(window);
  await walk(window);
}

await use(story, (page) => goThrough(new PackageWindow(page)));
writeFileSync(BICINIUM_STORY, JSON.stringify(story));

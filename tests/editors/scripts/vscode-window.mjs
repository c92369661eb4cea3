// VS Code in a browser: how it is started with the package, and how its window is used. It must not know any
// sheet.
import { execFileSync, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdirSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";

const { BICINIUM_EDITORS, BICINIUM_SHEET, CHROMIUM, HOME } = process.env;
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

export class Window {
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

  /** Chooses a command by its name. A window that is still busy with itself may lose what is typed. */
  async command(name) {
    const input = this.page.locator(".quick-input-widget input[type=text]");
    const row = this.page.locator(".quick-input-list .monaco-list-row", { hasText: name }).first();
    await this.wait(`the command ${name}`, async () => {
      await this.keyboard.press("F1");
      const chosen = input.fill(`>${name}`, { timeout: 5000 }).then(() => row.click({ timeout: 5000 }));
      return chosen.then(() => true, () => false);
    });
  }

  async open() {
    const entry = this.page.getByRole("treeitem", { name: /mill\.bicinium/ }).first();
    const lines = this.page.locator(".monaco-editor .view-line");
    await entry.waitFor({ timeout: 60000 });
    // A window that is still busy with itself may lose what is clicked.
    await this.wait("the sheet", async () => {
      await entry.dblclick({ timeout: 5000 }).catch(() => undefined);
      return lines.first().waitFor({ timeout: 10000 }).then(() => true, () => false);
    });
  }

  async goTo(line, column) {
    await this.page.locator(".monaco-editor .view-lines").first().click();
    await this.keyboard.press("Control+g");
    await this.page.waitForSelector(".quick-input-widget input");
    await this.keyboard.type(`${line}:${column}`);
    await this.keyboard.press("Enter");
    // As long as it is there, it has the keyboard.
    await this.page.waitForSelector(".quick-input-widget", { state: "hidden" });
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
}

/**
 * Opens the folder of the sheet in a new window and lets `act` use it. What goes wrong is put into `story`.
 */
export async function use(story, act) {
  const { server, address } = await start();
  const browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox", "--disable-gpu"] });
  const page = await browser.newPage({ viewport: WINDOW });
  try {
    story.editor = `VS Code ${version()}`;
    await page.goto(`${address}/?folder=${dirname(BICINIUM_SHEET)}`);
    await page.waitForSelector(".monaco-workbench", { timeout: 60000 });
    await act(page);
  } catch (why) {
    story.why = String(why);
    await page.screenshot({ path: join(HOME, "failed.png") }).catch(() => undefined);
    process.exitCode = 1;
  } finally {
    await browser.close();
    server.kill();
    await once(server, "exit");
  }
}
